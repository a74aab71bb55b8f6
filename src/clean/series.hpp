// SPDX-License-Identifier: MIT
// A quantity added up over the time of one machine, so that the sum over any stretch of seconds is two look-ups.
//
// The shift of flow in time is read from such sums: the stretches of successive records join without gap or overlap,
// so the mass of a run is the same before and after.
#pragma once

#include "clean/work.hpp"

#include <vector>

namespace quartercut::cleaning {

class Series {
public:
    Series() = default;
    /// One step: `amount` spread evenly over (from_s, to_s]. Steps come in order of time and do not overlap.
    /// A step that begins more than `gap_s` after the end of the one before starts a new run; nothing is known between.
    Series(double gap_s, std::size_t reserve);
    void add(double from_s, double to_s, double amount);

    /// Sum over (from_s, to_s]; NaN unless both ends lie in one run (half a second of grace at the ends of runs).
    /// \param near  where the look-up begins and where it ended, for the next one; 0 at first. Costs time only.
    [[nodiscard]] double between(double from_s, double to_s, std::size_t& near) const;

    /// Sum up to a moment and the run it lies in; -1: none.
    struct Place {
        double sum = nan_value;
        std::int32_t run = -1;
    };
    [[nodiscard]] Place place(double moment_s, std::size_t& near) const;
    /// Sum between two places; NaN unless both lie in one run.
    [[nodiscard]] static double between(const Place& from, const Place& to) {
        return from.run < 0 || from.run != to.run ? nan_value : to.sum - from.sum;
    }

private:
    [[nodiscard]] std::size_t knot_not_before(double moment_s, std::size_t near) const;

    double gap_s_ = 5.0;
    std::vector<double> time_s_, sum_;
    std::vector<std::int32_t> run_;
};

/// Grain over time of one machine block: steps of records with a mass; header up without a reading counts as no grain.
[[nodiscard]] Series flow_series(const FieldWork& work, const MachineBlock& block);

} // namespace quartercut::cleaning
