// SPDX-License-Identifier: MIT
// Records that stand in two files: an export made twice, or once more in another format.
//
// Two machines are never at one place at one moment, so a record of one file that stands where and when one of another
// file does is the same record. Copies to the last digit are dropped while cleaning and do no harm. Copies with other
// digits (rounded places, other units) would look like two readings of one spot, and their grain would count twice.
#include "standardise/work.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"
#include "base/time_order.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace quartercut::standardise_room {

namespace {

constexpr double same_place_m = 0.05;               // below what any machine travels in a second at work
constexpr std::size_t fewest_unlike_to_refuse = 10; // a stray pair proves nothing

struct Shared {
    std::size_t alike = 0, unlike = 0; ///< to the last digit, and nearly
};
/// Of the files with those numbers, the smaller first.
using SharedByFiles = std::map<std::pair<std::uint32_t, std::uint32_t>, Shared>;

bool same_number(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool alike(const Records& r, std::size_t a, std::size_t b) {
    return r.machine[a] == r.machine[b] && r.x_m[a] == r.x_m[b] && r.y_m[a] == r.y_m[b] &&
           same_number(r.mass_kg[a], r.mass_kg[b]);
}

void count_shared(const Records& r, SharedByFiles& shared) {
    if (std::adjacent_find(r.input.begin(), r.input.end(), std::not_equal_to<>()) == r.input.end()) return; // one file
    const std::vector<std::size_t> order = timed_in_order(r.time_s);
    for (std::size_t k = 0; k < order.size(); ++k)
        for (std::size_t m = k + 1; m < order.size() && r.time_s[order[m]] == r.time_s[order[k]]; ++m) {
            const std::size_t a = order[k], b = order[m];
            if (r.input[a] == r.input[b]) continue;
            if (std::hypot(r.x_m[a] - r.x_m[b], r.y_m[a] - r.y_m[b]) > same_place_m) continue;
            Shared& here = shared[std::minmax(r.input[a], r.input[b])];
            ++(alike(r, a, b) ? here.alike : here.unlike);
        }
}

} // namespace

void check_twins(const std::vector<StandardField>& fields, const std::vector<InputFile>& inputs, Issues& issues) {
    SharedByFiles shared;
    for (const StandardField& field : fields)
        count_shared(field.records, shared);
    Faults faults;
    for (const auto& [files, count] : shared) {
        const std::string &first = inputs[files.first].path, &second = inputs[files.second].path;
        if (count.unlike >= fewest_unlike_to_refuse)
            faults.attempt("", [&, &n = count.unlike] {
                throw DataError(fmt::format(
                    "{}: {} of its records stand at the moment and the place of a record of {}, with digits or units "
                    "that differ: the same records exported twice, whose grain would count twice. Keep one of the two "
                    "files under [points].",
                    second, n, first));
            });
        else
            issues.push_back({"records-twice", Severity::warning, second,
                              fill(spoken().standardise.records_twice, fmt::arg("records", count.alike + count.unlike),
                                   fmt::arg("other", first))});
    }
    faults.raise();
}

} // namespace quartercut::standardise_room
