// SPDX-License-Identifier: MIT
// Scoring column names against the table of trade words.
#include "read/recognise.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/cells.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace quartercut::reading {
namespace {

/// Names that earn fewer points mean nothing to us.
constexpr int least_points = 5;
/// Two columns whose points differ by less cannot be told apart.
constexpr int clear_lead = 2;

constexpr std::array<Meaning, 16> meanings_sought{
    Meaning::yield,     Meaning::flow,     Meaning::moisture, Meaning::speed,   Meaning::distance, Meaning::duration,
    Meaning::width,     Meaning::time,     Meaning::heading,  Meaning::machine, Meaning::header,   Meaning::load,
    Meaning::longitude, Meaning::latitude, Meaning::date,     Meaning::clock};

struct Candidate {
    std::size_t column = 0;
    int points = 0;
};

bool contains_phrase(const std::vector<std::string>& words, const std::vector<std::string>& phrase,
                     std::size_t usable) {
    if (phrase.size() > usable) return false;
    for (std::size_t at = 0; at + phrase.size() <= usable; ++at)
        if (std::equal(phrase.begin(), phrase.end(), words.begin() + static_cast<std::ptrdiff_t>(at))) return true;
    return false;
}

bool is_numeric(const SourceColumn& column) {
    std::size_t numbers = 0;
    for (const std::string& text : column.sample)
        numbers += cell_number(text).has_value() || cell_number(text, true).has_value() ? 1U : 0U;
    return 5 * numbers >= 4 * column.sample.size();
}

bool wants_numbers(Meaning meaning) {
    return stated_dimension_of(meaning).has_value() || meaning == Meaning::longitude || meaning == Meaning::latitude;
}

/// Candidates of a meaning, best first, those out of reach of the best left out.
std::vector<Candidate> candidates_for(Meaning meaning, const RecordSource& source, double bushel_lb) {
    std::vector<Candidate> out;
    for (std::size_t i = 0; i < source.columns().size(); ++i) {
        const SourceColumn& column = source.columns()[i];
        const auto points = points_for(meaning, taken_apart(column.written()), bushel_lb);
        if (!points || column.sample.empty() || (wants_numbers(meaning) && !is_numeric(column))) continue;
        out.push_back({i, *points});
    }
    std::stable_sort(out.begin(), out.end(),
                     [](const Candidate& a, const Candidate& b) { return a.points > b.points; });
    if (!out.empty())
        std::erase_if(out, [best = out.front().points](const Candidate& c) { return best - c.points >= clear_lead; });
    return out;
}

/// The same column twice does no harm.
bool all_alike(const std::vector<Candidate>& candidates, const RecordSource& source) {
    return std::all_of(candidates.begin(), candidates.end(), [&](const Candidate& c) {
        return source.columns()[c.column].sample == source.columns()[candidates.front().column].sample;
    });
}

std::vector<std::string> names_of(const std::vector<Candidate>& candidates, const RecordSource& source) {
    std::vector<std::string> names;
    for (const Candidate& candidate : candidates)
        names.push_back(source.columns()[candidate.column].name);
    return names;
}

/// Unit and wet or dry from units row and name.
void read_name(ColumnMeaning& found, const SourceColumn& column, double bushel_lb) {
    const HeaderName name = taken_apart(column.written());
    const auto dimension = stated_dimension_of(found.meaning);
    if (dimension && found.unit.empty()) {
        const auto in_name = unit_in_name(name, *dimension, bushel_lb);
        if (!column.unit_below.empty() && unit_factor(*dimension, column.unit_below, bushel_lb))
            found.unit = column.unit_below;
        else if (in_name)
            found.unit = in_name->unit;
    }
    if (found.meaning == Meaning::yield && found.moisture.empty() && name.wet != name.dry)
        found.moisture = name.wet ? "wet" : "dry";
}

/// A unit in the season file that the column's own name contradicts is worth a word.
void compare_units(Context& context, const ColumnMeaning& found, const RecordSource& source) {
    const SourceColumn& column = source.columns()[found.column];
    const auto dimension = stated_dimension_of(found.meaning);
    if (!dimension || found.unit.empty()) return;
    ColumnMeaning by_name = found;
    by_name.unit.clear();
    read_name(by_name, column, context.season.bushel_lb);
    const auto said = unit_factor(*dimension, found.unit, context.season.bushel_lb);
    if (!said)
        throw InputError(fmt::format("{}: column '{}' ({}): the unit '{}' is not known. Known are {}.", source.shown(),
                                     column.name, meaning_word(found.meaning), found.unit, known_units(*dimension)));
    const auto named = by_name.unit.empty() ? said : unit_factor(*dimension, by_name.unit, context.season.bushel_lb);
    if (named && std::abs(*named / *said - 1.0) > 1e-9)
        context.warn("unit-contradicts", source.shown(),
                     fill(spoken().read.unit_contradicts, fmt::arg("unit", found.unit), fmt::arg("column", column.name),
                          fmt::arg("named", by_name.unit)));
}

[[noreturn]] void refuse_name_twice(const RecordSource& source, const std::string& name, Meaning meaning) {
    throw InputError(
        fmt::format("{}: the column name '{}' stands there more than once, with different values, so the {} "
                    "is ambiguous. Rename or delete all but one of them in the file.",
                    source.shown(), name, meaning_word(meaning)));
}

/// Does another column of the same name hold other values?
bool name_is_torn(const RecordSource& source, std::size_t column) {
    const SourceColumn& one = source.columns()[column];
    return !one.original.empty() && one.name == one.original &&
           std::any_of(source.columns().begin(), source.columns().end(), [&](const SourceColumn& other) {
               return other.original == one.original && other.sample != one.sample;
           });
}

std::optional<ColumnMeaning> from_season(Context& context, const RecordSource& source, Meaning meaning,
                                         const std::vector<std::string>& names_elsewhere) {
    const auto choice = context.season.points.columns.find(meaning);
    if (choice == context.season.points.columns.end()) return std::nullopt;
    const ColumnChoice& wish = choice->second;
    const auto column = column_named(source, wish.column);
    if (!column) {
        if (std::find(names_elsewhere.begin(), names_elsewhere.end(), wish.column) != names_elsewhere.end())
            return std::nullopt;
        std::vector<std::string> names;
        for (const SourceColumn& there : source.columns())
            names.push_back(there.name);
        throw InputError(fmt::format("{}{}: there is no column '{}' ({} under [points.columns]). Columns: {}.{}",
                                     written_at(context.season, wish.place), source.shown(), wish.column,
                                     meaning_word(meaning), listed(names), did_you_mean(wish.column, names)));
    }
    if (name_is_torn(source, *column)) refuse_name_twice(source, wish.column, meaning);
    ColumnMeaning found{meaning, *column, true, wish.unit, wish.moisture, wish.up, spoken().read.in_season_file};
    compare_units(context, found, source);
    read_name(found, source.columns()[*column], context.season.bushel_lb);
    return found;
}

[[noreturn]] void ask_which(const RecordSource& source, Meaning meaning, const std::vector<std::string>& names,
                            double bushel_lb) {
    std::string lines;
    for (const std::string& name : names)
        lines += fmt::format("{}  {}", lines.empty() ? "" : "  or", line_to_add(meaning, name, bushel_lb));
    throw InputError(
        fmt::format("{}: several columns could be the {}: {}. Say which by one line under [points.columns]:{}",
                    source.shown(), meaning_word(meaning), listed(names), lines));
}

/// Columns already spoken for by the season file are no candidates for other meanings.
bool is_taken(const Recognised& out, std::size_t column) {
    return std::any_of(out.columns.begin(), out.columns.end(), [column](const auto& entry) {
        return entry.second.from_season && entry.second.column == column;
    });
}

/// "its name holds 'mass flow' (11 points) and the unit lb/s"
std::string reason_of(const ColumnMeaning& found, const SourceColumn& column, double bushel_lb) {
    const auto score = score_for(found.meaning, taken_apart(column.written()), bushel_lb);
    const auto& words = spoken().read;
    std::string reason =
        score ? fill(words.name_holds, fmt::arg("phrase", score->phrase), fmt::arg("points", score->points))
              : words.its_name;
    if (!found.unit.empty())
        reason = fill(found.unit == column.unit_below ? words.and_unit_below : words.and_unit,
                      fmt::arg("reason", reason), fmt::arg("unit", found.unit));
    if (!found.moisture.empty())
        reason = fill(words.and_word, fmt::arg("reason", reason), fmt::arg("word", found.moisture));
    return reason;
}

void recognise_one(Context& context, const RecordSource& source, Meaning meaning, Recognised& out) {
    std::vector<Candidate> candidates = candidates_for(meaning, source, context.season.bushel_lb);
    std::erase_if(candidates, [&](const Candidate& c) { return is_taken(out, c.column); });
    if (candidates.empty()) return;
    const std::vector<std::string> names = names_of(candidates, source);
    if (candidates.size() > 1 && !all_alike(candidates, source)) {
        const std::string& first = source.columns()[candidates.front().column].original;
        if (!first.empty() && std::all_of(candidates.begin(), candidates.end(), [&](const Candidate& c) {
                return source.columns()[c.column].original == first;
            }))
            refuse_name_twice(source, first, meaning);
        if (meaning != Meaning::yield) ask_which(source, meaning, names, context.season.bushel_lb);
        out.open_yields = names;
        return;
    }
    if (candidates.size() > 1)
        context.note("same-column-twice", source.shown(),
                     fill(spoken().read.same_twice, fmt::arg("columns", listed(names)),
                          fmt::arg("column", names.front()), fmt::arg("meaning", meaning_word(meaning))));
    ColumnMeaning found{meaning, candidates.front().column, false, "", "", "", ""};
    read_name(found, source.columns()[found.column], context.season.bushel_lb);
    found.reason = reason_of(found, source.columns()[found.column], context.season.bushel_lb);
    out.columns.emplace(meaning, found);
}

/// A column of the records that names the method.
void find_method_column(Context& context, const RecordSource& source, Recognised& out) {
    const MethodsInput& methods = context.season.methods_from;
    if (methods.source != MethodSource::points) return;
    const auto column = column_named(source, methods.column);
    std::vector<std::string> names;
    for (const SourceColumn& there : source.columns())
        names.push_back(there.name);
    if (!column)
        throw InputError(
            fmt::format("{}{}: there is no column '{}' ([methods] takes the method of each record from it). "
                        "Columns: {}.{}",
                        written_at(context.season, methods.place), source.shown(), methods.column, listed(names),
                        did_you_mean(methods.column, names)));
    out.columns[Meaning::method] = {Meaning::method, *column, true, "", "", "", spoken().read.under_methods};
}

} // namespace

std::optional<NameScore> score_for(Meaning meaning, const HeaderName& name, std::optional<double> bushel_lb) {
    const std::string_view ruled_out = forbidden_words(meaning);
    for (const std::string& word : name.words)
        if (in_list(ruled_out, word)) return std::nullopt;
    std::size_t usable = name.words.size();
    if (const auto dimension = stated_dimension_of(meaning))
        if (const auto unit = unit_in_name(name, *dimension, bushel_lb)) usable -= unit->words_used;
    std::optional<NameScore> best;
    for (const ColumnWord& entry : column_words()) {
        if (entry.meaning != meaning || entry.phrase.empty()) continue;
        const std::vector<std::string> phrase = split(entry.phrase, ' ');
        if (!contains_phrase(name.words, phrase, usable)) continue;
        int points = entry.points;
        for (std::size_t i = 0; i < usable; ++i)
            if (!is_filler(name.words[i]) && std::find(phrase.begin(), phrase.end(), name.words[i]) == phrase.end())
                points -= 2;
        if (points >= least_points && (!best || points > best->points)) best = NameScore{points, entry.phrase};
    }
    return best;
}

std::optional<int> points_for(Meaning meaning, const HeaderName& name, std::optional<double> bushel_lb) {
    const auto score = score_for(meaning, name, bushel_lb);
    return score ? std::optional(score->points) : std::nullopt;
}

std::optional<std::size_t> column_named(const RecordSource& source, const std::string& name) {
    const std::vector<SourceColumn>& columns = source.columns();
    std::vector<std::size_t> alike, cut;
    bool all_short = true;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (columns[i].name == name) return i;
        all_short = all_short && columns[i].name.size() <= 10;
        if (lower(columns[i].name) == lower(name)) alike.push_back(i);
        if (name.size() > 10 && lower(columns[i].name) == lower(name.substr(0, 10))) cut.push_back(i);
    }
    if (alike.size() == 1) return alike.front();
    if (all_short && cut.size() == 1) return cut.front();
    return std::nullopt;
}

std::string line_to_add(Meaning meaning, const std::string& column, std::optional<double> bushel_lb) {
    const auto dimension = stated_dimension_of(meaning);
    if (!dimension) return fmt::format("{} = {{ column = \"{}\" }}", meaning_word(meaning), column);
    const HeaderName name = taken_apart(column);
    const auto unit = unit_in_name(name, *dimension, bushel_lb);
    std::string more;
    if (meaning == Meaning::yield)
        more = fmt::format(", moisture = \"{}\"", name.wet == name.dry ? "..." : name.wet ? "wet" : "dry");
    return fmt::format("{} = {{ column = \"{}\", unit = \"{}\"{} }}", meaning_word(meaning), column,
                       unit ? unit->unit : "...", more);
}

namespace {

/// One column under two quantities of [points.columns] is a slip of the pen: moisture is no flow.
void refuse_shared_columns(const RecordSource& source, const Recognised& found) {
    std::map<std::size_t, Meaning> taken;
    for (const auto& [meaning, column] : found.columns) {
        if (!stated_dimension_of(meaning)) continue;
        const auto [before, is_new] = taken.emplace(column.column, meaning);
        if (is_new) continue;
        throw InputError(fmt::format(
            "{}: column '{}' is named for both {} and {} under [points.columns]. It can be one of "
            "them; name the other's own column, or leave it out.",
            source.shown(), source.columns()[column.column].name, meaning_word(before->second), meaning_word(meaning)));
    }
}

} // namespace

Recognised recognise(Context& context, const RecordSource& source, const std::vector<std::string>& names_elsewhere) {
    Recognised out;
    const std::string& shown = source.shown();
    for (const auto& entry : context.season.points.columns)
        context.attempt(shown, [&, meaning = entry.first] {
            if (auto found = from_season(context, source, meaning, names_elsewhere))
                out.columns.emplace(meaning, *found);
        });
    context.attempt(shown, [&] { refuse_shared_columns(source, out); });
    context.attempt(shown, [&] { find_method_column(context, source, out); });
    for (const Meaning meaning : meanings_sought) {
        const bool is_place = meaning == Meaning::longitude || meaning == Meaning::latitude;
        if (out.columns.count(meaning) > 0 || (is_place && source.has_geometry())) continue;
        context.attempt(shown, [&] { recognise_one(context, source, meaning, out); });
    }
    return out;
}

} // namespace quartercut::reading
