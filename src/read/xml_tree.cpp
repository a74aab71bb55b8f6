// SPDX-License-Identifier: MIT
// The tree is built by expat's events; a document type stops the parser at once.
#include "read/xml_tree.hpp"

#include "quartercut/error.hpp"

#include <expat.h>
#include <fmt/format.h>
#include <memory>

namespace quartercut::reading {
namespace {

constexpr std::size_t most_bytes = 64U << 20U;
constexpr std::size_t most_elements = 500000;
constexpr std::size_t deepest = 32;

struct ParserFree {
    void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
};
using Parser = std::unique_ptr<std::remove_pointer_t<XML_Parser>, ParserFree>;

struct Building {
    XML_Parser parser = nullptr;
    XmlElement root;               ///< a nameless element around the document's own
    std::vector<XmlElement*> open; ///< from the root to the element being read
    std::size_t elements = 0;
    std::string refused; ///< why the parser was stopped
    void refuse(const std::string& why) {
        refused = why;
        XML_StopParser(parser, XML_FALSE);
    }
};

Building& building(void* data) { return *static_cast<Building*>(data); }

void XMLCALL on_start(void* data, const XML_Char* name, const XML_Char** attributes) {
    Building& b = building(data);
    if (++b.elements > most_elements) return b.refuse("it holds more elements than task data can");
    if (b.open.size() > deepest) return b.refuse("its elements are nested deeper than task data can be");
    XmlElement element;
    element.name = name;
    for (std::size_t i = 0; attributes[i] != nullptr; i += 2)
        element.attributes[attributes[i]] = attributes[i + 1];
    b.open.back()->children.push_back(std::move(element));
    b.open.push_back(&b.open.back()->children.back());
}

void XMLCALL on_end(void* data, const XML_Char* /*name*/) { building(data).open.pop_back(); }

void XMLCALL on_doctype(void* data, const XML_Char*, const XML_Char*, const XML_Char*, int) {
    building(data).refuse("it holds a document type, which task data has no need of and which could smuggle things in");
}

} // namespace

const std::string& XmlElement::at(const std::string& attribute) const {
    static const std::string nothing;
    const auto found = attributes.find(attribute);
    return found == attributes.end() ? nothing : found->second;
}

XmlElement parse_xml(std::string_view bytes, const std::string& shown) {
    if (bytes.size() > most_bytes) throw InputError(fmt::format("{}: the file is too large for task data.", shown));
    const Parser parser(XML_ParserCreate(nullptr));
    if (!parser) throw InternalError("The XML parser cannot be had.");
    Building b;
    b.parser = parser.get();
    b.open.push_back(&b.root);
    XML_SetUserData(parser.get(), &b);
    XML_SetElementHandler(parser.get(), on_start, on_end);
    XML_SetStartDoctypeDeclHandler(parser.get(), on_doctype);
    const XML_Status status =
        XML_Parse(parser.get(), bytes.data(), static_cast<int>(bytes.size()), XML_TRUE); // at most 64 MB, fits an int
    if (!b.refused.empty()) throw InputError(fmt::format("{}: the file is refused: {}.", shown, b.refused));
    if (status != XML_STATUS_OK)
        throw InputError(fmt::format("{}, line {}: this is not XML: {}. Copy or export it afresh.", shown,
                                     XML_GetCurrentLineNumber(parser.get()),
                                     XML_ErrorString(XML_GetErrorCode(parser.get()))));
    return std::move(b.root.children.front());
}

} // namespace quartercut::reading
