// SPDX-License-Identifier: MIT
// What no number of strips can show: errors of calibration, moisture, dockage and cut width, put together after the
// Guide to the Expression of Uncertainty in Measurement (JCGM 100:2008), and how wrong each would have to be to erase
// the gain.
#pragma once

#include "compare/t_math.hpp"

#include <span>
#include <vector>

namespace quartercut::contrast {

struct Combined {
    double u = 0.0;
    double df = 0.0; ///< Welch-Satterthwaite, JCGM 100 G.4.1
};

/// Root sum of squares of the lines and their effective degrees of freedom.
[[nodiscard]] Combined combine(std::span<const BudgetLine> lines);

/// What the instruments behind one side of a difference look like.
struct Side {
    std::string method;
    double yield_t_ha = 0.0;
    double moisture_pct = 0.0;
    struct Share {
        std::string machine;
        double mass_share = 0.0; ///< of the side's mass, 0..1
    };
    std::vector<Share> machines;
    double width_u_rel = 0.02;
};

/// All lines but sampling, for `side` minus `baseline`. A factor common to both methods works through the difference of
/// its two sensitivities and so mostly cancels; separate factors do not.
[[nodiscard]] std::vector<BudgetLine> instrument_lines(const Side& side, const Side& baseline,
                                                       const std::vector<Calibration>& calibration);

/// No machine cut both sides, and most grain of one side went through machines that neither weighed loads nor
/// neighbouring passes check: the assumed error of such a factor is a guess, and a whole difference may be no more.
[[nodiscard]] bool unchecked_machines_apart(const Side& side, const Side& baseline,
                                            const std::vector<Calibration>& calibration);

/// Relative error of the method's calibration that would turn `yield` into `baseline_yield`, in percent, >= 0.
[[nodiscard]] double break_even_calibration_pct(double yield_t_ha, double baseline_yield_t_ha);

/// Error of the method's moisture reading, in points, that would do the same, >= 0.
[[nodiscard]] double break_even_moisture_pct(double yield_t_ha, double baseline_yield_t_ha, double moisture_pct);

/// "fragile" (< 2), "moderate" (2..3) or "sturdy" (> 3): break-even over the standard uncertainty. Judgement.
[[nodiscard]] const char* fragility_word(double break_even_over_u);

} // namespace quartercut::contrast
