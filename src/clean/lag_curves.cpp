// SPDX-License-Identifier: MIT
// From records to the curve of disagreement over delay: pick opposite neighbours, read grain per land around each of
// them at every delay, take out each pass's own level, and add up squared differences per pair of passes.
#include "clean/lag.hpp"
#include "clean/neighbours.hpp"
#include "clean/robust.hpp"

#include <array>
#include <tbb/parallel_for.h>
#include <tuple>

namespace quartercut::cleaning {
namespace {

constexpr double opposite_cosine = -0.866; // 180 +- 30 degrees
constexpr double clear_of_start_s = 40.0;  // the earliest delay, half a window before, still reads a full machine
constexpr double clear_of_end_s = 30.0;
constexpr double half_window_s = 0.5 * lag_window_s;
constexpr auto window_steps = static_cast<std::size_t>(2.0 * half_window_s / lag_step_s); // its end is as many steps on
constexpr std::size_t most_pairs = 10000, fewest_in_pair = 8;

struct BlockSeries {
    Series amount, land;
};

bool interior(const FieldWork& work, std::size_t i) {
    const PassRange& range = work.ranges[at(work.out->pass[i])];
    return work.clock_s[i] >= range.start_s + clear_of_start_s && work.clock_s[i] <= range.end_s - clear_of_end_s;
}

void collect(const FieldWork& work, const Setting& setting, std::uint32_t field,
             std::vector<std::vector<RecordPair>>& pairs) {
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        const int group = setting.group(r.machine[i], r.method[i]);
        if (group < 0 || work.out->pass[i] < 0 || !interior(work, i)) continue;
        for (const std::int32_t beside : {work.left[i], work.right[i]}) {
            if (beside < 0) continue;
            const std::size_t j = at(beside);
            if (work.out->pass[j] <= work.out->pass[i] || setting.group(r.machine[j], r.method[j]) != group) continue;
            if (direction_cosine(work, i, j) > opposite_cosine || !interior(work, j)) continue;
            pairs[at(group)].push_back({field, static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(j)});
        }
    }
}

void thin(std::vector<RecordPair>& pairs) {
    if (pairs.size() <= most_pairs) return;
    const double stride = static_cast<double>(pairs.size()) / static_cast<double>(most_pairs);
    for (std::size_t k = 0; k < most_pairs; ++k)
        pairs[k] = pairs[static_cast<std::size_t>(static_cast<double>(k) * stride)];
    pairs.resize(most_pairs);
}

BlockSeries series_of(const FieldWork& work, const MachineBlock& block, Sensor sensor) {
    const Records& r = work.records();
    BlockSeries both{Series(block.gap_s, 2 * (block.end - block.begin)),
                     Series(block.gap_s, 2 * (block.end - block.begin))};
    if (sensor == Sensor::flow) both.amount = flow_series(work, block);
    for (std::size_t i = block.begin; i < block.end; ++i) {
        if (work.copy[i]) continue;
        const double from = work.clock_s[i] - work.step_s[i], to = work.clock_s[i];
        both.land.add(from, to, work.out->area_m2[i]);
        if (sensor == Sensor::moisture && r.moisture_pct[i] > 0.0 && r.moisture_pct[i] < 100.0)
            both.amount.add(from, to, r.moisture_pct[i] * (to - from));
    }
    return both;
}

/// Readings of the records that take part, one row a record.
class Readings {
public:
    Readings(const std::vector<FieldWork>& works, const std::vector<RecordPair>& pairs, Sensor sensor)
        : works_(works), sensor_(sensor) {
        for (const RecordPair& pair : pairs) {
            members_.push_back({pair.field, pair.i});
            members_.push_back({pair.field, pair.j});
        }
        std::sort(members_.begin(), members_.end());
        members_.erase(std::unique(members_.begin(), members_.end()), members_.end());
        values_.resize(members_.size() * lag_count);
        read();
        level();
    }

    [[nodiscard]] const double* row(std::uint32_t field, std::uint32_t record) const {
        const Member member{field, record};
        const auto found = std::lower_bound(members_.begin(), members_.end(), member);
        return values_.data() + static_cast<std::size_t>(found - members_.begin()) * lag_count;
    }

private:
    using Member = std::pair<std::uint32_t, std::uint32_t>;

    void read() {
        std::size_t first = 0;
        while (first < members_.size()) {
            const FieldWork& work = works_[members_[first].first];
            const MachineBlock& block = block_of(work, members_[first].second);
            std::size_t last = first;
            while (last < members_.size() && members_[last].first == members_[first].first &&
                   members_[last].second < block.end)
                ++last;
            const BlockSeries series = series_of(work, block, sensor_);
            tbb::parallel_for(first, last, [&](std::size_t m) { read_one(work, series, m); });
            first = last;
        }
    }

    static const MachineBlock& block_of(const FieldWork& work, std::size_t record) {
        std::size_t b = 0;
        while (work.blocks[b].end <= record)
            ++b;
        return work.blocks[b];
    }

    void read_one(const FieldWork& work, const BlockSeries& series, std::size_t m) {
        const std::size_t i = members_[m].second;
        // Around the moment the machine stood there, not the middle of the record: the delay of the crop under it.
        const double from = work.clock_s[i] - half_window_s, to = work.clock_s[i] + half_window_s;
        std::size_t near = 0;
        const double share = sensor_ == Sensor::flow ? series.land.between(from, to, near) : to - from;
        std::array<Series::Place, lag_count + window_steps> places;
        near = 0;
        for (std::size_t k = 0; k < places.size(); ++k)
            places[k] = series.amount.place(from + (lag_from_s + lag_step_s * static_cast<double>(k)), near);
        for (std::size_t k = 0; k < lag_count; ++k) {
            const double amount = Series::between(places[k], places[k + window_steps]);
            values_[m * lag_count + k] = share > 0.0 ? amount / share : nan_value;
        }
    }

    /// Takes each pass's own median out: relative for grain, in points for moisture.
    void level() {
        std::size_t first = 0;
        std::vector<double> column;
        while (first < members_.size()) {
            const std::int32_t pass = pass_of(first);
            std::size_t last = first;
            while (last < members_.size() && members_[last].first == members_[first].first && pass_of(last) == pass)
                ++last;
            for (std::size_t k = 0; k < lag_count; ++k) {
                column.clear();
                for (std::size_t m = first; m < last; ++m)
                    if (std::isfinite(values_[m * lag_count + k])) column.push_back(values_[m * lag_count + k]);
                const double median = median_in_place(column);
                for (std::size_t m = first; m < last; ++m) {
                    double& value = values_[m * lag_count + k];
                    value = sensor_ == Sensor::moisture ? value - median
                            : median > 0.0              ? value / median - 1.0
                                                        : nan_value;
                }
            }
            first = last;
        }
    }

    [[nodiscard]] std::int32_t pass_of(std::size_t m) const {
        return works_[members_[m].first].out->pass[members_[m].second];
    }

    const std::vector<FieldWork>& works_;
    Sensor sensor_;
    std::vector<Member> members_;
    std::vector<double> values_;
};

bool complete(const double* a, const double* b) {
    for (std::size_t k = 0; k < lag_count; ++k)
        if (!std::isfinite(a[k]) || !std::isfinite(b[k])) return false;
    return true;
}

/// Readings of the two records of a pair at every delay.
struct PairRows {
    const double* a = nullptr;
    const double* b = nullptr;
    [[nodiscard]] double square(std::size_t k) const { return (a[k] - b[k]) * (a[k] - b[k]); }
};

/// 95th percentile of squared differences per delay: beyond it a difference counts no more.
std::vector<double> caps(const std::vector<PairRows>& rows) {
    constexpr std::size_t together = 8; // delays that lie in one line of the cache
    std::vector<double> cap(lag_count);
    tbb::parallel_for(std::size_t{0}, (lag_count + together - 1) / together, [&](std::size_t part) {
        const std::size_t first = part * together, last = std::min(first + together, lag_count);
        std::vector<double> squares((last - first) * rows.size());
        for (std::size_t p = 0; p < rows.size(); ++p)
            for (std::size_t k = first; k < last; ++k)
                squares[(k - first) * rows.size() + p] = rows[p].square(k);
        for (std::size_t k = first; k < last; ++k)
            cap[k] = quantile_in_place({squares.data() + (k - first) * rows.size(), rows.size()}, 0.95);
    });
    return cap;
}

} // namespace

std::vector<std::vector<RecordPair>> opposite_pairs(const std::vector<FieldWork>& works, const Setting& setting) {
    const auto groups = static_cast<std::size_t>(setting.groups());
    std::vector<std::vector<std::vector<RecordPair>>> of_field(works.size());
    tbb::parallel_for(std::size_t{0}, works.size(), [&](std::size_t f) {
        of_field[f].resize(groups);
        collect(works[f], setting, static_cast<std::uint32_t>(f), of_field[f]);
    });
    std::vector<std::vector<RecordPair>> pairs(groups);
    for (const auto& field : of_field)
        for (std::size_t g = 0; g < groups; ++g)
            pairs[g].insert(pairs[g].end(), field[g].begin(), field[g].end());
    return pairs;
}

std::vector<PassPairCurve> opposite_curves(const std::vector<FieldWork>& works, std::vector<RecordPair> pairs,
                                           Sensor sensor) {
    thin(pairs);
    const Readings readings(works, pairs, sensor);
    const auto key = [&](const RecordPair& pair) {
        const auto& pass = works[pair.field].out->pass;
        return std::tuple{pair.field, pass[pair.i], pass[pair.j]};
    };
    std::stable_sort(pairs.begin(), pairs.end(),
                     [&](const RecordPair& a, const RecordPair& b) { return key(a) < key(b); });
    std::vector<PairRows> rows;
    std::erase_if(pairs, [&](const RecordPair& pair) {
        const PairRows row{readings.row(pair.field, pair.i), readings.row(pair.field, pair.j)};
        if (!complete(row.a, row.b)) return true;
        rows.push_back(row);
        return false;
    });
    const std::vector<double> cap = caps(rows);
    std::vector<PassPairCurve> curves;
    for (std::size_t p = 0; p < pairs.size(); ++p) {
        if (p == 0 || key(pairs[p]) != key(pairs[p - 1]))
            curves.push_back({std::vector<double>(lag_count, 0.0), 0.0, 0.0});
        for (std::size_t k = 0; k < lag_count; ++k)
            curves.back().sum[k] += std::min(rows[p].square(k), cap[k]);
        curves.back().pairs += 1.0;
        curves.back().seconds += works[pairs[p].field].step_s[pairs[p].i];
    }
    std::erase_if(curves, [](const PassPairCurve& curve) { return curve.pairs < fewest_in_pair; });
    return curves;
}

} // namespace quartercut::cleaning
