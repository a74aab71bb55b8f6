// SPDX-License-Identifier: MIT
// Typed access to a TOML table. A value of the wrong kind, outside its range or without its unit stops here.
#include "season/table_reader.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"
#include "season/faults.hpp"
#include "season/known_keys.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::season {
namespace {

TextPlace place_in(const toml::source_region& region) { return {region.begin.line, region.begin.column}; }

std::string kind_of(const toml::node& node) {
    switch (node.type()) {
    case toml::node_type::string:
        return "text";
    case toml::node_type::integer:
        return "a whole number";
    case toml::node_type::floating_point:
        return "a number";
    case toml::node_type::boolean:
        return "true or false";
    case toml::node_type::array:
        return "a list";
    case toml::node_type::table:
        return "a table";
    default:
        return "a date or time";
    }
}

/// A bare number as it would be written, for messages and for values of columns.
std::string number_text(const toml::node& node) {
    if (const auto whole = node.value_exact<int64_t>()) return fmt::format("{}", *whole);
    return format_shortest(node.value_or(0.0));
}

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7F; }

} // namespace

TableReader::TableReader(const toml::table& table, std::string name, const std::string& schema, std::string file,
                         TextPlace place)
    : table_(&table), name_(std::move(name)), file_(std::move(file)), place_(place) {
    refuse_unknown_keys(schema);
}

void TableReader::refuse_unknown_keys(const std::string& schema) const {
    const KnownKeys* known = known_keys(schema);
    if (known == nullptr) return;
    for (const std::string& key : keys()) {
        if (std::find(known->keys.begin(), known->keys.end(), key) != known->keys.end()) continue;
        KnownKeys here = *known;
        // Say [points.columns.yield], not the pattern that stands for all of them.
        if (known->table.ends_with('*')) here.table = name_;
        attempt([&] { fail(key_place(key), unknown_key_message(here, key)); });
    }
}

std::vector<std::string> TableReader::keys() const {
    std::vector<std::pair<TextPlace, std::string>> found;
    for (const auto& [key, node] : *table_)
        found.emplace_back(place_in(key.source()), std::string(key.str()));
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
        return std::pair(a.first.line, a.first.column) < std::pair(b.first.line, b.first.column);
    });
    std::vector<std::string> names;
    for (auto& [where, key] : found)
        names.push_back(std::move(key));
    return names;
}

TextPlace TableReader::key_place(const std::string& key) const {
    const auto found = table_->find(key);
    return found == table_->end() ? TextPlace{} : place_in(found->first.source());
}

TextPlace TableReader::value_place(const std::string& key) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return place_;
    const TextPlace place = place_in(node->source());
    return place.line > 0 ? place : key_place(key);
}

std::string TableReader::full_name(const std::string& key) const {
    return name_.empty() ? key : fmt::format("{}.{}", name_, key);
}

void TableReader::fail(TextPlace place, const std::string& message) const {
    const std::string end = message.ends_with('?') || message.ends_with('.') ? "" : ".";
    throw InputError(
        fmt::format("{}:{}:{}: {}{}", file_, std::max(place.line, 1U), std::max(place.column, 1U), message, end));
}

void TableReader::fail_at(const std::string& key, const std::string& message) const {
    fail(value_place(key), fmt::format("\"{}\" {}", full_name(key), message));
}

void TableReader::fail_at_node(const toml::node& node, const std::string& key, const std::string& message) const {
    const TextPlace place = place_in(node.source());
    fail(place.line > 0 ? place : key_place(key), fmt::format("\"{}\" {}", full_name(key), message));
}

std::string TableReader::checked_text(const toml::node& node, const std::string& key) const {
    const auto value = node.value_exact<std::string>();
    if (!value) fail_at_node(node, key, fmt::format("must be text in quotes, not {}", kind_of(node)));
    const std::string trimmed(trim(*value));
    if (trimmed.empty()) fail_at_node(node, key, "is empty; say something or remove the line");
    if (std::any_of(trimmed.begin(), trimmed.end(), is_control))
        fail_at_node(node, key,
                     "holds a line end or another control character; write it on one line "
                     "(a backslash in a path is written twice, or use single quotes)");
    return trimmed;
}

std::optional<std::string> TableReader::text(const std::string& key) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return std::nullopt;
    return checked_text(*node, key);
}

std::string TableReader::text_or(const std::string& key, const std::string& otherwise) const {
    return text(key).value_or(otherwise);
}

std::string TableReader::required_text(const std::string& key, const std::string& what) const {
    const std::optional<std::string> value = text(key);
    if (!value) fail(place_, fmt::format("\"{}\" is missing: {}", full_name(key), what));
    return *value;
}

std::optional<std::string> TableReader::value_as_text(const std::string& key) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return std::nullopt;
    if (node->is_number()) return number_text(*node);
    if (const auto flag = node->value_exact<bool>()) return *flag ? "true" : "false";
    return checked_text(*node, key);
}

std::vector<std::string> TableReader::texts(const std::string& key) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return {};
    const toml::array* list = node->as_array();
    if (list == nullptr) return {checked_text(*node, key)};
    if (list->empty()) fail_at(key, "is an empty list; name at least one");
    std::vector<std::string> values;
    for (const toml::node& item : *list)
        values.push_back(checked_text(item, key));
    return values;
}

std::optional<double> TableReader::quantity(const std::string& key, const QuantityRule& rule) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return std::nullopt;
    if (node->is_number())
        fail_at(key, fmt::format("is the bare number {}; write it with its unit in quotes, such as \"{}\"",
                                 number_text(*node), rule.example));
    const std::string written = checked_text(*node, key);
    double value = 0.0;
    try {
        value = parse_quantity(rule.dimension, written).value;
    } catch (const InputError& error) {
        fail(value_place(key), fmt::format("\"{}\": {}", full_name(key), error.what()));
    }
    if (!(value >= rule.low && value <= rule.high))
        fail_at(key, fmt::format("is \"{}\", which is out of range: {} is allowed", written, rule.allowed));
    return value;
}

bool TableReader::boolean(const std::string& key, bool otherwise) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return otherwise;
    const auto value = node->value_exact<bool>();
    if (!value) fail_at(key, fmt::format("must be true or false, without quotes, not {}", kind_of(*node)));
    return *value;
}

std::optional<int> TableReader::whole_number(const std::string& key, int low, int high) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return std::nullopt;
    const auto value = node->value_exact<int64_t>();
    if (!value) fail_at(key, fmt::format("must be a whole number, without quotes, not {}", kind_of(*node)));
    if (*value < low || *value > high)
        fail_at(key, fmt::format("is {}, which is out of range: {} to {} is allowed", *value, low, high));
    return static_cast<int>(*value);
}

bool TableReader::is_text(const std::string& key) const {
    const toml::node* node = table_->get(key);
    return node != nullptr && node->is_string();
}

std::optional<TableReader> TableReader::table(const std::string& key, const std::string& schema) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return std::nullopt;
    const toml::table* inner = node->as_table();
    if (inner == nullptr) {
        const bool twice = node->is_array_of_tables();
        fail_at(key, twice ? "may stand once only: write it in single brackets"
                           : fmt::format("must be a table, not {}", kind_of(*node)));
    }
    return TableReader(*inner, full_name(key), schema, file_, value_place(key));
}

TableReader TableReader::required_table(const std::string& key, const std::string& schema,
                                        const std::string& what) const {
    std::optional<TableReader> found = table(key, schema);
    if (!found) fail(place_, fmt::format("the table [{}] is missing: {}", full_name(key), what));
    return *found;
}

std::vector<TableReader> TableReader::tables(const std::string& key, const std::string& schema) const {
    const toml::node* node = table_->get(key);
    if (node == nullptr) return {};
    const toml::array* list = node->as_array();
    if (node->is_table())
        fail_at(key, fmt::format("stands in single brackets; write [[{}]], once for each", full_name(key)));
    if (list == nullptr || (!list->empty() && !list->is_array_of_tables()))
        fail_at(key, fmt::format("must be tables written as [[{}]], not {}", full_name(key), kind_of(*node)));
    std::vector<TableReader> found;
    for (const toml::node& item : *list)
        found.emplace_back(*item.as_table(), full_name(key), schema, file_, place_in(item.source()));
    return found;
}

} // namespace quartercut::season
