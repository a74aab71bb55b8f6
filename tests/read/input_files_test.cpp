// SPDX-License-Identifier: MIT
// Patterns of file names and fingerprints of files.
#include "read/input_files.hpp"
#include "season_folder.hpp"

#include <gtest/gtest.h>

namespace quartercut::reading {
namespace {

TEST(Patterns, MatchAsOneExpects) {
    EXPECT_TRUE(matches("*.csv", "a.csv"));
    EXPECT_TRUE(matches("*", "anything"));
    EXPECT_TRUE(matches("a*b*c", "aXXbYYc"));
    EXPECT_TRUE(matches("y?eld.csv", "yield.csv"));
    EXPECT_FALSE(matches("*.csv", "a.csv.bak"));
    EXPECT_FALSE(matches("a*b", "ac"));
    EXPECT_FALSE(matches("?", ""));
}

// FIPS 180-4, example "abc".
TEST(Fingerprint, IsSha256) {
    EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    const read_test::SeasonFolder folder;
    folder.write("abc.txt", "abc");
    const InputFile input = fingerprint({"abc.txt", folder.path("abc.txt")}, "points");
    EXPECT_EQ(input.sha256, sha256_of("abc"));
    EXPECT_EQ(input.bytes, 3U);
}

TEST(FindFiles, GoesThroughFoldersInOrderAndPassesOverCompanions) {
    const read_test::SeasonFolder folder;
    for (const char* name : {"m/b/2.shp", "m/b/2.dbf", "m/a/1.csv", "m/a/.hidden", "m/b/1.csv"})
        folder.write(name, "x");
    const std::vector<FoundFile> found = find_files(folder.season(), "m/*/*", "test");
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].shown, "m/a/1.csv");
    EXPECT_EQ(found[1].shown, "m/b/1.csv");
    EXPECT_EQ(found[2].shown, "m/b/2.shp");
}

} // namespace
} // namespace quartercut::reading
