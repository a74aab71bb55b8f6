// SPDX-License-Identifier: MIT
// Next year's fields: where a trial teaches most, and which way to cut the rest under the farm's limits, with reasons.
#pragma once

#include "quartercut/plan_layout.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// What the farm's results say to expect of one method in one field next year.
struct Outlook {
    std::string method; ///< against the baseline
    std::optional<double> gain_t_ha;
    std::optional<Interval> prediction95_t_ha; ///< for a field like these, instruments' errors in it
    std::optional<double> net_cents_ha, p_pays, break_even_t_ha;
    std::optional<double> shortfall_cents_ha; ///< expected loss, where it does not pay
    std::string why_unknown;                  ///< why there is no prediction
    std::string rests_on;                     ///< how many fields and years it comes from, in words
    int years = 0;                            ///< 0: nothing known; from 2 on the range holds how years differ
};

struct CandidateField {
    std::string name, variety;
    MultiPolygon shape_deg;
    double area_ha = 0.0;
    std::vector<Outlook> outlooks;       ///< one per method but the baseline
    std::vector<std::string> notes;      ///< what speaks for which way, from the grower's columns
    std::optional<double> trial_se_t_ha; ///< error of a trial here
    std::string trial_precision_from;
    std::optional<double> trial_value_cents; ///< alone, before its cost
    bool trial = false;
    std::string method;                                  ///< proposed; of a trial field: both
    std::optional<double> margin_cents;                  ///< what the plan loses if this field is cut the other way
    std::optional<double> margin_without_shares_cents;   ///< the same without share limits; unset where there are none
    std::optional<std::string> combine_from, combine_to; ///< days, where readiness and capacity are given
    std::vector<std::string> reasons, would_change;
};

struct MethodShare {
    std::string method;
    double area_ha = 0.0, share = 0.0;
};

/// All of next year's land cut one way, whatever the limits say.
struct OneWay {
    std::string method;
    std::optional<double> expected_cents; ///< over cutting all of it the baseline's way
    std::optional<double> p_ahead; ///< chance that the whole of it ends ahead of the baseline; unset for that one
    bool within_limits = false;
};

/// What one limit of the season file takes from the plan: the best plan without it, less the plan.
struct LimitCost {
    std::string limit; ///< in words: "at least 30 % swathed"
    double cost_cents = 0.0;
};

struct Choice {
    int year = 0;
    std::string currency, method, baseline; ///< the two a trial would compare
    std::vector<CandidateField> fields;
    std::vector<MethodShare> shares;
    std::optional<double> plan_value_cents; ///< expected, over cutting all of it the baseline's way
    std::optional<double> plan_money_cents; ///< the same in money alone: no notes, no dislike of loss in it
    std::vector<OneWay> one_way;            ///< as the season file lists the methods; empty where nothing is priced
    std::vector<LimitCost> limits;          ///< empty where nothing is priced or no limit is set
    std::optional<double> all_limits_cents; ///< of all of them together, where there are several
    std::optional<double> trials_value_cents, trials_cost_cents;
    bool greedy_was_best = true; ///< the exact check found no better set
    bool checked_all_sets = false;
    std::vector<std::string> gaps, notes, skipped;
};

/// With [history] results the prediction rests on all years: they are read here unless `comparison` holds them.
/// \pre season.next_year  \throws InputError  no candidate fields, limits that cannot be met
[[nodiscard]] Choice choose_fields(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                                   const std::vector<ZonedField>& zoned, const Comparison& comparison,
                                   const std::optional<MoneyResult>& money, const Candidates& candidates);

} // namespace quartercut
