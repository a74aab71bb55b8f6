// SPDX-License-Identifier: MIT
#include "plan/outlook.hpp"

#include "base/text.hpp"
#include "plan/chances.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::planning {
namespace {

bool is_replicated(const std::string& evidence) { return evidence.rfind("replicated", 0) == 0; }

const FarmContrast* replicated_row(const Comparison& comparison, const std::string& method) {
    for (const FarmContrast& row : comparison.farm)
        if (row.method == method && is_replicated(row.evidence) && row.gain_t_ha &&
            row.finding != Finding::not_comparable)
            return &row;
    return nullptr;
}

const NetDifference* money_row(const std::optional<MoneyResult>& money, const FarmContrast& farm) {
    if (!money) return nullptr;
    for (const NetDifference& row : money->farm)
        if (row.method == farm.method && row.evidence == farm.evidence && row.net_cents_ha) return &row;
    return nullptr;
}

/// From the prediction interval where there is one, else from a spread the grower gives.
void fill_spread(FarmView& view, const NextYearInput& next) {
    const FarmContrast& farm = *view.farm;
    const double df = farm.df.value_or(1.0);
    const std::optional<double> u = farm.u_total_t_ha ? farm.u_total_t_ha : farm.se_t_ha;
    if (farm.prediction95_t_ha) {
        view.df_next = df;
        view.sd_next_t_ha = 0.5 * ((*farm.prediction95_t_ha)[1] - (*farm.prediction95_t_ha)[0]) / t95(df);
    } else if (next.spread_t_ha && u) {
        view.df_next = farm.df_total.value_or(df);
        view.sd_next_t_ha = std::hypot(*u, *next.spread_t_ha);
    } else {
        view.why_unknown = "too few fields were in the trial to say what the next one will do; give spread under "
                           "[next_year] if you know how much fields differ";
    }
    view.spread_t_ha = farm.tau_t_ha ? farm.tau_t_ha : next.spread_t_ha;
}

/// Error of the money other than from the yield difference: prices and costs.
double other_u_cents_ha(const NetDifference& net, const FarmContrast& farm) {
    const std::optional<double> u = farm.u_total_t_ha ? farm.u_total_t_ha : farm.se_t_ha;
    const double from_gain = net.worth_cents_t.value_or(0.0) * u.value_or(0.0);
    const double all = net.u_cents_ha.value_or(0.0);
    return std::sqrt(std::max(0.0, all * all - from_gain * from_gain));
}

bool says_yes(const SuitabilityNote& note, const std::string& value) {
    const std::string word = lower(trim(value));
    if (!note.words.empty()) return std::find(note.words.begin(), note.words.end(), word) != note.words.end();
    static const std::vector<std::string> yes{"yes", "y", "true", "1", "x", "high"};
    return std::find(yes.begin(), yes.end(), word) != yes.end();
}

} // namespace

FarmView farm_view(const std::string& method, const NextYearInput& next, const Comparison& comparison,
                   const std::optional<MoneyResult>& money) {
    FarmView view;
    view.method = method;
    view.farm = replicated_row(comparison, method);
    if (view.farm == nullptr) {
        view.why_unknown = "no replicated trial of this season says what it yields";
        return view;
    }
    fill_spread(view, next);
    view.net = money_row(money, *view.farm);
    return view;
}

Outlook outlook_of(const FarmView& view) {
    Outlook out;
    out.method = view.method;
    out.why_unknown = view.why_unknown;
    if (view.farm == nullptr) return out;
    out.gain_t_ha = view.farm->gain_t_ha;
    if (!view.sd_next_t_ha) return out;
    const double half = t95(view.df_next) * *view.sd_next_t_ha;
    out.prediction95_t_ha = Interval{*out.gain_t_ha - half, *out.gain_t_ha + half};
    if (view.net == nullptr) {
        out.why_unknown = "it is not priced";
        return out;
    }
    const double from_gain = *view.net->worth_cents_t * *view.sd_next_t_ha;
    const double u = std::hypot(from_gain, other_u_cents_ha(*view.net, *view.farm));
    const double df = view.df_next * std::pow(u / std::max(1e-12, from_gain), 4.0);
    out.net_cents_ha = view.net->net_cents_ha;
    out.break_even_t_ha = view.net->break_even_t_ha;
    out.p_pays = chance_above_zero(*out.net_cents_ha, u, df);
    if (df > 1.0) out.shortfall_cents_ha = expected_shortfall(*out.net_cents_ha, u, df);
    return out;
}

Suitability suitability_of(const Season& season, const RawArea& area) {
    Suitability out;
    for (const SuitabilityNote& note : season.next_year->notes) {
        const auto value = area.attributes.find(note.column);
        if (value == area.attributes.end() || !says_yes(note, value->second)) continue;
        out.notes.push_back(fmt::format("{} speaks for {}", note.because, note.favours));
        out.favoured.push_back(season.method_code(note.favours));
    }
    return out;
}

} // namespace quartercut::planning
