// SPDX-License-Identifier: MIT
// Delay between the cut and the sensor's reading, per machine and method, from the agreement of opposite neighbours.
//
// Two passes side by side, run in opposite directions, see the same crop. A wrong delay moves their readings apart, so
// the mean squared difference of neighbouring readings is least at the right one (after Chung, Sudduth and Drummond
// 2002). What is compared is grain per land with the flow shifted and the land left in place: changes of speed do not
// smear. The shift that is found is the mean of the machine's response: transport plus mixing.
#pragma once

#include "clean/series.hpp"
#include "clean/work.hpp"

namespace quartercut::cleaning {

inline constexpr double lag_from_s = -10.0, lag_to_s = 25.0, lag_step_s = 0.5;
inline constexpr std::size_t lag_count = 71;
inline constexpr double lag_window_s = 8.0; // one reading is noisy; eight seconds still resolve half a second

enum class Sensor { flow, moisture };

/// Mean squared difference of one pair of passes at every delay tried, and how many record pairs it stands on.
struct PassPairCurve {
    std::vector<double> sum; ///< lag_count values
    double pairs = 0.0;
    double seconds = 0.0; ///< of cutting that they stand on
};

/// Two records abreast on passes run in opposite directions by one machine under one method.
struct RecordPair {
    std::uint32_t field = 0, i = 0, j = 0;
};

/// All such pairs over all fields, per group (machine x method), away from the ends of passes.
[[nodiscard]] std::vector<std::vector<RecordPair>> opposite_pairs(const std::vector<FieldWork>& works,
                                                                  const Setting& setting);

/// Curves of the pairs of passes the record pairs belong to. Of very many pairs 10000 are looked at, evenly spread.
[[nodiscard]] std::vector<PassPairCurve> opposite_curves(const std::vector<FieldWork>& works,
                                                         std::vector<RecordPair> pairs, Sensor sensor);

/// Delay with its 90 % interval from 200 bootstrap draws of pass pairs. Accepted only if the best agreement is better
/// than the middling one by 5 % and by four times what noise alone makes of as much cutting, the pass pairs back it
/// together (t of 3 over pairs, first and second half of them within 3 s) and the interval is no wider than 4 s
/// (judgement); otherwise declined in words. Grain cannot be read before it is cut: a delay below zero means that the
/// readings had been shifted before they came here, and they are left alone.
[[nodiscard]] LagEstimate judge_lag(const std::vector<PassPairCurve>& curves, std::uint64_t seed);

/// One delay for the methods of one machine, unless theirs clearly differ (by more than twice the standard error of the
/// difference, more for many methods, and by more than a second): then each keeps its own. A method whose own passes
/// show none takes that of the machine's other methods. `own` and `curves` hold the machine's methods; absent ones have
/// no machine name.
void share_lags(std::vector<LagEstimate>& own, const std::vector<std::vector<PassPairCurve>>& curves,
                std::uint64_t seed);

/// Estimates per group (machine x method); groups without records get an empty machine name.
[[nodiscard]] std::vector<LagEstimate> estimate_lags(const std::vector<FieldWork>& works, const Setting& setting,
                                                     const std::vector<std::vector<RecordPair>>& pairs, Sensor sensor);

/// One note a machine and method over the season where the delay of flow could not be found.
void note_lags(Cleaned& cleaned, const Setting& setting);

/// Gives every record the grain that arrived one delay later in the same run of the machine.
void shift_flow(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& lags);

/// The same for moisture, which is read and not added up; where nothing was logged the record keeps its own.
void shift_moisture(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& lags);

/// Lists in the field those estimates whose machine and method it has records of.
void report_lags(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& flow,
                 const std::vector<LagEstimate>& moisture);

/// Which groups the field, or any of the fields, has records of.
[[nodiscard]] std::vector<std::uint8_t> groups_present(const FieldWork& work, const Setting& setting);
[[nodiscard]] std::vector<std::uint8_t> groups_present(const std::vector<FieldWork>& works, const Setting& setting);

} // namespace quartercut::cleaning
