// SPDX-License-Identifier: MIT
// Reads one TOML table key by key, with a message that says file, line and column for everything that is not as it
// should be. The rest of the room never touches a TOML node.
#pragma once

#include "quartercut/season.hpp"

#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <toml++/toml.h>
#include <utility>
#include <vector>

namespace quartercut::season {

/// What a quantity may be; limits in the program's unit of the dimension, both ends allowed.
struct QuantityRule {
    Dimension dimension = Dimension::length;
    double low = 0.0;
    double high = std::numeric_limits<double>::max();
    std::string example; ///< a right one, quoted in messages: 35 ft
    std::string allowed; ///< the limits in words: "0.5 m to 60 m"
};

/// A table and where it stands. Unknown keys are refused when it is made.
class TableReader {
public:
    /// `name`: as in brackets, for messages; `schema`: entry of known_keys; `file`: the season file, for messages.
    TableReader(const toml::table& table, std::string name, const std::string& schema, std::string file,
                TextPlace place);

    [[nodiscard]] bool has(const std::string& key) const { return table_->contains(key); }
    [[nodiscard]] const std::string& name() const { return name_; }    ///< as in brackets
    [[nodiscard]] TextPlace place() const { return place_; }           ///< of the table
    [[nodiscard]] TextPlace key_place(const std::string& key) const;   ///< of the key
    [[nodiscard]] TextPlace value_place(const std::string& key) const; ///< of what it is set to
    [[nodiscard]] std::vector<std::string> keys() const;               ///< in file order

    /// Text without blanks at its ends; never empty, no control characters.
    [[nodiscard]] std::optional<std::string> text(const std::string& key) const;
    [[nodiscard]] std::string text_or(const std::string& key, const std::string& otherwise) const;
    /// `what`: what the key says, for the message when it is missing.
    [[nodiscard]] std::string required_text(const std::string& key, const std::string& what) const;
    /// Like `text`, but a number or true/false counts as its text: values found in a column.
    [[nodiscard]] std::optional<std::string> value_as_text(const std::string& key) const;
    /// A list of texts; one text alone is a list of one. Never empty.
    [[nodiscard]] std::vector<std::string> texts(const std::string& key) const;
    [[nodiscard]] std::optional<double> quantity(const std::string& key, const QuantityRule& rule) const;
    [[nodiscard]] bool boolean(const std::string& key, bool otherwise) const;
    [[nodiscard]] std::optional<int> whole_number(const std::string& key, int low, int high) const;
    [[nodiscard]] bool is_text(const std::string& key) const;

    [[nodiscard]] std::optional<TableReader> table(const std::string& key, const std::string& schema) const;
    [[nodiscard]] TableReader required_table(const std::string& key, const std::string& schema,
                                             const std::string& what) const;
    /// An array of tables, [[key]]; empty when absent.
    [[nodiscard]] std::vector<TableReader> tables(const std::string& key, const std::string& schema) const;

    /// Throws InputError: "season.toml:12:3: <message>."
    [[noreturn]] void fail(TextPlace place, const std::string& message) const;
    /// The same at the value of a key, with the key in front: `"points.files" <message>`.
    [[noreturn]] void fail_at(const std::string& key, const std::string& message) const;

private:
    [[nodiscard]] std::string full_name(const std::string& key) const;
    [[nodiscard]] std::string checked_text(const toml::node& node, const std::string& key) const;
    [[noreturn]] void fail_at_node(const toml::node& node, const std::string& key, const std::string& message) const;
    void refuse_unknown_keys(const std::string& schema) const;

    const toml::table* table_;
    std::string name_;
    std::string file_;
    TextPlace place_;
};

} // namespace quartercut::season
