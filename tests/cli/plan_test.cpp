// SPDX-License-Identifier: MIT
// Money, losses and weather beside a comparison; `choose`, `layout` and the counting sheet end to end on a small
// season.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace quartercut::test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::string money = "\n[money]\nas_of = \"2025-11-01\"\nsource = \"invented\"\nprice = \"12.20 $/bu\"\n"
                          "price_uncertainty = \"0.50 $/bu\"\n"
                          "[[money.cost]]\nkind = \"swathing\"\nmethod = \"swathed\"\namount = \"13 $/ac\"\n"
                          "[[money.cost]]\nkind = \"harvest-aid\"\nmethod = \"standing\"\namount = \"22 $/ac\"\n";
const std::string next_year =
    "\n[next_year]\nrisk = \"20 %\"\nspread = \"1 bu/ac\"\ntrial_cost = \"10 $\"\n"
    "[[next_year.method]]\nname = \"standing\"\nshare_high = \"100 %\"\n"
    "[next_year.layout]\nheadland = \"10 m\"\nmin_length = \"100 m\"\ndirection = \"90 deg\"\nweighed = true\n"
    "extra_time_per_strip = \"10 min\"\n";

TextFiles with_tables(const std::string& tables) {
    TextFiles files = text_season();
    files["season.toml"] += tables;
    return files;
}

TEST(Plan, MoneyLossesAndWeatherStandBesideTheComparison) {
    TextFiles files = with_tables(money + "\n[loss_counts]\nfile = \"losses.csv\"\nsamples = \"samples.csv\"\n");
    files["losses.csv"] = "method,place,when,seeds,tray_area_ft2,seed_weight_g_per_1000\n"
                          "swathed,1,before,174,1,3\nswathed,2,before,174,1,3\n"
                          "standing,1,before,348,1,3\nstanding,2,before,340,1,3\n";
    files["samples.csv"] = "method,block,seed_weight_g\nswathed,1,3.0\nstanding,1,3.2\nswathed,2,3.1\nstanding,2,3.4\n";
    const SeasonFolder folder(files);
    const Ran ran = folder.run("compare season.toml");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const std::string json = folder.text("results/comparison.json");
    EXPECT_THAT(json, AllOf(HasSubstr("\"break_even_t_ha\""), HasSubstr("\"tornado\""), HasSubstr("\"losses\""),
                            HasSubstr("\"samples\""), HasSubstr("Combining is not priced for swathed")));
    const std::string page = folder.text("results/report.html");
    EXPECT_THAT(page, AllOf(HasSubstr("id=\"money\""), HasSubstr("id=\"losses\""), HasSubstr("Not priced"),
                            HasSubstr("Never walk up to a running machine")));
    EXPECT_THAT(folder.text("results/inputs.json"), HasSubstr("losses.csv"));
}

TEST(Plan, NothingIsSaidInMoneyThatIsNotAskedFor) {
    const SeasonFolder folder(text_season());
    ASSERT_EQ(folder.run("compare season.toml").exit_code, 0);
    EXPECT_THAT(folder.text("results/report.html"), Not(HasSubstr("id=\"money\"")));
}

TEST(Plan, MoreThreadsThanCoresPrintNoWarning) {
    const SeasonFolder folder(with_tables(money + next_year));
    for (const char* command : {"choose season.toml", "layout season.toml --field Home", "compare season.toml"}) {
        const Ran ran = folder.run(std::string(command) + " --quiet --jobs 256");
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_EQ(ran.err, "") << command;
    }
}

TEST(Plan, ChooseWritesItsFolder) {
    const SeasonFolder folder(with_tables(money + next_year));
    const Ran ran = folder.run("choose season.toml");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    for (const char* file : {"choose.csv", "choose.json", "choose.html", "choose.gpkg", "choose.geojson", "choose.kml"})
        EXPECT_TRUE(folder.has(std::string("next_year/") + file)) << file;
    EXPECT_THAT(folder.text("next_year/choose.csv"), HasSubstr("field,area_ha,variety,proposed,trial"));
    EXPECT_THAT(folder.text("next_year/choose.html"),
                AllOf(HasSubstr("What would change it"), HasSubstr("come from the label")));
}

// 160 m x 400 m are 6.4 ha, 15.8 ac; strips are two passes of 10 m, 65.6 ft.
TEST(Plan, SpeaksTheSeasonsUnits) {
    TextFiles files = with_tables(money + next_year);
    const auto said = [](const TextFiles& season, const std::string& command) {
        const Ran ran = SeasonFolder(season).run(command);
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        return ran.out;
    };
    const std::string choose = "choose season.toml", layout = "layout season.toml --field Home";
    EXPECT_THAT(said(files, choose),
                AllOf(HasSubstr("Home (6.4 ha)"), HasSubstr(" a hectare"), Not(HasSubstr(" ac "))));
    EXPECT_THAT(said(files, layout), AllOf(HasSubstr("20.0 m wide"), Not(HasSubstr(" ft "))));
    replace_once(files["season.toml"], "units = \"t/ha\"", "units = \"bu/ac\"");
    EXPECT_THAT(said(files, choose), AllOf(HasSubstr("Home (15.8 ac)"), HasSubstr(" an acre"), Not(HasSubstr(" ha "))));
    EXPECT_THAT(said(files, layout), AllOf(HasSubstr("65.6 ft wide"), Not(HasSubstr(" m "))));
    EXPECT_THAT(said(files, "stake season.toml"),
                AllOf(HasSubstr("harvested ac"), HasSubstr(" 15.8"), Not(HasSubstr(" ha "))));
    EXPECT_THAT(said(files, "compare season.toml"),
                AllOf(HasSubstr(" ac evidence"), HasSubstr(" 15.8"), Not(HasSubstr(" ha "))));
    EXPECT_THAT(said(files, "compare season.toml --json"), HasSubstr("\"area_ha\": 6.4"));
}

TEST(Plan, ChooseSaysWhatAllOfOneWayBringsAndWhatLimitsCost) {
    TextFiles files = with_tables(money + next_year);
    replace_once(files["season.toml"], "share_high = \"100 %\"", "share_high = \"40 %\"");
    replace_once(files["season.toml"], "trial_cost = \"10 $\"",
                 "trial_cost = \"100000 $\""); // no trial: it is half standing
    const SeasonFolder folder(files);
    const Ran ran = folder.run("choose season.toml");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    for (const std::string& text : {ran.out, folder.text("next_year/choose.html")})
        EXPECT_THAT(text,
                    AllOf(HasSubstr("All of it cut as “standing”: about $"), HasSubstr("your limits do not allow it"),
                          HasSubstr("Your limit of at most 40 % standing costs ")));
    const nlohmann::json json = nlohmann::json::parse(folder.text("next_year/choose.json"));
    EXPECT_EQ(json["limits"][0]["limit"], "at most 40 % standing");
    EXPECT_EQ(json["one_way"].size(), 2U);
}

// What `choose` foretells rests on the row over the years that `compare` prints, and on it alone.
TEST(Plan, ChooseRestsOnAllYearsOfTheFarm) {
    TextFiles files = with_tables(money + next_year);
    const SeasonFolder first(files);
    const Ran one = first.run("choose season.toml");
    ASSERT_EQ(one.exit_code, 0) << one.err;
    EXPECT_THAT(one.out, HasSubstr("1 field of one year only"));
    ASSERT_EQ(first.run("compare season.toml").exit_code, 0);
    const nlohmann::json result = nlohmann::json::parse(first.text("results/comparison.json"));
    for (const int year : {2022, 2023, 2024}) {
        nlohmann::json earlier = result;
        earlier["season"]["year"] = year;
        for (auto& contrast : earlier["fields"][0]["contrasts"]) // the years differ
            contrast["gain_t_ha"] = 0.05 * (year - 2021);
        files["r" + std::to_string(year) + ".json"] = earlier.dump();
    }
    files["season.toml"] += "\n[history]\nresults = [\"r*.json\"]\n";
    const SeasonFolder folder(files);
    const Ran compared = folder.run("compare season.toml --json");
    const Ran chosen = folder.run("choose season.toml --json");
    ASSERT_EQ(compared.exit_code, 0) << compared.err;
    ASSERT_EQ(chosen.exit_code, 0) << chosen.err;
    const nlohmann::json row = nlohmann::json::parse(compared.out)["farm"]["seasons"][0];
    const nlohmann::json outlook = nlohmann::json::parse(chosen.out)["fields"][0]["outlooks"][0];
    EXPECT_EQ(outlook["years"], 4);
    EXPECT_NEAR(outlook["gain_t_ha"].get<double>(), row["gain_t_ha"].get<double>(), 1e-9);
    for (const std::size_t end : {0U, 1U})
        EXPECT_NEAR(outlook["prediction95_t_ha"][end].get<double>(), row["prediction95_t_ha"][end].get<double>(), 1e-6);
    EXPECT_THAT(folder.text("next_year/choose.html"), HasSubstr("4 fields in 4 years"));
}

const std::string earlier_maps = R"(
[history]
maps = ["earlier.csv"]
)" + std::string(history_columns);

// The same outline under another name is a field this season never had: only the earlier map shows its land.
TEST(Plan, TrialsAreJudgedOnEarlierMapsWhereThereAreAny) {
    TextFiles files = with_tables(money + next_year);
    files["next.geojson"] = files["fields.geojson"];
    replace_once(files["next.geojson"], "\"Home\"", "\"Renamed\"");
    TextFiles with = files, renamed = files;
    with["earlier.csv"] = files["points.csv"];
    with["season.toml"] += earlier_maps;
    renamed = with;
    replace_once(renamed["season.toml"], "[next_year]\n", "[next_year]\nfile = \"next.geojson\"\nname = \"name\"\n");
    const auto said = [](const TextFiles& season, const std::string& command) {
        const Ran ran = SeasonFolder(season).run(command);
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        return ran.out;
    };
    EXPECT_THAT(said(files, "choose season.toml"), HasSubstr("judged on this field's own map of this season"));
    EXPECT_THAT(said(with, "choose season.toml"), HasSubstr("own map of earlier years (earlier.csv)"));
    EXPECT_THAT(said(renamed, "choose season.toml"), HasSubstr("own map of earlier years (earlier.csv)"));
    EXPECT_THAT(said(files, "layout season.toml --field Home --json"), HasSubstr("own map of this season"));
    EXPECT_THAT(said(with, "layout season.toml --field Home --json"), HasSubstr("own map of earlier years"));
    EXPECT_THAT(said(renamed, "layout season.toml --field Renamed --json"), HasSubstr("own map of earlier years"));
}

TEST(Plan, LayoutWritesStripsThatNextYearReadsAsTheyAre) {
    const SeasonFolder folder(with_tables(money + next_year));
    const Ran ran = folder.run("layout season.toml --field Home");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(folder.text("layout-Home/cab_sheet.html"), HasSubstr("Designs tried"));
    ASSERT_TRUE(folder.has("layout-Home/strips.gpkg")) << ran.out;
    for (const char* file : {"strips.geojson", "strips.kml", "strips.shp", "guidance.shp", "counting_sheet.csv"})
        EXPECT_TRUE(folder.has(std::string("layout-Home/") + file)) << file;
    EXPECT_THAT(folder.text("layout-Home/season_lines.toml"),
                AllOf(HasSubstr("column = \"method\""), HasSubstr("pairs      = \"block\"")));
    // The strips as the method areas of a season, without editing them.
    TextFiles next = text_season();
    next["strips.geojson"] = folder.text("layout-Home/strips.geojson");
    replace_once(next["season.toml"], "methods.geojson", "strips.geojson");
    const Ran read = SeasonFolder(next).run("check season.toml");
    EXPECT_EQ(read.exit_code, 0) << read.err;
    EXPECT_THAT(read.out, HasSubstr("strips.geojson"));
}

// Every file read, with its hash; and a folder that holds it is replaced whole by the next run.
TEST(Plan, ChoiceAndLayoutSayWhatTheyWereMadeFrom) {
    TextFiles files = with_tables(money + next_year + earlier_maps);
    files["earlier.csv"] = files["points.csv"];
    files["next.geojson"] = files["fields.geojson"];
    replace_once(files["next.geojson"], "\"Home\"", "\"Renamed\"");
    replace_once(files["season.toml"], "[next_year]\n", "[next_year]\nfile = \"next.geojson\"\nname = \"name\"\n");
    const SeasonFolder folder(files);
    for (const char* command : {"choose season.toml", "layout season.toml --field Renamed --out layout"}) {
        for (int run = 0; run < 2; ++run)
            ASSERT_EQ(folder.run(command).exit_code, 0) << command;
        const std::string written = folder.text(command[0] == 'c' ? "next_year/inputs.json" : "layout/inputs.json");
        const nlohmann::json inputs = nlohmann::json::parse(written);
        std::vector<std::string> read;
        for (const auto& input : inputs["inputs"]) {
            read.push_back(input["path"].get<std::string>() + " " + input["role"].get<std::string>());
            EXPECT_EQ(input["sha256"].get<std::string>().size(), 64U);
        }
        EXPECT_THAT(read, testing::IsSupersetOf({"season.toml season", "points.csv points", "earlier.csv history"}));
        EXPECT_THAT(written, HasSubstr("next.geojson"));
    }
    EXPECT_EQ(folder.run("layout season.toml --field Home --out next_year").exit_code, 74) << "of another kind";
}

TEST(Plan, TheLayoutOfOneFieldNeverReplacesThatOfAnother) {
    TextFiles files = with_tables(money + next_year);
    files["next.geojson"] = files["fields.geojson"];
    replace_once(files["next.geojson"], "\"Home\"", "\"No/rth 1\"");
    replace_once(files["season.toml"], "[next_year]\n", "[next_year]\nfile = \"next.geojson\"\nname = \"name\"\n");
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("layout season.toml --field Home").exit_code, 0);
    const std::string home = folder.text("layout-Home/layout.json");
    ASSERT_EQ(folder.run("layout season.toml --field 'No/rth 1'").exit_code, 0);
    EXPECT_EQ(folder.text("layout-Home/layout.json"), home);
    EXPECT_TRUE(folder.has("layout-No_rth_1/layout.json"));
    const Ran refused = folder.run("layout season.toml --field 'No/rth 1' --out layout-Home");
    EXPECT_EQ(refused.exit_code, 74);
    EXPECT_THAT(refused.err, HasSubstr("holds the layout of the field 'Home'"));
    EXPECT_EQ(folder.text("layout-Home/layout.json"), home);
    EXPECT_EQ(folder.run("layout season.toml --field Home").exit_code, 0) << "its own layout is drawn anew";
}

TEST(Plan, TheCountingSheetComesBackAsItsOwnInput) {
    const SeasonFolder folder(text_season());
    const Ran ran = folder.run("layout season.toml --counting-sheet");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(folder.text("counting/counting_sheet.html"), HasSubstr("Never walk up to a running machine"));
    const std::string sheet = folder.text("counting/counting_sheet.csv");
    EXPECT_THAT(sheet, HasSubstr("field,method,place,when,seeds,grams,tray_area_ft2"));
}

TEST(Plan, ImpossibleWishesAreRefused) {
    const auto said = [](const std::string& tables, const std::string& command) {
        const SeasonFolder folder(with_tables(tables));
        const Ran ran = folder.run(command);
        return std::to_string(ran.exit_code) + " " + ran.err;
    };
    EXPECT_THAT(said("", "choose season.toml"), AllOf(HasSubstr("1 "), HasSubstr("no table [next_year]")));
    EXPECT_THAT(said(money, "layout season.toml"), AllOf(HasSubstr("2 "), HasSubstr("--field")));
    EXPECT_THAT(said(money + next_year, "layout season.toml --field Nowhere"), HasSubstr("Neither the season nor"));
    EXPECT_THAT(said(next_year, "layout season.toml --field Home"), HasSubstr("what a trial must show is not known"));
    EXPECT_THAT(
        said("\n[next_year]\n[[next_year.method]]\nname = \"standing\"\nshare_low = \"110 %\"\n", "choose season.toml"),
        HasSubstr("0 % to 100 %"));
    EXPECT_THAT(said(money + "\n[next_year]\ncrop = \"nothing\"\n", "choose season.toml"), HasSubstr("1 "));
}

} // namespace
} // namespace quartercut::test
