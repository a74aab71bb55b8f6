// SPDX-License-Identifier: MIT
// [loss_counts], [weather] and [next_year].
#include "season/plans.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::season {
namespace {

constexpr double seconds_per_day = 86400.0;

/// "150 ac/d": land done in a day, m2.
std::optional<double> read_per_day(const TableReader& table, const std::string& key) {
    const auto text = table.text(key);
    if (!text) return std::nullopt;
    const std::size_t unit_at = text->find_first_not_of("+-0123456789. ");
    const std::size_t slash = text->find('/');
    if (unit_at != std::string::npos && slash != std::string::npos && slash > unit_at) {
        const auto number = parse_number(text->substr(0, unit_at));
        const auto area = unit_factor(Dimension::area, trim(text->substr(unit_at, slash - unit_at)));
        const auto time = unit_factor(Dimension::duration, trim(text->substr(slash + 1)));
        if (number && area && time && *number > 0.0) return *number * *area / *time * seconds_per_day;
    }
    table.fail_at(key, fmt::format("is \"{}\"; write land per day, such as \"150 ac/d\"", *text));
}

std::optional<double> read_share(const TableReader& table, const std::string& key) {
    const auto share = table.quantity(key, {Dimension::ratio, 0.0, 100.0, "50 %", "0 % to 100 %"});
    if (!share) return std::nullopt;
    return *share / 100.0;
}

MethodLimits read_limits(const TableReader& table, const std::vector<Method>& methods) {
    MethodLimits limits;
    limits.method = method_word(table, "name", table.required_text("name", "it is one of the methods"), methods);
    limits.share_low = read_share(table, "share_low").value_or(0.0);
    limits.share_high = read_share(table, "share_high").value_or(1.0);
    if (limits.share_low > limits.share_high)
        table.fail_at("share_low", "is more than share_high: no share can be both");
    limits.cut_m2_day = read_per_day(table, "cut_per_day");
    limits.combine_m2_day = read_per_day(table, "combine_per_day");
    limits.ready_column = table.text_or("ready", "");
    limits.cure_days = table.whole_number("cure_days", 0, 60).value_or(0);
    return limits;
}

void check_shares(const TableReader& table, const NextYearInput& input, std::size_t methods) {
    double low = 0.0, high = static_cast<double>(methods - input.methods.size());
    for (const MethodLimits& limits : input.methods) {
        low += limits.share_low;
        high += limits.share_high;
    }
    constexpr double rounding = 1e-9;
    if (low > 1.0 + rounding)
        table.fail_at("method", fmt::format("asks for shares of at least {} % together; there are only 100 %",
                                            format_fixed(100.0 * low, 0)));
    if (high < 1.0 - rounding)
        table.fail_at("method", fmt::format("allows shares of {} % together at most; all land has to be cut",
                                            format_fixed(100.0 * high, 0)));
}

SuitabilityNote read_note(const TableReader& table, const std::vector<Method>& methods) {
    SuitabilityNote note;
    note.column = table.required_text("column", "it names a column of the candidate fields");
    note.favours =
        method_word(table, "favours", table.required_text("favours", "it is the method the note speaks for"), methods);
    note.because = table.text_or("because", note.column);
    for (const std::string& word : table.texts("words"))
        note.words.push_back(lower(word));
    return note;
}

void read_layout_methods(const TableReader& table, const Season& season, LayoutChoice& layout) {
    for (const std::string& name : table.texts("methods"))
        layout.methods.push_back(method_word(table, "methods", name, season.methods));
    const bool right = layout.methods.empty() || (layout.methods.size() == 2 && layout.methods[0] != layout.methods[1]);
    if (!right) table.fail_at("methods", "must name two different methods");
}

/// "1.5 bu/ac" as t/ha.
std::optional<double> read_difference(const TableReader& table, double bushel_lb) {
    const auto text = table.text("difference");
    if (!text) return std::nullopt;
    double kg_m2 = 0.0;
    try {
        kg_m2 = parse_quantity(Dimension::yield, *text, bushel_lb).value;
    } catch (const std::exception& error) {
        table.fail_at("difference", fmt::format("cannot be read: {}", error.what()));
    }
    if (!(kg_m2 > 0.0)) table.fail_at("difference", fmt::format("is \"{}\"; it must be above 0", *text));
    return kg_m2 * m2_per_hectare / kg_per_tonne;
}

LayoutChoice read_layout(const TableReader& next_year, const Season& season) {
    LayoutChoice layout;
    const auto table = next_year.table("layout", "next_year.layout");
    if (!table) return layout;
    read_layout_methods(*table, season, layout);
    const auto length = [&](const char* key, double low, double high, const char* allowed, double otherwise) {
        return table->quantity(key, {Dimension::length, low, high, "40 ft", allowed}).value_or(otherwise);
    };
    layout.direction_deg = table->quantity("direction", {Dimension::angle, 0.0, 360.0, "90 deg", "0 to 360 degrees"});
    layout.headland_m = length("headland", 0.0, 300.0, "0 to 300 m", layout.headland_m);
    layout.obstacle_m = length("obstacle_margin", 0.0, 100.0, "0 to 100 m", layout.obstacle_m);
    layout.overlap_m = length("overlap", 0.0, 3.0, "0 to 3 m", layout.overlap_m);
    layout.min_length_m = length("min_length", 20.0, 5000.0, "20 m to 5 km", layout.min_length_m);
    layout.guard_passes = table->whole_number("guard_passes", 0, 4).value_or(layout.guard_passes);
    layout.most_pairs = table->whole_number("most_pairs", 3, 40).value_or(layout.most_pairs);
    layout.difference_t_ha = read_difference(*table, season.bushel_lb);
    if (const auto s =
            table->quantity("extra_time_per_strip", {Dimension::duration, 0.0, 86400.0, "10 min", "0 to 1 d"}))
        layout.minutes_per_strip = *s / 60.0;
    layout.weighed = table->boolean("weighed", false);
    layout.seed = static_cast<std::uint64_t>(table->whole_number("seed", 0, 1000000000).value_or(1));
    return layout;
}

void read_next_money(const TableReader& table, const Season& season, NextYearInput& input) {
    MoneyReader money(season.money && season.money->currency != "$" ? season.money->currency : "", season.bushel_lb);
    if (const auto cost = money.amount(table, "trial_cost")) {
        if (cost->per != MoneyPer::once || cost->amount < 0.0)
            table.fail_at("trial_cost", "is what one trial field costs, such as \"300 $\"");
        input.trial_cost_cents = cost->amount;
    }
    if (const auto worth = money.amount(table, "note_worth")) {
        if (worth->per != MoneyPer::area || worth->amount < 0.0)
            table.fail_at("note_worth", "is money per land, such as \"2 $/ac\"");
        input.note_cents_m2 = worth->amount;
    }
}

} // namespace

std::optional<LossCountsInput> read_loss_counts(const TableReader& root) {
    const auto table = root.table("loss_counts", "loss_counts");
    if (!table) return std::nullopt;
    LossCountsInput input;
    input.line = table->place().line;
    input.file = table->text_or("file", "");
    input.samples = table->text_or("samples", "");
    if (input.file.empty() && input.samples.empty())
        table->fail(table->place(), "[loss_counts] names nothing; give file (tray and pan counts) or samples (seed "
                                    "weight and grade)");
    return input;
}

std::optional<WeatherInput> read_weather(const TableReader& root, const std::vector<Method>& methods) {
    const auto table = root.table("weather", "weather");
    if (!table) return std::nullopt;
    WeatherInput input;
    input.line = table->place().line;
    input.file = table->required_text("file", "it names the station's daily or hourly records (CSV)");
    for (const std::string& name : table->texts("in_swath"))
        input.in_swath.push_back(method_word(*table, "in_swath", name, methods));
    input.swathed_column = table->text_or("swathed", "");
    input.ripe_column = table->text_or("ripe", "");
    return input;
}

std::optional<NextYearInput> read_next_year(const TableReader& root, const Season& season) {
    const auto table = root.table("next_year", "next_year");
    if (!table) return std::nullopt;
    NextYearInput input;
    input.line = table->place().line;
    input.file = table->text_or("file", "");
    input.layer = table->text_or("layer", input.file.empty() ? season.fields.layer : "");
    input.crs = table->text_or("crs", "");
    input.name_column = table->text_or("name", season.fields.name_column);
    input.year = table->whole_number("year", 1980, 2100).value_or(season.year + 1);
    input.crop_column = table->text_or("crop", "");
    input.variety_column = table->text_or("variety", "");
    input.fixed_column = table->text_or("fixed", "");
    for (const TableReader& limits : table->tables("method", "next_year.method"))
        input.methods.push_back(read_limits(limits, season.methods));
    check_shares(*table, input, season.methods.size());
    for (const TableReader& note : table->tables("note", "next_year.note"))
        input.notes.push_back(read_note(note, season.methods));
    if (const auto risk = table->quantity("risk", {Dimension::ratio, 0.0, 1000.0, "50 %", "0 % to 1000 %"}))
        input.risk = *risk / 100.0;
    input.harvest_days = table->whole_number("harvest_days", 0, 366).value_or(0);
    input.years = table->whole_number("years", 1, 50).value_or(1);
    if (table->has("spread")) {
        const std::string text = table->required_text("spread", "");
        input.spread_t_ha =
            parse_quantity(Dimension::yield, text, season.bushel_lb).value * m2_per_hectare / kg_per_tonne;
    }
    read_next_money(*table, season, input);
    input.layout = read_layout(*table, season);
    return input;
}

} // namespace quartercut::season
