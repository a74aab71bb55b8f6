// SPDX-License-Identifier: MIT
// The yield of any place of a field from the segments of the same zone. Nothing is smoothed across a zone's border, so
// a difference between methods stays a step.
#pragma once

#include "write/covariance.hpp"

#include <cstdint>
#include <limits>
#include <vector>

namespace quartercut::write {

struct SurfaceValue {
    double yield_t_ha = std::numeric_limits<double>::quiet_NaN();
    double se_t_ha = std::numeric_limits<double>::quiet_NaN(); ///< kriging standard error; NaN: not to be had
};

/// Ordinary block kriging (Burgess and Webster 1980, J. Soil Sci. 31, 333-341) from the 12 nearest segments of the zone,
/// each taken at its centre, the nugget as error of the segment; where no covariance could be fitted, inverse squared
/// distance of the same segments, without an error. Unknown farther than 60 m from every segment of the zone.
class Surface {
public:
    /// `covariance`: of this field (fit_covariance); not fitted: inverse distance. `cell_m`: side of a cell.
    Surface(const ZonedField& field, const Covariance& covariance, double cell_m);
    /// Mean yield of a square cell around `p` (frame metres) that lies in zone `zone`. Safe from several threads.
    [[nodiscard]] SurfaceValue at(int zone, Point p) const;

private:
    struct Sample {
        double x_m, y_m, yield_t_ha;
    };
    /// Samples of one zone in square bins.
    struct Bins {
        Box box;
        std::size_t columns = 0, rows = 0;
        std::vector<std::vector<Sample>> bins;
    };
    struct Near {
        double distance2_m2;
        Sample sample;
    };
    [[nodiscard]] std::vector<Near> nearest(const Bins& bins, Point p) const;
    [[nodiscard]] SurfaceValue krige(const std::vector<Near>& near, Point p) const;
    double cell_m_;
    Covariance covariance_;
    double block_variance_ = 0.0; // mean covariance within a cell
    std::vector<Bins> zones_;
};

} // namespace quartercut::write
