// SPDX-License-Identifier: MIT
// Which column means what: the season file's word first, then the trade's words, scored. Never by position.
#pragma once

#include "read/column_words.hpp"
#include "read/header_name.hpp"
#include "read/record_source.hpp"

#include <optional>

namespace quartercut::reading {

struct ColumnMeaning {
    Meaning meaning{};
    std::size_t column = 0;
    bool from_season = false;
    std::string unit;     ///< empty where none is known (or the meaning has none)
    std::string moisture; ///< yield: "wet", "dry" or empty
    std::string up;       ///< header: the value that means raised, or empty
    std::string reason;   ///< in words, for those who ask why
};

struct Recognised {
    std::map<Meaning, ColumnMeaning> columns;
    std::vector<std::string> open_yields; ///< yield columns between which nothing decides; used when flow gives no mass
    [[nodiscard]] const ColumnMeaning* find(Meaning meaning) const {
        const auto found = columns.find(meaning);
        return found == columns.end() ? nullptr : &found->second;
    }
};

/// \throws InputError  a mapped column is missing; two columns fit one meaning equally well
[[nodiscard]] Recognised recognise(Context& context, const RecordSource& source,
                                   const std::vector<std::string>& names_elsewhere);

/// Index of the column of that name: exactly, else but for case, else cut to ten letters as shapefiles do.
[[nodiscard]] std::optional<std::size_t> column_named(const RecordSource& source, const std::string& name);

/// The line to add to the season file: `flow = { column = "Flow", unit = "kg/s" }`.
/// An unknown unit is left as "...".
[[nodiscard]] std::string line_to_add(Meaning meaning, const std::string& column, std::optional<double> bushel_lb);

/// Which of the trade's words a name holds, and what it earns by it.
struct NameScore {
    int points = 0;
    std::string_view phrase;
};
/// \param name  taken apart \returns nullopt where the name does not fit the meaning
[[nodiscard]] std::optional<NameScore> score_for(Meaning meaning, const HeaderName& name,
                                                 std::optional<double> bushel_lb);
/// Points a name earns for a meaning, nullopt for none. \param name  taken apart
[[nodiscard]] std::optional<int> points_for(Meaning meaning, const HeaderName& name, std::optional<double> bushel_lb);

} // namespace quartercut::reading
