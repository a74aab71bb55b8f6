// SPDX-License-Identifier: MIT
// Files whose records name no machine: one machine's export in pieces, or several machines'.
//
// Nothing says so, but a machine is never at two places at once. Where records of two such files stand far apart at one
// moment, each file is taken for a machine of its own, under the file's name.
#include "read/records.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "base/time_order.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace quartercut::reading {
namespace {

constexpr const char* unnamed_machine = "machine"; // tickets may name it so
constexpr double same_moment_s = 1.0;
constexpr double far_m = 40.0;               // no machine drives that far in a second
constexpr std::size_t fewest_far_apart = 10; // a receiver that lost its place jumps now and then

/// Metres between two places, good enough to tell 10 from 100.
double metres_between(const Raw& raw, const RawRecords& a, std::size_t i, const RawRecords& b, std::size_t j) {
    const double dx = a.lon_deg[i] - b.lon_deg[j], dy = a.lat_deg[i] - b.lat_deg[j];
    if (raw.local_metres) return std::hypot(dx, dy);
    constexpr double metres_per_degree = 111195.0; // a sphere of 6371 km
    return metres_per_degree * std::hypot(dx * std::cos(a.lat_deg[i] * std::numbers::pi / 180.0), dy);
}

bool work_at_once(const Raw& raw, const RawRecords& a, const RawRecords& b) {
    const std::vector<std::size_t> in_a = timed_in_order(a.time_s), in_b = timed_in_order(b.time_s);
    std::size_t far_apart = 0, next = 0;
    for (const std::size_t i : in_a) {
        while (next < in_b.size() && b.time_s[in_b[next]] < a.time_s[i] - same_moment_s)
            ++next;
        if (next == in_b.size()) return false;
        if (b.time_s[in_b[next]] > a.time_s[i] + same_moment_s) continue;
        if (metres_between(raw, a, i, b, in_b[next]) > far_m && ++far_apart == fewest_far_apart) return true;
    }
    return false;
}

/// "Harvest" of "combine 2/Harvest.zip"; the whole path where two files are called alike.
std::vector<std::string> names_of(const Raw& raw, const std::vector<RawRecords*>& unnamed) {
    std::vector<std::string> names, out;
    for (const RawRecords* records : unnamed)
        names.push_back(std::filesystem::path(raw.inputs[records->input].path).stem().string());
    for (std::size_t i = 0; i < names.size(); ++i)
        out.push_back(std::count(names.begin(), names.end(), names[i]) == 1 ? names[i]
                                                                            : raw.inputs[unnamed[i]->input].path);
    return out;
}

bool any_work_at_once(const Raw& raw, const std::vector<RawRecords*>& unnamed) {
    for (std::size_t a = 0; a < unnamed.size(); ++a)
        for (std::size_t b = a + 1; b < unnamed.size(); ++b)
            if (work_at_once(raw, *unnamed[a], *unnamed[b])) return true;
    return false;
}

} // namespace

void name_machines_by_file(Context& context) {
    std::vector<RawRecords*> unnamed;
    for (RawRecords& records : context.raw.records)
        if (records.texts.count(Meaning::machine) == 0) unnamed.push_back(&records);
    if (unnamed.empty()) return;
    const std::vector<std::string> names = names_of(context.raw, unnamed);
    const auto one_name = [&](std::size_t i) { return std::vector<std::int32_t>(unnamed[i]->size(), 0); };
    if (any_work_at_once(context.raw, unnamed)) {
        for (std::size_t i = 0; i < unnamed.size(); ++i)
            unnamed[i]->texts[Meaning::machine] = {{names[i]}, one_name(i)};
        context.warn("machines-by-file", "", fill(spoken().read.machines_by_file, fmt::arg("files", listed(names))));
        return;
    }
    if (unnamed.size() == context.raw.records.size()) return;
    for (std::size_t i = 0; i < unnamed.size(); ++i) {
        unnamed[i]->texts[Meaning::machine] = {{unnamed_machine}, one_name(i)};
        const std::string& path = context.raw.inputs[unnamed[i]->input].path;
        context.warn(
            "machine-not-named", path,
            fill(spoken().read.machine_not_named, fmt::arg("file", path), fmt::arg("machine", unnamed_machine)));
    }
}

} // namespace quartercut::reading
