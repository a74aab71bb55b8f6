// SPDX-License-Identifier: MIT
// What a right season file is read into.
#include "season_text.hpp"

#include <filesystem>
#include <fstream>
#include <gmock/gmock.h>

namespace quartercut {
namespace {

using namespace season_test;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(SeasonFile, SmallestTakesItsDefaults) {
    const Season season = parse_season(with("title    = \"Invented farm\"\n", ""), "farm/north_2025.toml");
    EXPECT_EQ(season.title, "north_2025");
    EXPECT_EQ(season.folder(), "farm");
    EXPECT_EQ(season.units, YieldUnit::bu_ac);
    EXPECT_EQ(season.basis_pct, 10.0);
    EXPECT_EQ(season.bushel_lb, 50.0);
    EXPECT_EQ(season.yield_high_t_ha, 6.0);
    EXPECT_EQ(season.methods_from.source, MethodSource::polygons);
    EXPECT_EQ(season.methods[1].label, "standing");
    EXPECT_FALSE(season.methods[1].cut_width_m);
    EXPECT_FALSE(season.strata || season.tickets || season.history);
    EXPECT_FALSE(season.trial.randomised);
    EXPECT_EQ(season.trial.pairs, "auto");
    EXPECT_TRUE(season.cleaning.lag && season.cleaning.machine_offsets);
    EXPECT_EQ(season.comparison.segment_m, 30.0);
    EXPECT_TRUE(season.issues.empty());
}

const std::string full = R"(title    = "Invented farm, 2025 canola"
year     = 2025
crop     = "canola"
basis    = "8.5 %"
bushel   = "52 lb"
baseline = "swathed"
units    = "t/ha"

[fields]
file  = "fields.gpkg"
layer = "boundaries"
name  = "name"
crs   = "EPSG:2957"
[fields.columns]
legal = "LLD"
variety = "var"
"seeded on" = "seeded"

[points]
files = ["yield/*.csv", "yield/*.gpkg"]
layer = "points"
crs   = "EPSG:4326"
time_zone = "-06:00"
[points.columns]
yield    = { column = "yield_t_ha", unit = "t/ha", moisture = "wet" }
flow     = { column = "flow", unit = "lb/s" }
header   = { column = "header_up", up = 1 }
time     = "utc"
load     = { column = "load_id" }

[methods]
file   = "fields.gpkg"
layer  = "methods"
column = "method"

[[method]]
name      = "swathed"
label     = "Swathed, then picked up"
cut_width = "35 ft"
[[method]]
name      = "standing"
cut_width = "12.2 m"

[strata]
file = "soil.gpkg"
layer = "units"
column = "unit"

[tickets]
file = "tickets.csv"

[trial]
randomised = true
pairs = "block"

[cleaning]
lag = false
turns = false

[comparison]
segment = "25 m"
placebo_layouts = 200
all_pairs = true

[history]
results = ["2024/results/comparison.json"]
maps = "2023/*.csv"
[history.columns]
yield = { column = "y", unit = "bu/ac", moisture = "dry" }
)";

TEST(SeasonFile, IsReadWholeAtItsTop) {
    const Season season = parse_season(full, "season.toml");
    EXPECT_EQ(season.title, "Invented farm, 2025 canola");
    EXPECT_EQ(season.year, 2025);
    EXPECT_EQ(season.basis_pct, 8.5);
    EXPECT_EQ(season.bushel_lb, 52.0);
    EXPECT_EQ(season.units, YieldUnit::t_ha);
    EXPECT_EQ(season.text, full);
    EXPECT_EQ(season.baseline_code(), 0);
    EXPECT_EQ(season.method_code("standing"), 1);
    EXPECT_EQ(season.method_code("other"), -1);
    EXPECT_EQ(season.methods[0].label, "Swathed, then picked up");
    EXPECT_DOUBLE_EQ(season.methods[0].cut_width_m.value_or(0), 10.668);
    EXPECT_DOUBLE_EQ(season.methods[1].cut_width_m.value_or(0), 12.2);
}

TEST(SeasonFile, IsReadWholeInItsInputs) {
    const Season season = parse_season(full, "season.toml");
    EXPECT_EQ(season.fields.file, "fields.gpkg");
    EXPECT_EQ(season.fields.layer, "boundaries");
    EXPECT_EQ(season.fields.name_column, "name");
    EXPECT_EQ(season.fields.crs, "EPSG:2957");
    EXPECT_EQ(season.fields.columns.at("legal"), "LLD");
    EXPECT_EQ(season.fields.columns.at("seeded on"), "seeded");
    EXPECT_THAT(season.points.files, ElementsAre("yield/*.csv", "yield/*.gpkg"));
    EXPECT_EQ(season.points.time_zone, "-06:00");
    EXPECT_EQ(season.methods_from.layer, "methods");
    EXPECT_EQ(season.methods_from.column, "method");
    EXPECT_EQ(season.strata.value().column, "unit");
    EXPECT_EQ(season.tickets.value().file, "tickets.csv");
    EXPECT_THAT(season.history.value().maps, ElementsAre("2023/*.csv"));
    EXPECT_EQ(season.history.value().columns.at(Meaning::yield).unit, "bu/ac");
}

TEST(SeasonFile, IsReadWholeInItsColumns) {
    const Season season = parse_season(full, "season.toml");
    const ColumnChoice& yield = season.points.columns.at(Meaning::yield);
    EXPECT_EQ(yield.column, "yield_t_ha");
    EXPECT_EQ(yield.unit, "t/ha");
    EXPECT_EQ(yield.moisture, "wet");
    EXPECT_EQ(season.points.columns.at(Meaning::header).up, "1");
    EXPECT_EQ(season.points.columns.at(Meaning::time).column, "utc");
    EXPECT_EQ(season.points.columns.count(Meaning::speed), 0U);
}

TEST(SeasonFile, IsReadWholeInItsChoices) {
    const Season season = parse_season(full, "season.toml");
    EXPECT_TRUE(season.trial.randomised);
    EXPECT_EQ(season.trial.pairs, "block");
    EXPECT_FALSE(season.cleaning.lag);
    EXPECT_FALSE(season.cleaning.turns);
    EXPECT_TRUE(season.cleaning.ramps);
    EXPECT_EQ(season.comparison.segment_m, 25.0);
    EXPECT_EQ(season.comparison.placebo_layouts, 200);
    EXPECT_TRUE(season.comparison.all_pairs);
}

TEST(SeasonFile, RemembersWhereThingsStand) {
    const Season season = parse_season(full, "season.toml");
    EXPECT_EQ(season.fields.place.line, 9U);
    EXPECT_EQ(season.points.place.line, 19U);
    EXPECT_EQ(season.points.columns.at(Meaning::flow).place.line, 26U);
    EXPECT_EQ(season.points.columns.at(Meaning::flow).place.column, 12U);
    EXPECT_EQ(season.strata.value().place.line, 44U);
    EXPECT_EQ(season.tickets.value().place.line, 49U);
}

struct Step {
    const char* key;
    bool CleaningChoice::*on;
};

TEST(SeasonFile, SwitchesEveryStepOfTheCleaning) {
    const Step steps[] = {{"lag", &CleaningChoice::lag},
                          {"moisture_lag", &CleaningChoice::moisture_lag},
                          {"ramps", &CleaningChoice::ramps},
                          {"coverage", &CleaningChoice::coverage},
                          {"speed", &CleaningChoice::speed},
                          {"turns", &CleaningChoice::turns},
                          {"limits", &CleaningChoice::limits},
                          {"neighbours", &CleaningChoice::neighbours},
                          {"short_passes", &CleaningChoice::short_passes},
                          {"merge", &CleaningChoice::merge},
                          {"edge_passes", &CleaningChoice::edge_passes},
                          {"width_check", &CleaningChoice::width_check},
                          {"tickets", &CleaningChoice::tickets},
                          {"machine_offsets", &CleaningChoice::machine_offsets}};
    for (const Step& step : steps) {
        const std::string text = with_more(std::string("[cleaning]\n") + step.key + " = false\n");
        const CleaningChoice choice = parse_season(text, "season.toml").cleaning;
        for (const Step& other : steps)
            EXPECT_EQ(choice.*other.on, other.on != step.on) << step.key << ' ' << other.key;
    }
}

TEST(SeasonFile, KnowsEveryMeaningOfAColumn) {
    const Meaning all[] = {Meaning::yield,     Meaning::flow,     Meaning::moisture, Meaning::speed,
                           Meaning::distance,  Meaning::duration, Meaning::width,    Meaning::time,
                           Meaning::heading,   Meaning::machine,  Meaning::header,   Meaning::load,
                           Meaning::longitude, Meaning::latitude, Meaning::date,     Meaning::clock};
    for (const Meaning meaning : all) {
        const std::string text =
            with_more(std::string("[points.columns]\n") + meaning_word(meaning) + " = { column = \"c\" }\n");
        EXPECT_EQ(parse_season(text, "season.toml").points.columns.at(meaning).column, "c") << meaning_word(meaning);
    }
    EXPECT_STREQ(meaning_word(Meaning::method), "method");
}

TEST(SeasonFile, TakesMethodsFromAColumnOfTheRecords) {
    const std::string text =
        with("file   = \"fields.gpkg\"\ncolumn = \"method\"",
             "from_points = { column = \"head\", values = { \"draper\" = \"standing\", \"pick up\" = \"swathed\" } }");
    const MethodsInput from = parse_season(text, "season.toml").methods_from;
    EXPECT_EQ(from.source, MethodSource::points);
    EXPECT_EQ(from.column, "head");
    EXPECT_EQ(from.values.at("draper"), "standing");
    EXPECT_EQ(from.values.at("pick up"), "swathed");
    EXPECT_EQ(from.place.line, 14U);
}

TEST(SeasonFile, TakesMethodsFromAColumnOfTheBoundaries) {
    const std::string text =
        with("file   = \"fields.gpkg\"\ncolumn = \"method\"", "from_fields = { column = \"cut\" }");
    const MethodsInput from = parse_season(text, "season.toml").methods_from;
    EXPECT_EQ(from.source, MethodSource::fields);
    EXPECT_EQ(from.column, "cut");
    EXPECT_TRUE(from.values.empty());
}

TEST(SeasonFile, KnowsEveryKindOfStrata) {
    const auto strata = [](const std::string& lines) {
        return parse_season(with_more("[strata]\n" + lines), "s.toml").strata.value();
    };
    EXPECT_EQ(strata("kind = \"grid\"\n").cell_m, 100.0);
    EXPECT_DOUBLE_EQ(strata("kind = \"grid\"\ncell = \"200 ft\"\n").cell_m, 60.96);
    EXPECT_EQ(strata("kind = \"legal-subdivision\"\n").kind, StrataKind::legal_subdivision);
    EXPECT_EQ(strata("kind = \"edge-and-interior\"\n").kind, StrataKind::edge_and_interior);
    EXPECT_EQ(strata("kind = \"polygons\"\nfile = \"a\"\ncolumn = \"b\"\n").kind, StrataKind::polygons);
    EXPECT_EQ(strata("kind = \"raster\"\nfile = \"a.tif\"\nband = 2\nclasses = 4\n").classes, 4);
    EXPECT_EQ(strata("kind = \"hexagons\"\n").kind, StrataKind::hexagons);
    EXPECT_EQ(strata("kind = \"edge-and-interior\"\nwidths = 3\n").widths, 3);
    EXPECT_EQ(strata("kind = \"pass-direction\"\n").kind, StrataKind::pass_direction);
    const StrataInput fuzzy = strata("kind = \"fuzzy-classes\"\nlayers = [{ file = \"yield_2023.tif\", yield_year = "
                                     "2023 }, { file = \"relief.csv\", column = \"z\" }]\n");
    ASSERT_EQ(fuzzy.layers.size(), 2U);
    EXPECT_EQ(fuzzy.layers[0].yield_year, 2023);
    EXPECT_EQ(fuzzy.layers[1].column, "z");
}

TEST(SeasonFile, LaysStrataAcrossStrata) {
    const Season season = parse_season(with_more("[strata]\nkind = \"grid\"\n[[strata.across]]\nkind = "
                                                 "\"edge-and-interior\"\n[[strata.across]]\nfile = \"soil.gpkg\"\n"
                                                 "column = \"unit\"\n"),
                                       "s.toml");
    ASSERT_EQ(season.strata_tables().size(), 3U);
    EXPECT_EQ(season.strata_tables()[1].kind, StrataKind::edge_and_interior);
    EXPECT_EQ(season.strata_tables()[2].column, "unit");
}

TEST(SeasonFile, MayComeWithOtherLineEndsAMarkAndAccents) {
    std::string text;
    for (const char c : with("Invented farm", "Ferme invent\xC3\xA9"
                                              "e"))
        text += c == '\n' ? std::string("\r\n") : std::string(1, c);
    EXPECT_EQ(parse_season(text, "season.toml").title, "Ferme invent\xC3\xA9"
                                                       "e");
    EXPECT_EQ(parse_season("\xEF\xBB\xBF" + text, "season.toml").year, 2025);
    EXPECT_THAT(refusal("\xEF\xBB\xBF"
                        "yeer = 1\n"),
                HasSubstr("season.toml:1:1: unknown key \"yeer\""));
}

TEST(SeasonFile, TrimsBlanksAroundText) {
    EXPECT_EQ(parse_season(with("name      = \"swathed\"", "name = \" swathed \""), "season.toml").methods[0].name,
              "swathed");
}

// A crop outside the table needs both of its numbers; one in it may have them changed.
TEST(SeasonFile, TakesAnyCropWithItsBasisAndBushel) {
    const Season season =
        parse_season(with("\"canola\"", "\"quinoa\"\nbasis = \"13 %\"\nbushel = \"50 lb\""), "season.toml");
    EXPECT_EQ(season.crop, "quinoa");
    EXPECT_EQ(season.basis_pct, 13.0);
    EXPECT_EQ(season.yield_high_t_ha, 20.0);
    EXPECT_EQ(parse_season(with("\"canola\"", "\"beans\"\nbasis = \"16 %\""), "season.toml").basis_pct, 16.0);
}

// C.R.C., c. 890: three limits for barley by class.
TEST(SeasonFile, SaysWhichBarleyItTook) {
    const Season season = parse_season(with("\"canola\"", "\"barley\""), "season.toml");
    EXPECT_EQ(season.basis_pct, 14.8);
    ASSERT_EQ(season.issues.size(), 1U);
    EXPECT_EQ(season.issues[0].code, "crop-class-assumed");
    EXPECT_THAT(season.issues[0].message, HasSubstr("malting-barley"));
    EXPECT_TRUE(parse_season(with("\"canola\"", "\"malting-barley\""), "season.toml").issues.empty());
    EXPECT_TRUE(parse_season(with("\"canola\"", "\"barley\"\nbasis = \"13.5 %\""), "season.toml").issues.empty());
}

TEST(SeasonFile, NotesNearMissesAmongFreeColumns) {
    const Season season = parse_season(with_more("[fields.columns]\nvarity = \"v\"\nslope = \"s\"\n"), "season.toml");
    EXPECT_EQ(season.fields.columns.at("varity"), "v");
    ASSERT_EQ(season.issues.size(), 1U);
    EXPECT_THAT(season.issues[0].message, testing::AllOf(HasSubstr("\"variety\""), HasSubstr("line 25")));
}

class SeasonOnDisk : public testing::Test {
protected:
    void SetUp() override {
        folder_ = std::filesystem::temp_directory_path() /
                  (std::string("quartercut_season_") + testing::UnitTest::GetInstance()->current_test_info()->name());
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }
    [[nodiscard]] std::string refusal_of(const std::filesystem::path& file) const {
        try {
            static_cast<void>(read_season(file));
        } catch (const InputError& error) {
            return error.what();
        }
        return "accepted";
    }
    std::filesystem::path folder_;
};

TEST_F(SeasonOnDisk, IsReadWithItsText) {
    const std::filesystem::path file = folder_ / "my season.toml";
    std::ofstream(file, std::ios::binary) << right;
    const Season season = read_season(file);
    EXPECT_EQ(season.text, right);
    EXPECT_EQ(season.file, file);
    EXPECT_EQ(season.folder(), folder_);
}

TEST_F(SeasonOnDisk, ThatIsNotThereOrAFolderOrHugeIsRefused) {
    EXPECT_THAT(refusal_of(folder_ / "none.toml"), HasSubstr("none.toml: there is no such file"));
    EXPECT_THAT(refusal_of(folder_), HasSubstr("this is a folder"));
    std::ofstream(folder_ / "big.toml", std::ios::binary) << std::string(5U << 20U, '#');
    EXPECT_THAT(refusal_of(folder_ / "big.toml"), HasSubstr("too large for a season file"));
}

} // namespace
} // namespace quartercut
