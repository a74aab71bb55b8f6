// SPDX-License-Identifier: MIT
// Loss counts, grain samples, weather stations and next year's fields. See plan_inputs.hpp.
#include "quartercut/plan_inputs.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/areas.hpp"
#include "read/gdal_access.hpp"
#include "read/header_name.hpp"
#include "read/small_table.hpp"
#include "read/times.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>

namespace quartercut {
namespace reading {
namespace {

constexpr double seconds_per_day = 86400.0;

std::string checked_method(const Season& season, const SmallTable& table, std::size_t row, std::size_t column) {
    std::string value = table.text(row, column);
    if (!known_method_value(season, value)) table.refuse(row, column, no_method_words(season, value));
    const auto mapped = season.methods_from.values.find(value);
    return mapped == season.methods_from.values.end() ? value : mapped->second;
}

LossStage stage_of(const SmallTable& table, std::size_t row, std::size_t column) {
    const std::string word = lower(table.text(row, column));
    for (const LossStage stage : {LossStage::before_cutting, LossStage::behind_header, LossStage::behind_machine})
        if (word.find(loss_stage_word(stage)) != std::string::npos) return stage;
    table.refuse(row, column,
                 fmt::format("'{}' says not when it lay there; write before, header or machine.", shown_cell(word)));
}

struct LossColumns {
    std::size_t method, when, area;
    std::optional<std::size_t> field, place, seeds, grams, weight, cut, discharge;
    double area_m2 = 1.0, cut_m = 1.0, discharge_m = 1.0, kg_per_unit = 0.001;
};

LossColumns loss_columns(const SmallTable& table) {
    LossColumns c{};
    c.method = table.need(" method treatment ", "the method");
    c.when = table.need(" when stage ", "when the tray lay there (before, header, machine)");
    c.area = table.need(" area ", "the area of the tray, such as tray_area_ft2");
    c.area_m2 = table.factor(c.area, Dimension::area, "tray_area_ft2 or tray_area_m2");
    c.field = table.find(" field land quarter ");
    c.place = table.find(" place spot strip ");
    c.weight = table.find(" tsw tkw thousand 1000 weight ");
    c.seeds = table.find(" seeds count ", " weight per thousand 1000 ");
    c.grams = table.find(" grams gram mass ", " per weight thousand 1000 ");
    if (!c.seeds && !c.grams)
        throw InputError(fmt::format("{}: neither a column seeds nor a column grams is there. Columns: {}.",
                                     table.shown(), listed(table.names())));
    c.cut = table.find(" cut ");
    c.discharge = table.find(" discharge ");
    if (c.cut) c.cut_m = table.factor(*c.cut, Dimension::length, "cut_width_ft");
    if (c.discharge) c.discharge_m = table.factor(*c.discharge, Dimension::length, "discharge_width_ft");
    return c;
}

std::optional<double> times(std::optional<double> value, double factor) {
    if (value) *value *= factor;
    return value;
}

constexpr double most_grams_m2 = 2000.0, widest_cut_m = 60.0;

double grams_m2(const LossCount& count) {
    const double seeds_g = count.seeds.value_or(0.0) * count.seed_weight_g.value_or(0.0) / 1000.0;
    return std::max(seeds_g, count.grams.value_or(0.0)) / count.area_m2;
}

void check_count(const SmallTable& table, std::size_t row, const LossColumns& c, const LossCount& count) {
    if (!count.seeds && !count.grams)
        table.refuse(row, c.seeds.value_or(c.grams.value_or(0)),
                     "neither seeds nor grams are given; a tray that was empty has 0.");
    if (count.seeds.value_or(0.0) < 0.0 || count.grams.value_or(0.0) < 0.0)
        table.refuse(row, c.seeds.value_or(c.grams.value_or(0)), "a count cannot be negative.");
    if (!(count.area_m2 > 0.0 && count.area_m2 < 20.0))
        table.refuse(row, c.area, "a tray is larger than nothing and smaller than 20 m2.");
    if (!(grams_m2(count) <= most_grams_m2))
        table.refuse(row, c.seeds.value_or(c.grams.value_or(0)), "no crop has that much grain on a tray (20 t/ha).");
    const double weight_g = count.seed_weight_g.value_or(3.0);
    if (!(weight_g > 0.1 && weight_g < 2000.0)) table.refuse(row, *c.weight, "1000 seeds of a crop do not weigh that.");
    if (!count.grams && !count.seed_weight_g)
        table.refuse(row, *c.seeds,
                     "seeds need the weight of 1000 of them to become grams; add seed_weight_g_per_1000.");
    // Also where it is not needed: an impossible width says that something is wrong with the row.
    for (const auto& [width_m, column] :
         {std::pair{count.cut_width_m, c.cut}, std::pair{count.discharge_width_m, c.discharge}})
        if (width_m && !(*width_m >= 0.0 && *width_m <= widest_cut_m))
            table.refuse(row, *column, "a width lies above 0 and below 60 m.");
    if (count.stage != LossStage::behind_machine) return;
    if (!count.cut_width_m || !count.discharge_width_m)
        table.refuse(row, c.when,
                     "behind the machine the grain of the whole cut falls in the width of the discharge; "
                     "cut_width and discharge_width are needed.");
    if (!(*count.discharge_width_m > 0.0 && *count.cut_width_m >= *count.discharge_width_m))
        table.refuse(row, *c.discharge, "the discharge is wider than the cut, or 0.");
}

LossCount loss_of(const Season& season, const SmallTable& table, std::size_t row, const LossColumns& c) {
    LossCount count;
    count.row = row + 1;
    count.field = table.text(row, c.field);
    count.method = checked_method(season, table, row, c.method);
    count.place = table.text(row, c.place);
    count.stage = stage_of(table, row, c.when);
    count.seeds = table.number(row, c.seeds);
    count.grams = table.number(row, c.grams);
    count.area_m2 = table.number(row, c.area).value_or(0.0) * c.area_m2;
    count.seed_weight_g = table.number(row, c.weight);
    count.cut_width_m = times(table.number(row, c.cut), c.cut_m);
    count.discharge_width_m = times(table.number(row, c.discharge), c.discharge_m);
    check_count(table, row, c, count);
    return count;
}

void add_input_of(PlanTables& out, const SmallTable& table, const std::string& role) {
    InputFile input = fingerprint(table.file(), role);
    input.rows = table.size();
    out.inputs.push_back(input);
    out.issues.insert(out.issues.end(), table.issues().begin(), table.issues().end());
}

void read_losses(const Season& season, PlanTables& out) {
    const SmallTable table(season, season.loss_counts->file, "file under [loss_counts]");
    const LossColumns columns = loss_columns(table);
    for (std::size_t row = 0; row < table.size(); ++row)
        out.losses.push_back(loss_of(season, table, row, columns));
    add_input_of(out, table, "loss counts");
}

void read_samples(const Season& season, PlanTables& out) {
    const SmallTable table(season, season.loss_counts->samples, "samples under [loss_counts]");
    const std::size_t method = table.need(" method treatment ", "the method");
    const auto field = table.find(" field land quarter "), block = table.find(" block pair strip ");
    const auto is_key = [&](std::size_t c) { return c == method || c == field || c == block; };
    for (std::size_t row = 0; row < table.size(); ++row) {
        SeedSample sample;
        sample.row = row + 1;
        sample.field = table.text(row, field);
        sample.block = table.text(row, block);
        sample.method = checked_method(season, table, row, method);
        for (std::size_t c = 0; c < table.names().size(); ++c) {
            // A column of words (a grade, a note) is none that can be averaged.
            if (is_key(c) || lower(table.names()[c]).find("note") != std::string::npos) continue;
            if (const auto value = parse_number(table.text(row, c))) sample.values[table.names()[c]] = *value;
        }
        out.samples.push_back(std::move(sample));
    }
    add_input_of(out, table, "seed samples");
}

void add_hour(std::map<long, WeatherDay>& days, long day, std::optional<double> rain, std::optional<double> gust) {
    WeatherDay& into = days[day];
    into.day = day;
    if (rain) into.rain_mm = into.rain_mm.value_or(0.0) + *rain;
    if (gust) into.gust_km_h = std::max(into.gust_km_h.value_or(0.0), *gust);
}

// The most on record anywhere, rounded up: 1825 mm in a day (1966), a gust of 408 km/h (1996); World Meteorological
// Organization, archive of weather extremes, from memory.
constexpr double most_rain_mm = 2000.0, most_gust_km_h = 450.0;

void check_weather(const SmallTable& table, std::size_t row, std::optional<std::size_t> column,
                   std::optional<double> value, double most) {
    if (value && !(*value >= 0.0 && *value <= most))
        table.refuse(row, *column, "no station has measured that; it lies below 0 or above every record.");
}

Issue one_column_only(const SmallTable& table, bool rain) {
    return {"weather-column-missing", Severity::warning, table.shown(),
            fill(rain ? spoken().read.only_rain : spoken().read.only_gust, fmt::arg("columns", listed(table.names())))};
}

void read_station(const Season& season, PlanTables& out) {
    const SmallTable table(season, season.weather->file, "file under [weather]");
    const std::size_t date = table.need(" date day time datetime ", "the date", " rain gust wind ");
    const auto rain = table.find(" rain precip precipitation ", " flag "), gust = table.find(" gust ", " dir flag ");
    if (!rain && !gust)
        throw InputError(fmt::format("{}: no column was recognised as rain (rain_mm) or gust (gust_km_h). Columns: {}.",
                                     table.shown(), listed(table.names())));
    constexpr double mm_per_m = 1000.0, km_h_per_m_s = 3.6;
    const double rain_mm = rain ? table.factor(*rain, Dimension::length, "rain_mm") * mm_per_m : 0.0;
    const double gust_km_h = gust ? table.factor(*gust, Dimension::speed, "gust_km_h") * km_h_per_m_s : 0.0;
    std::map<long, WeatherDay> days;
    std::map<std::string, std::size_t> row_of;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const auto [first, is_new] = row_of.emplace(table.text(row, date), row);
        if (!is_new)
            table.refuse(
                row, date,
                fmt::format("row {} is of the same time, and rain would count twice. Remove one, or add the time "
                            "of day.",
                            first->second + 1));
        const auto day = day_number(table.text(row, date));
        if (!day) table.refuse(row, date, "this is no day. Write it as year-month-day.");
        const auto fallen = times(table.number(row, rain), rain_mm), blown = times(table.number(row, gust), gust_km_h);
        check_weather(table, row, rain, fallen, most_rain_mm);
        check_weather(table, row, gust, blown, most_gust_km_h);
        add_hour(days, *day, fallen, blown);
    }
    for (const auto& [number, day] : days)
        out.weather.push_back(day);
    if (!rain || !gust) out.issues.push_back(one_column_only(table, rain.has_value()));
    add_input_of(out, table, "weather");
}

std::vector<std::string> candidate_columns(const NextYearInput& input) {
    std::vector<std::string> columns;
    for (const std::string* column : {&input.crop_column, &input.variety_column, &input.fixed_column})
        if (!column->empty()) columns.push_back(*column);
    for (const MethodLimits& limits : input.methods)
        if (!limits.ready_column.empty()) columns.push_back(limits.ready_column);
    for (const SuitabilityNote& note : input.notes)
        columns.push_back(note.column);
    return columns;
}

} // namespace
} // namespace reading

const char* loss_stage_word(LossStage stage) {
    switch (stage) {
    case LossStage::before_cutting:
        return "before";
    case LossStage::behind_header:
        return "header";
    case LossStage::behind_machine:
        return "machine";
    }
    return "";
}

namespace reading {
namespace {

void read_tables(Context& context, PlanTables& out) {
    const Season& season = context.season;
    if (season.loss_counts && !season.loss_counts->file.empty())
        context.attempt(season.loss_counts->file, [&] { read_losses(season, out); });
    if (season.loss_counts && !season.loss_counts->samples.empty())
        context.attempt(season.loss_counts->samples, [&] { read_samples(season, out); });
    if (season.weather) context.attempt(season.weather->file, [&] { read_station(season, out); });
}

void doubt_next_year(const Season& season, Issues& out) {
    const auto doubt = [&](const Error& error) {
        out.push_back({"next-year-unread", Severity::warning, "[next_year]",
                       fmt::format("{} 'compare' goes without; 'choose' would stop.", error.what())});
    };
    try {
        (void)read_candidates(season);
    } catch (const InputError& error) {
        doubt(error);
    } catch (const DataError& error) {
        doubt(error);
    }
}

} // namespace
} // namespace reading

PlanTables read_plan_tables(const Season& season) {
    PlanTables out;
    Raw none;
    reading::Context context{season, none};
    reading::read_tables(context, out);
    return out;
}

Issues plan_table_faults(const Season& season) {
    PlanTables tables;
    Raw gathered;
    reading::Context context{season, gathered, true};
    reading::read_tables(context, tables);
    if (season.next_year) reading::doubt_next_year(season, gathered.issues);
    return std::move(gathered.issues);
}

Candidates read_candidates(const Season& season) {
    const reading::GdalWords quiet;
    const NextYearInput& input = *season.next_year;
    Raw raw;
    reading::Context context{season, raw};
    reading::AreaWish wish;
    wish.role = "next_year";
    wish.key = "name";
    wish.input.file = input.file.empty() ? season.fields.file : input.file;
    wish.input.layer = input.layer;
    wish.input.crs = input.crs.empty() && input.file.empty() ? season.fields.crs : input.crs;
    wish.name_column = input.name_column.empty() ? "name" : input.name_column;
    wish.more = reading::candidate_columns(input);
    reading::AreaLayer layer = reading::read_areas(context, wish);
    return {std::move(layer.areas), std::move(raw.inputs), raw.local_metres, std::move(raw.issues)};
}

std::vector<std::string> read_field_names(const Season& season) {
    const reading::GdalWords quiet;
    Raw raw;
    reading::Context context{season, raw};
    reading::read_fields(context);
    std::vector<std::string> names;
    for (const RawArea& field : raw.fields)
        names.push_back(field.name);
    return names;
}

std::optional<long> day_number(const std::string& text) {
    if (!reading::parse_moment(text)) return std::nullopt;
    // The day where it was written, not in Greenwich.
    const std::string_view written = trim(text);
    const auto day = reading::parse_day(written.substr(0, written.find_first_of("T t")));
    if (!day) return std::nullopt;
    return static_cast<long>(std::floor(*day / reading::seconds_per_day));
}

std::string day_text(long day) {
    // Civil date from a day count (Fliegel and Van Flandern 1968, CACM 11:657).
    long l = day + 2440588L + 68569L;
    const long n = 4 * l / 146097;
    l -= (146097 * n + 3) / 4;
    const long i = 4000 * (l + 1) / 1461001;
    l = l - 1461 * i / 4 + 31;
    const long j = 80 * l / 2447;
    const long d = l - 2447 * j / 80;
    l = j / 11;
    return fmt::format("{:04}-{:02}-{:02}", 100 * (n - 49) + i + l, j + 2 - 12 * l, d);
}

} // namespace quartercut
