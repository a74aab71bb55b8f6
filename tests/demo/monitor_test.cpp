// SPDX-License-Identifier: MIT
// The way of the grain to the sensor.
#include "demo/monitor.hpp"

#include <gtest/gtest.h>

#include <numeric>

namespace quartercut::demo {
namespace {

TEST(ArrivalKernel, LosesNothing) {
    for (const DemoMonitor& monitor : monitors()) {
        for (const double step : {1.0, 0.75, 0.5}) {
            const std::vector<double> kernel = arrival_kernel(monitor, step);
            EXPECT_NEAR(std::accumulate(kernel.begin(), kernel.end(), 0.0), 1.0, 1e-12);
        }
    }
}

// By hand: grain cut evenly over a step leaves it half a step after its start on average and arrives transport +
// mixing later; grain that arrives in step k is dated to its middle, so the two halves cancel.
TEST(ArrivalKernel, HasTheMeanDelayOfTransportPlusMixing) {
    for (const DemoMonitor& monitor : monitors()) {
        const std::vector<double> kernel = arrival_kernel(monitor, 1.0);
        double mean = 0.0;
        for (std::size_t k = 0; k < kernel.size(); ++k)
            mean += static_cast<double>(k) * kernel[k];
        // Steps split the exponential's first seconds unevenly; the bias is below a tenth of a second.
        EXPECT_NEAR(mean, monitor.lag_s(), 0.1);
    }
}

TEST(ArrivalKernel, BringsNothingBeforeTheTransportTime) {
    DemoMonitor monitor;
    monitor.transport_s = 9.0;
    monitor.mixing_s = 3.0;
    const std::vector<double> kernel = arrival_kernel(monitor, 1.0);
    for (std::size_t k = 0; k < 9; ++k)
        EXPECT_EQ(kernel[k], 0.0);
    EXPECT_GT(kernel[9], 0.0);
}

TEST(Monitors, LieInTheRangeOfPublishedTransportLags) {
    // 8-14 s over three combines: Beal and Tian 2001, Applied Eng. in Agric. 17(3), 385-390 (volume and pages from
    // memory).
    for (const DemoMonitor& monitor : monitors()) {
        EXPECT_GE(monitor.lag_s(), 8.0);
        EXPECT_LE(monitor.lag_s(), 14.0);
    }
}

} // namespace
} // namespace quartercut::demo
