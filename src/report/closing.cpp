// SPDX-License-Identifier: MIT
// What is said once of several comparisons of one field (closing.hpp).
#include "report/closing.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

bool is_single_and_not_shown(const Contrast& contrast) {
    const bool single = contrast.evidence == Evidence::split || contrast.evidence == Evidence::whole_field;
    return single && !contrast.stratum && contrast.finding == Finding::not_shown;
}

bool is_told_and_differs(const Contrast& contrast) { return !contrast.stratum && differs_from_yields(contrast); }

} // namespace

bool is_caution_shared(const FieldComparison& field) {
    return std::count_if(field.contrasts.begin(), field.contrasts.end(), is_single_and_not_shown) > 1;
}

std::string shared_caution(const Telling& telling, const FieldComparison& field) {
    return is_caution_shared(field) ? std::string(telling.words.answer.single_each) + "." : std::string{};
}

bool differs_from_yields(const Contrast& contrast) {
    if (contrast.evidence != Evidence::split) return false;
    if (!contrast.gain_t_ha || !contrast.yield_t_ha || !contrast.baseline_yield_t_ha) return false;
    const double difference_t_ha = *contrast.yield_t_ha - *contrast.baseline_yield_t_ha;
    const double apart_t_ha = std::abs(difference_t_ha - *contrast.gain_t_ha);
    return std::isfinite(apart_t_ha) && apart_t_ha > 0.01 * *contrast.baseline_yield_t_ha;
}

std::string shared_reason(const Telling& telling, const FieldComparison& field) {
    const auto n = std::count_if(field.contrasts.begin(), field.contrasts.end(), is_told_and_differs);
    return n > 1 ? std::string(telling.words.answer.allows_for_land_each) + "." : std::string{};
}

} // namespace quartercut::report
