// SPDX-License-Identifier: MIT
// part-2-of-8.cbor: the answers of some of a season's fields, every bit of them (CBOR, RFC 8949).
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"
#include "write/posix_file.hpp"
#include "write/report_members.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

namespace quartercut {

namespace {

namespace fs = std::filesystem;

constexpr const char* schema = "quartercut.part/1";

template <class Archive, class Value>
void describe_part(Archive& io, Value& v) {
    io("number", v.part.number);
    io("count", v.part.count);
    io("version", v.version);
    io("inputs", v.inputs);
    io("fields", v.fields);
}

SeasonPart part_from(const write::Tree& tree) {
    SeasonPart part;
    if (tree.value("schema", "") != schema) throw InputError("it is not a part of a season.");
    write::Fetching io(tree);
    describe_part(io, part);
    if (part.part.number < 1 || part.part.number > part.part.count)
        throw InputError("its number is not one of its parts.");
    return part;
}

} // namespace

fs::path write_part(const SeasonPart& part, const fs::path& folder) {
    write::Tree tree;
    write::Storing io(tree);
    io("schema", std::string(schema));
    describe_part(io, part);
    std::string bytes;
    write::Tree::to_cbor(tree, bytes);
    std::error_code error;
    fs::create_directories(folder, error);
    if (error) write::fail_with_errno(error.value(), folder, "make the folder");
    const std::string name = fmt::format("part-{}-of-{}.cbor", part.part.number, part.part.count);
    replace_result(folder, name, bytes);
    return folder / name;
}

std::vector<fs::path> part_files(const fs::path& folder) {
    std::vector<fs::path> out;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error)) {
        const std::string name = entry.path().filename().string();
        if (name.rfind("part-", 0) == 0 && entry.path().extension() == ".cbor") out.push_back(entry.path());
    }
    if (error)
        throw InputError(
            fmt::format("{}: the folder of the parts cannot be read: {}.", folder.string(), error.message()));
    std::sort(out.begin(), out.end());
    return out;
}

SeasonPart read_part(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return write::from_cbor_file(in, part_from, [&](const std::string& why) {
        return InputError(fmt::format("{}: {} Run that part again.", file.string(), why));
    });
}

} // namespace quartercut
