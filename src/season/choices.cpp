// SPDX-License-Identifier: MIT
// Reads [[method]], [trial], [cleaning] and [comparison].
#include "season/choices.hpp"

#include "base/text.hpp"

#include <array>
#include <fmt/format.h>

namespace quartercut::season {
namespace {

// Wider than any header made, narrower than any swather: limits for typing errors (judgement).
const QuantityRule cut_width_rule{Dimension::length, 0.5, 60.0, "35 ft", "0.5 m to 60 m"};

Method read_method(const TableReader& table) {
    Method method;
    method.name = table.required_text("name", "it is the word for this method in the data, such as \"swathed\"");
    method.label = table.text_or("label", method.name);
    method.cut_width_m = table.quantity("cut_width", cut_width_rule);
    return method;
}

} // namespace

std::vector<Method> read_methods(const TableReader& root) {
    std::vector<Method> methods;
    for (const TableReader& table : root.tables("method", "method")) {
        const Method method = read_method(table);
        for (const Method& other : methods) {
            if (other.name == method.name) table.fail_at("name", fmt::format("\"{}\" is there twice", method.name));
            if (lower(other.name) == lower(method.name))
                table.fail_at("name", fmt::format("\"{}\" differs from \"{}\" by capitals only; choose clearer names",
                                                  method.name, other.name));
        }
        methods.push_back(method);
    }
    if (methods.size() < 2) {
        const std::string found = methods.empty() ? "none is" : fmt::format("only \"{}\" is", methods.front().name);
        root.fail(root.value_place("method"),
                  fmt::format("a comparison needs at least two [[method]] tables, {} there", found));
    }
    return methods;
}

TrialInput read_trial(const TableReader& root, MethodSource source) {
    TrialInput trial;
    const std::optional<TableReader> table = root.table("trial", "trial");
    if (!table) return trial;
    trial.randomised = table->boolean("randomised", trial.randomised);
    trial.pairs = table->text_or("pairs", trial.pairs);
    const bool is_column = trial.pairs != "auto" && trial.pairs != "none";
    if (is_column && source != MethodSource::polygons)
        table->fail_at("pairs", fmt::format("names the column \"{}\" of the method polygons, but [methods] has none; "
                                            "write \"auto\" or \"none\"",
                                            trial.pairs));
    return trial;
}

CleaningChoice read_cleaning(const TableReader& root) {
    CleaningChoice choice;
    const std::optional<TableReader> table = root.table("cleaning", "cleaning");
    if (!table) return choice;
    struct Step {
        const char* key;
        bool* on;
    };
    const std::array<Step, 14> steps{{{"lag", &choice.lag},
                                      {"moisture_lag", &choice.moisture_lag},
                                      {"ramps", &choice.ramps},
                                      {"coverage", &choice.coverage},
                                      {"speed", &choice.speed},
                                      {"turns", &choice.turns},
                                      {"limits", &choice.limits},
                                      {"neighbours", &choice.neighbours},
                                      {"short_passes", &choice.short_passes},
                                      {"merge", &choice.merge},
                                      {"edge_passes", &choice.edge_passes},
                                      {"tickets", &choice.tickets},
                                      {"machine_offsets", &choice.machine_offsets},
                                      {"width_check", &choice.width_check}}};
    for (const Step& step : steps)
        *step.on = table->boolean(step.key, *step.on);
    return choice;
}

ComparisonChoice read_comparison(const TableReader& root) {
    ComparisonChoice choice;
    const std::optional<TableReader> table = root.table("comparison", "comparison");
    if (!table) return choice;
    choice.segment_m = table->quantity("segment", {Dimension::length, 15.0, 100.0, "30 m", "15 m to 100 m"})
                           .value_or(choice.segment_m);
    choice.placebo_layouts = table->whole_number("placebo_layouts", 0, 100000).value_or(choice.placebo_layouts);
    choice.all_pairs = table->boolean("all_pairs", choice.all_pairs);
    return choice;
}

} // namespace quartercut::season
