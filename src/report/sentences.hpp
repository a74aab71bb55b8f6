// SPDX-License-Identifier: MIT
// The answer in plain sentences: what the page opens with and the terminal prints.
#pragma once

#include "report/telling.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace quartercut::report {

/// "On the four fields laid out in side-by-side strips, standing yielded 1.1 bu/ac more than swathed (0.3 to 1.9). ..."
[[nodiscard]] std::string farm_sentence(const Telling& telling, const FarmContrast& contrast);

/// The same for one field, without its name in front.
[[nodiscard]] std::string field_sentence(const Telling& telling, const FieldComparison& field,
                                         const Contrast& contrast);

/// The same for the fields a farm row pooled: the least and the greatest.
[[nodiscard]] std::string farm_raw_sentence(const Telling& telling, const FarmContrast& contrast);

/// "Yield at 10.0 % moisture: 46.6 bu/ac for standing, 45.0 for swathed.", or empty. `with_reason`: why the best guess
/// is another than their difference, where it is.
[[nodiscard]] std::string yields_sentence(const Telling& telling, const Contrast& contrast, bool with_reason = true);

/// For a field in which nothing is compared: why. `index`: of the field in the results.
[[nodiscard]] std::string lone_field_sentence(const Telling& telling, std::size_t index);

/// One sentence for all fields cut one way, where there is more than one such field: `fields` from `lone_fields`.
[[nodiscard]] std::string lone_fields_sentence(const Telling& telling, const std::vector<std::size_t>& fields);

/// A field cut one way only.
struct LoneField {
    std::string method;
    double yield_t_ha = 0.0;
};
[[nodiscard]] std::optional<LoneField> lone_field(const Results& results, std::size_t index);
/// The fields told in one sentence; empty for fewer than two.
[[nodiscard]] std::vector<std::size_t> lone_fields(const Results& results);
/// Does the field have a comparison of its own?
[[nodiscard]] bool is_compared(const FieldComparison& field);
/// Is no spread between the fields seen beside their errors? What a next field may do is then known least well.
[[nodiscard]] inline bool fields_agree(const FarmContrast& farm) {
    constexpr double nothing_t_ha = 1e-6;
    return farm.prediction95_t_ha && farm.tau_t_ha && *farm.tau_t_ha < nothing_t_ha &&
           farm.between_years_t_ha.value_or(0.0) < nothing_t_ha;
}
/// A row over one field says what that field says, so it is not told again.
[[nodiscard]] inline bool is_told(const FarmContrast& farm) { return farm.fields > 1; }
/// The same for the answer, where the best evidence (`compare` puts it first) leads although one field gives it alone:
/// weaker evidence must not stand in its place.
[[nodiscard]] inline bool is_answer(const std::vector<FarmContrast>& farm, std::size_t row) {
    const bool any = std::any_of(farm.begin(), farm.end(), is_told);
    return is_told(farm[row]) || (any && farm[row].evidence == farm.front().evidence);
}

/// What the plain record means would have said, or empty where unknown.
/// With the reason why, if known, where it is far from the answer and the contrast's field is given.
[[nodiscard]] std::string raw_sentence(const Telling& telling, const Contrast& contrast,
                                       std::optional<std::size_t> field_index = std::nullopt);

} // namespace quartercut::report
