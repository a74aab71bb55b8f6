// SPDX-License-Identifier: MIT
// Records from delimited text.
#include "read/record_source.hpp"

#include "base/words/words.hpp"

#include "read/cells.hpp"
#include "read/text_table.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fstream>

namespace quartercut::reading {
namespace {

/// A row with more cells than columns has lost its order; more than this share of them means the file is misread.
constexpr double most_long_rows = 0.01;

class TextRecords final : public RecordSource {
public:
    explicit TextRecords(TextTable table, std::filesystem::path path)
        : table_(std::move(table)), path_(std::move(path)) {
        shown_ = table_.shown();
        const std::vector<std::string>& names = table_.names();
        for (std::size_t i = 0; i < names.size(); ++i) {
            const std::string unit = i < table_.units().size() ? table_.units()[i] : "";
            columns_.push_back({names[i], unit, false, table_.sample(i), ""});
            const std::vector<std::string>& all = table_.originals();
            if (std::count(all.begin(), all.end(), all[i]) > 1) columns_.back().original = all[i];
        }
    }

    [[nodiscard]] Issues issues() const override { return table_.issues(); }

    void tell_crs(CrsFacts& facts) const override {
        // A .prj beside the table says its coordinate system, as beside a shapefile.
        std::filesystem::path beside = path_;
        std::ifstream stream(beside.replace_extension(".prj"));
        if (path_.empty() || !stream) return;
        const std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
        auto crs = std::make_shared<OGRSpatialReference>();
        crs->SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
        if (crs->importFromWkt(text.c_str()) != OGRERR_NONE) return;
        crs_ = crs;
        facts.file_crs = crs_.get();
    }

    [[nodiscard]] Loaded load(const std::vector<Wanted>& wanted) override {
        Loaded out;
        out.columns.resize(wanted.size());
        std::vector<ColumnFiller> fillers;
        for (std::size_t i = 0; i < wanted.size(); ++i)
            fillers.emplace_back(out.columns[i], wanted[i], table_.decimal_comma());
        fill(wanted, fillers, out);
        return out;
    }

private:
    struct OddRows {
        std::size_t count = 0, first = 0;
        void add(std::size_t row) {
            if (count++ == 0) first = row;
        }
    };

    void fill(const std::vector<Wanted>& wanted, std::vector<ColumnFiller>& fillers, Loaded& out) {
        RowWalker walker = table_.rows();
        std::vector<std::string_view> cells;
        const std::size_t width = columns_.size();
        OddRows longer, shorter;
        while (walker.next(cells)) {
            ++out.rows;
            if (walker.lines_in_quotes() > 0 || walker.unclosed()) check_quotes(walker, shown_, out.rows);
            const bool too_long =
                cells.size() > width && std::any_of(cells.begin() + static_cast<std::ptrdiff_t>(width), cells.end(),
                                                    [](std::string_view c) { return !is_missing(c); });
            if (too_long) longer.add(out.rows);
            if (cells.size() < width) shorter.add(out.rows);
            for (std::size_t i = 0; i < wanted.size(); ++i) {
                if (too_long || wanted[i].column >= cells.size())
                    fillers[i].add_missing();
                else
                    add_cell(fillers[i], cells[wanted[i].column]);
            }
        }
        judge(longer, shorter, out);
    }

    static void add_cell(ColumnFiller& filler, std::string_view cell) {
        if (cell.empty() || cell.front() != '"') return filler.add(cell);
        filler.add(unquoted(cell));
    }

    void judge(const OddRows& longer, const OddRows& shorter, Loaded& out) const {
        if (static_cast<double>(longer.count) > most_long_rows * static_cast<double>(out.rows))
            throw InputError(
                fmt::format("{}: {} of {} rows hold more cells than there are column names ({}), row {} first. "
                            "If the numbers have a decimal comma, save the file with semicolons between the "
                            "cells.",
                            shown_, longer.count, out.rows, columns_.size(), longer.first));
        if (longer.count > 0)
            out.issues.push_back({"rows-too-long", Severity::warning, shown_,
                                  quartercut::fill(spoken().read.rows_too_long,
                                                   fmt::arg("rows", counted(longer.count, spoken().read.row_one,
                                                                            spoken().read.row_many)),
                                                   fmt::arg("row", longer.first))});
        if (shorter.count > 0)
            out.issues.push_back({"rows-too-short", Severity::warning, shown_,
                                  quartercut::fill(spoken().read.rows_too_short,
                                                   fmt::arg("rows", counted(shorter.count, spoken().read.row_one,
                                                                            spoken().read.row_many)),
                                                   fmt::arg("row", shorter.first))});
    }

    TextTable table_;
    std::filesystem::path path_;
    mutable std::shared_ptr<OGRSpatialReference> crs_;
};

} // namespace

std::unique_ptr<RecordSource> text_records(const FoundFile& file) {
    return std::make_unique<TextRecords>(TextTable(file), file.path);
}

std::unique_ptr<RecordSource> text_records(std::string text, const std::string& shown) {
    return std::make_unique<TextRecords>(TextTable(std::move(text), shown), std::filesystem::path());
}

} // namespace quartercut::reading
