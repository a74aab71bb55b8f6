// SPDX-License-Identifier: MIT
// Sums that keep their digits: Neumaier's compensated summation (Neumaier 1974, ZAMM 54, 39-51).
//
// A season has millions of small masses; a plain running sum loses digits and depends on the order of the terms.
#pragma once

#include <cmath>

namespace quartercut {

/// Running sum whose error does not grow with the number of terms.
class Sum {
public:
    Sum& operator+=(double term) {
        const double total = total_ + term;
        lost_ += std::abs(total_) >= std::abs(term) ? (total_ - total) + term : (term - total) + total_;
        total_ = total;
        return *this;
    }
    Sum& operator-=(double term) { return *this += -term; }
    [[nodiscard]] double value() const { return std::isfinite(total_) ? total_ + lost_ : total_; }

private:
    double total_ = 0.0;
    double lost_ = 0.0;
};

/// Compensated sum of a range of numbers.
template <class Range>
[[nodiscard]] double sum_of(const Range& terms) {
    Sum sum;
    for (const double term : terms)
        sum += term;
    return sum.value();
}

} // namespace quartercut
