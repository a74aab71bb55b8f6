// SPDX-License-Identifier: MIT
// Alike remarks are told once, with their places; warnings stand before notes.
#include "report/remarks.hpp"

#include "quartercut/report.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using ::testing::ElementsAre;

Issue remark(const std::string& where, const std::string& message, Severity severity = Severity::warning) {
    return {"area-does-not-close", severity, where, message};
}

TEST(Remarks, AlikeOnesAreOneLineWithTheirPlaces) {
    const Issues issues = {remark("field Home, machine A, method swathed", "the width may be wrong"),
                           remark("field Home, machine B, method swathed", "the width may be wrong"),
                           remark("field Willow, machine A, method swathed", "the width may be wrong")};
    EXPECT_THAT(remark_lines(issues),
                ElementsAre("warning [area-does-not-close] the width may be wrong (Home, Willow; 3 places)"));
}

TEST(Remarks, ASinglePlaceIsNamedInFull) {
    EXPECT_THAT(remark_lines({remark("field Stone, method swathed", "look at the map")}),
                ElementsAre("warning [area-does-not-close] look at the map (Stone, method swathed)"));
    EXPECT_THAT(remark_lines({remark("", "of the whole season")}),
                ElementsAre("warning [area-does-not-close] of the whole season"));
}

TEST(Remarks, OtherTextOrWeightIsAnotherRemark) {
    const Issues issues = {remark("field Home", "5.5 % of the land"), remark("field Home", "6.5 % of the land"),
                           remark("field Home", "5.5 % of the land", Severity::note)};
    EXPECT_EQ(report::grouped(issues).size(), 3U);
}

TEST(Remarks, WarningsStandBeforeNotes) {
    const Issues issues = {remark("", "told", Severity::note), remark("", "must know"),
                           remark("", "also told", Severity::note)};
    EXPECT_THAT(remark_lines(issues),
                ElementsAre("warning [area-does-not-close] must know", "note [area-does-not-close] told",
                            "note [area-does-not-close] also told"));
}

TEST(Remarks, ManyPlacesAreCountedNotListed) {
    Issues issues;
    for (int i = 1; i <= 12; ++i)
        issues.push_back(remark("field F" + std::to_string(i), "the same"));
    EXPECT_THAT(remark_lines(issues),
                ElementsAre("warning [area-does-not-close] the same (F1, F2, F3, F4, F5, F6, F7, F8 ...; 12 places)"));
}

} // namespace
} // namespace quartercut
