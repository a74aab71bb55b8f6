// SPDX-License-Identifier: MIT
// How alike yields of near places are: an exponential covariance with a nugget, fitted to the segments of one field.
#pragma once

#include "quartercut/zone.hpp"

namespace quartercut::write {

/// C(h) = sill exp(-h / range) between two places h apart; the nugget is error of a segment, not of the land.
struct Covariance {
    double nugget = 0.0; ///< (t/ha)^2
    double sill = 0.0;   ///< (t/ha)^2
    double range_m = 0.0;
    bool fitted = false; ///< false: too few pairs, or no structure to be seen
};

/// Least squares on the semivariogram of pairs of one zone (weights: numbers of pairs, Cressie 1985, Math. Geol. 17(5)),
/// pooled over the zones of the field, up to 300 m. No pair crosses a zone border, so no method difference enters.
[[nodiscard]] Covariance fit_covariance(const ZonedField& field);

} // namespace quartercut::write
