// SPDX-License-Identifier: MIT
#include "plan/readiness.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace quartercut::planning {
namespace {

const MethodLimits* limits_of(const Season& season, std::size_t method) {
    for (const MethodLimits& limits : season.next_year->methods)
        if (limits.method == season.methods[method].name) return &limits;
    return nullptr;
}

/// Day a field is ready for the first cut of a method; nullopt where no column says.
std::optional<long> ready_day(const MethodLimits& limits, const RawArea& area) {
    if (limits.ready_column.empty()) return std::nullopt;
    const auto text = area.attributes.find(limits.ready_column);
    const auto day = text == area.attributes.end() ? std::nullopt : day_number(text->second);
    if (!day)
        throw InputError(fmt::format("Field '{}' of [next_year] has no day in column '{}'; write it as year-month-day.",
                                     area.name, limits.ready_column));
    return day;
}

/// [field][method] -> first day; the earliest of all where a method states none.
struct Ready {
    std::vector<std::vector<long>> cut, combine;
    long first = 0;
    bool any = false;
};

Ready ready_days(const Season& season, const std::vector<RawArea>& areas) {
    std::vector<std::vector<std::optional<long>>> found(areas.size());
    std::optional<long> first;
    for (std::size_t f = 0; f < areas.size(); ++f)
        for (std::size_t m = 0; m < season.methods.size(); ++m) {
            const MethodLimits* limits = limits_of(season, m);
            found[f].push_back(limits != nullptr ? ready_day(*limits, areas[f]) : std::nullopt);
            if (found[f].back()) first = std::min(first.value_or(*found[f].back()), *found[f].back());
        }
    Ready out;
    out.any = first.has_value();
    out.first = first.value_or(0);
    for (std::size_t f = 0; f < areas.size(); ++f) {
        out.cut.emplace_back();
        out.combine.emplace_back();
        for (std::size_t m = 0; m < season.methods.size(); ++m) {
            const MethodLimits* limits = limits_of(season, m);
            out.cut.back().push_back(found[f][m].value_or(out.first));
            out.combine.back().push_back(out.cut.back().back() + (limits != nullptr ? limits->cure_days : 0));
        }
    }
    return out;
}

using DayUse = std::vector<std::vector<double>>; // [field][method] days of one machine

void add_limits(const std::string& what, const DayUse& use, const std::vector<std::vector<long>>& ready, long end,
                std::vector<MachineDays>& out) {
    std::set<long> starts;
    for (std::size_t f = 0; f < use.size(); ++f)
        for (std::size_t m = 0; m < use[f].size(); ++m)
            if (use[f][m] > 0.0) starts.insert(ready[f][m]);
    for (const long start : starts) {
        MachineDays limit{fmt::format("{} from {}", what, day_text(start)), use,
                          std::max(0.0, static_cast<double>(end - start + 1)), what};
        for (std::size_t f = 0; f < use.size(); ++f)
            for (std::size_t m = 0; m < use[f].size(); ++m)
                if (ready[f][m] < start) limit.days[f][m] = 0.0;
        out.push_back(std::move(limit));
    }
}

DayUse nothing(std::size_t fields, std::size_t methods) { return DayUse(fields, std::vector<double>(methods, 0.0)); }

std::string dollars(double cents) {
    const bool minus = cents < -0.5;
    return fmt::format("{}${:.0f}", minus ? "-" : "", std::abs(cents) / 100.0);
}

/// "$36 an acre", or a hectare, as the season measures land.
std::string dollars_of_land(const Season& season, double cents_ha) {
    const bool acres = speaks_acres(season.units);
    const auto& words = spoken().advice;
    return fill(acres ? words.an_acre : words.a_hectare,
                fmt::arg("amount", dollars(acres ? cents_ha * m2_per_acre / m2_per_hectare : cents_ha)));
}

int decimals_of(const Season& season) {
    return season.units == YieldUnit::t_ha ? 2 : season.units == YieldUnit::bu_ac ? 1 : 0;
}

std::string yield_words(const Season& season, double t_ha) {
    return fmt::format("{:+.{}f} {}", from_t_ha(t_ha, season.units, season.bushel_lb), decimals_of(season),
                       yield_unit_word(season.units));
}

/// The same of what has no sign.
std::string plain_yield_words(const Season& season, double t_ha) {
    return fmt::format("{:.{}f} {}", from_t_ha(t_ha, season.units, season.bushel_lb), decimals_of(season),
                       yield_unit_word(season.units));
}

std::string rests_on_words(const Outlook& outlook) {
    const auto& words = spoken().advice;
    return fill(outlook.years > 1 ? words.rests_on_years : words.rests_on_year, fmt::arg("fields", outlook.rests_on));
}

/// A few fields can tell likely from sure no better than this.
std::string chance_words(double chance) {
    if (chance > 0.95) return spoken().advice.chance_high;
    if (chance < 0.05) return spoken().advice.chance_low;
    return fill(spoken().advice.chance_about, fmt::arg("chance", 100.0 * chance));
}

void say_outlook(const Season& season, const Outlook& outlook, CandidateField& field) {
    if (!outlook.prediction95_t_ha) {
        field.reasons.push_back(fill(spoken().advice.yield_unknown, fmt::arg("method", outlook.method),
                                     fmt::arg("why", outlook.why_unknown)));
        return;
    }
    const std::string range =
        fill(spoken().advice.yield_range, fmt::arg("low", yield_words(season, (*outlook.prediction95_t_ha)[0])),
             fmt::arg("high", yield_words(season, (*outlook.prediction95_t_ha)[1])));
    if (!outlook.net_cents_ha) {
        field.reasons.push_back(fill(spoken().advice.expected_unpriced, fmt::arg("method", outlook.method),
                                     fmt::arg("gain", yield_words(season, *outlook.gain_t_ha)),
                                     fmt::arg("baseline", season.baseline), fmt::arg("range", range),
                                     fmt::arg("why", outlook.why_unknown)));
        field.reasons.push_back(rests_on_words(outlook));
        return;
    }
    field.reasons.push_back(fill(spoken().advice.expected, fmt::arg("method", outlook.method),
                                 fmt::arg("gain", yield_words(season, *outlook.gain_t_ha)), fmt::arg("range", range),
                                 fmt::arg("money", dollars_of_land(season, *outlook.net_cents_ha)),
                                 fmt::arg("chance", chance_words(*outlook.p_pays))));
    field.reasons.push_back(rests_on_words(outlook));
}

/// The method that looks best in money alone.
std::string best_alone(const Season& season, const CandidateField& field) {
    std::string best = season.baseline;
    double most = 0.0;
    for (const Outlook& outlook : field.outlooks)
        if (outlook.net_cents_ha.value_or(0.0) > most) {
            most = *outlook.net_cents_ha;
            best = outlook.method;
        }
    return best;
}

/// What a trial here could tell, and which land that was judged on.
void say_precision(const Season& season, CandidateField& field) {
    if (field.trial_se_t_ha)
        field.reasons.push_back(fill(spoken().advice.trial_error, fmt::arg("from", field.trial_precision_from),
                                     fmt::arg("error", plain_yield_words(season, *field.trial_se_t_ha))));
    else if (!field.trial_precision_from.empty())
        field.reasons.push_back(fill(spoken().advice.no_trial_fits, fmt::arg("why", field.trial_precision_from)));
}

/// What the other way costs; with the limits on shares, where most of the cost comes from them and not from the field.
std::string cost_words(const CandidateField& field) {
    const auto& words = spoken().advice;
    const std::string cost = dollars(*field.margin_cents);
    const double own = field.margin_without_shares_cents.value_or(*field.margin_cents);
    if (*field.margin_cents - own < 0.5 * *field.margin_cents) return fill(words.other_way, fmt::arg("cost", cost));
    if (own < 100.0) return fill(words.other_way_shares_nothing, fmt::arg("cost", cost));
    return fill(words.other_way_shares, fmt::arg("cost", cost), fmt::arg("own", dollars(own)));
}

void say_margin(const Choice& choice, CandidateField& field, bool priced) {
    if (!field.margin_cents) {
        if (choice.fields.size() > 1) field.would_change.emplace_back(spoken().advice.nothing_within_limits);
    } else if (!priced) {
        field.would_change.emplace_back(spoken().advice.not_known);
    } else if (*field.margin_cents < 100.0) {
        field.would_change.emplace_back(spoken().advice.little);
    } else {
        field.would_change.push_back(cost_words(field));
    }
}

void say_place(const Season& season, const Choice& choice, CandidateField& field) {
    if (field.trial) {
        field.reasons.push_back(fill(spoken().advice.trial_in_set, fmt::arg("from", field.trial_precision_from)));
        return;
    }
    const bool priced = std::any_of(field.outlooks.begin(), field.outlooks.end(),
                                    [](const Outlook& o) { return o.net_cents_ha.has_value(); });
    if (priced && field.method != best_alone(season, field))
        field.reasons.push_back(fill(spoken().advice.better_alone, fmt::arg("best", best_alone(season, field)),
                                     fmt::arg("method", field.method)));
    say_margin(choice, field, priced);
}

void say_turning_point(const Season& season, const Outlook& outlook, CandidateField& field) {
    if (!outlook.break_even_t_ha) return;
    field.would_change.push_back(fill(spoken().advice.come_out_even, fmt::arg("method", outlook.method),
                                      fmt::arg("baseline", season.baseline),
                                      fmt::arg("even", yield_words(season, *outlook.break_even_t_ha)),
                                      fmt::arg("expected", yield_words(season, outlook.gain_t_ha.value_or(0.0)))));
}

/// What every field's expectation rests on alike is said once for all of them.
void say_once_what_all_rest_on(Choice& out) {
    std::map<std::string, const Outlook*> found;
    for (const CandidateField& field : out.fields)
        for (const Outlook& outlook : field.outlooks)
            if (outlook.prediction95_t_ha) found.emplace(rests_on_words(outlook), &outlook);
    if (out.fields.size() < 2 || found.size() != 1) return;
    const auto& [sentence, outlook] = *found.begin();
    for (CandidateField& field : out.fields)
        std::erase(field.reasons, sentence);
    const auto& words = spoken().advice;
    out.notes.push_back(fill(outlook->years > 1 ? words.all_rest_on_years : words.all_rest_on_year,
                             fmt::arg("fields", outlook->rests_on)));
}

} // namespace

std::vector<MachineDays> machine_days(const Season& season, const std::vector<RawArea>& areas,
                                      const std::vector<double>& area_m2) {
    std::vector<MachineDays> out;
    const NextYearInput& next = *season.next_year;
    if (next.harvest_days <= 0) return out;
    const Ready ready = ready_days(season, areas);
    const long end = ready.first + next.harvest_days - 1;
    DayUse combine = nothing(areas.size(), season.methods.size());
    for (std::size_t m = 0; m < season.methods.size(); ++m) {
        const MethodLimits* limits = limits_of(season, m);
        if (limits == nullptr) continue;
        DayUse cutter = nothing(areas.size(), season.methods.size());
        for (std::size_t f = 0; f < areas.size(); ++f) {
            if (limits->cut_m2_day) cutter[f][m] = area_m2[f] / *limits->cut_m2_day;
            if (limits->combine_m2_day) combine[f][m] = area_m2[f] / *limits->combine_m2_day;
        }
        if (limits->cut_m2_day)
            add_limits(fill(spoken().advice.cutting, fmt::arg("method", limits->method)), cutter, ready.cut,
                       end - limits->cure_days, out);
    }
    add_limits(spoken().advice.combining, combine, ready.combine, end, out);
    return out;
}

void add_days(const Season& season, const std::vector<RawArea>& areas, const AssignProblem& problem,
              const std::vector<std::vector<double>>& share, Choice& out) {
    const Ready ready = ready_days(season, areas);
    if (!ready.any) return;
    struct Job {
        double ready, days;
        std::size_t field;
    };
    std::vector<Job> jobs;
    for (std::size_t f = 0; f < areas.size(); ++f)
        for (std::size_t m = 0; m < season.methods.size(); ++m) {
            const MethodLimits* limits = limits_of(season, m);
            if (share[f][m] < 0.75 || limits == nullptr || !limits->combine_m2_day) continue;
            jobs.push_back({static_cast<double>(ready.combine[f][m]), problem.area_m2[f] / *limits->combine_m2_day, f});
        }
    std::stable_sort(jobs.begin(), jobs.end(), [](const Job& a, const Job& b) { return a.ready < b.ready; });
    double now = 0.0;
    for (const Job& job : jobs) {
        const double start = std::max(now, job.ready);
        now = start + job.days;
        out.fields[job.field].combine_from = day_text(static_cast<long>(std::floor(start)));
        out.fields[job.field].combine_to = day_text(static_cast<long>(std::ceil(now) - 1.0));
    }
}

void say_reasons(const Season& season, Choice& out) {
    for (CandidateField& field : out.fields) {
        for (const Outlook& outlook : field.outlooks)
            say_outlook(season, outlook, field);
        for (const std::string& note : field.notes)
            field.reasons.push_back(
                fill(season.next_year->note_cents_m2 ? spoken().advice.note_counted : spoken().advice.note_listed,
                     fmt::arg("note", note)));
        say_precision(season, field);
        say_place(season, out, field);
        for (const Outlook& outlook : field.outlooks)
            say_turning_point(season, outlook, field);
    }
    say_once_what_all_rest_on(out);
    const auto& outlooks = out.fields.front().outlooks;
    if (std::all_of(outlooks.begin(), outlooks.end(), [](const Outlook& o) { return o.years > 1; })) {
        out.notes.emplace_back(spoken().advice.from_years);
        return;
    }
    out.notes.emplace_back(spoken().advice.one_year);
}

} // namespace quartercut::planning
