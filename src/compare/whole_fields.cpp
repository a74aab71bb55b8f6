// SPDX-License-Identifier: MIT
// Whole fields cut one way each: the field is the unit, however many records it holds. Welch's t on log yields, turned
// back into t/ha at the baseline's mean.
#include "compare/farm.hpp"

#include "base/words/words.hpp"

#include "compare/field.hpp"
#include "compare/findings.hpp"
#include "compare/paired.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace quartercut::contrast {
namespace {

struct WholeField {
    std::string name;
    int method = -1;
    double mass_kg = 0.0, area_m2 = 0.0, water = 0.0, moist_mass = 0.0;
    std::map<int, double> machine_mass;
    [[nodiscard]] double yield_t_ha() const { return mass_kg / area_m2 * m2_per_hectare / kg_per_tonne; }
};

std::optional<WholeField> as_whole(const StandardField& standard, const ZonedField& zoned) {
    std::set<int> drawn;
    for (const Zone& zone : zoned.zones)
        if (zone.method >= 0) drawn.insert(zone.method);
    if (drawn.size() != 1) return std::nullopt;
    WholeField out;
    out.name = standard.name;
    out.method = *drawn.begin();
    for (const Segment& s : zoned.segments) {
        if (s.zone < 0 || zoned.zones[static_cast<std::size_t>(s.zone)].method < 0) continue;
        if (!(s.area_m2 > 0.0) || !std::isfinite(s.mass_basis_kg)) continue;
        out.mass_kg += s.mass_basis_kg;
        out.area_m2 += s.area_m2;
        out.machine_mass[s.machine] += s.mass_basis_kg;
        if (!std::isfinite(s.moisture_pct)) continue;
        out.moist_mass += s.mass_basis_kg;
        out.water += s.mass_basis_kg * s.moisture_pct;
    }
    if (!(out.area_m2 > 0.0) || !(out.mass_kg > 0.0)) return std::nullopt;
    return out;
}

struct Sides {
    std::vector<WholeField> method, baseline;
    int looks = 1; ///< methods that can be tested against the baseline
};

/// Two fields a side are the least that give an interval.
int looks_at(const std::map<int, std::vector<WholeField>>& by_method, int baseline) {
    int looks = 0;
    for (const auto& [method, fields] : by_method)
        if (method != baseline && fields.size() >= 2) ++looks;
    return std::max(1, looks);
}

std::vector<double> logs(const std::vector<WholeField>& fields) {
    std::vector<double> out;
    for (const WholeField& field : fields)
        out.push_back(std::log(field.yield_t_ha()));
    return out;
}

double geometric_mean(const std::vector<WholeField>& fields) {
    double sum = 0.0;
    for (const double value : logs(fields))
        sum += value;
    return std::exp(sum / static_cast<double>(fields.size()));
}

/// Instruments behind the fields of one side, fields weighing alike as they do in the mean.
Side side_from(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
               const std::vector<WholeField>& fields) {
    Side side;
    side.method = season.methods[static_cast<std::size_t>(fields.front().method)].name;
    side.yield_t_ha = geometric_mean(fields);
    side.width_u_rel = 0.0;
    double water = 0.0;
    double moist = 0.0;
    std::map<std::string, double> shares;
    const auto n = static_cast<double>(fields.size());
    for (const WholeField& field : fields) {
        water += field.water;
        moist += field.moist_mass;
        for (const auto& [machine, mass] : field.machine_mass) {
            const bool known = machine >= 0 && static_cast<std::size_t>(machine) < standardised.machines.size();
            shares[known ? standardised.machines[static_cast<std::size_t>(machine)] : "machine"] +=
                mass / field.mass_kg / n;
        }
    }
    side.moisture_pct = moist > 0.0 ? water / moist : season.basis_pct;
    for (const auto& [machine, share] : shares)
        side.machines.push_back({machine, share});
    for (const CleanedField& field : cleaned.fields)
        for (const WidthCheck& check : field.widths)
            if (check.method == side.method && std::isfinite(check.u_rel))
                side.width_u_rel = std::max(side.width_u_rel, check.u_rel);
    if (side.width_u_rel <= 0.0) side.width_u_rel = WidthCheck{}.u_rel;
    return side;
}

/// Calibration of the season and of its fields, each machine and method once.
std::vector<Calibration> all_calibrations(const Cleaned& cleaned) {
    std::vector<Calibration> out = cleaned.calibration;
    for (const CleanedField& field : cleaned.fields)
        for (const Calibration& c : field.calibration) {
            const bool known = std::any_of(out.begin(), out.end(), [&](const Calibration& o) {
                return o.machine == c.machine && o.method == c.method;
            });
            if (!known) out.push_back(c);
        }
    return out;
}

/// Welch on logs, then t/ha at the baseline's mean: gain = base (exp(d) - 1), error by its slope base exp(d).
void back_to_t_ha(const MeanTest& log_test, double base, FarmContrast& row) {
    row.gain_t_ha = base * std::expm1(log_test.estimate);
    row.se_t_ha = base * std::exp(log_test.estimate) * log_test.se;
    row.df = log_test.df;
    const Interval ci = log_test.ci95();
    row.ci95_t_ha = Interval{base * std::expm1(ci[0]), base * std::expm1(ci[1])};
    row.p = log_test.p();
}

/// The total on the log scale too: instrument errors relative to the method's mean.
void add_total(const MeanTest& log_test, const std::vector<BudgetLine>& lines, double base, FarmContrast& row) {
    const double slope = base * std::exp(log_test.estimate);
    row.budget = lines;
    row.u_shared_t_ha = combine(lines).u;
    std::vector<BudgetLine> all = lines;
    all.push_back({error_source::sampling, *row.se_t_ha, log_test.df, false});
    const Combined total = combine(all);
    row.u_total_t_ha = total.u;
    row.df_total = total.df;
    const double level = level_for(row.looks);
    const double half =
        std::max(t_critical(total.df, level) * total.u / slope, t_critical(log_test.df, level) * log_test.se);
    row.ci95_total_t_ha =
        Interval{base * std::expm1(log_test.estimate - half), base * std::expm1(log_test.estimate + half)};
}

/// Methods that share no machine: what differs may be the machines.
void say_machines(const Side& side, const Side& baseline, FarmContrast& row) {
    const bool shared = std::any_of(side.machines.begin(), side.machines.end(), [&](const Side::Share& a) {
        return std::any_of(baseline.machines.begin(), baseline.machines.end(),
                           [&](const Side::Share& b) { return a.machine == b.machine; });
    });
    if (!shared)
        row.leaves_out.push_back(fill(spoken().compare.no_shared_machine, fmt::arg("method", side.method),
                                      fmt::arg("baseline", baseline.method)));
}

void say_counts(const Sides& sides, FarmContrast& row) {
    const auto& words = spoken().compare;
    row.leaves_out.insert(row.leaves_out.begin(),
                          fill(sides.method.size() == 1 ? words.fields_against_one : words.fields_against,
                               fmt::arg("fields", sides.method.size()), fmt::arg("others", sides.baseline.size())));
}

FarmContrast whole_row(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                       const Sides& sides) {
    FarmContrast row;
    row.method = season.methods[static_cast<std::size_t>(sides.method.front().method)].name;
    row.baseline = season.baseline;
    row.fields = static_cast<int>(sides.method.size() + sides.baseline.size());
    row.evidence = evidence_word(Evidence::whole_field);
    row.leaves_out = left_out(Evidence::whole_field);
    say_counts(sides, row);
    for (const auto* side : {&sides.method, &sides.baseline})
        for (const WholeField& field : *side)
            row.field_names.push_back(field.name);
    const Side side = side_from(season, standardised, cleaned, sides.method);
    const Side baseline = side_from(season, standardised, cleaned, sides.baseline);
    say_machines(side, baseline, row);
    const double base = geometric_mean(sides.baseline);
    row.gain_t_ha = geometric_mean(sides.method) - base;
    row.estimator = spoken().compare.field_means;
    row.finding = Finding::not_comparable;
    const std::vector<double> method_logs = logs(sides.method);
    const std::vector<double> baseline_logs = logs(sides.baseline);
    const auto test = welch_t(method_logs, baseline_logs);
    if (!test || !(test->se > 0.0)) {
        row.leaves_out.insert(row.leaves_out.begin(), spoken().compare.one_field_a_method);
        return row;
    }
    row.estimator = spoken().compare.welch;
    row.looks = sides.looks;
    if (row.looks > 1) row.leaves_out.push_back(looks_words(row.looks, spoken().compare.of_whole_fields));
    back_to_t_ha(*test, base, row);
    add_total(*test, instrument_lines(side, baseline, all_calibrations(cleaned)), base, row);
    const bool apart = unchecked_machines_apart(side, baseline, all_calibrations(cleaned));
    const bool enough = sides.method.size() >= 3 && sides.baseline.size() >= 3;
    if (!enough) row.leaves_out.insert(row.leaves_out.begin(), spoken().compare.rough);
    if (apart) hold_for_machines(row, spoken().compare.own_machines);
    row.finding = finding_from(*row.ci95_total_t_ha, enough && !apart ? Ceiling::leans : Ceiling::nothing);
    return row;
}

} // namespace

std::vector<FarmContrast> compare_whole_fields(const Season& season, const Standardised& standardised,
                                               const Cleaned& cleaned, const std::vector<ZonedField>& zoned,
                                               Issues& issues) {
    std::map<int, std::vector<WholeField>> by_method;
    for (std::size_t f = 0; f < zoned.size() && f < standardised.fields.size(); ++f)
        if (auto whole = as_whole(standardised.fields[f], zoned[f]))
            by_method[whole->method].push_back(std::move(*whole));
    std::vector<FarmContrast> rows;
    const auto baseline = by_method.find(season.baseline_code());
    if (baseline == by_method.end()) return rows;
    const int looks = looks_at(by_method, season.baseline_code());
    for (const auto& [method, fields] : by_method) {
        if (method == season.baseline_code()) continue;
        rows.push_back(whole_row(season, standardised, cleaned, {fields, baseline->second, looks}));
        if (rows.back().machine_is_method)
            issues.push_back(
                warning("machine-is-method", "",
                        fill(spoken().compare.own_machines_whole, fmt::arg("method", rows.back().method),
                             fmt::arg("baseline", season.baseline), fmt::arg("what", spoken().compare.own_machines))));
        if (rows.back().finding == Finding::not_comparable)
            issues.push_back({"too-few-whole-fields", Severity::note, "",
                              fill(spoken().compare.too_few_whole_fields, fmt::arg("method", rows.back().method),
                                   fmt::arg("baseline", season.baseline))});
    }
    return rows;
}

} // namespace quartercut::contrast
