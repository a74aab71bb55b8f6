// SPDX-License-Identifier: MIT
#include "plan/net.hpp"

#include "base/words/words.hpp"

#include "plan/chances.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut {

double MoneyMove::swing_cents_ha() const { return std::abs(high_cents_ha - low_cents_ha); }

namespace planning {
namespace {

constexpr double normal95 = 1.959963984540054;

double costs_cents_ha(const NetInputs& in, bool method) {
    const double yield_t_ha = in.baseline_yield_t_ha + (method ? in.gain_t_ha : 0.0);
    const WetGrain& grain = method ? in.method_grain : in.baseline_grain;
    double sum = 0.0;
    for (std::size_t i = 0; i < in.costs.size(); ++i)
        if (method ? in.costs[i].on_method : in.costs[i].on_baseline)
            sum += cost_cents_ha(*in.costs[i].item, in.amounts[i], yield_t_ha, in.price_cents_t, grain);
    return sum;
}

/// A move of one input by `step` to either side.
template <class Change>
MoneyMove moved(const NetInputs& inputs, const std::string& what, double step, const Change& change) {
    NetInputs low = inputs, high = inputs;
    change(low, -step);
    change(high, step);
    return {what, net_cents_ha(low), net_cents_ha(high)};
}

/// Every input that has an uncertainty, moved by one standard uncertainty times `times(df)`.
std::vector<MoneyMove> moves(const NetInputs& inputs, double u_gain_t_ha, double gain_times, double price_u_cents_t,
                             double other_times) {
    std::vector<MoneyMove> out;
    out.push_back(moved(inputs, spoken().advice.yield_difference, gain_times * u_gain_t_ha,
                        [](NetInputs& in, double step) { in.gain_t_ha += step; }));
    if (price_u_cents_t > 0.0)
        out.push_back(moved(inputs, spoken().advice.price, other_times * price_u_cents_t,
                            [](NetInputs& in, double step) { in.price_cents_t += step; }));
    for (std::size_t i = 0; i < inputs.costs.size(); ++i) {
        const CostItem& item = *inputs.costs[i].item;
        if (item.u <= 0.0) continue;
        const std::string what = item.method.empty() ? item.item
                                                     : fill(spoken().advice.item_of, fmt::arg("item", item.item),
                                                            fmt::arg("method", item.method));
        out.push_back(
            moved(inputs, what, other_times * item.u, [i](NetInputs& in, double step) { in.amounts[i] += step; }));
    }
    return out;
}

/// JCGM 100:2008, G.4 (Welch-Satterthwaite): only the yield difference has few degrees of freedom.
double effective_df(double u_all, double u_gain, double df_gain) {
    if (!(u_gain > 0.0)) return no_df_limit;
    return df_gain * std::pow(u_all / u_gain, 4.0);
}

} // namespace

double cost_cents_ha(const CostItem& item, double amount, double yield_t_ha, double price_cents_t,
                     const WetGrain& grain) {
    switch (item.per) {
    case MoneyPer::area:
        return amount * m2_per_hectare;
    case MoneyPer::hour:
        return amount / item.work_m2_s * m2_per_hectare;
    case MoneyPer::once:
        return amount / item.over_m2 * m2_per_hectare;
    case MoneyPer::mass: {
        double tonnes = yield_t_ha;
        if (item.kind == CostKind::drying) tonnes *= item.per_point ? grain.point_tonnes : grain.share_wet;
        return amount * kg_per_tonne * tonnes;
    }
    case MoneyPer::share_of_price:
        if (item.kind == CostKind::trampling)
            return item.in_yield ? 0.0 : item.crushed_share * yield_t_ha * price_cents_t;
        return amount * yield_t_ha * price_cents_t;
    }
    return 0.0;
}

double net_cents_ha(const NetInputs& in) {
    return in.price_cents_t * in.gain_t_ha - costs_cents_ha(in, true) + costs_cents_ha(in, false);
}

void fill_net(NetDifference& out, const NetInputs& inputs, double u_gain_t_ha, double df, double price_u_cents_t) {
    const double net = net_cents_ha(inputs);
    NetInputs no_gain = inputs, one_more = inputs;
    no_gain.gain_t_ha = 0.0;
    one_more.gain_t_ha = 1.0;
    const double at_zero = net_cents_ha(no_gain), slope = net_cents_ha(one_more) - at_zero;
    out.extra_cost_cents_ha = -at_zero;
    out.worth_cents_t = slope;
    if (slope > 0.0) out.break_even_t_ha = -at_zero / slope;
    double square = 0.0;
    for (const MoneyMove& move : moves(inputs, u_gain_t_ha, 1.0, price_u_cents_t, 1.0))
        square += std::pow(0.5 * move.swing_cents_ha(), 2.0);
    out.net_cents_ha = net;
    out.u_cents_ha = std::sqrt(square);
    out.df = effective_df(*out.u_cents_ha, slope * u_gain_t_ha, df);
    const double half = t95(*out.df) * *out.u_cents_ha;
    out.ci95_cents_ha = Interval{net - half, net + half};
    out.tornado = moves(inputs, u_gain_t_ha, t95(df), price_u_cents_t, normal95);
    std::stable_sort(out.tornado.begin(), out.tornado.end(),
                     [](const MoneyMove& a, const MoneyMove& b) { return a.swing_cents_ha() > b.swing_cents_ha(); });
    if (!(*out.u_cents_ha > 0.0)) {
        out.why_no_chance = spoken().advice.nothing_unsure;
        return;
    }
    out.p_pays = chance_above_zero(net, *out.u_cents_ha, *out.df);
    if (*out.df > 1.0) out.regret_cents_ha = expected_regret(net, *out.u_cents_ha, *out.df);
}

} // namespace planning
} // namespace quartercut
