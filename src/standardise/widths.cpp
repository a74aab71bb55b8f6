// SPDX-License-Identifier: MIT
// The width of land a record stands for.
//
// Behind a swather the combine takes up one windrow a pass: the land of that pass is the swather's cut, whatever width
// the monitor was set to. So where a method states its cut, that is the full width, and a logged part width keeps its
// share of it: cut * logged / full logged width of that machine in that method.
#include "standardise/work.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <set>

namespace quartercut::standardise_room {

namespace {

constexpr double width_tolerance = 0.02; // share by which a logged full width may differ from the cut without remark

using MachineMethod = std::pair<std::int32_t, std::int32_t>;

/// Full (most often logged) width in metres per machine and method; absent where none was logged.
using FullWidths = std::map<MachineMethod, double>;

FullWidths find_full_widths(const Fields& fields) {
    std::map<MachineMethod, std::map<std::int64_t, std::size_t>> counts; // width in millimetres -> records
    for (const FieldWork& work : fields)
        for (std::size_t i = 0; i < work.logged_width_m.size(); ++i) {
            const double width_m = work.logged_width_m[i];
            if (!(width_m > 0.0 && width_m < 1000.0)) continue;
            const Records& records = work.field.records;
            ++counts[{records.machine[i], records.method[i]}][std::llround(width_m * 1000.0)];
        }
    FullWidths full;
    for (const auto& [key, widths] : counts) {
        std::size_t most = 0;
        for (const auto& [millimetres, records] : widths) {
            if (records < most) continue; // of equals the widest: a part width is never the full one
            most = records;
            full[key] = static_cast<double>(millimetres) / 1000.0;
        }
    }
    return full;
}

void note_width(const Method& method, const std::string& machine, double logged_m, Issues& issues) {
    const double share = logged_m / *method.cut_width_m - 1.0;
    if (std::abs(share) <= width_tolerance) return;
    issues.push_back({"width-differs", Severity::warning,
                      fill(spoken().places.machine_of, fmt::arg("machine", machine), fmt::arg("method", method.name)),
                      fill(spoken().standardise.width_differs, fmt::arg("machine", machine),
                           fmt::arg("logged", format_fixed(logged_m, 2)), fmt::arg("method", method.name),
                           fmt::arg("cut", format_fixed(*method.cut_width_m, 2)),
                           fmt::arg("pct", format_fixed(100.0 * (*method.cut_width_m / logged_m - 1.0), 1)))});
}

/// The monitor's width was never set: the land stands on the cut alone.
void note_width_not_logged(const Method& method, const std::string& machine, Issues& issues) {
    issues.push_back({"width-not-logged", Severity::note,
                      fill(spoken().places.machine_of, fmt::arg("machine", machine), fmt::arg("method", method.name)),
                      fill(spoken().standardise.width_not_logged, fmt::arg("machine", machine),
                           fmt::arg("method", method.name), fmt::arg("cut", format_fixed(*method.cut_width_m, 2)))});
}

void require_width(const Method& method) {
    if (method.cut_width_m) return;
    throw DataError(
        fmt::format("How wide \"{0}\" was cut is not known: the records log no width and [[method]] \"{0}\" "
                    "states none. Add a line such as cut_width = \"35 ft\" to [[method]] \"{0}\", or map "
                    "the width under [points.columns].",
                    method.name));
}

std::set<MachineMethod> without_logged_width(const FullWidths& full, const Fields& fields) {
    std::set<MachineMethod> unlogged;
    for (const FieldWork& work : fields)
        for (std::size_t i = 0; i < work.field.records.size(); ++i)
            if (const MachineMethod key{work.field.records.machine[i], work.field.records.method[i]};
                key.second >= 0 && full.count(key) == 0)
                unlogged.insert(key);
    return unlogged;
}

/// \throws DataError  naming every method whose width nobody states
void require_widths(const Season& season, const std::set<MachineMethod>& unlogged) {
    std::set<std::int32_t> methods;
    for (const auto& [machine, method] : unlogged)
        methods.insert(method);
    Faults faults;
    for (const std::int32_t method : methods)
        faults.attempt("", [&] { require_width(season.methods[static_cast<std::size_t>(method)]); });
    faults.raise();
}

/// The width of one record, full width of its machine and method known or NaN.
double land_width_m(const Season& season, std::int32_t method, double logged_m, double full_m) {
    const auto cut_m = method < 0 ? std::nullopt : season.methods[static_cast<std::size_t>(method)].cut_width_m;
    if (!cut_m) return std::isnan(logged_m) ? full_m : logged_m;
    if (std::isnan(logged_m) || std::isnan(full_m)) return *cut_m;
    return *cut_m * logged_m / full_m;
}

void fill_field(const Season& season, const FullWidths& full, FieldWork& work) {
    Records& records = work.field.records;
    records.width_m.resize(records.size());
    std::size_t assumed = 0;
    for (std::size_t i = 0; i < records.size(); ++i) {
        const std::int32_t method = records.method[i];
        const auto known = full.find({records.machine[i], method});
        const double full_m = known == full.end() ? unknown : known->second;
        if (std::isnan(full_m)) work.logged_width_m[i] = unknown; // 0 throughout is a width never set, not a part width
        if (std::isnan(work.logged_width_m[i]) && !std::isnan(full_m)) ++assumed;
        records.width_m[i] = land_width_m(season, method, work.logged_width_m[i], full_m);
    }
    if (assumed > 0)
        work.field.issues.push_back({"width-missing", Severity::note, work.field.name,
                                     fill(spoken().standardise.width_missing, fmt::arg("records", assumed))});
}

} // namespace

void fill_widths(const Season& season, const std::vector<std::string>& machines, Fields& fields, Issues& issues) {
    const FullWidths full = find_full_widths(fields);
    const std::set<MachineMethod> unlogged = without_logged_width(full, fields);
    require_widths(season, unlogged);
    for (FieldWork& work : fields)
        fill_field(season, full, work);
    for (const auto& [machine, method] : unlogged)
        note_width_not_logged(season.methods[static_cast<std::size_t>(method)],
                              machines[static_cast<std::size_t>(machine)], issues);
    for (const auto& [key, full_m] : full) {
        if (key.second < 0) continue;
        const Method& method = season.methods[static_cast<std::size_t>(key.second)];
        if (method.cut_width_m) note_width(method, machines[static_cast<std::size_t>(key.first)], full_m, issues);
    }
}

} // namespace quartercut::standardise_room
