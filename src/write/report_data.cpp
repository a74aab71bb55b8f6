// SPDX-License-Identifier: MIT
// report-data.cbor: what the page is drawn from, so that it can be drawn again without computing anything. CBOR (RFC
// 8949) keeps every bit of a number, "unknown" included, in a third of the bytes of text.
//
// Of the records only those left out are kept: the page draws those one by one and counts the others.
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"
#include "write/posix_file.hpp"
#include "write/report_plan_members.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <limits>

namespace quartercut {

namespace {

namespace fs = std::filesystem;
using write::fetch;
using write::store;
using write::Tree;

constexpr const char* schema = "quartercut.report-data/1";
constexpr const char* file_name = "report-data.cbor";

// Segments are many: a list for each member instead of an object for each segment.
struct SegmentLists {
    std::vector<int> pass, zone, machine;
    std::vector<double> x_m, y_m, length_m, area_m2, mass_basis_kg, moisture_pct;
};

// The records left out, in their order; the rest is a count.
struct RecordLists {
    std::vector<double> x_m, y_m;
    std::vector<Removal> removal;
    std::size_t kept = 0;
    bool any_at_basis = false;
};

template <class Archive, class Lists>
void describe_segments(Archive& io, Lists& v) {
    io("pass", v.pass);
    io("zone", v.zone);
    io("machine", v.machine);
    io("x_m", v.x_m);
    io("y_m", v.y_m);
    io("length_m", v.length_m);
    io("area_m2", v.area_m2);
    io("mass_basis_kg", v.mass_basis_kg);
    io("moisture_pct", v.moisture_pct);
}

template <class Archive, class Lists>
void describe_records(Archive& io, Lists& v) {
    io("x_m", v.x_m);
    io("y_m", v.y_m);
    io("removal", v.removal);
    io("kept", v.kept);
    io("any_at_basis", v.any_at_basis);
}

Tree segments_tree(const std::vector<Segment>& segments) {
    SegmentLists lists;
    for (const Segment& s : segments) {
        lists.pass.push_back(s.pass);
        lists.zone.push_back(s.zone);
        lists.machine.push_back(s.machine);
        lists.x_m.push_back(s.x_m);
        lists.y_m.push_back(s.y_m);
        lists.length_m.push_back(s.length_m);
        lists.area_m2.push_back(s.area_m2);
        lists.mass_basis_kg.push_back(s.mass_basis_kg);
        lists.moisture_pct.push_back(s.moisture_pct);
    }
    Tree out;
    write::Storing io(out);
    describe_segments(io, lists);
    return out;
}

std::vector<Segment> segments_from(const Tree& tree) {
    SegmentLists lists;
    write::Fetching io(tree);
    describe_segments(io, lists);
    std::vector<Segment> out(lists.pass.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
        out[i].pass = lists.pass.at(i);
        out[i].zone = lists.zone.at(i);
        out[i].machine = lists.machine.at(i);
        out[i].x_m = lists.x_m.at(i);
        out[i].y_m = lists.y_m.at(i);
        out[i].length_m = lists.length_m.at(i);
        out[i].area_m2 = lists.area_m2.at(i);
        out[i].mass_basis_kg = lists.mass_basis_kg.at(i);
        out[i].moisture_pct = lists.moisture_pct.at(i);
    }
    return out;
}

Tree records_tree(const Records& records, const std::vector<Removal>& removal) {
    RecordLists lists;
    for (std::size_t i = 0; i < removal.size() && i < records.size(); ++i) {
        if (removal[i] == Removal::kept) {
            ++lists.kept;
            continue;
        }
        lists.x_m.push_back(records.x_m[i]);
        lists.y_m.push_back(records.y_m[i]);
        lists.removal.push_back(removal[i]);
    }
    lists.any_at_basis =
        std::any_of(records.at_basis.begin(), records.at_basis.end(), [](auto dry) { return dry != 0; });
    Tree out;
    write::Storing io(out);
    describe_records(io, lists);
    return out;
}

void records_from(const Tree& tree, Records& records, std::vector<Removal>& removal) {
    RecordLists lists;
    write::Fetching io(tree);
    describe_records(io, lists);
    constexpr std::size_t most = 1000000000; // a file that says more is not ours
    if (lists.kept > most || lists.x_m.size() != lists.removal.size() || lists.y_m.size() != lists.removal.size())
        throw InputError("the lists of records are of different lengths.");
    const std::size_t all = lists.removal.size() + lists.kept;
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    records.x_m = std::move(lists.x_m);
    records.y_m = std::move(lists.y_m);
    records.x_m.resize(all, unknown);
    records.y_m.resize(all, unknown);
    records.at_basis.assign(all > 0 ? 1 : 0, lists.any_at_basis ? 1 : 0);
    removal = std::move(lists.removal);
    removal.resize(all, Removal::kept);
}

Tree field_tree(const Results& results, std::size_t i) {
    const StandardField& standard = results.standardised.fields[i];
    const CleanedField& cleaned = results.cleaned.fields[i];
    const ZonedField& zoned = results.zoned[i];
    Tree out;
    write::Storing io(out);
    io("name", standard.name);
    io("attributes", standard.attributes);
    if (!standard.frame.is_local()) io("centre_deg", standard.frame.to_degrees({0.0, 0.0}));
    io("boundary_m", standard.boundary_m);
    io("area_m2", standard.area_m2);
    io("standard_issues", standard.issues);
    out["records"] = records_tree(standard.records, cleaned.removal);
    io("passes", cleaned.passes);
    io("lag", cleaned.lag);
    io("calibration", cleaned.calibration);
    io("steps", cleaned.steps);
    io("clean_issues", cleaned.issues);
    io("zones", zoned.zones);
    out["segments"] = segments_tree(zoned.segments);
    io("zone_issues", zoned.issues);
    return out;
}

void field_from(const Tree& tree, Results& results) {
    StandardField standard;
    CleanedField cleaned;
    ZonedField zoned;
    write::Fetching io(tree);
    io("name", standard.name);
    io("attributes", standard.attributes);
    if (tree.contains("centre_deg")) {
        Point centre_deg;
        io("centre_deg", centre_deg);
        standard.frame = Frame(centre_deg.x, centre_deg.y);
    }
    io("boundary_m", standard.boundary_m);
    io("area_m2", standard.area_m2);
    io("standard_issues", standard.issues);
    records_from(tree.at("records"), standard.records, cleaned.removal);
    io("passes", cleaned.passes);
    io("lag", cleaned.lag);
    io("calibration", cleaned.calibration);
    io("steps", cleaned.steps);
    io("clean_issues", cleaned.issues);
    io("zones", zoned.zones);
    zoned.segments = segments_from(tree.at("segments"));
    io("zone_issues", zoned.issues);
    results.standardised.fields.push_back(std::move(standard));
    results.cleaned.fields.push_back(std::move(cleaned));
    results.zoned.push_back(std::move(zoned));
}

// A damaged file must end in words, not in a page of nonsense.
void require_sound(const Results& results) {
    const auto methods = static_cast<int>(results.season.methods.size());
    if (results.comparison.fields.size() != results.zoned.size()) throw InputError("fields are missing.");
    for (std::size_t i = 0; i < results.zoned.size(); ++i) {
        const auto& zoned = results.zoned[i];
        for (const Zone& zone : zoned.zones)
            if (zone.method < -1 || zone.method >= methods) throw InputError("a zone is of no known method.");
        for (const Segment& segment : zoned.segments)
            if (segment.zone < -1 || segment.zone >= static_cast<int>(zoned.zones.size()))
                throw InputError("a segment lies in no zone.");
        for (const Removal removal : results.cleaned.fields[i].removal)
            if (static_cast<std::size_t>(removal) >= removal_count)
                throw InputError("a record was left out for no reason.");
    }
}

Results results_from(const Tree& tree) {
    if (tree.value("schema", "") != schema) throw InputError("another version of the program wrote it.");
    Results out;
    write::Fetching io(tree);
    std::string season_name, season_text;
    io("version", out.version);
    io("season_name", season_name);
    io("season_text", season_text);
    out.season = parse_season(season_text, season_name);
    io("machines", out.standardised.machines);
    io("inputs", out.standardised.inputs);
    io("standard_issues", out.standardised.issues);
    io("calibration", out.cleaned.calibration);
    io("loads", out.cleaned.loads);
    io("clean_issues", out.cleaned.issues);
    io("comparison", out.comparison);
    io("plan", out.plan);
    for (const Tree& field : tree.at("fields"))
        field_from(field, out);
    require_sound(out);
    return out;
}

/// Field by field, since the values of thousands of fields would fill the memory: a map and a list without their lengths
/// (RFC 8949 3.2.2).
std::string with_fields(const Tree& members, const Results& results) {
    constexpr char map_begins = '\xbf', list_begins = '\x9f', ends = '\xff';
    constexpr std::size_t most_in_one_byte = 23; // then the map's own head, left out here, is that byte (RFC 8949 3.1)
    if (members.size() > most_in_one_byte)
        throw InternalError("The page's data has more members than its head can say.");
    std::string bytes;
    Tree::to_cbor(members, bytes);
    bytes.front() = map_begins;
    Tree::to_cbor("fields", bytes);
    bytes += list_begins;
    for (std::size_t i = 0; i < results.standardised.fields.size(); ++i)
        Tree::to_cbor(field_tree(results, i), bytes);
    bytes += ends;
    bytes += ends;
    return bytes;
}

} // namespace

std::string report_data(const Results& results) {
    Tree out;
    write::Storing io(out);
    io("schema", std::string(schema));
    io("version", results.version);
    io("season_name", results.season.file.filename().string());
    io("season_text", results.season.text);
    io("machines", results.standardised.machines);
    io("inputs", results.standardised.inputs);
    io("standard_issues", results.standardised.issues);
    io("calibration", results.cleaned.calibration);
    io("loads", results.cleaned.loads);
    io("clean_issues", results.cleaned.issues);
    io("comparison", results.comparison);
    io("plan", results.plan);
    return with_fields(out, results);
}

Results read_report_data(const fs::path& folder) {
    const fs::path file = folder / file_name;
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        throw InputError(fmt::format("{}: there is no {} in it, which holds what the page is drawn from. Give the "
                                     "results folder of a comparison, or run 'quartercut compare' again.",
                                     folder.string(), file_name));
    }
    return write::from_cbor_file(in, results_from, [&](const std::string& why) {
        return InputError(fmt::format("{}: the page cannot be drawn from it: {} Run 'quartercut compare' again.",
                                      file.string(), why));
    });
}

void replace_result(const fs::path& folder, const std::string& name, const std::string& text) {
    const fs::path file = folder / name;
    const fs::path beside = folder / (name + "-new"); // a later run knows it for a leftover of ours
    std::error_code failed, ignored;
    try {
        write::write_synced(beside, text, file);
        fs::rename(beside, file, failed);
        if (failed) write::fail_with_errno(failed.value(), file, "replace the file");
        write::sync_folder(folder, folder);
    } catch (const WriteError&) {
        fs::remove(beside, ignored); // a half file is of no use, and on a full disk it takes room
        throw;
    }
}

} // namespace quartercut
