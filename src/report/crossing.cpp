// SPDX-License-Identifier: MIT
// Writes confounding tables (crossing.hpp).
#include "report/crossing.hpp"

#include "report/table.hpp"

namespace quartercut::report {
namespace {

// Hectares, with acres beside them for the grower.
std::string area_cell(double area_ha) {
    if (!(area_ha > 0.0)) return "0";
    return fixed(area_ha, 2) + " (" + fixed(area_ha * m2_per_hectare / m2_per_acre, 1) + " ac)";
}

} // namespace

void write_crossing(Html& html, const Telling& telling, const Crossing& crossing, const CrossingText& text) {
    Table table{text.id, text.caption, {capital(crossing_word(crossing.what))}, {}};
    append(table.headings, crossing.methods);
    for (std::size_t level = 0; level < crossing.levels.size() && level < crossing.area_ha.size(); ++level) {
        std::vector<std::string> row = {crossing.levels[level]};
        for (const double area_ha : crossing.area_ha[level])
            row.push_back(area_cell(area_ha));
        table.rows.push_back(row);
    }
    const auto details = html.in("details");
    html.leaf("summary", text.caption);
    write_table(html, table);
    html.leaf("p", fill(telling.words.page.crossing_note, fmt::arg("what", crossing_word(crossing.what))),
              {{"class", "note"}});
}

} // namespace quartercut::report
