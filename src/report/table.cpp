// SPDX-License-Identifier: MIT
// Writes tables (table.hpp).
#include "report/table.hpp"

namespace quartercut::report {

void append(std::vector<std::string>& row, const std::vector<std::string>& cells) {
    row.insert(row.end(), cells.begin(), cells.end());
}

namespace {

Attributes cell_class(const Table& table, std::size_t column) {
    if (column < table.text_columns) return {};
    return {{"class", "number"}};
}

void add_si(Attributes& attributes, const std::string& text, const std::string& in_si) {
    if (in_si != text) attributes.push_back({"data-si", in_si});
}

void write_head(Html& html, const Table& table, const Table& in_si) {
    const auto head = html.in("thead");
    const auto row = html.in("tr");
    for (std::size_t c = 0; c < table.headings.size(); ++c) {
        auto attributes = cell_class(table, c);
        attributes.push_back({"scope", "col"});
        add_si(attributes, table.headings[c], in_si.headings[c]);
        html.leaf("th", table.headings[c], attributes);
    }
}

void write_row(Html& html, const Table& table, const Table& in_si, std::size_t r) {
    const auto& cells = table.rows[r];
    const auto row = html.in("tr");
    for (std::size_t c = 0; c < cells.size(); ++c) {
        if (c == 0) {
            html.leaf("th", cells[c], {{"scope", "row"}});
        } else {
            auto attributes = cell_class(table, c);
            add_si(attributes, cells[c], in_si.rows[r][c]);
            html.leaf("td", cells[c], attributes);
        }
    }
}

} // namespace

void write_table(Html& html, const Table& table, const Table* in_si) {
    // A wide table scrolls in its own box, so that the page never scrolls sideways on a phone; the box takes the
    // keyboard focus because a reader without a mouse must be able to scroll it.
    const auto box = html.in(
        "div", {{"class", "table"}, {"role", "region"}, {"tabindex", "0"}, {"aria-labelledby", table.id + "-caption"}});
    Attributes attributes = {{"id", table.id}};
    if (table.headings.size() > 6) attributes.push_back({"class", "wide"});
    const auto element = html.in("table", attributes);
    Attributes caption = {{"id", table.id + "-caption"}};
    if (table.quiet) caption.push_back({"class", "unseen"});
    html.leaf("caption", table.caption, caption);
    const Table& switched = in_si == nullptr ? table : *in_si;
    write_head(html, table, switched);
    const auto body = html.in("tbody");
    for (std::size_t r = 0; r < table.rows.size(); ++r)
        write_row(html, table, switched, r);
}

void write_folded_table(Html& html, const std::string& summary, const Table& table) {
    const auto details = html.in("details");
    html.leaf("summary", summary);
    Table shown = table;
    shown.quiet = summary == table.caption;
    write_table(html, shown);
}

} // namespace quartercut::report
