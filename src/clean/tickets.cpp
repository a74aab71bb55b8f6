// SPDX-License-Identifier: MIT
// Tickets are matched on what they say, most exact first. What cannot be matched stops the work with the ticket's row:
// a weight that is silently left out would be a wrong answer.
#include "clean/tickets.hpp"

#include "base/words/words.hpp"

#include "base/faults.hpp"
#include "base/text.hpp"
#include "clean/basic_rules.hpp"
#include "quartercut/error.hpp"

#include <algorithm>
#include <fmt/chrono.h>
#include <fmt/format.h>
#include <map>
#include <tuple>
#include <unordered_map>

namespace quartercut::cleaning {
namespace {

constexpr double pure_share = 0.95;
constexpr double least_ratio = 0.67, greatest_ratio = 1.5; // no monitor is that far off (judgement)

/// What a ticket selects, as numbers; -1: any.
struct Selection {
    int load = -1, field = -1, machine = -1, method = -1;
    double start_s = nan_value, end_s = nan_value;
    [[nodiscard]] auto key() const {
        return std::tuple{
            load, field, machine, method, std::isfinite(start_s) ? start_s : 0.0, std::isfinite(end_s) ? end_s : 0.0};
    }
    [[nodiscard]] bool takes(const Records& r, std::size_t i) const {
        if (machine >= 0 && r.machine[i] != machine) return false;
        if (load >= 0) return r.load[i] == load;
        if (std::isfinite(start_s)) return r.time_s[i] > start_s && r.time_s[i] <= end_s;
        return method < 0 || r.method[i] == method;
    }
};

/// Names -> their place in a list.
class Index {
public:
    explicit Index(const std::vector<std::string>& names) {
        for (std::size_t k = 0; k < names.size(); ++k)
            places_.emplace(names[k], static_cast<int>(k)); // of two alike the first
    }
    /// -1: no name given; -2: not in the list.
    [[nodiscard]] int of(const std::string& name) const {
        if (name.empty()) return -1;
        const auto found = places_.find(name);
        return found == places_.end() ? -2 : found->second;
    }

private:
    std::unordered_map<std::string, int> places_;
};

template <class Named>
std::vector<std::string> names_of(const std::vector<Named>& all) {
    std::vector<std::string> names;
    for (const Named& one : all)
        names.push_back(one.name);
    return names;
}

struct Names {
    explicit Names(const Setting& setting)
        : fields(names_of(setting.input->fields)), machines(setting.input->machines),
          methods(names_of(setting.season->methods)), loads(setting.input->loads) {}
    Index fields, machines, methods, loads;
};

[[noreturn]] void unknown(const Setting& setting, const Ticket& ticket, const char* what, const std::string& name,
                          const std::vector<std::string>& known) {
    constexpr std::size_t most_listed = 12;
    throw DataError(fmt::format("{}: the ticket names the {} \"{}\", which the season does not have; correct the "
                                "name or take the ticket out. Known: {}.{}",
                                place_of(setting, ticket), what, name, listed(known, most_listed),
                                did_you_mean(name, known)));
}

Selection selection_of(const Setting& setting, const Names& names, const Ticket& ticket) {
    Selection s;
    s.field = names.fields.of(ticket.field);
    s.machine = names.machines.of(ticket.machine);
    s.method = names.methods.of(ticket.method);
    s.load = names.loads.of(ticket.load);
    if (s.field == -2) unknown(setting, ticket, "field", ticket.field, names_of(setting.input->fields));
    if (s.machine == -2) unknown(setting, ticket, "machine", ticket.machine, setting.input->machines);
    if (s.method == -2) unknown(setting, ticket, "method", ticket.method, names_of(setting.season->methods));
    if (ticket.start_s && ticket.end_s && s.load < 0) {
        s.start_s = *ticket.start_s;
        s.end_s = *ticket.end_s;
    }
    const bool by_time = std::isfinite(s.start_s);
    if (s.load == -2 && !by_time) unknown(setting, ticket, "load", ticket.load, setting.input->loads);
    if (s.load < 0 && !by_time && s.field < 0 && s.method < 0 && s.machine < 0)
        throw DataError(fmt::format("{}: nothing says which records the load came from; give its load, its start and "
                                    "end, or its field and method",
                                    place_of(setting, ticket)));
    if (s.load == -2) s.load = -1;
    return s;
}

/// Mass at the basis of a ticket. A ticket without moisture is taken at the monitor's.
double ticket_kg(const Setting& setting, const Ticket& ticket, double basis_over_wet) {
    const double clean_kg = ticket.net_kg * (1.0 - ticket.dockage_pct / 100.0);
    if (!setting.options->moisture_correction) return clean_kg;
    if (ticket.moisture_pct > 0.0 && ticket.moisture_pct < 100.0)
        return mass_at_moisture(clean_kg, ticket.moisture_pct, setting.season->basis_pct);
    return clean_kg * basis_over_wet;
}

struct Gathered {
    double wet_kg = 0.0, moment_sum = 0.0, moments = 0.0;
};

/// Most loads have nothing to look for in most fields.
bool may_hold(const Selection& s, const MachineBlock& block) {
    if (s.machine >= 0 && block.machine != s.machine) return false;
    if (s.load >= 0 || !std::isfinite(s.start_s)) return true;
    return block.last_s > s.start_s && block.first_s <= s.end_s;
}

void gather(WeighedLoad& load, Gathered& all, const FieldWork& work, const Setting& setting, const Selection& s,
            const std::vector<double>& grain_kg) {
    const Records& r = work.records();
    const auto field = static_cast<std::size_t>(work.field - setting.input->fields.data());
    for (const MachineBlock& block : work.blocks) {
        if (!may_hold(s, block)) continue;
        for (std::size_t i = block.begin; i < block.end; ++i) {
            if (!s.takes(r, i) || work.copy[i]) continue;
            if (work.out->pass[i] >= 0) {
                load.cutting_s += work.step_s[i];
                if (work.unread[i]) load.unread_s += work.step_s[i];
            }
            if (!(grain_kg[i] > 0.0)) continue;
            load.monitor_kg += grain_kg[i];
            load.seconds += work.step_s[i];
            all.wet_kg += work.mass_kg[i] > 0.0 ? work.mass_kg[i] : grain_kg[i];
            if (std::isfinite(r.time_s[i]))
                all.moment_sum += r.time_s[i] - work.records().time_s[0], all.moments += 1.0;
            const int group = setting.group(r.machine[i], r.method[i]);
            if (group >= 0) load.group_kg[group] += grain_kg[i];
            if (r.area[i] < 0) continue;
            std::vector<double>& areas = load.area_kg[field];
            areas.resize(work.field->method_areas.size(), 0.0);
            areas[at(r.area[i])] += grain_kg[i];
        }
    }
}

void find_group(WeighedLoad& load) {
    double all = 0.0;
    for (const auto& [group, kg] : load.group_kg)
        all += kg;
    for (const auto& [group, kg] : load.group_kg)
        if (kg >= pure_share * all && all > 0.0) load.group = group;
}

WeighedLoad weigh(const std::vector<FieldWork>& works, const Setting& setting, const Selection& s,
                  const std::vector<std::vector<double>>& untrimmed) {
    WeighedLoad load;
    Gathered all;
    double first = nan_value;
    for (std::size_t f = 0; f < works.size(); ++f) {
        // A machine's load by time may hold grain of more than one field; load numbers may begin again in each field.
        const bool by_machine_time = s.machine >= 0 && std::isfinite(s.start_s);
        if (s.field >= 0 && at(s.field) != f && !by_machine_time) continue;
        Gathered here;
        gather(load, here, works[f], setting, s, untrimmed[f]);
        all.wet_kg += here.wet_kg;
        if (here.moments == 0.0) continue;
        const double begin = works[f].records().time_s[0];
        if (std::isnan(first)) first = begin;
        all.moment_sum += here.moment_sum + (begin - first) * here.moments;
        all.moments += here.moments;
    }
    if (all.moments > 0.0) load.time_s = first + all.moment_sum / all.moments;
    // Carried for tickets without moisture; replaced by the ticket mass when the tickets are added up.
    load.ticket_kg = all.wet_kg > 0.0 ? load.monitor_kg / all.wet_kg : 1.0;
    find_group(load);
    return load;
}

std::string moment_text(double time_s) {
    return fmt::format("{:%Y-%m-%d %H:%M}", fmt::gmtime(static_cast<std::time_t>(time_s)));
}

/// Whether records and ticket speak of the same place and machine; time, load and method aside.
bool of_place(const Setting& setting, const FieldWork& work, std::size_t i, const Selection& s) {
    const auto field = static_cast<int>(work.field - setting.input->fields.data());
    return (s.field < 0 || s.field == field) && (s.machine < 0 || work.records().machine[i] == s.machine);
}

[[noreturn]] void refuse_without_records(const std::vector<FieldWork>& works, const Setting& setting,
                                         const Ticket& ticket, const Selection& s) {
    std::size_t records = 0;
    double first = std::numeric_limits<double>::infinity(), last = -first;
    for (const FieldWork& work : works) {
        const Records& r = work.records();
        for (std::size_t i = 0; i < work.size(); ++i) {
            if (!of_place(setting, work, i, s)) continue;
            ++records;
            if (std::isfinite(r.time_s[i])) first = std::min(first, r.time_s[i]), last = std::max(last, r.time_s[i]);
        }
    }
    const std::string whose = (s.machine >= 0 ? " of machine " + ticket.machine : std::string()) +
                              (s.field >= 0 ? " in field " + ticket.field : std::string());
    std::string there = fmt::format("there are {} records{}", records, whose);
    if (first <= last) there += fmt::format(", from {} to {} UTC", moment_text(first), moment_text(last));
    if (std::isfinite(s.start_s))
        there += fmt::format("; the ticket runs from {} to {} UTC", moment_text(s.start_s), moment_text(s.end_s));
    // A field or machine without any record is a file that is missing here, or a load that is not of these fields.
    const std::string way_out =
        records == 0 && !whose.empty()
            ? fmt::format("Two ways out: add the records{} to the files of [points], or take row {} out of the tickets",
                          whose, ticket.row)
            : "Check the ticket's times and names, and the dates and time zone of the records; or take the row out of "
              "the tickets";
    throw DataError(fmt::format("{}: no record with grain lies in the ticket's load, time window or field; {}. {}.",
                                place_of(setting, ticket), there, way_out));
}

void refuse_impossible_ratio(const Setting& setting, const Ticket& ticket, double ratio) {
    if (ratio >= least_ratio && ratio <= greatest_ratio) return;
    throw DataError(
        fmt::format("{}: the scale's mass is {:.3g} times the monitor's, more than a monitor can be off; {}",
                    place_of(setting, ticket), ratio, unit_mistaken(ratio, setting.input->tickets)));
}

} // namespace

std::string unit_mistaken(double ratio, const std::vector<Ticket>& tickets) {
    struct Mistake {
        double ratio, column_kg;
        const char* words;
    };
    constexpr double lb_kg = 0.45359237, short_ton_kg = 2000.0 * lb_kg;
    // kg per lb (Weights and Measures Act, sched. II) and kg per short ton; a monitor is trusted to 7 %.
    const Mistake mistakes[] = {
        {1.0 / lb_kg, 1.0, spoken().clean.pounds},
        {lb_kg, lb_kg, spoken().clean.kilograms_as_pounds},
        {1000.0, 1000.0, spoken().clean.kilograms_as_tonnes},
        {0.001, 1.0, spoken().clean.tonnes},
        {1000.0 / short_ton_kg, 1000.0, spoken().clean.short_tons},
        {short_ton_kg / 1000.0, short_ton_kg, spoken().clean.tonnes_as_short_tons},
    };
    const double column_kg = tickets.empty() ? 0.0 : tickets.front().unit_kg;
    for (const double within : {0.04, 0.15})
        for (const Mistake& mistake : mistakes) {
            if (column_kg > 0.0 && std::abs(std::log(column_kg / mistake.column_kg)) > 0.01) continue;
            if (std::abs(std::log(ratio / mistake.ratio)) < within) return mistake.words;
        }
    return spoken().clean.all_of_load;
}

std::string place_of(const Setting& setting, const Ticket& ticket) {
    const auto& file = setting.season->tickets;
    return fill(spoken().places.file_row, fmt::arg("file", file ? file->file : "tickets"), fmt::arg("row", ticket.row));
}

std::vector<double> untrimmed_kg(const FieldWork& work, const Setting& setting) {
    const Records& r = work.records();
    std::vector<double> grain(work.size(), 0.0);
    std::vector<double> mass(work.ranges.size(), 0.0), land(work.ranges.size(), 0.0);
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!work.kept(i) || work.out->pass[i] < 0) continue;
        mass[at(work.out->pass[i])] += work.out->mass_basis_kg[i];
        land[at(work.out->pass[i])] += work.out->area_m2[i];
    }
    for (const MachineBlock& block : work.blocks) {
        double basis_over_wet = 1.0;
        for (std::size_t i = block.begin; i < block.end; ++i) {
            if (work.copy[i]) continue;
            const std::int32_t pass = work.out->pass[i];
            const bool missing = work.unseen[i] != 0 || (work.unread[i] && !(work.mass_kg[i] > 0.0));
            if (missing && pass >= 0 && land[at(pass)] > 0.0) {
                grain[i] = mass[at(pass)] / land[at(pass)] * r.distance_m[i] * r.width_m[i];
            } else if (work.mass_kg[i] > 0.0) {
                const double basis = basis_mass_kg(work, setting, i, block.moisture_recorded);
                if (std::isfinite(basis)) basis_over_wet = basis / work.mass_kg[i];
                grain[i] = basis_over_wet * work.mass_kg[i];
            }
            if (!std::isfinite(grain[i])) grain[i] = 0.0;
        }
    }
    return grain;
}

std::vector<WeighedLoad> match_tickets(const std::vector<FieldWork>& works, const Setting& setting,
                                       const std::vector<std::vector<double>>& untrimmed) {
    using Key = decltype(Selection{}.key());
    std::map<Key, std::pair<Selection, std::vector<std::size_t>>> together;
    std::vector<Key> order;
    const std::vector<Ticket>& tickets = setting.input->tickets;
    const Names names(setting);
    for (std::size_t t = 0; t < tickets.size(); ++t) {
        const Selection s = selection_of(setting, names, tickets[t]);
        auto& entry = together[s.key()];
        if (entry.second.empty()) order.push_back(s.key());
        entry.first = s;
        entry.second.push_back(t);
    }
    std::vector<WeighedLoad> loads;
    Faults faults;
    for (const Key& key : order) {
        const Selection& selection = together[key].first;
        const std::vector<std::size_t>& members = together[key].second;
        WeighedLoad load = weigh(works, setting, selection, untrimmed);
        const Ticket& first = tickets[members.front()];
        // Nothing to compare with: no record at all, or none with a reading.
        load.readable = load.unread_s <= most_unread_share * load.cutting_s;
        if (load.readable && !(load.monitor_kg > 0.0)) {
            faults.attempt("no records", [&] { refuse_without_records(works, setting, first, selection); });
            continue;
        }
        const double basis_over_wet = load.ticket_kg;
        load.ticket_kg = 0.0;
        for (const std::size_t t : members)
            load.ticket_kg += ticket_kg(setting, tickets[t], basis_over_wet);
        load.tickets = members;
        if (load.readable)
            faults.attempt("ratio", [&] { refuse_impossible_ratio(setting, first, load.ticket_kg / load.monitor_kg); });
        loads.push_back(std::move(load));
    }
    faults.raise();
    return loads;
}

} // namespace quartercut::cleaning
