// SPDX-License-Identifier: MIT
#include "plan/outlook.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "plan/chances.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::planning {
namespace {

bool is_replicated(const std::string& evidence) { return evidence.rfind("replicated", 0) == 0; }

const FarmContrast* replicated_row(const std::vector<FarmContrast>& rows, const std::string& method,
                                   const std::string& baseline) {
    for (const FarmContrast& row : rows)
        if (row.baseline == baseline && row.method == method && is_replicated(row.evidence) && row.gain_t_ha &&
            row.finding != Finding::not_comparable)
            return &row;
    return nullptr;
}

/// The priced row nearest in kind: prices and costs belong to the method, whatever its yield was found by.
const NetDifference* priced_row(const MoneyResult& money, const FarmContrast& farm) {
    const NetDifference* other = nullptr;
    for (const auto* rows : {&money.farm, &money.fields})
        for (const NetDifference& row : *rows) {
            if (row.method != farm.method || row.baseline != farm.baseline) continue;
            if (!row.net_cents_ha || !row.gain_t_ha || !row.worth_cents_t) continue;
            if (rows == &money.farm && row.evidence == farm.evidence) return &row;
            if (other == nullptr) other = &row;
        }
    return other;
}

/// Error of the money other than from the yield difference: prices and costs.
double other_u_cents_ha(const NetDifference& net, double u_gain_t_ha) {
    const double from_gain = *net.worth_cents_t * u_gain_t_ha;
    const double all = net.u_cents_ha.value_or(0.0);
    return std::sqrt(std::max(0.0, all * all - from_gain * from_gain));
}

/// Error of the gain the money was worked out with.
double priced_u_t_ha(const Comparison& comparison, const NetDifference& net) {
    for (const FarmContrast& row : comparison.farm)
        if (net.field.empty() && row.method == net.method && row.evidence == net.evidence) return total_u_t_ha(row);
    for (const FieldComparison& field : comparison.fields)
        for (const Contrast& c : field.contrasts)
            if (field.name == net.field && c.method == net.method && c.baseline == net.baseline && !c.stratum)
                return c.u_total_t_ha ? *c.u_total_t_ha : c.se_t_ha.value_or(0.0);
    return 0.0;
}

/// This season's prices at the gain of all years: the net moves by the worth of the tonnes between the two gains.
std::optional<NetDifference> money_at(const std::optional<MoneyResult>& money, const Comparison& comparison,
                                      const FarmContrast& farm) {
    const NetDifference* priced = money ? priced_row(*money, farm) : nullptr;
    if (priced == nullptr) return std::nullopt;
    NetDifference out = *priced;
    const double other = other_u_cents_ha(*priced, priced_u_t_ha(comparison, *priced));
    *out.net_cents_ha += *out.worth_cents_t * (*farm.gain_t_ha - *priced->gain_t_ha);
    out.gain_t_ha = farm.gain_t_ha;
    out.u_cents_ha = std::hypot(other, *out.worth_cents_t * total_u_t_ha(farm));
    return out;
}

struct MoneyError {
    double u_cents_ha = 0.0, df = 1.0;
};

/// Error of the money where the gain has that standard uncertainty: prices and costs add theirs.
MoneyError money_error(const FarmView& view, double sd_t_ha) {
    const double from_gain = *view.net->worth_cents_t * sd_t_ha;
    const double u = std::hypot(from_gain, other_u_cents_ha(*view.net, total_u_t_ha(*view.farm)));
    return {u, view.df_next * std::pow(u / std::max(1e-12, from_gain), 4.0)};
}

std::string rests_on_words(const FarmContrast& farm) {
    const auto& words = spoken().advice;
    const bool one = farm.fields == 1;
    if (farm.years > 1)
        return fill(one ? words.fields_years_one : words.fields_years, fmt::arg("fields", farm.fields),
                    fmt::arg("years", farm.years));
    return fill(one ? words.fields_one_year_one : words.fields_one_year, fmt::arg("fields", farm.fields));
}

/// From the prediction interval where there is one, else from a spread the grower gives.
void fill_spread(FarmView& view, const NextYearInput& next) {
    const FarmContrast& farm = *view.farm;
    const double df = farm.df.value_or(1.0);
    const bool has_u = farm.u_total_t_ha || farm.se_t_ha;
    const double between_years = farm.between_years_t_ha.value_or(0.0);
    if (farm.prediction95_t_ha) {
        view.df_next = df;
        view.sd_next_t_ha = 0.5 * ((*farm.prediction95_t_ha)[1] - (*farm.prediction95_t_ha)[0]) / t95(df);
    } else if (next.spread_t_ha && has_u) {
        // Two years tell little of how years differ: one degree of freedom, whatever the instruments' are.
        view.df_next = farm.years > 1 ? df : farm.df_total.value_or(df);
        view.sd_next_t_ha = std::hypot(total_u_t_ha(farm), *next.spread_t_ha, between_years);
    } else if (farm.years > 1) {
        view.why_unknown = spoken().advice.two_years;
    } else {
        view.why_unknown = spoken().advice.few_fields;
    }
    view.spread_t_ha = farm.tau_t_ha ? farm.tau_t_ha : next.spread_t_ha;
}

bool says_yes(const SuitabilityNote& note, const std::string& value) {
    const std::string word = lower(trim(value));
    if (!note.words.empty()) return std::find(note.words.begin(), note.words.end(), word) != note.words.end();
    static const std::vector<std::string> yes{"yes", "y", "true", "1", "x", "high"};
    return std::find(yes.begin(), yes.end(), word) != yes.end();
}

} // namespace

double total_u_t_ha(const FarmContrast& farm) {
    if (farm.u_total_t_ha) return *farm.u_total_t_ha;
    return std::hypot(farm.se_t_ha.value_or(0.0), farm.u_shared_t_ha.value_or(0.0));
}

bool money_is_foretold(const std::vector<FarmView>& views) {
    const auto priced = [](const FarmView& v) { return v.net.has_value(); };
    const auto unknown = [](const FarmView& v) { return v.net && !v.is_foretold(); };
    return std::any_of(views.begin(), views.end(), priced) && std::none_of(views.begin(), views.end(), unknown);
}

FarmView farm_view(const Season& season, const std::string& method, const Comparison& comparison,
                   const std::optional<MoneyResult>& money) {
    FarmView view;
    view.method = method;
    view.farm = replicated_row(comparison.seasons, method, season.baseline);
    if (view.farm == nullptr) view.farm = replicated_row(comparison.farm, method, season.baseline);
    if (view.farm == nullptr) {
        view.why_unknown = spoken().advice.no_trial;
        return view;
    }
    const NextYearInput& next = *season.next_year;
    view.rests_on = rests_on_words(*view.farm);
    fill_spread(view, next);
    view.net = money_at(money, comparison, *view.farm);
    return view;
}

double chance_ahead(const FarmView& view, double sd_t_ha) {
    const MoneyError error = money_error(view, sd_t_ha);
    return chance_above_zero(*view.net->net_cents_ha, error.u_cents_ha, error.df);
}

Outlook outlook_of(const FarmView& view) {
    Outlook out;
    out.method = view.method;
    out.why_unknown = view.why_unknown;
    if (view.farm == nullptr) return out;
    out.rests_on = view.rests_on;
    out.years = view.farm->years;
    out.gain_t_ha = view.farm->gain_t_ha;
    if (!view.sd_next_t_ha) return out;
    const double half = t95(view.df_next) * *view.sd_next_t_ha;
    out.prediction95_t_ha = Interval{*out.gain_t_ha - half, *out.gain_t_ha + half};
    if (!view.net) {
        out.why_unknown = spoken().advice.not_priced_way;
        return out;
    }
    const MoneyError error = money_error(view, *view.sd_next_t_ha);
    out.net_cents_ha = view.net->net_cents_ha;
    out.break_even_t_ha = view.net->break_even_t_ha;
    out.p_pays = chance_ahead(view, *view.sd_next_t_ha);
    if (error.df > 1.0) out.shortfall_cents_ha = expected_shortfall(*out.net_cents_ha, error.u_cents_ha, error.df);
    return out;
}

Suitability suitability_of(const Season& season, const RawArea& area) {
    Suitability out;
    for (const SuitabilityNote& note : season.next_year->notes) {
        const auto value = area.attributes.find(note.column);
        if (value == area.attributes.end() || !says_yes(note, value->second)) continue;
        out.notes.push_back(
            fill(spoken().advice.speaks_for, fmt::arg("because", note.because), fmt::arg("method", note.favours)));
        out.favoured.push_back(season.method_code(note.favours));
    }
    return out;
}

} // namespace quartercut::planning
