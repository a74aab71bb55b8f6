// SPDX-License-Identifier: MIT
// Classes and colours of the styles.
#include "write/layer_style.hpp"
#include "write/palette.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>
#include <numeric>

namespace quartercut::write {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(QuantileStyle, PutsAFifthOfTheValuesIntoEachClass) {
    std::vector<double> values(100);
    std::iota(values.begin(), values.end(), 0.0);
    values.push_back(std::numeric_limits<double>::quiet_NaN());
    const LayerStyle style = quantile_style("yield_t_ha", values, "t/ha");
    ASSERT_EQ(style.classes.size(), 5U);
    for (std::size_t k = 0; k < 5; ++k) {
        EXPECT_DOUBLE_EQ(style.classes[k].low, 20.0 * static_cast<double>(k));
        EXPECT_EQ(style.classes[k].fill, cividis_5[k]);
    }
    EXPECT_DOUBLE_EQ(style.classes[4].high, 99.0);
    EXPECT_THAT(style.classes[0].label, HasSubstr("0.00 to 20.00 t/ha (fifth 1 of 5 by count)"));
}

TEST(QuantileStyle, TakesFewerClassesWhereValuesRepeat) {
    const LayerStyle style = quantile_style("yield_t_ha", {2, 2, 2, 2, 2, 2, 2, 3}, "t/ha");
    ASSERT_EQ(style.classes.size(), 1U);
    EXPECT_DOUBLE_EQ(style.classes[0].low, 2.0);
    EXPECT_DOUBLE_EQ(style.classes[0].high, 3.0);
    EXPECT_THAT(style.classes[0].label, Not(HasSubstr("fifth"))); // not fifths any more
    EXPECT_EQ(quantile_style("yield_t_ha", {2.5}, "t/ha").classes.size(), 1U);
    EXPECT_TRUE(quantile_style("yield_t_ha", {}, "t/ha").classes.empty());
}

TEST(DifferenceStyle, IsCentredOnZero) {
    const LayerStyle style = difference_style("gain_t_ha", {0.05, -0.02}, "t/ha");
    ASSERT_EQ(style.classes.size(), 5U);
    for (std::size_t k = 0; k < 5; ++k) {
        EXPECT_NEAR(style.classes[k].low, -style.classes[4 - k].high, 1e-15);
        EXPECT_EQ(style.classes[k].fill, puor_5[k]);
    }
    EXPECT_DOUBLE_EQ(style.classes[4].high, 0.05);
    EXPECT_THAT(style.classes[4].label, HasSubstr("+0.030 to +0.050 t/ha")); // the sign says it without colour
}

TEST(StyleText, EscapesNamesOfMethods) {
    LayerStyle style;
    style.kind = StyleKind::categories;
    style.column = "method";
    style.classes = {{"a<b & \"c\"", 0.0, 0.0, "a<b & \"c\"\x01", "#E69F00", Hatch::up}};
    for (const std::string& text : {qml_of(style, {}), sld_of(style, "zones")}) {
        EXPECT_THAT(text, HasSubstr("a&lt;b &amp; &quot;c&quot;"));
        EXPECT_THAT(text, Not(HasSubstr("\x01"))); // XML 1.0 section 2.2 forbids it
    }
}

} // namespace
} // namespace quartercut::write
