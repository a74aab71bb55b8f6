// SPDX-License-Identifier: MIT
// Loss counts, samples and station files as growers write them, and what is said of wrong ones.
#include "quartercut/error.hpp"
#include "quartercut/plan_inputs.hpp"
#include "quartercut/units.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <unistd.h>

namespace quartercut {
namespace {

using testing::HasSubstr;

class Folder {
public:
    Folder() : path_(std::filesystem::temp_directory_path() / ("quartercut-tables-" + std::to_string(::getpid()))) {
        std::filesystem::create_directories(path_);
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] Season season() const {
        Season out;
        out.file = path_ / "season.toml";
        out.bushel_lb = 50.0;
        out.baseline = "swathed";
        out.methods = {{"swathed", "", 10.668}, {"standing", "", 12.192}};
        return out;
    }
    void write(const std::string& name, const std::string& text) const { std::ofstream(path_ / name) << text; }

private:
    std::filesystem::path path_;
};

const std::string head = "field,method,place,when,seeds,grams,tray_area_ft2,seed_weight_g_per_1000,cut_width_ft,"
                         "discharge_width_ft,note\n";

std::string losses(const std::string& text, PlanTables* out = nullptr) {
    const Folder folder;
    folder.write("losses.csv", text);
    Season season = folder.season();
    season.loss_counts = LossCountsInput{"losses.csv", "", 1};
    try {
        const PlanTables tables = read_plan_tables(season);
        if (out != nullptr) *out = tables;
    } catch (const Error& error) {
        return error.what();
    }
    return "accepted";
}

// 30 ft cut, 5 ft discharge, 1000 seeds of 3 g in a square foot: the example of losses_test.cpp, in a file.
TEST(LossFiles, AreReadWithTheirUnits) {
    PlanTables tables;
    ASSERT_EQ(
        losses(head + "Home,swathed,1,machine,1000,,1,3,30,5,windy\nHome,standing,1,before,,0.5,2,,,,\n", &tables),
        "accepted");
    ASSERT_EQ(tables.losses.size(), 2U);
    EXPECT_EQ(tables.losses[0].stage, LossStage::behind_machine);
    EXPECT_NEAR(tables.losses[0].area_m2, m_per_foot * m_per_foot, 1e-12);
    EXPECT_NEAR(*tables.losses[0].cut_width_m, 30.0 * m_per_foot, 1e-12);
    EXPECT_NEAR(*tables.losses[1].grams, 0.5, 1e-12);
    EXPECT_FALSE(tables.losses[1].seeds);
    EXPECT_EQ(tables.inputs.at(0).rows, 2U);
}

TEST(LossFiles, SayWhatIsWrongAndWhere) {
    EXPECT_THAT(losses(head + "Home,swathed,1,later,10,,1,3,,,\n"), HasSubstr("write before, header or machine"));
    EXPECT_THAT(losses(head + "Home,swathed,1,before,10,,1,,,,\n"), HasSubstr("weight of 1000"));
    EXPECT_THAT(losses(head + "Home,swathed,1,before,,,1,3,,,\n"), HasSubstr("a tray that was empty has 0"));
    EXPECT_THAT(losses(head + "Home,swathed,1,before,-1,,1,3,,,\n"), HasSubstr("row 1"));
    EXPECT_THAT(losses(head + "Home,swathed,1,machine,10,,1,3,,,\n"), HasSubstr("cut_width and discharge_width"));
    EXPECT_THAT(losses(head + "Home,swathed,1,machine,10,,1,3,5,30,\n"), HasSubstr("wider than the cut"));
    EXPECT_THAT(losses(head + "Home,swathed,1,before,1e308,,1,3,,,\n"), HasSubstr("20 t/ha"));
    EXPECT_THAT(losses(head + "Home,swathed,1,before,9,,1,3,1e308,,\n"), HasSubstr("below 60 m"));
    EXPECT_THAT(losses(head + "Home,swatched,1,before,10,,1,3,,,\n"), HasSubstr("swathed"));
    EXPECT_THAT(losses("method,when,seeds,tray_area,seed_weight_g_per_1000\nswathed,before,1,1,3\n"),
                HasSubstr("unit of column 'tray_area' is not said"));
    EXPECT_THAT(losses("method,when,tray_area_m2\nswathed,before,1\n"), HasSubstr("neither a column seeds"));
}

TEST(StationFiles, HoursAreJoinedToDays) {
    const Folder folder;
    folder.write("station.csv", "date,rain_mm,gust_km_h\n2025-09-01T06:00,1.5,40\n2025-09-01T18:00,2.0,72\n"
                                "2025-09-02,,\n2025-09-03,0,55\n");
    Season season = folder.season();
    season.weather = WeatherInput{"station.csv", {}, "", "", 1};
    const PlanTables tables = read_plan_tables(season);
    ASSERT_EQ(tables.weather.size(), 3U);
    EXPECT_NEAR(*tables.weather[0].rain_mm, 3.5, 1e-12);
    EXPECT_NEAR(*tables.weather[0].gust_km_h, 72.0, 1e-9);
    EXPECT_FALSE(tables.weather[1].rain_mm); // a gap is a gap, not a dry day
    EXPECT_EQ(day_text(tables.weather[2].day), "2025-09-03");
}

PlanTables station(const std::string& text) {
    const Folder folder;
    folder.write("station.csv", text);
    Season season = folder.season();
    season.weather = WeatherInput{"station.csv", {}, "", "", 1};
    return read_plan_tables(season);
}

TEST(StationFiles, WhatNoStationHasMeasuredIsRefused) {
    for (const char* row : {"2025-09-01,-1,40\n", "2025-09-01,1,-4\n", "2025-09-01,2600,40\n", "2025-09-01,1,1e308\n"})
        EXPECT_THROW(station(std::string("date,rain_mm,gust_km_h\n") + row), DataError) << row;
}

TEST(StationFiles, TheSameTimeTwiceIsRefused) {
    EXPECT_THROW(station("date,rain_mm\n2025-09-01,5\n2025-09-02,0\n2025-09-01,5\n"), DataError);
    EXPECT_EQ(station("date,rain_mm\n2025-09-01T06:00,5\n2025-09-01T07:00,5\n").weather.size(), 1U);
}

TEST(StationFiles, AColumnThatIsNotRecognisedAndARowCutOffAreTold) {
    EXPECT_TRUE(station("date,rain_mm,gust_km_h\n2025-09-01,1,40\n").issues.empty());
    EXPECT_THAT(station("date,wet,gust_km_h\n2025-09-01,1,40\n").issues.at(0).message, HasSubstr("recognised as rain"));
    EXPECT_THAT(station("date,rain_mm,blow\n2025-09-01,1,40\n").issues.at(0).message, HasSubstr("recognised as gust"));
    EXPECT_THAT(station("date,rain_mm,gust_km_h\n2025-09-01,1,40\n2025-09-02,").issues.at(0).message,
                HasSubstr("row 2 has fewer cells"));
}

TEST(Days, GoThereAndBack) {
    EXPECT_EQ(day_number("1970-01-01"), 0);
    EXPECT_EQ(day_number("2000-03-01"), 11017); // 30 years of 365 days, 7 leap days, 60 days
    for (const char* day : {"2024-02-29", "2025-12-31", "2026-01-01"})
        EXPECT_EQ(day_text(*day_number(day)), day);
    EXPECT_FALSE(day_number("soon"));
    EXPECT_EQ(day_number("2000-03-01T23:59"), 11017);
    EXPECT_EQ(day_number("2000-03-01T23:59-06:00"), 11017);
    EXPECT_FALSE(day_number("2000-03-010")); // a digit too many is a slip of the hand, not the first
    EXPECT_FALSE(day_number("2000-03-01 and so on"));
}

} // namespace
} // namespace quartercut
