// SPDX-License-Identifier: MIT
// Money beside the yields: net difference, break-even, chance that it pays, what matters most, what is not priced.
#include "report/plan_parts.hpp"
#include "report/telling.hpp"

#include <cmath>

namespace quartercut::report {
namespace {

/// A net difference is a fact of this season only where its range leaves 0 out.
bool is_shown(const NetDifference& net) {
    return net.ci95_cents_ha && ((*net.ci95_cents_ha)[0] > 0.0 || (*net.ci95_cents_ha)[1] < 0.0);
}

/// A few fields can tell likely from sure no better than this.
std::string chance_words(double chance) {
    if (chance > 0.95) return "more than 95";
    if (chance < 0.05) return "less than 5";
    return fixed(100.0 * chance, 0);
}

std::string net_sentence(const Telling& telling, const NetDifference& net) {
    const Season& season = telling.season();
    if (!net.net_cents_ha) return fmt::format("{}: {}.", label_of(season, net.method), net.why_no_chance);
    std::string text =
        fmt::format("{} {} {} {} an {} than {} after the costs given", label_of(season, net.method),
                    is_shown(net) ? "brought" : "would have brought", per_land(season, std::abs(*net.net_cents_ha)),
                    *net.net_cents_ha < 0.0 ? "less" : "more", land_word(season), label_of(season, net.baseline));
    if (net.ci95_cents_ha)
        text += fmt::format(" (likely between {} and {})", per_land(season, (*net.ci95_cents_ha)[0]),
                            per_land(season, (*net.ci95_cents_ha)[1]));
    text += is_shown(net) ? "." : ", if the best guess held; that it did is not shown.";
    if (net.break_even_t_ha)
        text += fmt::format(" The two ways come out even at a yield difference of {}.",
                            telling.figures.both(*net.break_even_t_ha, true));
    if (net.p_pays)
        text += fmt::format(" On these figures it pays with a chance of {} in 100.", chance_words(*net.p_pays));
    else if (!net.why_no_chance.empty())
        text += fmt::format(" No chance is stated: {}.", net.why_no_chance);
    if (net.regret_cents_ha)
        text +=
            fmt::format(" Choosing the better-looking way, one would expect to lose {} an {} by its being the wrong "
                        "one.",
                        per_land(season, net.regret_cents_ha), land_word(season));
    return text;
}

Table costs_table(const Telling& telling, const NetDifference& net) {
    Table table{"money-costs", "Costs as they fall on the land", {"Item", "Way", "As given", "Source"}, {}, 4};
    table.headings.push_back(fmt::format("Per {}", land_word(telling.season())));
    for (const CostLine& line : net.lines)
        table.rows.push_back({line.item, label_of(telling.season(), line.method), line.written,
                              fmt::format("{}, {}", line.source, line.as_of),
                              per_land(telling.season(), line.cents_ha)});
    return table;
}

Table tornado_table(const Telling& telling, const NetDifference& net) {
    Table table{"money-tornado",
                "What matters most: the net difference with one thing at the ends of its range",
                {"What is moved", "Low end", "High end"},
                {},
                1};
    for (const MoneyMove& move : net.tornado)
        table.rows.push_back(
            {move.what, per_land(telling.season(), move.low_cents_ha), per_land(telling.season(), move.high_cents_ha)});
    return table;
}

Table fields_table(const Telling& telling, const MoneyResult& money) {
    const Season& season = telling.season();
    Table table{"money-fields", "Field by field", {"Field", "Way", "Evidence"}, {}, 3};
    for (const std::string& heading : {fmt::format("Net per {}", land_word(season)), std::string("Likely from"),
                                       std::string("to"), std::string("Whole field"), std::string("Pays, of 100")})
        table.headings.push_back(heading);
    for (const NetDifference& net : money.fields) {
        const auto end = [&](std::size_t i) {
            return net.ci95_cents_ha ? per_land(season, (*net.ci95_cents_ha)[i]) : std::string("not known");
        };
        const auto whole =
            net.net_field_cents ? std::optional(static_cast<double>(*net.net_field_cents)) : std::nullopt;
        table.rows.push_back({net.field, label_of(season, net.method), evidence_short(net.evidence),
                              per_land(season, net.net_cents_ha), end(0), end(1), money_text(whole, 0),
                              net.p_pays ? chance_words(*net.p_pays) : "not stated"});
    }
    return table;
}

} // namespace

void write_money(Html& html, const Telling& telling) {
    const auto& money = telling.results.plan.money;
    if (!money) return;
    const auto section = html.in("section", {{"id", "money"}, {"aria-labelledby", "money-heading"}});
    html.leaf("h2", telling.words.plan.money, {{"id", "money-heading"}});
    html.leaf("p",
              fmt::format("In {}. Every price and cost is the season file's own, with its day and source.",
                          money->currency == "$" ? "dollars" : money->currency),
              {{"class", "note"}});
    for (const NetDifference& net : money->farm)
        html.leaf("p", capital(evidence_short(net.evidence)) + ": " + net_sentence(telling, net), {{"class", "said"}});
    if (money->farm.empty())
        for (const NetDifference& net : money->fields)
            html.leaf("p", net.field + ": " + net_sentence(telling, net));
    if (!money->gaps.empty()) {
        html.leaf("h3", "Not priced");
        write_list(html, money->gaps);
    }
    const NetDifference* shown = !money->farm.empty()     ? &money->farm.front()
                                 : !money->fields.empty() ? &money->fields.front()
                                                          : nullptr;
    if (shown != nullptr && !shown->tornado.empty()) write_table(html, tornado_table(telling, *shown));
    if (shown != nullptr && !shown->lines.empty()) write_table(html, costs_table(telling, *shown));
    if (!money->fields.empty()) write_table(html, fields_table(telling, *money));
    write_list(html, money->notes);
}

void write_plan(Html& html, const Telling& telling) {
    write_money(html, telling);
    write_losses(html, telling);
    write_weather(html, telling);
}

} // namespace quartercut::report
