// SPDX-License-Identifier: MIT
// Boundaries: rows that share a name become one field; twins, overlaps and impossible quarters are told.
#include "read/areas.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "quartercut/land.hpp"
#include "read/polygon_repair.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::reading {
namespace {

/// Shares of the smaller field (judgement): below the first an overlap is the width of a pencil and not worth a word,
/// above the second it is refused, above the third it is a twin.
constexpr double overlap_worth_telling = 1e-3;
constexpr double largest_overlap = 0.05;
constexpr double overlap_of_twins = 0.95;

constexpr double quarter_m2 = 160.0 * m2_per_acre;
/// A quarter runs from about 120 to 165 acres (judgement; sections shrink towards correction lines), so nothing that
/// calls itself one is larger than this.
constexpr double largest_quarter_m2 = 170.0 * m2_per_acre;

std::string row_list(const std::vector<std::size_t>& rows) {
    std::string out;
    for (std::size_t i = 0; i < rows.size(); ++i)
        out += fmt::format("{}{}", i == 0 ? "" : i + 1 == rows.size() ? spoken().read.last_of_list : ", ", rows[i]);
    return out;
}

/// Attributes of joined rows: where they differ, both are kept, separated by "; ".
void join_attributes(RawArea& into, const RawArea& other) {
    for (const auto& [column, text] : other.attributes) {
        std::string& kept = into.attributes[column];
        if (text.empty() || kept == text) continue;
        const std::vector<std::string> parts = split(kept, ';');
        if (std::any_of(parts.begin(), parts.end(),
                        [&same = text](const std::string& part) { return trim(part) == same; }))
            continue;
        kept = kept.empty() ? text : kept + "; " + text;
    }
}

std::vector<RawArea> joined_by_name(Context& context, std::vector<RawArea> rows, const std::string& file) {
    std::vector<RawArea> fields;
    std::vector<std::vector<std::size_t>> members;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const bool named = context.attempt(file, [&] {
            if (!rows[i].name.empty()) return;
            throw InputError(fmt::format("{}, row {}: the field has no name in column '{}'. Give it one.", file,
                                         rows[i].row, context.season.fields.name_column));
        });
        if (!named) continue;
        const auto same =
            std::find_if(fields.begin(), fields.end(), [&](const RawArea& f) { return f.name == rows[i].name; });
        if (same == fields.end()) {
            fields.push_back(rows[i]);
            members.push_back({i});
            continue;
        }
        join_attributes(*same, rows[i]);
        members[static_cast<std::size_t>(same - fields.begin())].push_back(i);
    }
    for (std::size_t f = 0; f < fields.size(); ++f) {
        if (members[f].size() < 2) continue;
        std::vector<const MultiPolygon*> parts;
        std::vector<std::size_t> numbers;
        for (const std::size_t i : members[f]) {
            parts.push_back(&rows[i].shape_deg);
            numbers.push_back(rows[i].row);
        }
        fields[f].shape_deg = dissolved(parts, fmt::format("{}, field '{}'", file, fields[f].name));
        context.note("field-joined", fields[f].name,
                     fill(spoken().read.field_joined, fmt::arg("rows", row_list(numbers)), fmt::arg("file", file)));
        std::size_t pieces = 0;
        for (const MultiPolygon* part : parts)
            pieces += part->size();
        // Parts of one field mostly touch; where none does, a name may have been given twice.
        if (fields[f].shape_deg.size() == pieces)
            context.warn("field-pieces", file,
                         fill(spoken().read.field_pieces, fmt::arg("pieces", pieces), fmt::arg("field", fields[f].name),
                              fmt::arg("rows", row_list(numbers))));
    }
    return fields;
}

/// Land that two fields claim is counted in one of them only: a little is a pencil's width, more is refused.
void check_overlap(Context& context, const std::string& file, const RawArea& a, const RawArea& b) {
    const Overlap common = overlap_of(a.shape_deg, b.shape_deg);
    const double share = common.area / std::min(planar_area(a.shape_deg), planar_area(b.shape_deg));
    if (!(share > overlap_worth_telling)) return;
    const int decimals = context.raw.local_metres ? 1 : 6;
    const std::string where = fill(
        spoken().read.overlap, fmt::arg("row", a.row), fmt::arg("other_row", b.row), fmt::arg("field", a.name),
        fmt::arg("other", b.name), fmt::arg("pct", format_fixed(100.0 * share, 1)),
        fmt::arg("x", format_fixed(common.place.x, decimals)), fmt::arg("y", format_fixed(common.place.y, decimals)));
    if (share > largest_overlap)
        throw InputError(fmt::format(
            "{}: {}. {}", file, where,
            share > overlap_of_twins ? "The boundary seems to be there twice; delete one, or give both the same name."
                                     : "Mend the boundaries, or take one of the two out."));
    context.warn("fields-overlap", a.name,
                 fill(spoken().read.fields_overlap, fmt::arg("file", file), fmt::arg("overlap", where),
                      fmt::arg("field", a.name)));
}

void check_overlaps(Context& context, const std::string& file, const std::vector<RawArea>& fields) {
    for (std::size_t a = 0; a < fields.size(); ++a)
        for (std::size_t b = a + 1; b < fields.size(); ++b)
            context.attempt(file, [&] { check_overlap(context, file, fields[a], fields[b]); });
}

void check_legal(Context& context, const RawArea& field) {
    const auto column = context.season.fields.columns.find("legal");
    if (column == context.season.fields.columns.end()) return;
    const auto found = field.attributes.find(column->second);
    if (found == field.attributes.end() || trim(found->second).empty()) return;
    try {
        const LegalLand land = parse_legal_land(trim(found->second));
        const double area_m2 = context.raw.local_metres ? planar_area(field.shape_deg) : rough_area_m2(field.shape_deg);
        const double most = land.subdivision       ? largest_quarter_m2 / 4.0
                            : land.quarter.empty() ? 4.0 * largest_quarter_m2
                                                   : largest_quarter_m2;
        if (area_m2 > most)
            context.warn("legal-area", field.name,
                         fill(spoken().read.legal_area, fmt::arg("acres", format_fixed(area_m2 / m2_per_acre, 0)),
                              fmt::arg("legal", found->second),
                              fmt::arg("most", format_fixed(most / largest_quarter_m2 * quarter_m2 / m2_per_acre, 0))));
    } catch (const InputError& error) {
        context.warn(
            "legal-description", field.name,
            fill(spoken().read.legal_description, fmt::arg("legal", found->second), fmt::arg("why", error.what())));
    }
}

} // namespace

void read_fields(Context& context) {
    const FieldsInput& input = context.season.fields;
    AreaWish wish{"fields", input, input.name_column, "name", {}};
    for (const auto& [meaning, column] : input.columns)
        wish.more.push_back(column);
    if (context.season.methods_from.source == MethodSource::fields)
        wish.more.push_back(context.season.methods_from.column);
    AreaLayer layer = read_areas(context, wish);
    context.raw.fields = joined_by_name(context, std::move(layer.areas), layer.shown);
    check_overlaps(context, layer.shown, context.raw.fields);
    for (const RawArea& field : context.raw.fields)
        check_legal(context, field);
}

} // namespace quartercut::reading
