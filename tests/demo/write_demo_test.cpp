// SPDX-License-Identifier: MIT
// The demo folder: same bytes for the same seed, nothing overwritten, small enough, readable by the program.
#include "demo/demo_files.hpp"
#include "quartercut/error.hpp"
#include "quartercut/season.hpp"

#include <gtest/gtest.h>

#include <unistd.h>

#include <fstream>
#include <iterator>
#include <map>

namespace quartercut {
namespace {

namespace fs = std::filesystem;

class DemoFolder : public ::testing::Test {
protected:
    void SetUp() override {
        const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
        root_ = fs::temp_directory_path() / ("quartercut_demo_" + std::to_string(::getpid()) + "_" + test->name());
        fs::remove_all(root_);
    }
    void TearDown() override { fs::remove_all(root_); }

    static std::map<std::string, std::string> bytes_of(const fs::path& folder) {
        std::map<std::string, std::string> files;
        for (const auto& entry : fs::recursive_directory_iterator(folder)) {
            if (!entry.is_regular_file()) continue;
            std::ifstream in(entry.path(), std::ios::binary);
            files[fs::relative(entry.path(), folder).string()] = {std::istreambuf_iterator<char>(in), {}};
        }
        return files;
    }

    fs::path root_;
};

TEST_F(DemoFolder, HoldsTheSampleSeasonToTheLastByte) {
    (void)write_demo(root_, {});
    const auto written = bytes_of(root_);
    auto kept = bytes_of(QUARTERCUT_SAMPLE_DIR);
    kept.erase("report.png"); // the picture the README shows
    ASSERT_FALSE(kept.empty());
    for (const auto& [name, bytes] : written) {
        const auto found = kept.find(name);
        ASSERT_TRUE(found != kept.end()) << name << " is not in sample_geo";
        EXPECT_TRUE(found->second == bytes) << name << " differs from the one in sample_geo";
    }
    EXPECT_EQ(written.size(), kept.size());
}

TEST_F(DemoFolder, StaysUnderSixMegabytes) {
    (void)write_demo(root_, {});
    std::size_t total = 0;
    for (const auto& [name, bytes] : bytes_of(root_))
        total += bytes.size();
    EXPECT_LT(total, 6000000u);
}

TEST_F(DemoFolder, DiffersForAnotherSeed) {
    DemoOptions other;
    other.seed = 7;
    (void)write_demo(root_ / "one", {});
    (void)write_demo(root_ / "two", other);
    EXPECT_NE(bytes_of(root_ / "one")["tickets.csv"], bytes_of(root_ / "two")["tickets.csv"]);
}

TEST_F(DemoFolder, RefusesAFolderThatIsNotEmptyAndLeavesItAlone) {
    fs::create_directories(root_);
    std::ofstream(root_ / "mine.txt") << "mine";
    EXPECT_THROW((void)write_demo(root_, {}), WriteError);
    EXPECT_EQ(bytes_of(root_).size(), 1u);
}

TEST_F(DemoFolder, RefusesTheNameOfAFile) {
    fs::create_directories(root_);
    std::ofstream(root_ / "mine.txt") << "mine";
    EXPECT_THROW((void)write_demo(root_ / "mine.txt", {}), WriteError);
}

TEST_F(DemoFolder, TakesAnEmptyFolder) {
    fs::create_directories(root_);
    const DemoTruth truth = write_demo(root_, {});
    EXPECT_EQ(truth.gain_t_ha, 0.09);
    EXPECT_GE(truth.fields.size(), 8u);
}

TEST(DemoSeasonFile, IsASeasonFile) {
    const Season season = parse_season(demo::season_toml(), "season.toml");
    EXPECT_EQ(season.methods.size(), 2u);
    EXPECT_TRUE(season.trial.randomised);
    EXPECT_NEAR(*season.methods[0].cut_width_m, 35.0 * 0.3048, 1e-12);
}

TEST(UtcText, IsIso8601) {
    EXPECT_EQ(demo::utc_text(0.0), "1970-01-01T00:00:00Z");
    EXPECT_EQ(demo::utc_text(951782400.0), "2000-02-29T00:00:00Z"); // date -u -d @951782400
    EXPECT_EQ(demo::utc_text(1757007001.5), "2025-09-04T17:30:01.5Z");
}

} // namespace
} // namespace quartercut
