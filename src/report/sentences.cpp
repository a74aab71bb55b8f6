// SPDX-License-Identifier: MIT
// Builds the answer from the numbers of `compare` (sentences.hpp). The range quoted is the total one; "less" and "more"
// stand in place of signs.
#include "report/sentences.hpp"

#include "report/closing.hpp"

#include "quartercut/report.hpp"
#include "report/plan_parts.hpp"
#include "report/raw_reason.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace quartercut::report {
namespace {

using fmt::arg;

// The parts a farm row and a field row have in common.
struct Said {
    std::string method, baseline, place; // place: "On the four fields ..., " or ""
    std::optional<double> gain_t_ha;
    std::optional<Interval> range_t_ha;
    Finding finding = Finding::not_shown;
    bool total = false;    // the range counts every error that could be sized
    bool single = false;   // one comparison, not replicated
    bool repeated = false; // in strips, so that chance can be told from the method
    bool farm = false;     // many fields
    bool by_model = false; // the answer depends on the model chosen, so the range rules nothing out
    std::string erase;     // what would undo it, or empty
    std::string why;       // whole sentences: why nothing is shown though fields show something, or empty
    std::optional<double> detectable_t_ha;
    std::optional<double> baseline_yield_t_ha;
    std::string reason; // why it cannot be compared
};

std::optional<double> finite(const std::optional<double>& value) {
    return value && std::isfinite(*value) ? value : std::nullopt;
}

std::optional<Interval> finite(const std::optional<Interval>& range) {
    return range && std::isfinite((*range)[0]) && std::isfinite((*range)[1]) ? range : std::nullopt;
}

// The size with its unit, or empty where nothing but zeros would show.
std::string size_with_unit(const Telling& telling, double gain_t_ha) {
    const std::string size = telling.figures.size(gain_t_ha);
    return size.find_first_not_of("0.") == std::string::npos ? "" : size + " " + telling.figures.unit();
}

std::string difference_clause(const Telling& telling, const Said& said) {
    const auto& words = telling.words.answer;
    const std::string size = size_with_unit(telling, *said.gain_t_ha);
    const char* pattern = size.empty() ? words.same : *said.gain_t_ha > 0.0 ? words.more : words.less;
    std::string clause = fill(pattern, arg("method", said.method), arg("baseline", said.baseline), arg("size", size));
    if (!said.range_t_ha) return clause + words.bracket_unknown;
    return clause + fill(words.bracket, arg("interval", telling.figures.interval(*said.range_t_ha)));
}

std::string best_guess(const Telling& telling, const Said& said) {
    const auto& words = telling.words.answer;
    const std::string size = size_with_unit(telling, *said.gain_t_ha);
    const bool more = *said.gain_t_ha > 0.0;
    if (!said.range_t_ha) {
        const char* bare = size.empty() ? words.best_guess_bare_same
                           : more       ? words.best_guess_bare_more
                                        : words.best_guess_bare_less;
        return fill(bare, arg("size", size), arg("method", said.method));
    }
    const char* pattern = size.empty() ? words.best_guess_same : more ? words.best_guess_more : words.best_guess_less;
    return fill(pattern, arg("size", size), arg("method", said.method),
                arg("interval", telling.figures.interval(*said.range_t_ha)));
}

// A layout blind to a tenth of the crop has little to say (judgement: cutting methods seldom differ by as much).
bool is_poor(const Said& said) {
    return said.detectable_t_ha && said.baseline_yield_t_ha && *said.detectable_t_ha > 0.1 * *said.baseline_yield_t_ha;
}

// The same for a range over several fields, where nothing says what could have been shown.
bool is_wide(const Said& said) {
    return said.range_t_ha && said.baseline_yield_t_ha &&
           (*said.range_t_ha)[1] - (*said.range_t_ha)[0] > 0.2 * *said.baseline_yield_t_ha;
}

// What is unlikely follows from the range, never from what the layout could have shown: a layout may miss what it could
// have shown. Land cut once in each way rules nothing out: its range knows nothing of the land itself.
std::string what_is_left(const Telling& telling, const Said& said) {
    const auto& words = telling.words.answer;
    std::string text;
    if (said.total && said.repeated && said.range_t_ha && !said.by_model && !is_poor(said) && !is_wide(said)) {
        text += std::string(" ") + words.outside_unlikely + ".";
    }
    if (!said.detectable_t_ha) {
        if (!is_wide(said)) return text;
        return text + " " + (said.repeated ? words.too_wide : words.too_wide_not_repeated) + ".";
    }
    const char* pattern = is_poor(said)   ? words.detectable_poor
                          : said.repeated ? words.detectable
                                          : words.detectable_single;
    const std::string detectable = telling.figures.size(*said.detectable_t_ha) + " " + telling.figures.unit();
    return text + " " + fill(pattern, arg("detectable", detectable)) + ".";
}

std::string not_shown_text(const Telling& telling, const Said& said) {
    const auto& words = telling.words.answer;
    std::string text =
        said.place + fill(words.not_shown, arg("method", said.method), arg("baseline", said.baseline)) + ".";
    if (said.gain_t_ha) text += " " + best_guess(telling, said) + ".";
    if (said.single) text += std::string(" ") + words.single + ".";
    if (!said.why.empty()) return text + " " + said.why;
    text += what_is_left(telling, said);
    return text;
}

std::string tell(const Telling& telling, const Said& said) {
    const auto& words = telling.words.answer;
    const bool no_number = said.finding != Finding::not_shown && !said.gain_t_ha;
    if (said.finding == Finding::not_comparable || no_number) {
        std::string text =
            said.place + fill(words.not_comparable, arg("method", said.method), arg("baseline", said.baseline));
        text += said.reason.empty() ? "." : ". " + capital(said.reason);
        if (text.back() != '.') text += '.';
        return capital(text);
    }
    if (said.finding == Finding::not_shown) return capital(not_shown_text(telling, said));
    const std::string first = said.place + difference_clause(telling, said) + ". ";
    const bool shown = said.finding == Finding::gain || said.finding == Finding::loss;
    const std::string leans = said.farm ? words.leans_farm : words.leans;
    return capital(first + (shown ? words.beyond_chance + said.erase : leans) + ".");
}

// Several machines in the contrast: the error that matters is the one between them.
const char* what_is_calibrated(const Telling& telling, const std::vector<std::string>& fields) {
    std::set<std::string> machines;
    const auto& comparison = telling.results.comparison;
    for (std::size_t i = 0; i < comparison.fields.size() && i < telling.results.cleaned.fields.size(); ++i) {
        if (std::find(fields.begin(), fields.end(), comparison.fields[i].name) == fields.end()) continue;
        for (const auto& used : telling.results.cleaned.fields[i].calibration)
            machines.insert(used.machine);
    }
    return machines.size() > 1 ? telling.words.answer.machines : telling.words.answer.methods;
}

std::string erase_clause(const Telling& telling, const std::vector<std::string>& fields, std::vector<double> pct) {
    if (pct.empty()) return {};
    std::sort(pct.begin(), pct.end());
    const std::string low = fixed(pct.front(), 1);
    const std::string high = fixed(pct.back(), 1);
    const auto& words = telling.words.answer;
    const char* what = what_is_calibrated(telling, fields);
    if (low == high) return fill(words.erase, arg("pct", low), arg("what", what));
    return fill(words.erase_range, arg("low", low), arg("high", high), arg("what", what));
}

// A number of each contrast a farm row pooled.
std::vector<double> pooled(const Results& results, const FarmContrast& farm, std::optional<double> Contrast::*number) {
    std::vector<double> found;
    for (const auto& field : results.comparison.fields) {
        if (std::find(farm.field_names.begin(), farm.field_names.end(), field.name) == farm.field_names.end()) continue;
        for (const auto& contrast : field.contrasts) {
            const bool same = contrast.method == farm.method && contrast.baseline == farm.baseline && !contrast.stratum;
            const auto value = finite(contrast.*number);
            if (same && value) found.push_back(*value);
        }
    }
    return found;
}

const char* farm_place_pattern(const AnswerWords& words, const std::string& evidence) {
    if (evidence == evidence_word(Evidence::replicated_randomised)) return words.farm_replicated_randomised;
    if (evidence == evidence_word(Evidence::replicated)) return words.farm_replicated;
    if (evidence == evidence_word(Evidence::split)) return words.farm_split;
    if (evidence == evidence_word(Evidence::whole_field)) return words.farm_whole;
    return words.farm_other;
}

// "between 0.5 bu/ac less and 2.7 bu/ac more"
std::string spread(const Telling& telling, const Interval& t_ha) {
    const auto& words = telling.words.answer;
    const auto& figures = telling.figures;
    const bool less = t_ha[1] <= 0.0;
    const char* pattern = t_ha[0] >= 0.0 ? words.spread_more : less ? words.spread_less : words.spread_both;
    return fill(pattern, arg("low", figures.size(less ? t_ha[1] : t_ha[0])),
                arg("high", figures.size(less ? t_ha[0] : t_ha[1])), arg("unit", figures.unit()));
}

std::string another_field(const Telling& telling, const FarmContrast& contrast) {
    const auto range = finite(contrast.prediction95_t_ha);
    const auto total = finite(contrast.ci95_total_t_ha);
    if (contrast.machine_is_method) return {}; // what holds here may be the machines, not the fields
    // A range for one more field that is narrower than the one for the mean would claim more than is known.
    if (!range || (total && ((*range)[0] > (*total)[0] || (*range)[1] < (*total)[1]))) return {};
    constexpr int enough = 6; // as `compare` says of the range
    const auto& words = telling.words.answer;
    const std::string rough =
        fields_agree(contrast)     ? fill(words.another_field_agree,
                                          arg("fields", fill(words.many_fields, arg("count", count_word(contrast.fields)))))
        : contrast.fields < enough ? words.another_field_rough
                                   : "";
    const char* pattern = contrast.years > 1 ? words.another_year : words.another_field;
    return " " + fill(pattern, arg("spread", spread(telling, *range))) + rough + ".";
}

bool is_repeated(const std::string& evidence) {
    return evidence == evidence_word(Evidence::replicated_randomised) ||
           evidence == evidence_word(Evidence::replicated);
}

// The fields a farm row pooled that show a difference beyond chance on their own.
std::vector<std::string> fields_that_show(const Results& results, const FarmContrast& farm) {
    std::vector<std::string> names;
    for (const auto& field : results.comparison.fields) {
        if (std::find(farm.field_names.begin(), farm.field_names.end(), field.name) == farm.field_names.end()) continue;
        for (const auto& contrast : field.contrasts) {
            const bool same = contrast.method == farm.method && contrast.baseline == farm.baseline && !contrast.stratum;
            const bool shown = contrast.finding == Finding::gain || contrast.finding == Finding::loss;
            if (same && shown) names.push_back(field.name);
        }
    }
    return names;
}

// What can be said of the fields in the trial themselves, where little can be said of fields like them.
std::string for_these_fields(const Telling& telling, const FarmContrast& farm, const std::string& fields) {
    const auto gain = finite(farm.these_fields_gain_t_ha);
    const auto range = finite(farm.these_fields_ci95_total_t_ha);
    if (!gain || !range) return {};
    const auto& words = telling.words.answer;
    Said said;
    said.method = farm.method;
    said.baseline = farm.baseline;
    said.gain_t_ha = gain;
    said.range_t_ha = range;
    const bool shown = (*range)[0] > 0.0 || (*range)[1] < 0.0;
    const std::string clause = shown ? difference_clause(telling, said) : small(best_guess(telling, said));
    return " " + fill(words.these_fields, arg("fields", fields), arg("clause", clause)) + ".";
}

// A reader who sees fields say "more than chance" and the farm "not shown" must be told why.
std::string why_not_shown(const Telling& telling, const FarmContrast& farm) {
    constexpr int few = 3; // 2 degrees of freedom or fewer: the spread between fields is hardly known
    const auto& words = telling.words.answer;
    const auto shown = fields_that_show(telling.results, farm);
    if (farm.finding != Finding::not_shown || farm.fields < 2 || shown.empty()) return {};
    const bool one = shown.size() == 1;
    const char* pattern = farm.fields > few ? (one ? words.fields_differ : words.fields_differ_many)
                                            : (one ? words.few_fields : words.few_fields_many);
    const std::string who =
        one && farm.fields <= few ? shown.front() : capital(count_word(static_cast<int>(shown.size())));
    const std::string fields = fill(words.many_fields, arg("count", count_word(farm.fields)));
    return fill(pattern, arg("shown", who), arg("fields", fields)) + "." + for_these_fields(telling, farm, fields);
}

// Why a row is held at "not shown" though its range may leave out 0; empty where it is not held.
std::string why_held(const Telling& telling, bool machine_is_method, bool several_fields) {
    if (!machine_is_method) return {};
    const auto& words = telling.words.answer;
    return std::string(several_fields ? words.own_machines_some : words.own_machines) + ".";
}

bool depends_on_model(const FieldComparison& field) {
    return std::any_of(field.issues.begin(), field.issues.end(), [](const Issue& issue) {
        return issue.code == "depends-on-model" && issue.severity != Severity::note;
    });
}

bool any_depends_on_model(const Results& results, const FarmContrast& farm) {
    return std::any_of(results.comparison.fields.begin(), results.comparison.fields.end(), [&](const auto& field) {
        const auto& names = farm.field_names;
        return depends_on_model(field) && std::find(names.begin(), names.end(), field.name) != names.end();
    });
}

// Mean yield of the baseline over the land of the fields a row pooled.
std::optional<double> baseline_yield(const Results& results, const FarmContrast& farm) {
    const int code = results.season.method_code(farm.baseline);
    double mass_kg = 0.0;
    double area_m2 = 0.0;
    for (std::size_t i = 0; i < results.zoned.size() && i < results.comparison.fields.size(); ++i) {
        const auto& name = results.comparison.fields[i].name;
        if (std::find(farm.field_names.begin(), farm.field_names.end(), name) == farm.field_names.end()) continue;
        for (const auto& zone : results.zoned[i].zones) {
            if (zone.method != code || zone.records == 0) continue;
            mass_kg += zone.mass_basis_kg;
            area_m2 += zone.harvested_m2;
        }
    }
    if (!(area_m2 > 0.0)) return std::nullopt;
    return yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value();
}

// The first remark of the field that says why nothing can be compared.
std::string reason_not_comparable(const FieldComparison& field, const Contrast& contrast) {
    for (const auto& issue : field.issues) {
        if (issue.code.find("compar") != std::string::npos && !issue.message.empty()) return issue.message;
    }
    return contrast.leaves_out.empty() ? std::string{} : contrast.leaves_out.front();
}

std::string raw_text(const Telling& telling, double raw_t_ha) {
    const auto& words = telling.words.answer;
    const std::string size = size_with_unit(telling, raw_t_ha);
    const char* pattern = size.empty() ? words.raw_same : raw_t_ha > 0.0 ? words.raw_more : words.raw_less;
    return fill(pattern, arg("size", size)) + ".";
}

} // namespace

std::string farm_sentence(const Telling& telling, const FarmContrast& contrast) {
    const auto& words = telling.words.answer;
    const std::string fields =
        contrast.fields == 1 ? words.one_field : fill(words.many_fields, arg("count", count_word(contrast.fields)));
    Said said;
    said.method = contrast.method;
    said.baseline = contrast.baseline;
    const std::string place = fill(farm_place_pattern(words, contrast.evidence), arg("fields", fields)) + ", ";
    const bool several_years = contrast.years > 1; // of fields of other years this season holds no more than the gains
    said.place = several_years
                     ? fill(words.over_years, arg("years", count_word(contrast.years)), arg("place", small(place)))
                     : place;
    said.gain_t_ha = finite(contrast.gain_t_ha);
    said.range_t_ha = finite(contrast.ci95_total_t_ha ? contrast.ci95_total_t_ha : contrast.ci95_t_ha);
    said.finding = contrast.finding;
    auto break_even_pct = pooled(telling.results, contrast, &Contrast::break_even_calibration_pct);
    for (double& pct : break_even_pct)
        pct = std::abs(pct);
    said.erase = erase_clause(telling, contrast.field_names, std::move(break_even_pct));
    said.farm = contrast.fields > 1;
    said.total = contrast.ci95_total_t_ha.has_value();
    said.repeated = is_repeated(contrast.evidence);
    const bool whole = contrast.evidence == evidence_word(Evidence::whole_field);
    said.why = why_held(telling, contrast.machine_is_method, said.farm && !whole);
    if (said.why.empty()) said.why = why_not_shown(telling, contrast);
    said.by_model = any_depends_on_model(telling.results, contrast);
    said.baseline_yield_t_ha = baseline_yield(telling.results, contrast);
    if (!contrast.leaves_out.empty()) said.reason = contrast.leaves_out.front();
    return tell(telling, said) + another_field(telling, contrast);
}

std::string field_sentence(const Telling& telling, const FieldComparison& field, const Contrast& contrast) {
    const auto& words = telling.words.answer;
    Said said;
    said.method = contrast.method;
    said.baseline = contrast.baseline;
    if (contrast.stratum) said.place = fill(words.stratum, arg("stratum", *contrast.stratum));
    said.gain_t_ha = finite(contrast.gain_t_ha);
    said.range_t_ha = finite(contrast.ci95_total_t_ha ? contrast.ci95_total_t_ha : contrast.ci95_t_ha);
    said.finding = contrast.finding;
    const bool single = contrast.evidence == Evidence::split || contrast.evidence == Evidence::whole_field;
    said.single = single && !is_caution_shared(field);
    said.total = contrast.ci95_total_t_ha.has_value();
    said.repeated = !single;
    said.why = why_held(telling, contrast.machine_is_method, false);
    said.by_model = depends_on_model(field);
    said.detectable_t_ha = finite(contrast.detectable_t_ha);
    said.baseline_yield_t_ha = finite(contrast.baseline_yield_t_ha);
    if (const auto pct = finite(contrast.break_even_calibration_pct)) {
        said.erase = erase_clause(telling, {field.name}, {std::abs(*pct)});
    }
    said.reason = reason_not_comparable(field, contrast);
    return tell(telling, said);
}

std::string raw_sentence(const Telling& telling, const Contrast& contrast, std::optional<std::size_t> field_index) {
    const auto raw = finite(contrast.raw_gain_t_ha);
    if (!raw) return {};
    const std::string reason = field_index ? raw_reason(telling, contrast, *field_index) : std::string{};
    return raw_text(telling, *raw) + (reason.empty() ? reason : " " + reason);
}

std::string farm_raw_sentence(const Telling& telling, const FarmContrast& contrast) {
    const auto raw = pooled(telling.results, contrast, &Contrast::raw_gain_t_ha);
    if (raw.empty()) return {};
    if (raw.size() == 1) return raw_text(telling, raw.front());
    const auto [least, most] = std::minmax_element(raw.begin(), raw.end());
    return fill(telling.words.answer.raw_farm, arg("spread", spread(telling, {*least, *most}))) + ".";
}

std::string yields_sentence(const Telling& telling, const Contrast& contrast, bool with_reason) {
    const auto yield = finite(contrast.yield_t_ha);
    const auto baseline = finite(contrast.baseline_yield_t_ha);
    if (!yield || !baseline) return {};
    const std::string reason = with_reason && differs_from_yields(contrast)
                                   ? std::string(telling.words.answer.allows_for_land) + "."
                                   : std::string{};
    return fill(telling.words.answer.both_yields, arg("basis", fixed(telling.season().basis_pct, 1)),
                arg("method", contrast.method), arg("yield", telling.figures.size(*yield)),
                arg("baseline", contrast.baseline), arg("other", telling.figures.size(*baseline)),
                arg("unit", telling.figures.unit())) +
           "." + (reason.empty() ? reason : " " + reason);
}

std::optional<LoneField> lone_field(const Results& results, std::size_t index) {
    std::set<int> methods;
    double mass_kg = 0.0;
    double area_m2 = 0.0;
    if (index < results.zoned.size()) {
        for (const auto& zone : results.zoned[index].zones) {
            if (zone.method < 0 || zone.records == 0) continue;
            methods.insert(zone.method);
            mass_kg += zone.mass_basis_kg;
            area_m2 += zone.harvested_m2;
        }
    }
    if (methods.size() != 1 || !(area_m2 > 0.0)) return std::nullopt;
    return LoneField{results.season.methods[static_cast<std::size_t>(*methods.begin())].name,
                     yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value()};
}

std::string lone_field_sentence(const Telling& telling, std::size_t index) {
    const auto& words = telling.words.answer;
    const auto lone = lone_field(telling.results, index);
    if (!lone) return capital(words.no_method) + ".";
    return capital(fill(words.one_method, arg("method", lone->method),
                        arg("yield", telling.figures.yield(lone->yield_t_ha)))) +
           ".";
}

bool is_compared(const FieldComparison& field) {
    return std::any_of(field.contrasts.begin(), field.contrasts.end(), [](const auto& c) { return !c.stratum; });
}

std::vector<std::size_t> lone_fields(const Results& results) {
    std::vector<std::size_t> alone;
    for (std::size_t i = 0; i < results.comparison.fields.size(); ++i) {
        if (!is_compared(results.comparison.fields[i]) && lone_field(results, i)) alone.push_back(i);
    }
    return alone.size() > 1 ? alone : std::vector<std::size_t>{};
}

std::string lone_fields_sentence(const Telling& telling, const std::vector<std::size_t>& fields) {
    const auto& words = telling.words.answer;
    std::vector<std::string> each;
    for (const std::size_t i : fields) {
        const auto lone = lone_field(telling.results, i);
        if (!lone) continue;
        each.push_back(fill(words.one_method_field, arg("field", telling.results.comparison.fields[i].name),
                            arg("method", lone->method), arg("yield", telling.figures.yield(lone->yield_t_ha))));
    }
    return capital(fill(words.one_method_each, arg("fields", fmt::format("{}", fmt::join(each, ", "))))) + ".";
}

} // namespace quartercut::report

namespace quartercut {

std::vector<std::string> answer_sentences(const Results& results) {
    const report::Telling telling(results);
    std::vector<std::string> out;
    const auto& farm = results.comparison.farm;
    for (std::size_t i = 0; i < farm.size(); ++i) {
        if (!report::is_answer(farm, i)) continue;
        const std::string raw = report::farm_raw_sentence(telling, farm[i]);
        out.push_back(report::farm_sentence(telling, farm[i]) + (raw.empty() ? raw : " " + raw));
    }
    for (const auto& contrast : results.comparison.seasons)
        out.push_back(report::farm_sentence(telling, contrast));
    const auto alone = report::lone_fields(results);
    for (std::size_t i = 0; i < results.comparison.fields.size(); ++i) {
        const auto& field = results.comparison.fields[i];
        for (const auto& contrast : field.contrasts) {
            if (contrast.stratum) continue;
            std::string line = field.name + ": " + report::field_sentence(telling, field, contrast);
            const std::string raw = report::raw_sentence(telling, contrast, i);
            if (!raw.empty()) line += " " + raw;
            out.push_back(std::move(line));
        }
        const std::string caution = report::shared_caution(telling, field);
        if (!caution.empty()) out.push_back(field.name + ": " + caution);
        if (report::is_compared(field) || std::count(alone.begin(), alone.end(), i) > 0) continue;
        out.push_back(field.name + ": " + report::lone_field_sentence(telling, i));
    }
    if (!alone.empty()) out.push_back(report::lone_fields_sentence(telling, alone));
    if (out.empty()) out.emplace_back(telling.words.answer.nothing);
    const std::string money = report::money_line(telling);
    if (!money.empty()) out.push_back(money);
    return out;
}

} // namespace quartercut
