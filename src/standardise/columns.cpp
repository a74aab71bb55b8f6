// SPDX-License-Identifier: MIT
// Raw columns -> SI numbers of each field's records. Units are converted here and nowhere else; NaN stays NaN.
#include "standardise/work.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace quartercut::standardise_room {

namespace {

/// A column of one file with the factor that brings it to SI; `values` is null where the file lacks it.
struct SiColumn {
    const double* values = nullptr;
    double factor = 1.0;
    [[nodiscard]] double at(std::size_t row) const { return values == nullptr ? unknown : values[row] * factor; }
};

/// The words of a text column as numbers into a season-wide list.
struct WordColumn {
    const std::int32_t* codes = nullptr;
    std::vector<std::int32_t> number_of_word;
    std::int32_t blank = -1;
    [[nodiscard]] std::int32_t at(std::size_t row) const {
        return codes == nullptr || codes[row] < 0 ? blank : number_of_word[static_cast<std::size_t>(codes[row])];
    }
};

struct FileColumns {
    const RawRecords* file = nullptr;
    SiColumn duration, distance, width, speed, heading, flow, yield, moisture;
    WordColumn machine, load, method;
};

SiColumn si_column(const Season& season, const Raw& raw, const RawRecords& file, Meaning meaning) {
    const NumberColumn* column = number_column(file, meaning);
    if (column == nullptr) return {};
    const Dimension dimension = *dimension_of(meaning);
    const auto factor = unit_factor(dimension, column->unit, season.bushel_lb);
    if (!factor)
        throw InputError(fmt::format("{}, column \"{}\": \"{}\" is no unit of {}; known: {}.", file_text(raw, file),
                                     column->name, column->unit, meaning_word(meaning), known_units(dimension)));
    return {column->values.data(), *factor};
}

/// All words of a column over the files, sorted: their order does not depend on that of the files.
std::vector<std::string> season_words(const Raw& raw, Meaning meaning, const std::string& word_for_blank) {
    std::set<std::string> words;
    for (const RawRecords& file : raw.records) {
        const TextColumn* column = text_column(file, meaning);
        if (column != nullptr) words.insert(column->words.begin(), column->words.end());
        const bool any_blank = column == nullptr || std::any_of(column->codes.begin(), column->codes.end(),
                                                                [](std::int32_t code) { return code < 0; });
        if (any_blank && !word_for_blank.empty()) words.insert(word_for_blank);
    }
    return {words.begin(), words.end()};
}

std::int32_t number_of(const std::vector<std::string>& words, const std::string& word) {
    const auto found = std::lower_bound(words.begin(), words.end(), word);
    return found == words.end() || *found != word ? -1 : static_cast<std::int32_t>(found - words.begin());
}

WordColumn word_column(const RawRecords& file, Meaning meaning, const std::vector<std::string>& words,
                       std::int32_t blank) {
    WordColumn result;
    result.blank = blank;
    const TextColumn* column = text_column(file, meaning);
    if (column == nullptr) return result;
    result.codes = column->codes.data();
    for (const std::string& word : column->words)
        result.number_of_word.push_back(number_of(words, word));
    return result;
}

constexpr const char* unnamed_machine = "machine";

FileColumns columns_of(const Season& season, const Raw& raw, const RawRecords& file, const Standardised& names) {
    Faults faults;
    const auto si = [&](Meaning meaning) {
        SiColumn column;
        faults.attempt("", [&] { column = si_column(season, raw, file, meaning); });
        return column;
    };
    FileColumns columns;
    columns.file = &file;
    columns.duration = si(Meaning::duration);
    columns.distance = si(Meaning::distance);
    columns.width = si(Meaning::width);
    columns.speed = si(Meaning::speed);
    columns.heading = si(Meaning::heading);
    columns.flow = si(Meaning::flow);
    columns.yield = si(Meaning::yield);
    columns.moisture = si(Meaning::moisture);
    columns.machine = word_column(file, Meaning::machine, names.machines, number_of(names.machines, unnamed_machine));
    columns.load = word_column(file, Meaning::load, names.loads, -1);
    faults.raise();
    return columns;
}

void append_record(const FileColumns& columns, std::size_t row, FieldWork& work) {
    const RawRecords& file = *columns.file;
    Records& records = work.field.records;
    records.input.push_back(static_cast<std::uint32_t>(file.input));
    // Records without a place were left out while reading, so the place in the vectors is not always the row.
    records.row.push_back(file.row.empty() ? static_cast<std::uint32_t>(row + 1) : file.row[row]);
    records.time_s.push_back(file.time_s.empty() ? unknown : file.time_s[row]);
    records.duration_s.push_back(columns.duration.at(row));
    records.distance_m.push_back(columns.distance.at(row));
    records.speed_m_s.push_back(columns.speed.at(row));
    records.heading_deg.push_back(columns.heading.at(row));
    records.moisture_pct.push_back(columns.moisture.at(row));
    records.header_up.push_back(file.header_up.empty() ? std::uint8_t{0} : file.header_up[row]);
    records.machine.push_back(columns.machine.at(row));
    records.load.push_back(columns.load.at(row));
    records.method.push_back(columns.method.at(row));
    work.flow_kg_s.push_back(columns.flow.at(row));
    work.yield_kg_m2.push_back(columns.yield.at(row));
    work.logged_width_m.push_back(columns.width.at(row));
}

void note_blank_methods(FieldWork& work) {
    const auto& method = work.field.records.method;
    const auto blanks = std::count(method.begin(), method.end(), -1);
    if (blanks == 0) return;
    work.field.issues.push_back(
        {"records-without-method", Severity::warning, work.field.name,
         fill(spoken().standardise.no_method, fmt::arg("blanks", blanks), fmt::arg("records", method.size()))});
}

} // namespace

const NumberColumn* number_column(const RawRecords& file, Meaning meaning) {
    const auto found = file.numbers.find(meaning);
    return found == file.numbers.end() ? nullptr : &found->second;
}

const TextColumn* text_column(const RawRecords& file, Meaning meaning) {
    const auto found = file.texts.find(meaning);
    return found == file.texts.end() ? nullptr : &found->second;
}

std::string file_text(const Raw& raw, const RawRecords& file) {
    if (file.input >= raw.inputs.size()) return spoken().standardise.the_records;
    const InputFile& input = raw.inputs[file.input];
    return input.layer.empty() ? input.path : fmt::format("{}, layer '{}'", input.path, input.layer);
}

void fill_columns(const Season& season, const Raw& raw, Standardised& result, Fields& fields) {
    result.machines = season_words(raw, Meaning::machine, unnamed_machine);
    result.loads = season_words(raw, Meaning::load, {});
    Faults faults;
    std::vector<std::vector<std::int32_t>> methods;
    faults.attempt("", [&] { methods = method_words(season, raw); });
    std::vector<FileColumns> columns(raw.records.size());
    for (std::size_t f = 0; f < raw.records.size(); ++f)
        faults.attempt("", [&] { columns[f] = columns_of(season, raw, raw.records[f], result); });
    faults.raise();
    for (std::size_t f = 0; f < raw.records.size(); ++f) {
        if (season.methods_from.source != MethodSource::points) continue;
        columns[f].method.codes = text_column(raw.records[f], Meaning::method)->codes.data();
        columns[f].method.number_of_word = methods[f];
    }
    for (FieldWork& work : fields) {
        for (std::size_t i = 0; i < work.file.size(); ++i)
            append_record(columns[work.file[i]], work.place[i], work);
        work.place.clear();
        if (season.methods_from.source == MethodSource::points) note_blank_methods(work);
    }
}

} // namespace quartercut::standardise_room
