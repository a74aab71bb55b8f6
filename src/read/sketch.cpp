// SPDX-License-Identifier: MIT
// A first look at a file nobody has described yet: what is in it, and what its columns seem to mean. For drafts of
// season files; reads no more than the beginning of each layer.
#include "quartercut/read.hpp"

#include "base/text.hpp"
#include "read/cells.hpp"
#include "read/gdal_access.hpp"
#include "read/recognise.hpp"
#include "read/task_data.hpp"
#include "read/text_table.hpp"
#include "read/times.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <set>

namespace quartercut {
namespace {

using namespace reading;

/// More values than these make a column no list of names.
constexpr std::size_t most_values = 12;

bool any_name_says(const std::vector<std::string>& columns, std::string_view wanted) {
    return std::any_of(columns.begin(), columns.end(), [wanted](const std::string& column) {
        const std::vector<std::string> words = taken_apart(column).words;
        return std::any_of(words.begin(), words.end(), [wanted](const std::string& w) { return in_list(wanted, w); });
    });
}

std::string order_word(DateOrder order) {
    if (order == DateOrder::unclear || order == DateOrder::year_first) return {};
    return order == DateOrder::day_first ? "day/month" : "month/day";
}

/// What the beginning of a table leaves open, its later rows may tell.
void settle_dates(LayerSketch& out, const FoundFile& file) {
    if (!out.dates_unclear) return;
    const TextTable table(file);
    for (const Meaning meaning : {Meaning::time, Meaning::date}) {
        const auto found = out.meanings.find(meaning);
        if (found == out.meanings.end()) continue;
        const auto column = std::find(table.names().begin(), table.names().end(), found->second.column);
        if (column == table.names().end()) continue;
        constexpr std::size_t all_rows = 100'000'000;
        const auto at = static_cast<std::size_t>(column - table.names().begin());
        out.dates = order_word(date_order(table.sample(at, all_rows)));
    }
}

/// The year most of the times lie in, and whether they state their zone.
void sketch_times(LayerSketch& out, const std::vector<std::string>& sample) {
    constexpr double day_s = 86400.0;
    std::map<int, std::size_t> years;
    const DateOrder order = date_order(sample);
    out.dates_unclear = out.dates_unclear || order == DateOrder::unclear;
    out.dates = order_word(order);
    for (const std::string& text : sample) {
        auto moment = parse_moment(text, order == DateOrder::unclear ? DateOrder::month_first : order);
        if (const auto number = cell_number(text); number && *number > 1e9 && *number < 4e9)
            moment = Moment{*number, true};
        if (!moment) continue;
        const std::chrono::sys_days days(std::chrono::days(static_cast<int>(std::floor(moment->seconds / day_s))));
        ++years[static_cast<int>(std::chrono::year_month_day(days).year())];
        out.times_state_zone = moment->zoned;
    }
    const auto most =
        std::max_element(years.begin(), years.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most != years.end()) out.year = most->first;
}

void sketch_columns(LayerSketch& out, const RecordSource& source) {
    Season nobodys;
    nobodys.bushel_lb = 50.0; // only so that units with bushels are known as units
    Raw raw;
    Context context{nobodys, raw, true};
    for (const SourceColumn& column : source.columns()) {
        out.columns.push_back(column.name);
        const std::set<std::string> values(column.sample.begin(), column.sample.end());
        const bool words =
            std::any_of(values.begin(), values.end(), [](const std::string& v) { return !cell_number(v); });
        if (words && values.size() <= most_values) out.values[column.name].assign(values.begin(), values.end());
    }
    for (const auto& [meaning, found] : recognise(context, source, {}).columns) {
        ColumnChoice choice;
        choice.column = source.columns()[found.column].name;
        choice.unit = found.unit;
        choice.moisture = found.moisture;
        out.meanings.emplace(meaning, choice);
        out.reasons.emplace(meaning, found.reason);
        if (meaning == Meaning::time || meaning == Meaning::date)
            sketch_times(out, source.columns()[found.column].sample);
    }
    for (const Issue& issue : raw.issues)
        if (issue.severity == Severity::error) out.trouble += (out.trouble.empty() ? "" : "\n") + issue.message;
}

LayerSketch sketch_table(const FoundFile& file) {
    LayerSketch out;
    const auto source = text_records(file);
    sketch_columns(out, *source);
    settle_dates(out, file);
    const bool placed = out.meanings.contains(Meaning::longitude) && out.meanings.contains(Meaning::latitude);
    const bool weighed =
        any_name_says(out.columns, " net gross ticket ") && any_name_says(out.columns, " moisture moist mst ");
    out.kind = placed ? LayerSketch::Kind::points : weighed ? LayerSketch::Kind::tickets : LayerSketch::Kind::table;
    return out;
}

LayerSketch sketch_layer(const FoundFile& file, const LayerFacts& facts) {
    LayerSketch out;
    out.layer = facts.name;
    out.crs = facts.crs;
    out.rows = facts.rows;
    out.kind = facts.polygons ? LayerSketch::Kind::polygons : LayerSketch::Kind::points;
    if (facts.rows == 0) {
        out.columns = facts.columns;
        out.trouble = "The layer is empty.";
        return out;
    }
    sketch_columns(out, *layer_records(file, facts.name));
    if (facts.polygons) out.meanings.clear();
    return out;
}

} // namespace

std::vector<LayerSketch> sketch_file(const std::filesystem::path& path) {
    const FoundFile file{path.filename().string(), path};
    std::vector<LayerSketch> out;
    try {
        if (is_task_data(file)) {
            LayerSketch sketch;
            sketch.kind = LayerSketch::Kind::points;
            sketch.crs = "WGS 84";
            sketch_columns(sketch, *task_records(file));
            out.push_back(std::move(sketch));
        } else if (is_text_table(file)) {
            out.push_back(sketch_table(file));
        } else {
            for (const LayerFacts& facts : layers_of(file))
                out.push_back(sketch_layer(file, facts));
        }
    } catch (const Error& error) {
        LayerSketch unknown;
        unknown.trouble = error.what();
        out.push_back(unknown);
    }
    for (LayerSketch& sketch : out)
        sketch.file = file.shown;
    return out;
}

} // namespace quartercut
