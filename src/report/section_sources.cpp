// SPDX-License-Identifier: MIT
// Remarks, settings, inputs with their fingerprints, how to cite, and what the words mean.
#include "report/meanings.hpp"
#include "report/remarks.hpp"
#include "report/sections.hpp"
#include "report/table.hpp"
#include "report/tokens.hpp"

#include <array>
#include <utility>

namespace quartercut::report {
namespace {

using fmt::arg;

// A remark that names no place belongs to the field it was made on.
void add_issues(Issues& all, const Issues& issues, const std::string& field) {
    for (Issue issue : issues) {
        if (issue.where.empty()) issue.where = field;
        all.push_back(std::move(issue));
    }
}

Issues all_remarks(const Results& results) {
    Issues all;
    for (const auto* issues : {&results.standardised.issues, &results.cleaned.issues, &results.comparison.issues})
        add_issues(all, *issues, "");
    for (std::size_t i = 0; i < results.standardised.fields.size(); ++i) {
        const std::string& name = results.standardised.fields[i].name;
        add_issues(all, results.standardised.fields[i].issues, name);
        if (i < results.cleaned.fields.size()) add_issues(all, results.cleaned.fields[i].issues, name);
        if (i < results.zoned.size()) add_issues(all, results.zoned[i].issues, name);
        if (i < results.comparison.fields.size()) add_issues(all, results.comparison.fields[i].issues, name);
    }
    return all;
}

void write_remarks(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    Table table{"remarks-table", words.remarks, {words.where, words.weight, words.what}, {}, 3, true};
    for (const auto& group : grouped(all_remarks(telling.results))) {
        const std::string places = places_text(group);
        table.rows.push_back(
            {places.empty() ? words.whole_season : places, severity_text(group.first.severity), group.first.message});
    }
    html.leaf("h3", words.remarks, {{"id", "remarks"}});
    html.leaf("p", table.rows.empty() ? words.no_remarks : words.remarks_note);
    if (!table.rows.empty()) write_table(html, table);
}

void add_cleaning(Table& table, const SheetWords& w, const CleaningChoice& choice) {
    const std::array<std::pair<const char*, bool>, 14> steps = {{{"lag", choice.lag},
                                                                 {"moisture_lag", choice.moisture_lag},
                                                                 {"ramps", choice.ramps},
                                                                 {"coverage", choice.coverage},
                                                                 {"speed", choice.speed},
                                                                 {"turns", choice.turns},
                                                                 {"limits", choice.limits},
                                                                 {"neighbours", choice.neighbours},
                                                                 {"short_passes", choice.short_passes},
                                                                 {"merge", choice.merge},
                                                                 {"edge_passes", choice.edge_passes},
                                                                 {"width_check", choice.width_check},
                                                                 {"tickets", choice.tickets},
                                                                 {"machine_offsets", choice.machine_offsets}}};
    for (const auto& [key, on] : steps)
        table.rows.push_back({std::string(w.cleaning_step) + key, on ? w.on : w.off});
}

void write_settings(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& season = telling.season();
    const auto& w = telling.words.sheets;
    Table table{"settings-table", words.settings, {words.setting, words.value}, {}, 2, true};
    table.rows = {
        {w.crop, season.crop},
        {w.basis, fixed(season.basis_pct, 1) + " %"},
        {w.bushel, fixed(season.bushel_lb, 1) + " lb"},
        {w.baseline, season.baseline},
        {w.report_unit, telling.figures.unit()},
        {w.believable, fill(telling.words.numbers.from_to, arg("low", telling.figures.both(season.yield_low_t_ha)),
                            arg("high", telling.figures.both(season.yield_high_t_ha)))},
        {w.randomised, season.trial.randomised ? w.yes : w.not_stated},
        {w.pairs, season.trial.pairs},
        {w.segment, fixed(season.comparison.segment_m, 0) + " m"}};
    for (const auto& method : season.methods) {
        if (!method.cut_width_m) continue;
        table.rows.push_back(
            {std::string(w.cut_width) + method.name,
             fixed(*method.cut_width_m, 2) + " m (" + fixed(*method.cut_width_m / m_per_foot, 1) + " ft)"});
    }
    add_cleaning(table, w, season.cleaning);
    html.leaf("h3", words.settings, {{"id", "settings"}});
    write_table(html, table);
    const auto details = html.in("details");
    html.leaf("summary", words.season_file);
    html.leaf("pre", season.text, {{"tabindex", "0"}});
}

void write_inputs(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    Table table{"inputs-table",
                words.inputs,
                {words.file, words.role, words.fingerprint, words.bytes, words.rows},
                {},
                3,
                true};
    for (const auto& input : telling.results.standardised.inputs) {
        table.rows.push_back({input.layer.empty() ? input.path : input.path + " (" + input.layer + ")",
                              role_text(input.role), input.sha256, count(input.bytes), count(input.rows)});
    }
    html.leaf("h3", words.inputs, {{"id", "inputs"}});
    html.leaf("p", words.inputs_note);
    write_table(html, table);
}

void write_citation(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    std::string hash;
    for (const auto& input : telling.results.standardised.inputs) {
        if (input.role == "season") hash = input.sha256;
    }
    html.leaf("h3", words.cite, {{"id", "cite"}});
    html.leaf("p",
              fill(hash.empty() ? words.cite_text_no_hash : words.cite_text, arg("version", telling.results.version),
                   arg("title", telling.season().title), arg("hash", hash)),
              {{"class", "cite"}});
}

} // namespace

void write_sources(Html& html, const Telling& telling) {
    const auto section = html.in("section", {{"id", "sources"}, {"aria-labelledby", "sources-heading"}});
    html.leaf("h2", telling.words.page.sources, {{"id", "sources-heading"}});
    write_remarks(html, telling);
    write_settings(html, telling);
    write_inputs(html, telling);
    write_citation(html, telling);
    write_glossary(html, telling);
}

} // namespace quartercut::report
