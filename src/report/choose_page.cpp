// SPDX-License-Identifier: MIT
// Next year's fields on one page: the plan, the trials, every field with its reasons.
#include "quartercut/report_plan.hpp"
#include "report/plan_parts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace quartercut {
namespace report {
namespace {

std::string label(const Season& season, const std::string& method) {
    const int code = season.method_code(method);
    return code < 0 ? method : season.methods[static_cast<std::size_t>(code)].label;
}

std::string summary(const Choice& choice, const Season& season) {
    std::string text;
    for (const MethodShare& share : choice.shares)
        text +=
            fmt::format("{}{}: {} {}s, {} %", text.empty() ? "" : "; ", label(season, share.method),
                        fixed(land_areas(season, share.area_ha), 0), land_word(season), fixed(100.0 * share.share, 0));
    text += ".";
    if (choice.plan_value_cents)
        text += fmt::format(" Expected to bring {} more than cutting all of it the baseline's way, dislike of loss and "
                            "notes taken into account.",
                            money_text(choice.plan_value_cents, 0));
    return text;
}

void write_trials(Html& html, const Choice& choice) {
    html.leaf("h2", "Where to learn more");
    std::vector<std::string> names;
    for (const CandidateField& field : choice.fields)
        if (field.trial) names.push_back(field.name);
    if (!choice.trials_value_cents) {
        html.leaf("p", "No set of trial fields is picked; see what is missing below.");
        return;
    }
    if (names.empty()) {
        html.leaf("p", "No trial is worth its cost: what it could teach would not change enough.");
        return;
    }
    html.leaf(
        "p", fmt::format("Strips in {}: together they are expected to be worth {} for better decisions, and cost {}.{}",
                         fmt::join(names, ", "), money_text(choice.trials_value_cents, 0),
                         money_text(choice.trials_cost_cents, 0),
                         choice.checked_all_sets ? " Every other set was looked at; none is better." : ""));
}

Table fields_table(const Choice& choice, const Season& season) {
    const Figures figures(season);
    Table table{"fields-plan", "Fields", {"Field", "Proposed", "Variety"}, {}, 3};
    for (const std::string& heading :
         {fmt::format("{}s", land_word(season)), fmt::format("Expected ({})", figures.unit()),
          std::string("A field like these"), fmt::format("Net per {}", land_word(season)), std::string("Pays, of 100"),
          std::string("A trial is worth"), std::string("Combine from")})
        table.headings.push_back(heading);
    for (const CandidateField& field : choice.fields)
        for (const Outlook& o : field.outlooks)
            table.rows.push_back(
                {field.name, label(season, field.method), field.variety, fixed(land_areas(season, field.area_ha), 0),
                 o.gain_t_ha ? with_sign(figures.in_unit(*o.gain_t_ha), 1) : "not known",
                 o.prediction95_t_ha ? fmt::format("{} to {}", with_sign(figures.in_unit((*o.prediction95_t_ha)[0]), 1),
                                                   with_sign(figures.in_unit((*o.prediction95_t_ha)[1]), 1))
                                     : "not known",
                 per_land(season, o.net_cents_ha), o.p_pays ? fixed(100.0 * *o.p_pays, 0) : "not known",
                 money_text(field.trial_value_cents, 0), field.combine_from.value_or("")});
    return table;
}

} // namespace
} // namespace report

std::string choice_html(const Choice& choice, const Season& season) {
    using namespace report;
    return plain_page(fmt::format("Which way to cut in {}", choice.year), season.title, [&](Html& html) {
        html.leaf("p", summary(choice, season), {{"class", "answer"}});
        write_list(html, choice.notes);
        write_trials(html, choice);
        write_table(html, fields_table(choice, season));
        html.leaf("h2", "Field by field");
        for (const CandidateField& field : choice.fields) {
            html.leaf("h3", fmt::format("{}: {}", field.name, label(season, field.method)));
            write_list(html, field.reasons);
            if (!field.would_change.empty()) html.leaf("p", "What would change it:", {{"class", "note"}});
            write_list(html, field.would_change);
        }
        if (!choice.gaps.empty()) {
            html.leaf("h2", "What is missing");
            write_list(html, choice.gaps);
        }
        if (!choice.skipped.empty()) {
            html.leaf("h2", "Left out");
            write_list(html, choice.skipped);
        }
        html.leaf("h2", "Cautions");
        write_list(html,
                   {label_caution,
                    "The plan knows only what the season file tells it. Ripeness, weeds, hail and the weather of the "
                    "week decide in the field.",
                    "Where hail or wind insurance is in play, call the adjuster before combining and leave the check "
                    "strips they ask for."},
                   "cautions");
    });
}

} // namespace quartercut
