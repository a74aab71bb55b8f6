// SPDX-License-Identifier: MIT
// Prices put on the comparison: every field and the farm, with the gaps named.
#include "plan/net.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace quartercut {
namespace planning {
namespace {

/// Costs every way of cutting has, and costs some have: what to ask for when nothing is said.
constexpr std::array<CostKind, 3> met_by_all{CostKind::combining, CostKind::drying, CostKind::grade};
constexpr std::array<CostKind, 4> met_by_some{CostKind::swathing, CostKind::harvest_aid, CostKind::application,
                                              CostKind::ownership};

/// The kind as a grower says it.
std::string kind_words(CostKind kind) {
    const auto& words = spoken().advice;
    switch (kind) {
    case CostKind::swathing:
        return words.kind_swathing;
    case CostKind::harvest_aid:
        return words.kind_harvest_aid;
    case CostKind::application:
        return words.kind_application;
    case CostKind::combining:
        return words.kind_combining;
    case CostKind::drying:
        return words.kind_drying;
    case CostKind::trampling:
        return words.kind_trampling;
    case CostKind::grade:
        return words.kind_grade;
    case CostKind::ownership:
        return words.kind_ownership;
    case CostKind::other:
        break;
    }
    return words.kind_other;
}

bool priced(const MoneyInput& money, CostKind kind, const std::string& method) {
    return std::any_of(money.costs.begin(), money.costs.end(), [&](const CostItem& item) {
        return item.kind == kind && (item.method.empty() || method.empty() || item.method == method);
    });
}

std::vector<std::string> gaps_of(const Season& season) {
    const MoneyInput& money = *season.money;
    std::vector<std::string> gaps;
    if (!money.price_cents_kg) gaps.emplace_back(spoken().advice.no_price_of_grain);
    for (const CostKind kind : met_by_all) {
        std::vector<std::string> without;
        for (const Method& method : season.methods)
            if (!priced(money, kind, method.name)) without.push_back(method.name);
        if (!without.empty())
            gaps.push_back(fill(spoken().advice.not_priced, fmt::arg("kind", kind_words(kind)),
                                fmt::arg("methods", fmt::join(without, ", "))));
    }
    for (const CostKind kind : met_by_some)
        if (!priced(money, kind, ""))
            gaps.push_back(fill(spoken().advice.not_priced_any, fmt::arg("kind", kind_words(kind))));
    const bool aid = std::any_of(money.costs.begin(), money.costs.end(), [](const CostItem& item) {
        return item.kind == CostKind::harvest_aid || item.kind == CostKind::application;
    });
    if (aid && !priced(money, CostKind::trampling, "")) gaps.emplace_back(spoken().advice.trampling_not_priced);
    return gaps;
}

struct GrainSum {
    double basis_t = 0.0, wet_t = 0.0, point_t = 0.0;
    bool all_known = true;
};

/// Zones are the nearest thing to a load whose moisture is known.
void add_grain(GrainSum& sum, const ZonedField& field, int method, double basis_pct) {
    for (const Zone& zone : field.zones) {
        if (zone.method != method || zone.mass_basis_kg <= 0.0) continue;
        const double basis_t = zone.mass_basis_kg / kg_per_tonne;
        sum.basis_t += basis_t;
        if (!std::isfinite(zone.moisture_pct)) {
            sum.all_known = false;
        } else if (zone.moisture_pct > basis_pct) {
            const double wet_t = basis_t * (100.0 - basis_pct) / (100.0 - zone.moisture_pct);
            sum.wet_t += wet_t;
            sum.point_t += wet_t * (zone.moisture_pct - basis_pct);
        }
    }
}

WetGrain grain_of(const GrainSum& sum) {
    if (!(sum.basis_t > 0.0)) return {};
    return {sum.wet_t / sum.basis_t, sum.point_t / sum.basis_t, sum.all_known};
}

class Pricing {
public:
    Pricing(const Season& season, const std::vector<ZonedField>& zoned)
        : season_(season), money_(*season.money), zoned_(zoned) {}

    /// \param fields  indices of the fields the difference speaks of
    void price(NetDifference& out, const std::vector<std::size_t>& fields, double baseline_yield_t_ha, double u_t_ha,
               double df) {
        NetInputs in;
        in.gain_t_ha = *out.gain_t_ha;
        in.baseline_yield_t_ha = baseline_yield_t_ha;
        in.price_cents_t = money_.price_cents_kg.value_or(0.0) * kg_per_tonne;
        in.method_grain = grain(fields, out.method);
        in.baseline_grain = grain(fields, out.baseline);
        add_costs(in, out);
        const double yield_t_ha = baseline_yield_t_ha + in.gain_t_ha;
        for (std::size_t i = 0; i < in.costs.size(); ++i) {
            if (in.costs[i].on_method) add_line(out, *in.costs[i].item, out.method, yield_t_ha, in.method_grain);
            if (in.costs[i].on_baseline)
                add_line(out, *in.costs[i].item, out.baseline, baseline_yield_t_ha, in.baseline_grain);
        }
        if (!money_.price_cents_kg) {
            out.why_no_chance = spoken().advice.no_price;
            return;
        }
        fill_net(out, in, u_t_ha, df, money_.price_u_cents_kg * kg_per_tonne);
    }
    [[nodiscard]] const std::vector<std::string>& gaps() const { return gaps_; }

private:
    WetGrain grain(const std::vector<std::size_t>& fields, const std::string& method) const {
        GrainSum sum;
        for (const std::size_t f : fields)
            add_grain(sum, zoned_[f], season_.method_code(method), season_.basis_pct);
        return grain_of(sum);
    }

    void add_costs(NetInputs& in, const NetDifference& out) {
        for (const CostItem& item : money_.costs) {
            SidedCost cost{&item, item.method.empty() || item.method == out.method,
                           item.method.empty() || item.method == out.baseline};
            if (!cost.on_method && !cost.on_baseline) continue;
            const bool blind =
                (cost.on_method && !in.method_grain.known) || (cost.on_baseline && !in.baseline_grain.known);
            if (item.kind == CostKind::drying && blind) {
                add_gap(fill(spoken().advice.no_moisture,
                             fmt::arg("where", out.field.empty() ? spoken().advice.the_farm : out.field),
                             fmt::arg("item", item.item)));
                continue;
            }
            in.costs.push_back(cost);
            in.amounts.push_back(item.amount);
        }
    }

    void add_line(NetDifference& out, const CostItem& item, const std::string& method, double yield_t_ha,
                  const WetGrain& grain) const {
        const double price_cents_t = money_.price_cents_kg.value_or(0.0) * kg_per_tonne;
        out.lines.push_back({item.item, method, item.written, item.as_of, item.source,
                             cost_cents_ha(item, item.amount, yield_t_ha, price_cents_t, grain)});
    }

    void add_gap(const std::string& gap) {
        if (std::find(gaps_.begin(), gaps_.end(), gap) == gaps_.end()) gaps_.push_back(gap);
    }

    const Season& season_;
    const MoneyInput& money_;
    const std::vector<ZonedField>& zoned_;
    std::vector<std::string> gaps_;
};

std::int64_t whole_cents(double cents_ha, double area_ha) {
    return static_cast<std::int64_t>(std::llround(cents_ha * area_ha));
}

void add_field_sums(NetDifference& out) {
    if (!out.net_cents_ha) return;
    out.net_field_cents = whole_cents(*out.net_cents_ha, out.area_ha);
    if (out.ci95_cents_ha)
        out.ci95_field_cents = std::array<std::int64_t, 2>{whole_cents((*out.ci95_cents_ha)[0], out.area_ha),
                                                           whole_cents((*out.ci95_cents_ha)[1], out.area_ha)};
}

/// A range that leaves out the lay of the land holds no chance worth stating.
void withhold_chance(NetDifference& out, bool replicated, Finding finding) {
    if (out.why_no_chance.empty() && finding == Finding::not_comparable)
        out.why_no_chance = spoken().advice.not_comparable;
    if (out.why_no_chance.empty() && !replicated) out.why_no_chance = spoken().advice.one_comparison;
    if (out.why_no_chance.empty()) return;
    out.p_pays.reset();
    out.regret_cents_ha.reset();
}

bool is_replicated(Evidence evidence) {
    return evidence == Evidence::replicated || evidence == Evidence::replicated_randomised;
}

std::optional<double> shared_or_total_u(const Contrast& c) { return c.u_total_t_ha ? c.u_total_t_ha : c.se_t_ha; }

void price_fields(const Standardised& standardised, const Comparison& comparison, Pricing& pricing, MoneyResult& out) {
    for (std::size_t f = 0; f < comparison.fields.size(); ++f)
        for (const Contrast& c : comparison.fields[f].contrasts) {
            if (c.stratum || !c.gain_t_ha || !c.baseline_yield_t_ha) continue;
            NetDifference net;
            net.field = comparison.fields[f].name;
            net.method = c.method;
            net.baseline = c.baseline;
            net.evidence = evidence_word(c.evidence);
            net.area_ha = standardised.fields[f].area_m2 / m2_per_hectare;
            net.gain_t_ha = c.gain_t_ha;
            const auto u = shared_or_total_u(c);
            pricing.price(net, {f}, *c.baseline_yield_t_ha, u.value_or(0.0), c.df_total.value_or(c.df.value_or(1.0)));
            if (!u) net.u_cents_ha.reset(), net.ci95_cents_ha.reset(), net.tornado.clear();
            withhold_chance(net, is_replicated(c.evidence) && u.has_value(), c.finding);
            add_field_sums(net);
            out.fields.push_back(std::move(net));
        }
}

/// Land-weighted mean yield of the baseline where it was measured beside the method.
struct FarmLand {
    std::vector<std::size_t> fields;
    double area_ha = 0.0, baseline_yield_t_ha = 0.0;
};

FarmLand land_of(const FarmContrast& farm, const Standardised& standardised, const Comparison& comparison) {
    FarmLand land;
    double mass = 0.0;
    for (std::size_t f = 0; f < comparison.fields.size(); ++f) {
        const FieldComparison& field = comparison.fields[f];
        if (std::find(farm.field_names.begin(), farm.field_names.end(), field.name) == farm.field_names.end()) continue;
        for (const Contrast& c : field.contrasts) {
            if (c.stratum || c.method != farm.method || c.baseline != farm.baseline || !c.baseline_yield_t_ha) continue;
            const double area_ha = standardised.fields[f].area_m2 / m2_per_hectare;
            land.fields.push_back(f);
            land.area_ha += area_ha;
            mass += area_ha * *c.baseline_yield_t_ha;
        }
    }
    if (land.area_ha > 0.0) land.baseline_yield_t_ha = mass / land.area_ha;
    return land;
}

void price_farm(const Standardised& standardised, const Comparison& comparison, Pricing& pricing, MoneyResult& out) {
    for (const FarmContrast& farm : comparison.farm) {
        if (!farm.gain_t_ha) continue;
        const FarmLand land = land_of(farm, standardised, comparison);
        if (land.fields.empty()) continue;
        NetDifference net;
        net.method = farm.method;
        net.baseline = farm.baseline;
        net.evidence = farm.evidence;
        net.area_ha = land.area_ha;
        net.gain_t_ha = farm.gain_t_ha;
        const std::optional<double> u = farm.u_total_t_ha ? farm.u_total_t_ha : farm.se_t_ha;
        pricing.price(net, land.fields, land.baseline_yield_t_ha, u.value_or(0.0),
                      farm.df_total.value_or(farm.df.value_or(1.0)));
        if (!u) net.u_cents_ha.reset(), net.ci95_cents_ha.reset(), net.tornado.clear();
        withhold_chance(net, farm.evidence.rfind("replicated", 0) == 0 && u.has_value(), farm.finding);
        out.farm.push_back(std::move(net));
    }
}

std::vector<std::string> notes_of(const MoneyInput& money) {
    std::vector<std::string> notes;
    if (money.price_cents_kg && money.price_u_cents_kg <= 0.0) notes.emplace_back(spoken().advice.price_certain);
    std::vector<std::string> certain;
    for (const CostItem& item : money.costs)
        if (item.u <= 0.0 && item.kind != CostKind::trampling) certain.push_back(item.item);
    if (!certain.empty())
        notes.push_back(fill(spoken().advice.costs_certain, fmt::arg("costs", fmt::join(certain, ", "))));
    for (const CostItem& item : money.costs)
        if (item.kind == CostKind::trampling)
            notes.push_back(item.in_yield ? spoken().advice.trampling_measured : spoken().advice.trampling_charged);
    return notes;
}

} // namespace
} // namespace planning

MoneyResult price_comparison(const Season& season, const Standardised& standardised,
                             const std::vector<ZonedField>& zoned, const Comparison& comparison) {
    using namespace planning;
    if (!season.money) throw InternalError("Prices asked for without [money].");
    MoneyResult out;
    out.currency = season.money->currency;
    Pricing pricing(season, zoned);
    price_fields(standardised, comparison, pricing, out);
    price_farm(standardised, comparison, pricing, out);
    out.gaps = gaps_of(season);
    out.gaps.insert(out.gaps.end(), pricing.gaps().begin(), pricing.gaps().end());
    out.notes = notes_of(*season.money);
    return out;
}

} // namespace quartercut
