// SPDX-License-Identifier: MIT
// A small XML file as a tree of elements with their attributes; text between elements is passed over.
//
// Bounded and safe: no document type, so no entities that could be expanded or point elsewhere; limits on size, depth
// and number of elements.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut::reading {

struct XmlElement {
    std::string name;
    std::map<std::string, std::string> attributes;
    std::vector<XmlElement> children;
    /// An attribute's value; empty when it is absent.
    [[nodiscard]] const std::string& at(const std::string& attribute) const;
    [[nodiscard]] bool has(const std::string& attribute) const { return attributes.count(attribute) > 0; }
};

/// \param shown  opens every message
/// \throws InputError  not well-formed (with the line), a document type, too large, too deep
[[nodiscard]] XmlElement parse_xml(std::string_view bytes, const std::string& shown);

} // namespace quartercut::reading
