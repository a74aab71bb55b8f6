// SPDX-License-Identifier: MIT
// One list of members serves both ways: `describe(archive, value)` names each member once, and an archive either stores
// or fetches it. A new member of a result is one more line in report_data.cpp.
#pragma once

#include "quartercut/error.hpp"
#include "quartercut/results.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <istream>
#include <iterator>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <vector>

namespace quartercut::write {

using Tree = nlohmann::json;

class Storing;
class Fetching;

template <class T>
void store(Tree& out, const T& value);
template <class T>
void fetch(const Tree& in, T& value);

/// Puts members into an object.
class Storing {
public:
    explicit Storing(Tree& tree) : tree_(tree) { tree_ = Tree::object(); }
    template <class T>
    void operator()(const char* key, const T& value) {
        store(tree_[key], value);
    }
    /// A member that files of earlier versions lack.
    template <class T>
    void added(const char* key, const T& value) {
        store(tree_[key], value);
    }

private:
    Tree& tree_;
};

/// Takes them out again. \throws nlohmann::json::exception where one is missing or of another kind
class Fetching {
public:
    explicit Fetching(const Tree& tree) : tree_(tree) {}
    template <class T>
    void operator()(const char* key, T& value) {
        fetch(tree_.at(key), value);
    }
    /// Stays as it is where the file lacks it.
    template <class T>
    void added(const char* key, T& value) {
        if (const auto found = tree_.find(key); found != tree_.end()) fetch(*found, value);
    }

private:
    const Tree& tree_;
};

template <class T>
struct IsList : std::false_type {};
template <class T>
struct IsList<std::vector<T>> : std::true_type {};
template <class T>
struct IsArray : std::false_type {};
template <class T, std::size_t n>
struct IsArray<std::array<T, n>> : std::true_type {};
template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {};

template <class T>
inline constexpr bool is_plain =
    std::is_arithmetic_v<T> || std::is_same_v<T, std::string> || std::is_same_v<T, std::map<std::string, std::string>>;

template <class T>
void store(Tree& out, const T& value) {
    if constexpr (is_plain<T>) {
        out = value;
    } else if constexpr (std::is_enum_v<T>) {
        out = static_cast<int>(value);
    } else if constexpr (IsOptional<T>::value) {
        if (value) store(out, *value);
    } else if constexpr (IsList<T>::value || IsArray<T>::value) {
        out = Tree::array();
        for (const auto& item : value)
            store(out.emplace_back(), item);
    } else {
        Storing archive(out);
        describe(archive, value);
    }
}

template <class T>
void fetch(const Tree& in, T& value) {
    if constexpr (is_plain<T>) {
        value = in.get<T>();
    } else if constexpr (std::is_enum_v<T>) {
        value = static_cast<T>(in.get<int>());
    } else if constexpr (IsOptional<T>::value) {
        value.reset();
        if (!in.is_null()) fetch(in, value.emplace());
    } else if constexpr (IsList<T>::value) {
        value.clear();
        for (const auto& item : in)
            fetch(item, value.emplace_back());
    } else if constexpr (IsArray<T>::value) {
        for (std::size_t i = 0; i < value.size(); ++i)
            fetch(in.at(i), value[i]);
    } else {
        Fetching archive(in);
        describe(archive, value);
    }
}

// Found by argument-dependent lookup, hence in the namespace of the structs. `Value` is const when storing.
#define QUARTERCUT_DESCRIBE(Struct)                                                                                    \
    template <class Archive, class Value,                                                                              \
              std::enable_if_t<std::is_same_v<std::remove_const_t<Value>, Struct>, int> = 0>                           \
    void describe(Archive& io, Value& v)

/// The library reads lists in lists by calling itself: what lies too deep would be the end of the program.
/// \throws InputError
void require_shallow(const std::string& cbor);

/// What a file of ours holds, read by `make` from its CBOR; whatever is wrong with it becomes one error of `unreadable`.
/// \param make  Tree -> result  \param unreadable  a reason in words -> the error to throw
template <class Make, class Unreadable>
auto from_cbor_file(std::istream& in, const Make& make, const Unreadable& unreadable) {
    const std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    try {
        require_shallow(bytes);
        return make(Tree::from_cbor(bytes));
    } catch (const nlohmann::json::exception&) {
        throw unreadable("it is damaged or of another version.");
    } catch (const std::out_of_range&) {
        throw unreadable("its lists are of different lengths.");
    } catch (const std::length_error&) {
        throw unreadable("its lists are longer than any list can be.");
    } catch (const Error& error) {
        throw unreadable(error.what());
    }
}

} // namespace quartercut::write
