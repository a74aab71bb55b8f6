// SPDX-License-Identifier: MIT
// How long the comparison of one large field takes: 2,000 segments (about 30,000 records), strips and split, on one
// core; and a placebo of 200 layouts.
#include "../compare/field_builder.hpp"

#include <benchmark/benchmark.h>

namespace quartercut::testing {
namespace {

/// 72 passes of 28 segments of 30 m: a quarter section.
FieldPlan quarter(const std::vector<int>& strips) {
    FieldPlan plan;
    plan.strips = strips;
    plan.passes_per_strip = 72 / static_cast<int>(strips.size());
    plan.segments = 28;
    plan.segment_m = 30.0;
    plan.yield_t_ha = plain_yield(0.1);
    return plan;
}

void run(benchmark::State& state, const std::vector<int>& strips, int placebo_layouts) {
    const Season season = two_method_season();
    const Built field = build(quarter(strips), season);
    CompareOptions options;
    options.jobs = 1;
    options.placebo_layouts = placebo_layouts;
    for (auto _ : state)
        benchmark::DoNotOptimize(compare_farm(season, {field}, options));
}

void strips(benchmark::State& state) { run(state, {0, 1, 1, 0, 0, 1, 1, 0, 0, 1, 1, 0}, 0); }
void split(benchmark::State& state) { run(state, {0, 1}, 0); }
void strips_with_placebo(benchmark::State& state) { run(state, {0, 1, 1, 0, 0, 1, 1, 0, 0, 1, 1, 0}, 200); }
void split_with_placebo(benchmark::State& state) { run(state, {0, 1}, 200); }

/// One line of the robustness table of a split field, cleaning not counted.
void split_again(benchmark::State& state) {
    const Season season = two_method_season();
    const Built field = build(quarter({0, 1}), season);
    CompareOptions options;
    options.jobs = 1;
    const Comparison first = compare_farm(season, {field}, options);
    options.sensitivity = false;
    options.begin_at = &first.fields;
    for (auto _ : state)
        benchmark::DoNotOptimize(compare_farm(season, {field}, options));
}

BENCHMARK(split_again)->Unit(benchmark::kMillisecond);
BENCHMARK(strips)->Unit(benchmark::kMillisecond);
BENCHMARK(split)->Unit(benchmark::kMillisecond);
BENCHMARK(strips_with_placebo)->Unit(benchmark::kMillisecond);
BENCHMARK(split_with_placebo)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace quartercut::testing

BENCHMARK_MAIN();
