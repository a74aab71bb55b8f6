// SPDX-License-Identifier: MIT
// Crops: basis moisture, bushel weight, moisture classes, and the law of shrink.
//
// Every number stands in src/base/crop_table.cpp with its source beside it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut {

enum class MoistureClass { dry, tough, damp, moist, wet };

/// A crop as the grading law knows it. Limits are percent moisture, wet basis, the highest value still in the class.
struct Crop {
    std::string name;                 ///< as written in the season file, e.g. "canola"
    double basis_pct = 0.0;           ///< standard moisture: the highest dry (straight) moisture; 0: none in law
    double bushel_lb = 0.0;           ///< trade weight of a bushel (lb), not the legal volume; 0: none published
    std::optional<double> dry_to_pct; ///< nullopt where the law has no tough band (beans)
    std::optional<double> tough_to_pct;
    std::optional<double> damp_to_pct; ///< only where a moist class exists
    std::optional<double> moist_to_pct;
    double yield_low_t_ha = 0.05;  ///< a record below is not believable (judgement)
    double yield_high_t_ha = 20.0; ///< a record above is not believable (judgement)
    std::vector<std::string> also; ///< other spellings
};

/// The crop of that name or spelling (case and hyphens do not matter), or nullptr.
[[nodiscard]] const Crop* find_crop(std::string_view name);
[[nodiscard]] const std::vector<Crop>& crop_table();

/// Class of a sample, moisture to the 0.1 point the law works in.
/// \throws DataError where the law sets no class for the crop
[[nodiscard]] MoistureClass moisture_class(const Crop& crop, double moisture_pct);

/// Mass after bringing grain from one moisture to another by the dry-matter balance:
/// mass * (100 - from) / (100 - to).  Both moistures in percent wet basis, in [0, 100).
/// \throws DataError outside that range
[[nodiscard]] double mass_at_moisture(double mass_kg, double from_pct, double to_pct);

/// Shrink under the Order Respecting the Calculation of the Moisture Shrinkage for Grain, SOR/2018-176 s. 1:
/// (A - B) * 100 / (100 - B), with B not below 0.1 point under the start of the tough range.
/// \returns shrink in percent of the delivered weight; 0 for grain that is not tough, damp, moist or wet
/// \throws DataError for a crop without a tough band
[[nodiscard]] double legal_shrink_pct(const Crop& crop, double before_pct, double after_pct);

} // namespace quartercut
