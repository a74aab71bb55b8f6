// SPDX-License-Identifier: MIT
// Money beside the yields: net difference, break-even, chance that it pays, what matters most, what is not priced.
#include "report/plan_parts.hpp"
#include "report/telling.hpp"

#include <cmath>
#include <set>

namespace quartercut::report {
namespace {

using fmt::arg;

/// A net difference is a fact of this season only where its range leaves 0 out.
bool is_shown(const NetDifference& net) {
    return net.ci95_cents_ha && ((*net.ci95_cents_ha)[0] > 0.0 || (*net.ci95_cents_ha)[1] < 0.0);
}

/// A few fields can tell likely from sure no better than this.
std::string net_clause(const Telling& telling, const NetDifference& net) {
    const auto& words = telling.words.money;
    const Season& season = telling.season();
    const bool less = *net.net_cents_ha < 0.0;
    const char* shown = less ? words.brought_less : words.brought_more;
    const char* guessed = less ? words.would_bring_less : words.would_bring_more;
    std::string range;
    if (net.ci95_cents_ha)
        range = fill(words.range, arg("low", per_land(season, (*net.ci95_cents_ha)[0])),
                     arg("high", per_land(season, (*net.ci95_cents_ha)[1])));
    return fill(is_shown(net) ? shown : guessed, arg("method", net.method),
                arg("size", per_land(season, std::abs(*net.net_cents_ha))), arg("land", land_word(season)),
                arg("baseline", net.baseline), arg("range", range));
}

std::string net_sentence(const Telling& telling, const NetDifference& net) {
    const auto& words = telling.words.money;
    const Season& season = telling.season();
    std::string text = net_clause(telling, net);
    if (net.break_even_t_ha)
        text += fill(words.break_even, arg("size", telling.figures.both(*net.break_even_t_ha, true)));
    if (net.p_pays)
        text += fill(words.pays, arg("chance", chance_of_100(*net.p_pays)));
    else if (!net.why_no_chance.empty())
        text += fill(words.no_chance, arg("why", net.why_no_chance));
    if (!net.regret_cents_ha) return text;
    const std::string size = per_land(season, net.regret_cents_ha);
    if (size == per_land(season, 0.0)) return text + words.regret_nothing;
    return text + fill(words.regret, arg("size", size), arg("land", land_word(season)));
}

Table costs_table(const Telling& telling, const NetDifference& net) {
    const auto& words = telling.words.money;
    Table table{"money-costs", words.costs_table, {words.item, words.way, words.as_given, words.source}, {}, 4};
    table.headings.push_back(fill(words.per_land, arg("land", land_word(telling.season()))));
    for (const CostLine& line : net.lines)
        table.rows.push_back({line.item, label_of(telling.season(), line.method), line.written,
                              fill(words.source_and_day, arg("source", line.source), arg("day", line.as_of)),
                              per_land(telling.season(), line.cents_ha)});
    return table;
}

Table tornado_table(const Telling& telling, const NetDifference& net) {
    const auto& words = telling.words.money;
    Table table{"money-tornado", words.tornado_table, {words.moved, words.low_end, words.high_end}, {}, 1};
    for (const MoneyMove& move : net.tornado)
        table.rows.push_back(
            {move.what, per_land(telling.season(), move.low_cents_ha), per_land(telling.season(), move.high_cents_ha)});
    return table;
}

Table fields_table(const Telling& telling, const MoneyResult& money) {
    const auto& words = telling.words.money;
    const Season& season = telling.season();
    Table table{"money-fields", words.fields_table, {words.field, words.way, words.evidence}, {}, 3};
    append(table.headings, {fill(words.net_per_land, arg("land", land_word(season))), words.likely_from,
                            words.likely_to, words.whole_field, words.pays_of_100});
    for (const NetDifference& net : money.fields) {
        const auto end = [&](std::size_t i) {
            return per_land(season, net.ci95_cents_ha ? std::optional((*net.ci95_cents_ha)[i]) : std::nullopt);
        };
        const auto whole =
            net.net_field_cents ? std::optional(static_cast<double>(*net.net_field_cents)) : std::nullopt;
        table.rows.push_back({net.field, label_of(season, net.method), evidence_short(net.evidence),
                              per_land(season, net.net_cents_ha), end(0), end(1), money_text(whole, 0),
                              net.p_pays ? chance_of_100(*net.p_pays) : words.not_stated});
    }
    return table;
}

/// The rows that are told in sentences: the farm's; the fields' where the farm has none.
const std::vector<NetDifference>& told(const MoneyResult& money) {
    return money.farm.empty() ? money.fields : money.farm;
}

std::string who(const NetDifference& net) {
    return net.field.empty() ? capital(evidence_short(net.evidence)) : net.field;
}

/// The best evidence leads, the others stand quieter below it. Why nothing can be said is said once.
void write_nets(Html& html, const Telling& telling, const MoneyResult& money) {
    std::set<std::string> reasons;
    const std::string* leading = nullptr;
    for (const NetDifference& net : told(money)) {
        if (!net.net_cents_ha) {
            reasons.insert(net.why_no_chance);
            continue;
        }
        if (leading == nullptr) leading = &net.evidence;
        html.leaf("p", fill(telling.words.plan.label, arg("what", who(net)), arg("text", net_sentence(telling, net))),
                  {{"class", net.evidence == *leading ? "said" : "raw"}});
    }
    for (const std::string& why : reasons)
        if (!why.empty()) html.leaf("p", fill(telling.words.money.not_said, arg("why", why)));
}

} // namespace

std::string money_line(const Telling& telling) {
    const auto& money = telling.results.plan.money;
    if (!money) return {};
    const auto& words = telling.words.money;
    for (const NetDifference& net : told(*money)) {
        if (!net.net_cents_ha) continue;
        const std::string where = net.field.empty() ? std::string(words.line_farm) : net.field;
        return fill(words.line, arg("who", where), arg("text", net_clause(telling, net)));
    }
    return {};
}

void write_money(Html& html, const Telling& telling) {
    const auto& money = telling.results.plan.money;
    if (!money) return;
    const auto& words = telling.words.money;
    const auto section = html.in("section", {{"id", "money"}, {"aria-labelledby", "money-heading"}});
    html.leaf("h2", telling.words.plan.money, {{"id", "money-heading"}});
    write_nets(html, telling, *money);
    const std::string currency = money->currency == "$" ? words.dollars : money->currency;
    html.leaf("p", fill(words.note, arg("currency", currency)), {{"class", "note"}});
    if (!money->gaps.empty()) {
        html.leaf("h3", words.not_priced);
        write_list(html, money->gaps);
    }
    const NetDifference* shown = told(*money).empty() ? nullptr : &told(*money).front();
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
