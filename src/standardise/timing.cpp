// SPDX-License-Identifier: MIT
// Order of the records, and the durations, distances and speeds that the monitor did not log.
//
// A record is taken to cover the time since the record before it of the same machine. After a gap (more than three
// times the machine's usual step) it covers the usual step: time standing in the yard is not time cutting.
#include "standardise/work.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace quartercut::standardise_room {

namespace {

constexpr double gap_steps = 3.0;

/// Records [first, last) of one machine; the list is in order of machine, then time.
struct Run {
    std::size_t first = 0, last = 0;
};

std::vector<Run> runs_by_machine(const Records& records) {
    std::vector<Run> runs;
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (i == 0 || records.machine[i] != records.machine[i - 1]) runs.push_back({i, i});
        runs.back().last = i + 1;
    }
    return runs;
}

double median_of(std::vector<double> values) {
    if (values.empty()) return unknown;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Steps between the distinct times of a run (s).
std::vector<double> time_steps(const Records& records, Run run) {
    std::vector<double> steps;
    for (std::size_t i = run.first + 1; i < run.last; ++i)
        if (const double step = records.time_s[i] - records.time_s[i - 1]; step > 0.0) steps.push_back(step);
    return steps;
}

/// Records with one time stamp (a clock of whole seconds, two records a second) share the step that led to it.
void durations_from_times(Run run, Records& records) {
    const double usual_s = median_of(time_steps(records, run));
    for (std::size_t first = run.first; first < run.last;) {
        std::size_t last = first + 1;
        while (last < run.last && records.time_s[last] == records.time_s[first])
            ++last;
        double step_s = first > run.first ? records.time_s[first] - records.time_s[first - 1] : usual_s;
        if (!(step_s > 0.0) || step_s > gap_steps * usual_s) step_s = usual_s;
        for (std::size_t i = first; i < last; ++i)
            if (std::isnan(records.duration_s[i]) && !std::isnan(records.time_s[i]))
                records.duration_s[i] = step_s / static_cast<double>(last - first);
        first = last;
    }
}

double step_m(const Records& records, std::size_t i) {
    return std::hypot(records.x_m[i] - records.x_m[i - 1], records.y_m[i] - records.y_m[i - 1]);
}

/// The travel that led to the record, or the travel from it where it is the first after a gap; NaN where both are gaps.
void distances_from_positions(Run run, Records& records) {
    std::vector<double> steps;
    for (std::size_t i = run.first + 1; i < run.last; ++i)
        if (const double step = step_m(records, i); step > 0.0) steps.push_back(step);
    const double usual_m = median_of(steps);
    for (std::size_t i = run.first; i < run.last; ++i) {
        if (!std::isnan(records.distance_m[i])) continue;
        const double back = i > run.first ? step_m(records, i) : unknown;
        const double ahead = i + 1 < run.last ? step_m(records, i + 1) : unknown;
        if (back <= gap_steps * usual_m)
            records.distance_m[i] = back;
        else if (ahead <= gap_steps * usual_m)
            records.distance_m[i] = ahead;
    }
}

template <class Column>
void reorder(const std::vector<std::size_t>& order, Column& column) {
    if (column.empty()) return;
    Column sorted;
    sorted.reserve(order.size());
    for (const std::size_t i : order)
        sorted.push_back(column[i]);
    column = std::move(sorted);
}

void reorder_all(const std::vector<std::size_t>& order, FieldWork& work) {
    Records& r = work.field.records;
    for (auto* column : {&r.x_m, &r.y_m, &r.time_s, &r.duration_s, &r.distance_m, &r.speed_m_s, &r.heading_deg,
                         &r.moisture_pct, &work.flow_kg_s, &work.yield_kg_m2, &work.logged_width_m})
        reorder(order, *column);
    for (auto* column : {&r.header_up, &r.off_field})
        reorder(order, *column);
    for (auto* column : {&r.machine, &r.load, &r.method})
        reorder(order, *column);
    for (auto* column : {&r.input, &r.row, &work.file})
        reorder(order, *column);
}

/// Time to sort by: a record without one stays behind the record before it in its file.
std::vector<double> sorting_times(const Records& records) {
    std::vector<double> times = records.time_s;
    std::vector<double> latest;
    for (std::size_t i = 0; i < times.size(); ++i) {
        const auto machine = static_cast<std::size_t>(records.machine[i]);
        if (machine >= latest.size()) latest.resize(machine + 1, -std::numeric_limits<double>::infinity());
        if (std::isnan(times[i]))
            times[i] = latest[machine];
        else
            latest[machine] = times[i];
    }
    return times;
}

} // namespace

void sort_records(FieldWork& work) {
    const Records& records = work.field.records;
    const std::vector<double> times = sorting_times(records);
    const auto earlier = [&](std::size_t a, std::size_t b) {
        return records.machine[a] != records.machine[b] ? records.machine[a] < records.machine[b] : times[a] < times[b];
    };
    std::vector<std::size_t> order(records.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (std::is_sorted(order.begin(), order.end(), earlier)) return;
    std::stable_sort(order.begin(), order.end(), earlier);
    reorder_all(order, work);
}

void fill_motion(FieldWork& work) {
    Records& records = work.field.records;
    for (double& duration_s : records.duration_s)
        if (duration_s <= 0.0) duration_s = unknown;
    const std::vector<Run> runs = runs_by_machine(records);
    for (const Run& run : runs)
        durations_from_times(run, records);
    for (std::size_t i = 0; i < records.size(); ++i)
        if (std::isnan(records.distance_m[i])) records.distance_m[i] = records.speed_m_s[i] * records.duration_s[i];
    for (const Run& run : runs)
        distances_from_positions(run, records);
    for (std::size_t i = 0; i < records.size(); ++i)
        if (std::isnan(records.speed_m_s[i])) records.speed_m_s[i] = records.distance_m[i] / records.duration_s[i];
}

} // namespace quartercut::standardise_room
