// SPDX-License-Identifier: MIT
// One field after the other: the answer again, maps, pairs, where the uncertainty comes from, what changing one thing
// does, and the zones with their numbers.
#include "report/closing.hpp"
#include "report/crossing.hpp"
#include "report/field_charts.hpp"
#include "report/map.hpp"
#include "report/meanings.hpp"
#include "report/sections.hpp"
#include "report/sentences.hpp"
#include "report/table.hpp"
#include "report/tokens.hpp"

#include <cmath>
#include <utility>

namespace quartercut::report {
namespace {

using fmt::arg;

std::string field_facts(const Telling& telling, std::size_t index) {
    const auto& standard = telling.results.standardised.fields[index];
    std::vector<std::string> facts;
    const auto& words = telling.words.page;
    for (const auto& [key, pattern] : {std::pair{"legal", words.fact_legal}, std::pair{"variety", words.fact_variety},
                                       std::pair{"seeded", words.fact_seeded}}) {
        const auto found = standard.attributes.find(key);
        if (found != standard.attributes.end() && !found->second.empty())
            facts.push_back(fill(pattern, arg("value", found->second)));
    }
    facts.push_back(fill(words.fact_area, arg("ac", fixed(to_acres(SquareMetres{standard.area_m2}).value(), 1)),
                         arg("ha", fixed(standard.area_m2 / m2_per_hectare, 2))));
    std::size_t used = 0;
    for (const auto removal : telling.results.cleaned.fields[index].removal)
        used += removal == Removal::kept ? 1 : 0;
    facts.push_back(fill(words.fact_records, arg("used", count(used)), arg("all", count(standard.records.size()))));
    return fmt::format("{}", fmt::join(facts, " · "));
}

void write_sentences(Html& html, const Telling& telling, std::size_t index) {
    const auto& field = telling.results.comparison.fields[index];
    bool any = false;
    const std::string reason = shared_reason(telling, field);
    for (const auto& contrast : field.contrasts) {
        any = any || !contrast.stratum;
        leaf_in_both(
            html, "p", telling, [&](const Telling& in) { return field_sentence(in, field, contrast); },
            {{"class", std::string(contrast.stratum ? "stratum " : "said ") + finding_style(contrast.finding)}});
        if (contrast.stratum) continue;
        const auto yields = [&](const Telling& in) { return yields_sentence(in, contrast, reason.empty()); };
        const auto raw = [&](const Telling& in) { return raw_sentence(in, contrast, index); };
        if (!yields(telling).empty()) leaf_in_both(html, "p", telling, yields, {{"class", "raw"}});
        if (!raw(telling).empty()) leaf_in_both(html, "p", telling, raw, {{"class", "raw"}});
    }
    for (const std::string& line : {shared_caution(telling, field), reason}) {
        if (!line.empty()) html.leaf("p", line);
    }
    if (any) return;
    leaf_in_both(html, "p", telling, [&](const Telling& in) { return lone_field_sentence(in, index); },
                 {{"class", "said"}});
}

Table zones_table(const Telling& telling, std::size_t index) {
    const auto& words = telling.words.page;
    const auto& name = telling.results.standardised.fields[index].name;
    Table table{"zones-" + std::to_string(index + 1),
                fill(words.zones_table, arg("field", name)),
                {words.zone, words.method, words.stratum, words.block, std::string(words.area) + " (ac)",
                 std::string(words.area) + " (ha)", words.records, std::string(words.used_area) + " (ac)",
                 std::string(words.used_area) + " (ha)"},
                {},
                4};
    append(table.headings, telling.figures.headings(words.yield));
    table.headings.emplace_back(words.moisture);
    for (const auto& zone : telling.results.zoned[index].zones) {
        const std::string method = zone.method < 0
                                       ? zone_reason_text(zone.reason)
                                       : telling.season().methods[static_cast<std::size_t>(zone.method)].name;
        std::vector<std::string> row = {zone.id,
                                        method,
                                        zone.stratum.value_or(""),
                                        zone.block,
                                        fixed(to_acres(SquareMetres{zone.area_m2}).value(), 2),
                                        fixed(zone.area_m2 / m2_per_hectare, 3),
                                        count(zone.records),
                                        fixed(to_acres(SquareMetres{zone.harvested_m2}).value(), 2),
                                        fixed(zone.harvested_m2 / m2_per_hectare, 3)};
        append(row, telling.figures.cells(zone.yield_t_ha()));
        row.push_back(std::isfinite(zone.moisture_pct) ? fixed(zone.moisture_pct, 1) : "");
        table.rows.push_back(row);
    }
    return table;
}

void write_crossings(Html& html, const Telling& telling, std::size_t index) {
    const auto& words = telling.words.page;
    const auto& field = telling.results.comparison.fields[index];
    for (std::size_t k = 0; k < field.crossings.size(); ++k) {
        const auto& crossing = field.crossings[k];
        write_crossing(
            html, telling, crossing,
            {"crossing-" + std::to_string(index + 1) + "-" + std::to_string(k + 1),
             capital(fill(words.crossing_table, arg("what", crossing_word(crossing.what)), arg("field", field.name)))});
    }
}

void write_drawings(Html& html, const Telling& telling, std::size_t index, const Marks& limit) {
    const auto& field = telling.results.comparison.fields[index];
    write_field_maps(html, telling, index, limit);
    {
        const auto charts = html.in("div", {{"class", "charts"}});
        for (std::size_t k = 0; k < field.contrasts.size(); ++k)
            write_contrast_charts(html, telling, {index, k});
    }
    write_folded_table(html, fill(telling.words.page.zones_table, arg("field", field.name)),
                       zones_table(telling, index));
}

void write_field(Html& html, const Telling& telling, std::size_t index, const Marks& limit) {
    const auto& field = telling.results.comparison.fields[index];
    const std::string id = "field-" + std::to_string(index + 1);
    const auto article = html.in(
        "article",
        {{"id", id}, {"class", is_compared(field) ? "compared" : "alone"}, {"aria-labelledby", id + "-heading"}});
    html.leaf("h3", field.name, {{"id", id + "-heading"}});
    html.leaf("p", field_facts(telling, index), {{"class", "facts"}});
    write_sentences(html, telling, index);
    if (telling.draws_each_field()) write_drawings(html, telling, index, limit);
    write_crossings(html, telling, index);
}

} // namespace

void write_fields(Html& html, const Telling& telling) {
    const auto section = html.in("section", {{"id", "fields"}, {"aria-labelledby", "fields-heading"}});
    html.leaf("h2", telling.words.page.fields, {{"id", "fields-heading"}});
    write_meant(html, telling, {Term::basis, Term::zone, Term::pass, Term::pair});
    if (!telling.draws_each_field())
        html.leaf("p",
                  fill(telling.words.page.many_fields, arg("fields", count(telling.results.comparison.fields.size())),
                       arg("season", telling.season().file.filename().string())));
    write_method_key(html, telling);
    const Marks limit = marks_of_each_field(telling);
    for (std::size_t i = 0; i < telling.results.comparison.fields.size(); ++i)
        write_field(html, telling, i, limit);
}

} // namespace quartercut::report
