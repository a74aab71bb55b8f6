// SPDX-License-Identifier: MIT
// Passes -> segments: stretches of one pass within one zone, long enough to outlast the smearing inside the machine.
//
// A run of records is divided into stretches of equal length nearest to the one asked for, so that no short remnant is
// left at its end. Masses and areas are sums: what goes in comes out.
#include "zone/steps.hpp"

#include "base/sum.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace quartercut::zone_room {

namespace {

constexpr double shortest_share = 0.6; ///< a run shorter than this share of a segment joins the one before

/// Kept records of one pass in one zone, without a hole wider than half a segment between them.
struct Run {
    std::vector<std::size_t> records;
    std::int32_t pass = -1, zone = -1;
};

double step_m(const Records& records, std::size_t a, std::size_t b) {
    return std::hypot(records.x_m[b] - records.x_m[a], records.y_m[b] - records.y_m[a]);
}

double length_m(const Records& records, std::size_t i) {
    return records.distance_m[i] > 0.0 ? records.distance_m[i] : 0.0;
}

std::vector<Run> find_runs(const Records& records, const CleanedField& cleaned,
                           const std::vector<std::int32_t>& record_zone, double hole_m) {
    std::vector<Run> runs;
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (cleaned.removal[i] != Removal::kept || cleaned.pass[i] < 0 || record_zone[i] < 0) continue;
        const bool joins = !runs.empty() && runs.back().pass == cleaned.pass[i] && runs.back().zone == record_zone[i] &&
                           step_m(records, runs.back().records.back(), i) <= hole_m + length_m(records, i);
        if (!joins) runs.push_back({{}, cleaned.pass[i], record_zone[i]});
        runs.back().records.push_back(i);
    }
    return runs;
}

/// Sums over the records of one segment.
class Gathering {
public:
    void add(const Records& records, const CleanedField& cleaned, std::size_t i) {
        const double area_m2 = cleaned.area_m2[i], mass_kg = cleaned.mass_basis_kg[i];
        ++count_;
        length_m_ += length_m(records, i);
        area_m2_ += area_m2;
        mass_kg_ += mass_kg;
        x_.add(records.x_m[i], area_m2);
        y_.add(records.y_m[i], area_m2);
        moisture_.add(cleaned.moisture_pct[i], mass_kg);
        time_.add(records.time_s[i], 1.0);
        edge_ = edge_ || cleaned.edge[i] != 0;
    }
    void store(Segment& segment) const {
        segment.records = count_;
        segment.length_m = length_m_.value();
        segment.area_m2 = area_m2_.value();
        segment.mass_basis_kg = mass_kg_.value();
        segment.x_m = x_.mean();
        segment.y_m = y_.mean();
        segment.moisture_pct = moisture_.mean();
        segment.time_s = time_.mean();
        segment.edge = edge_;
    }

private:
    /// Weighted mean, of the plain values where all weights are nothing; NaN values are passed over.
    struct Mean {
        Sum weighted, weight, plain;
        std::size_t count = 0;
        double reference = 0.0; // taken off first: times are large numbers with small differences
        void add(double value, double value_weight) {
            if (std::isnan(value)) return;
            if (count++ == 0) reference = value;
            weighted += (value - reference) * value_weight;
            weight += value_weight;
            plain += value - reference;
        }
        [[nodiscard]] double mean() const {
            if (count == 0) return std::numeric_limits<double>::quiet_NaN();
            return reference + (weight.value() > 0.0 ? weighted.value() / weight.value()
                                                     : plain.value() / static_cast<double>(count));
        }
    };
    std::size_t count_ = 0;
    Sum length_m_, area_m2_, mass_kg_;
    Mean x_, y_, moisture_, time_;
    bool edge_ = false;
};

/// A segment with its sums still open, so that a remnant can join it.
struct Open {
    Segment segment;
    Gathering gathering;
};

Open open_segment(const Run& run, std::int32_t machine) {
    Open open;
    open.segment.pass = run.pass;
    open.segment.zone = run.zone;
    open.segment.machine = machine;
    return open;
}

double run_length_m(const Records& records, const Run& run) {
    double sum_m = 0.0;
    for (const std::size_t i : run.records)
        sum_m += length_m(records, i);
    return sum_m;
}

void divide(const Records& records, const CleanedField& cleaned, const Run& run, double segment_m,
            std::vector<Open>& open) {
    const double total_m = run_length_m(records, run);
    const bool remnant = total_m < shortest_share * segment_m;
    const bool can_join = !open.empty() && open.back().segment.pass == run.pass && open.back().segment.zone == run.zone;
    const double pieces = std::max(1.0, std::round(total_m / segment_m));
    double done_m = 0.0;
    double current = remnant && can_join ? 0.0 : -1.0;
    for (const std::size_t i : run.records) {
        const double middle_m = done_m + 0.5 * length_m(records, i);
        done_m += length_m(records, i);
        const double piece = total_m > 0.0 ? std::min(pieces - 1.0, std::floor(middle_m / total_m * pieces)) : 0.0;
        if (piece > current) {
            open.push_back(open_segment(run, records.machine[i]));
            current = piece;
        }
        open.back().gathering.add(records, cleaned, i);
    }
}

} // namespace

std::vector<Segment> cut_segments(const Records& records, const CleanedField& cleaned,
                                  const std::vector<std::int32_t>& record_zone, double segment_m) {
    std::vector<Open> open;
    for (const Run& run : find_runs(records, cleaned, record_zone, 0.5 * segment_m))
        divide(records, cleaned, run, segment_m, open);
    std::vector<Segment> segments;
    for (Open& each : open) {
        each.gathering.store(each.segment);
        segments.push_back(each.segment);
    }
    return segments;
}

} // namespace quartercut::zone_room
