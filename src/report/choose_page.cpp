// SPDX-License-Identifier: MIT
// Next year's fields on one page: the plan, the trials, every field with its reasons.
#include "quartercut/report_plan.hpp"
#include "report/plan_parts.hpp"
#include "report/telling.hpp"

#include <algorithm>

#include <fmt/ranges.h>

namespace quartercut {
namespace report {
namespace {

using fmt::arg;

/// What the season file allows of that way, since the proposal stops there whatever the money says.
std::string limits_of(const Season& season, const std::string& method) {
    if (!season.next_year) return {};
    for (const MethodLimits& limits : season.next_year->methods)
        if (limits.method == method && (limits.share_low > 0.0 || limits.share_high < 1.0))
            return fill(spoken().choice.limits, arg("low", fixed(100.0 * limits.share_low, 0)),
                        arg("high", fixed(100.0 * limits.share_high, 0)));
    return {};
}

std::string summary(const Choice& choice, const Season& season) {
    const auto& words = spoken().choice;
    std::vector<std::string> shares;
    for (const MethodShare& share : choice.shares)
        shares.push_back(fill(words.share, arg("way", label_of(season, share.method)),
                              arg("area", fixed(land_areas(season, share.area_ha), 0)),
                              arg("lands", lands_word(season)), arg("share", fixed(100.0 * share.share, 0))) +
                         limits_of(season, share.method));
    std::string text = fmt::format("{}.", fmt::join(shares, "; "));
    if (choice.plan_value_cents)
        text += fill(words.value, arg("amount", money_text(choice.plan_value_cents, 0)),
                     arg("baseline", label_of(season, season.baseline)));
    return text;
}

void write_trials(Html& html, const Choice& choice) {
    const auto& words = spoken().choice;
    html.leaf("h2", words.trials);
    std::vector<std::string> names;
    for (const CandidateField& field : choice.fields)
        if (field.trial) names.push_back(field.name);
    if (!choice.trials_value_cents) return html.leaf("p", words.no_set);
    if (names.empty()) return html.leaf("p", words.none_worth);
    std::string text = fill(words.strips_in, arg("fields", fmt::format("{}", fmt::join(names, ", "))),
                            arg("worth", money_text(choice.trials_value_cents, 0)),
                            arg("cost", money_text(choice.trials_cost_cents, 0)));
    if (choice.checked_all_sets) text += words.all_sets;
    html.leaf("p", text);
}

std::vector<std::string> outlook_row(const CandidateField& field, const Outlook& o, const Season& season) {
    const Figures figures(season);
    std::optional<double> gain;
    std::optional<Interval> next;
    if (o.gain_t_ha) gain = figures.in_unit(*o.gain_t_ha);
    if (o.prediction95_t_ha)
        next = {figures.in_unit((*o.prediction95_t_ha)[0]), figures.in_unit((*o.prediction95_t_ha)[1])};
    return {field.name,
            label_of(season, field.method),
            field.variety,
            fixed(land_areas(season, field.area_ha), 0),
            gain ? with_sign(*gain, 1) : or_unknown(gain, 1),
            range_or_unknown(next, 1, true),
            per_land(season, o.net_cents_ha),
            o.p_pays ? chance_of_100(*o.p_pays) : or_unknown(std::nullopt, 0),
            money_text(field.trial_value_cents, 0),
            field.combine_from.value_or("")};
}

Table fields_table(const Choice& choice, const Season& season) {
    const auto& words = spoken().choice;
    Table table{"fields-plan", words.fields, {words.field, words.proposed, words.variety}, {}, 3};
    append(table.headings,
           {capital(lands_word(season)), fill(words.expected, arg("unit", Figures(season).unit())), words.like_these,
            fill(words.net, arg("land", land_word(season))), words.pays, words.trial_worth, words.combine_from});
    for (const CandidateField& field : choice.fields)
        for (const Outlook& o : field.outlooks)
            table.rows.push_back(outlook_row(field, o, season));
    const auto is_blank = [](const auto& row) { return row.back().empty(); };
    if (std::all_of(table.rows.begin(), table.rows.end(), is_blank)) { // no day is known for any field
        table.headings.pop_back();
        for (auto& row : table.rows)
            row.pop_back();
    }
    return table;
}

void write_candidates(Html& html, const Choice& choice, const Season& season) {
    const auto& words = spoken().choice;
    html.leaf("h2", words.field_by_field);
    for (const CandidateField& field : choice.fields) {
        const auto alone = html.in("article", {{"class", "alone"}});
        html.leaf("h3",
                  fill(spoken().plan.label, arg("what", field.name), arg("text", label_of(season, field.method))));
        write_list(html, field.reasons);
        if (!field.would_change.empty()) html.leaf("p", words.would_change, {{"class", "note"}});
        write_list(html, field.would_change);
    }
}

void write_headed(Html& html, const char* heading, const std::vector<std::string>& items) {
    if (!items.empty()) html.leaf("h2", heading);
    write_list(html, items);
}

} // namespace
} // namespace report

std::string choice_html(const Choice& choice, const Season& season) {
    using namespace report;
    const auto& words = spoken().choice;
    return plain_page(fill(words.title, arg("year", choice.year)), season.title, [&](Html& html) {
        html.leaf("p", summary(choice, season), {{"class", "answer"}});
        write_headed(html, words.whole_farm, farm_choice_sentences(choice, season));
        write_list(html, choice.notes);
        write_trials(html, choice);
        write_table(html, fields_table(choice, season));
        write_candidates(html, choice, season);
        write_headed(html, words.missing, choice.gaps);
        write_headed(html, words.left_out, choice.skipped);
        html.leaf("h2", words.cautions);
        write_list(html, {spoken().plan.label_caution, words.plan_caution, words.insurance_caution}, "cautions");
    });
}

} // namespace quartercut
