// SPDX-License-Identifier: MIT
// The strip pair as the unit of evidence: Student's t on the pair differences and, beside it, the sign-flip test, which
// needs nothing but that the order within each pair was drawn at random. Also Welch's t for two groups of whole fields.
#pragma once

#include "compare/t_math.hpp"

#include <cstdint>
#include <optional>
#include <span>

namespace quartercut::contrast {

/// Mean of the differences with K - 1 degrees of freedom; nullopt for fewer than two differences.
[[nodiscard]] std::optional<MeanTest> paired_t(std::span<const double> differences);

struct SignFlip {
    std::uint64_t as_large = 0; ///< assignments whose |mean| is at least the observed one
    std::uint64_t total = 0;
    bool exact = true; ///< false: drawn at random, the observed assignment counted in
    [[nodiscard]] double p() const;
};

/// All 2^K assignments for K <= 20, else 10 000 drawn with `seed`. \pre at least one difference
[[nodiscard]] SignFlip sign_flip(std::span<const double> differences, std::uint64_t seed);

/// mean(a) - mean(b), variances not assumed equal; nullopt when a group has fewer than two values.
/// Welch (1947), Biometrika 34:28-35.
[[nodiscard]] std::optional<MeanTest> welch_t(std::span<const double> a, std::span<const double> b);

/// Holm's step-down adjustment (Holm 1979, Scand. J. Statist. 6:65-70), in the order given.
[[nodiscard]] std::vector<double> holm_adjusted(std::span<const double> p);

} // namespace quartercut::contrast
