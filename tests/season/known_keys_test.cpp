// SPDX-License-Identifier: MIT
// The list of known keys and what is said about the others.
#include "season/known_keys.hpp"

#include <gtest/gtest.h>

namespace quartercut::season {
namespace {

TEST(KnownKeys, AreListedForEveryTableThatIsNotFree) {
    for (const char* table : {"", "fields", "points", "points.columns", "points.columns.*", "methods",
                              "methods.from_points", "methods.from_fields", "method", "strata", "tickets", "trial",
                              "cleaning", "comparison", "history", "history.columns", "history.columns.*"})
        EXPECT_NE(known_keys(table), nullptr) << table;
    EXPECT_EQ(known_keys("fields.columns"), nullptr);
    EXPECT_EQ(known_keys("nothing"), nullptr);
}

// A near miss in the same table wins over the same word elsewhere.
TEST(UnknownKeys, PreferTheNearMissAtHand) {
    EXPECT_EQ(unknown_key_message(*known_keys("points"), "file"),
              "unknown key \"file\" in [points]; did you mean \"files\"?");
    EXPECT_EQ(unknown_key_message(*known_keys("fields"), "crop"),
              "unknown key \"crop\" in [fields]; it belongs at the top of the file, above the first table in brackets");
}

} // namespace
} // namespace quartercut::season
