// SPDX-License-Identifier: MIT
// Tickets first, then neighbours, then a stated default. A method area whose every load was weighed needs no monitor:
// its mass is the scale's.
#include "clean/calibrate.hpp"

#include "clean/lag.hpp"
#include "clean/load_factors.hpp"
#include "clean/load_remarks.hpp"
#include "clean/step_report.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr double default_canola = 0.05, default_other = 0.03, default_df = 50.0;
constexpr double trade_scale = 0.001 / 1.7320508075688772; // in-service limit 0.10 % (C.R.C. c. 1605), rectangular
constexpr double weighed_u = 0.005;                        // grain left in tanks between strips (judgement)
constexpr double whole_share = 0.98;
constexpr std::size_t groups_to_shrink = 5, fewest_named = 3;

double default_u(const Season& season) {
    const Crop* crop = find_crop(season.crop);
    return crop != nullptr && crop->name == "canola" ? default_canola : default_other;
}

std::vector<Load> pure_loads(const std::vector<WeighedLoad>& weighed) {
    std::vector<Load> loads;
    for (const WeighedLoad& load : weighed)
        if (load.group >= 0 && load.readable)
            loads.push_back({load.group, std::log(load.ticket_kg / load.monitor_kg),
                             load.seconds > 0.0 ? load.monitor_kg / load.seconds : 0.0, load.time_s});
    return loads;
}

/// Five or more machines of one method are drawn towards their mean.
void shrink(LoadFit& fit, const std::vector<Load>& loads, const Setting& setting) {
    const auto methods = static_cast<int>(setting.season->methods.size());
    for (int m = 0; m < methods; ++m) {
        std::vector<Load> of_method;
        for (const Load& load : loads)
            if (load.group % methods == m) of_method.push_back(load);
        std::vector<GroupFactor*> groups;
        for (GroupFactor& group : fit.groups)
            if (group.group % methods == m) groups.push_back(&group);
        if (groups.size() < groups_to_shrink) continue;
        const RandomFactors random = fit_random_groups(of_method);
        for (std::size_t g = 0; g < groups.size(); ++g)
            groups[g]->log_factor = random.predicted[g];
    }
}

void take_tickets(std::vector<Calibration>& factors, const LoadFit& fit) {
    for (const GroupFactor& group : fit.groups) {
        Calibration& c = factors[at(group.group)];
        c.factor = std::exp(group.log_factor);
        c.u_rel = std::hypot(group.se, trade_scale);
        c.df = fit.df > 0.0 ? fit.df : default_df;
        c.loads = group.loads;
        c.source = "tickets";
    }
}

void take_mixed(std::vector<Calibration>& factors, const std::vector<WeighedLoad>& weighed, double load_sd) {
    for (std::size_t g = 0; g < factors.size(); ++g) {
        if (factors[g].source != "none") continue;
        double kg = 0.0, weighted = 0.0;
        int loads = 0;
        for (const WeighedLoad& load : weighed) {
            const auto part = load.group_kg.find(static_cast<int>(g));
            if (load.group >= 0 || !load.readable || part == load.group_kg.end()) continue;
            if (!(part->second > 0.05 * load.monitor_kg)) continue;
            kg += part->second;
            weighted += part->second * std::log(load.ticket_kg / load.monitor_kg);
            ++loads;
        }
        if (loads == 0) continue;
        factors[g].factor = std::exp(weighted / kg);
        factors[g].u_rel = std::max(factors[g].u_rel, load_sd / std::sqrt(static_cast<double>(loads)));
        factors[g].loads = loads;
        factors[g].source = "tickets of mixed loads";
    }
}

/// A machine weighed with another method only: its level is known, what the method does to the sensor is not, so the
/// uncertainty stays that of a machine nobody weighed.
void take_other_methods(std::vector<Calibration>& factors, const Setting& setting) {
    const std::size_t methods = setting.season->methods.size();
    std::vector<Calibration> found = factors;
    for (std::size_t g = 0; g < factors.size(); ++g) {
        if (factors[g].source != "none") continue;
        double loads = 0.0, weighted = 0.0;
        for (std::size_t other = g / methods * methods; other < (g / methods + 1) * methods; ++other) {
            if (factors[other].source != "tickets") continue;
            loads += factors[other].loads;
            weighted += factors[other].loads * std::log(factors[other].factor);
        }
        if (loads == 0.0) continue;
        found[g].factor = std::exp(weighted / loads);
        found[g].source = "tickets of the machine's other methods";
    }
    factors = found;
}

std::vector<double> mass_by_group(const std::vector<FieldWork>& works, const Setting& setting) {
    std::vector<double> kg(static_cast<std::size_t>(setting.groups()), 0.0);
    for (const FieldWork& work : works) {
        const Records& r = work.records();
        for (std::size_t i = 0; i < work.size(); ++i) {
            const int group = setting.group(r.machine[i], r.method[i]);
            if (group >= 0 && work.kept(i)) kg[at(group)] += work.out->mass_basis_kg[i];
        }
    }
    return kg;
}

/// One label at odds with the land is a slip, more than half of them are labels that were exchanged.
void refuse_exchanged_labels(const std::vector<WeighedLoad>& weighed, const Setting& setting) {
    std::size_t named = 0, differ = 0;
    for (const WeighedLoad& load : weighed) {
        const Ticket& first = setting.input->tickets[load.tickets.front()];
        if (load.group < 0 || first.method.empty()) continue;
        ++named;
        differ += first.method != setting.group_method(load.group);
    }
    if (named < fewest_named || 2 * differ <= named) return;
    const auto& season = *setting.season;
    throw DataError(fmt::format(
        "{} of {} loads whose tickets name a method lie on land of another method; are the methods exchanged in the "
        "column \"{}\" of {}, or in the column for the method in {}? Correct the one that is wrong",
        differ, named, season.methods_from.column,
        season.methods_from.file.empty() ? "the records" : season.methods_from.file,
        season.tickets ? season.tickets->file : "the tickets"));
}

struct Weighing {
    std::vector<WeighedLoad> loads;
    std::vector<std::vector<double>> untrimmed;     ///< [field][record]
    std::vector<std::vector<std::size_t>> of_field; ///< indices into loads
};

/// Per method area: how the scale's mass over the land cut compares with the monitor's over the land kept; NaN where
/// the loads that lie in the area alone do not make up its grain.
std::vector<double> weighed_areas(const FieldWork& work, std::size_t f, const Weighing& weighing) {
    const std::vector<double>& untrimmed = weighing.untrimmed[f];
    const Records& r = work.records();
    const std::size_t areas = work.field->method_areas.size();
    std::vector<double> ticket(areas, 0.0), seen(areas, 0.0), all(areas, 0.0), kept_kg(areas, 0.0), kept_m2(areas, 0.0),
        cut_m2(areas, 0.0), cut_s(areas, 0.0), unread_s(areas, 0.0), factor(areas, nan_value);
    for (const std::size_t l : weighing.of_field[f]) {
        const WeighedLoad& load = weighing.loads[l];
        const std::vector<double>& kg = load.area_kg.at(f);
        for (std::size_t a = 0; a < areas; ++a)
            if (load.readable && kg[a] >= whole_share * load.monitor_kg) ticket[a] += load.ticket_kg, seen[a] += kg[a];
    }
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (r.area[i] < 0) continue;
        const std::size_t a = at(r.area[i]);
        all[a] += untrimmed[i];
        if (work.out->pass[i] >= 0) cut_s[a] += work.step_s[i];
        if (work.out->pass[i] >= 0 && work.unread[i]) unread_s[a] += work.step_s[i];
        const Removal why = work.out->removal[i];
        if (why != Removal::off_field && why != Removal::merged && work.out->pass[i] >= 0)
            cut_m2[a] += work.out->area_m2[i];
        if (!work.kept(i)) continue;
        kept_kg[a] += work.out->mass_basis_kg[i];
        kept_m2[a] += work.out->area_m2[i];
    }
    for (std::size_t a = 0; a < areas; ++a)
        if (ticket[a] > 0.0 && seen[a] >= whole_share * all[a] && kept_kg[a] > 0.0 &&
            unread_s[a] <= most_unread_share * cut_s[a])
            factor[a] = ticket[a] / cut_m2[a] / (kept_kg[a] / kept_m2[a]);
    return factor;
}

void apply(FieldWork& work, const Setting& setting, const std::vector<Calibration>& factors,
           const std::vector<double>& areas) {
    const Records& r = work.records();
    std::vector<double> kg(factors.size(), 0.0), raw(factors.size(), 0.0);
    std::vector<std::uint8_t> all_weighed(factors.size(), 1);
    for (std::size_t i = 0; i < work.size(); ++i) {
        const int group = setting.group(r.machine[i], r.method[i]);
        if (group < 0) continue;
        const bool weighed = r.area[i] >= 0 && std::isfinite(areas[at(r.area[i])]);
        const double factor = weighed ? areas[at(r.area[i])] : factors[at(group)].factor;
        if (work.kept(i)) raw[at(group)] += work.out->mass_basis_kg[i];
        work.out->mass_basis_kg[i] *= factor;
        if (work.kept(i)) kg[at(group)] += work.out->mass_basis_kg[i];
        if (work.kept(i) && !weighed) all_weighed[at(group)] = 0;
    }
    const std::vector<std::uint8_t> present = groups_present(work, setting);
    for (std::size_t g = 0; g < factors.size(); ++g) {
        if (!present[g]) continue;
        Calibration used = factors[g];
        if (all_weighed[g] && raw[g] > 0.0) {
            used.factor = kg[g] / raw[g];
            used.u_rel = weighed_u;
            used.df = default_df;
            used.source = "tickets per strip";
        }
        work.out->calibration.push_back(used);
    }
}

Weighing weigh_season(const std::vector<FieldWork>& works, const Setting& setting) {
    Weighing weighing;
    weighing.of_field.resize(works.size());
    if (!setting.options->steps.tickets || setting.input->tickets.empty()) return weighing;
    weighing.untrimmed.resize(works.size());
    tbb::parallel_for(std::size_t{0}, works.size(),
                      [&](std::size_t f) { weighing.untrimmed[f] = untrimmed_kg(works[f], setting); });
    weighing.loads = match_tickets(works, setting, weighing.untrimmed);
    for (std::size_t l = 0; l < weighing.loads.size(); ++l)
        for (const auto& [field, kg] : weighing.loads[l].area_kg)
            weighing.of_field[field].push_back(l);
    return weighing;
}

void estimate(std::vector<Calibration>& factors, const std::vector<FieldWork>& works, const Setting& setting,
              const Weighing& weighing, Cleaned& cleaned) {
    const std::vector<Load> loads = pure_loads(weighing.loads);
    LoadFit fit = fit_loads(loads);
    shrink(fit, loads, setting);
    take_tickets(factors, fit);
    remark_on_fit(cleaned, fit, setting);
    if (setting.options->steps.machine_offsets)
        level_machines(factors, machine_contrasts(works, setting), mass_by_group(works, setting), setting);
    take_mixed(factors, weighing.loads, fit.load_sd);
    take_other_methods(factors, setting);
}

} // namespace

Calibration without_tickets(const Setting& setting, int group) {
    Calibration c;
    c.machine = setting.group_machine(group);
    c.method = setting.group_method(group);
    c.u_rel = default_u(*setting.season);
    c.df = default_df;
    c.source = "none";
    return c;
}

void calibrate(std::vector<FieldWork>& works, const Setting& setting, Cleaned& cleaned) {
    std::vector<Calibration> factors;
    for (int g = 0; g < setting.groups(); ++g)
        factors.push_back(without_tickets(setting, g));
    const Weighing weighing = weigh_season(works, setting);
    refuse_exchanged_labels(weighing.loads, setting);
    estimate(factors, works, setting, weighing, cleaned);
    remark_on_loads(cleaned, weighing.loads, setting);
    const std::vector<double> kg = mass_by_group(works, setting);
    for (std::size_t g = 0; g < factors.size(); ++g)
        if (kg[g] > 0.0) cleaned.calibration.push_back(factors[g]);
    remark_on_factors(cleaned, setting);
    tbb::parallel_for(std::size_t{0}, works.size(), [&](std::size_t f) {
        std::vector<double> areas(works[f].field->method_areas.size(), nan_value);
        if (!weighing.loads.empty()) areas = weighed_areas(works[f], f, weighing);
        apply(works[f], setting, factors, areas);
        report_step(works[f], setting, "tickets and machine_offsets",
                    setting.options->steps.tickets || setting.options->steps.machine_offsets);
    });
}

} // namespace quartercut::cleaning
