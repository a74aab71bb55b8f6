// SPDX-License-Identifier: MIT
// The room's own check of its partitions must see what is wrong, and say where.
#include "zone/cutting.hpp"

#include "field_by_hand.hpp"

#include "quartercut/error.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quartercut::zone_room {
namespace {

using by_hand::rectangle;
using testing::HasSubstr;

/// What the check says of these shapes as a partition of 100 m by 100 m; empty: all is well.
std::string objection(const std::vector<MultiPolygon>& shapes) {
    std::vector<const MultiPolygon*> pointers;
    for (const MultiPolygon& shape : shapes)
        pointers.push_back(&shape);
    try {
        verify_partition(pointers, {rectangle(0, 0, 100, 100)}, "home");
    } catch (const InternalError& error) {
        return error.what();
    }
    return {};
}

TEST(PartitionCheck, FindsNothingWhereNothingIs) {
    EXPECT_EQ(objection({{rectangle(0, 0, 60, 100)}, {rectangle(60, 0, 100, 100)}}), "");
}

TEST(PartitionCheck, SeesAGap) {
    EXPECT_THAT(objection({{rectangle(0, 0, 60, 100)}, {rectangle(60.001, 0, 100, 100)}}), HasSubstr("add up to"));
}

TEST(PartitionCheck, SeesAnOverlap) {
    EXPECT_THAT(objection({{rectangle(0, 0, 60, 100)}, {rectangle(59.999, 0, 100, 100)}}), HasSubstr("add up to"));
}

/// A gap and an overlap of the same size: the areas add up, the edges do not.
TEST(PartitionCheck, SeesLandInTwoZonesWhereTheAreasAddUpAndSaysWhere) {
    const std::string said =
        objection({{rectangle(0, 0, 50, 100)}, {rectangle(50, 0, 80, 100)}, {rectangle(50, 0, 70, 100)}});
    EXPECT_THAT(said, HasSubstr("field \"home\" are no partition: an edge belongs to three zones near x 50.000 m"));
    const std::string twice = objection({{rectangle(0, 0, 50, 100)}, {rectangle(0, 0, 50, 100)}});
    EXPECT_THAT(twice, HasSubstr("same side of an edge"));
    EXPECT_THAT(twice, HasSubstr("near x 0.000 m, y 100.000 m"));
}

} // namespace
} // namespace quartercut::zone_room
