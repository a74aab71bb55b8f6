// SPDX-License-Identifier: MIT
// The choice in money of the whole farm: the plan, all of one way, and what each limit takes.
#include "quartercut/report_plan.hpp"
#include "report/plan_parts.hpp"
#include "report/telling.hpp"

namespace quartercut {
namespace report {
namespace {

using fmt::arg;

constexpr double nothing_cents = 100.0; // under a dollar

std::string chance_of(const OneWay& way) {
    if (!way.p_ahead) return {};
    return fill(spoken().choice.ahead, arg("chance", chance_of_100(*way.p_ahead)));
}

std::string one_way_sentence(const OneWay& way, const Season& season) {
    const auto& words = spoken().choice;
    const std::string allowed = way.within_limits ? "" : words.not_allowed;
    const std::string label = label_of(season, way.method);
    if (way.method == season.baseline) return fill(words.all_baseline, arg("way", label), arg("allowed", allowed));
    if (!way.expected_cents) return fill(words.all_unpriced, arg("way", label), arg("allowed", allowed));
    return fill(words.all_one_way, arg("way", label), arg("amount", money_text(way.expected_cents, 0)),
                arg("baseline", label_of(season, season.baseline)), arg("ahead", chance_of(way)),
                arg("allowed", allowed));
}

std::string limit_sentence(const LimitCost& limit) {
    const auto& words = spoken().choice;
    if (limit.cost_cents < nothing_cents) return fill(words.limit_free, arg("limit", limit.limit));
    return fill(words.limit_costs, arg("limit", limit.limit), arg("amount", money_text(limit.cost_cents, 0)));
}

void add_limits(const Choice& choice, const Season& season, std::vector<std::string>& out) {
    const auto& words = spoken().choice;
    for (const LimitCost& limit : choice.limits)
        out.push_back(limit_sentence(limit));
    if (choice.all_limits_cents)
        out.push_back(*choice.all_limits_cents < nothing_cents
                          ? words.limits_free
                          : fill(words.limits_cost, arg("amount", money_text(choice.all_limits_cents, 0))));
    const bool more_than_money = season.next_year->risk > 0.0 || season.next_year->note_cents_m2;
    if (!choice.limits.empty() && more_than_money) out.emplace_back(words.counted_too);
}

} // namespace
} // namespace report

std::vector<std::string> farm_choice_sentences(const Choice& choice, const Season& season) {
    using namespace report;
    std::vector<std::string> out;
    if (!choice.plan_money_cents) return out;
    out.push_back(fill(spoken().choice.plan_brings, arg("amount", money_text(choice.plan_money_cents, 0)),
                       arg("baseline", label_of(season, season.baseline))));
    for (const OneWay& way : choice.one_way)
        out.push_back(one_way_sentence(way, season));
    add_limits(choice, season, out);
    return out;
}

} // namespace quartercut
