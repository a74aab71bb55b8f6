// SPDX-License-Identifier: MIT
// Maps: frames, paths, classes, marks. Expected values are by hand on squares.
#include "page_reader.hpp"
#include "quartercut/report.hpp"
#include "report/map_parts.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <set>

namespace quartercut::report {
namespace {

TEST(MapFrame, PutsNorthUpAndKeepsProportions) {
    const auto frame = map_frame({0.0, 0.0, 760.0, 380.0}); // 380 drawing units are free: half a unit a metre
    EXPECT_DOUBLE_EQ(frame.units_per_m, 0.5);
    EXPECT_DOUBLE_EQ(frame.at({0.0, 380.0}).x, 10.0);
    EXPECT_DOUBLE_EQ(frame.at({0.0, 380.0}).y, 10.0);
    EXPECT_DOUBLE_EQ(frame.at({760.0, 0.0}).x, 390.0);
    EXPECT_DOUBLE_EQ(frame.at({760.0, 0.0}).y, 200.0);
}

TEST(ShapePath, DrawsEveryRingAndClosesIt) {
    Polygon polygon = sample::rectangle(0, 0, 380, 380);
    polygon.holes = {sample::hole(100, 100, 200, 200)};
    const auto frame = map_frame({0.0, 0.0, 380.0, 380.0});
    EXPECT_EQ(shape_path({polygon}, frame), "M10 390L390 390L390 10L10 10zM110 290L110 190L210 190L210 290z");
}

TEST(LabelSpot, KeepsOutOfHoles) {
    Polygon polygon = sample::rectangle(0, 0, 100, 100);
    polygon.holes = {sample::hole(20, 40, 90, 60)};
    const auto spot = label_spot({polygon});
    EXPECT_TRUE(PointLocator({polygon}).contains(spot.at));
    EXPECT_DOUBLE_EQ(spot.room_m, 100.0);
}

// A triangle's widest level line lies near its base: the label moves to the middle of what is above and below it, and
// by hand a sliver 4 m high says that no label fits.
TEST(LabelSpot, StandsInTheMiddleOfWhatLiesAboveAndBelow) {
    const auto spot = label_spot({{{{0, 0}, {100, 0}, {50, 100}}, {}}});
    EXPECT_DOUBLE_EQ(spot.at.x, 50.0);
    EXPECT_DOUBLE_EQ(spot.at.y, 50.0);
    EXPECT_DOUBLE_EQ(spot.room_m, 50.0);
    EXPECT_DOUBLE_EQ(spot.height_m, 100.0);
    EXPECT_DOUBLE_EQ(label_spot({sample::rectangle(0, 0, 80, 4)}).height_m, 4.0);
}

TEST(YieldClasses, HoldAsManyStretchesEach) {
    const Results results = sample::results();
    const Telling telling(results);
    const auto classes = yield_classes(telling, results.zoned[0]);
    ASSERT_EQ(classes.bounds.size(), 6U);
    std::array<std::size_t, 5> held{};
    for (const auto& segment : results.zoned[0].segments) {
        ++held[static_cast<std::size_t>(classes.class_of(telling.figures.in_unit(segment.yield_t_ha())))];
    }
    const double fifth = static_cast<double>(results.zoned[0].segments.size()) / 5.0;
    for (const auto n : held)
        EXPECT_NEAR(static_cast<double>(n), fifth, 0.25 * fifth);
}

TEST(YieldMap, HoldsEveryStretchOfASmallField) {
    const Results results = sample::results();
    const std::string page = report_html(results);
    const auto values = page::attribute(page, "data-values");
    ASSERT_EQ(values.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_EQ(page::count(values[i], ";"), results.zoned[i].segments.size());
}

TEST(YieldMap, DrawsOnePathPerReasonAndEveryRemovedRecordOnce) {
    const Results results = sample::results();
    const std::string page = report_html(results);
    std::size_t reasons = 0;
    for (const auto& field : results.cleaned.fields) {
        const std::set<Removal> met(field.removal.begin(), field.removal.end());
        reasons += met.size() - met.count(Removal::kept);
    }
    EXPECT_EQ(page::attribute(page, "data-reason").size(), reasons);
    const std::size_t at = page.find("data-reason=\"" + std::string(removal_word(Removal::pass_end)) + "\"");
    const std::string path = page.substr(at, page.find('>', at) - at);
    // A crossed mark is one absolute move a record.
    const auto& first = results.cleaned.fields[0].removal;
    EXPECT_EQ(page::count(path, "M"),
              static_cast<std::size_t>(std::count(first.begin(), first.end(), Removal::pass_end)));
}

TEST(RemovedRecords, AreThinnedInAFixedWayAndCountedInFull) {
    Results results = sample::results();
    results.cleaned.fields[0].removal.assign(10000, Removal::turn);
    const Telling telling(results);
    const auto removed = removed_records(telling, 0);
    EXPECT_EQ(removed.total, 10000U);
    EXPECT_EQ(removed.counts[static_cast<std::size_t>(Removal::turn)], 10000U);
    EXPECT_EQ(one_in(removed.total, marks_of_each_field(telling).removed), 3U); // 10 000 / 4 000, rounded up
}

// By hand: 10 and 20 are within the share of 100/4 and leave 70 to the two others.
TEST(FairShare, DrawsSmallFieldsWholeAndLetsTheLargeOnesShareTheRest) {
    EXPECT_EQ(fair_share({1000, 10, 500, 20}, 100), 35U);
    EXPECT_EQ(fair_share({30, 10, 20}, 100), 30U) << "all fit";
    EXPECT_EQ(fair_share({7, 7, 7}, 2), 1U) << "never none";
    EXPECT_EQ(fair_share({}, 100), 1U);
}

// Every reason has words and a mark: a new reason must not pass unseen.
TEST(RemovalText, NamesEveryReason) {
    std::set<std::string> words;
    for (std::size_t k = 0; k < removal_count; ++k)
        words.insert(removal_text(static_cast<Removal>(k)));
    EXPECT_EQ(words.size(), removal_count);
    EXPECT_EQ(words.count(""), 0U);
}

} // namespace
} // namespace quartercut::report
