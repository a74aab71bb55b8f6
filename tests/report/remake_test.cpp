// SPDX-License-Identifier: MIT
// The page drawn again from a results folder is the same page, byte for byte; a damaged file ends in words.
#include "page_reader.hpp"
#include "quartercut/error.hpp"
#include "quartercut/report.hpp"
#include "quartercut/write.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>

namespace quartercut {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;
using ::testing::ThrowsMessage;

constexpr const char* season_text = R"(title = "Invented farm, canola"
year = 2025
crop = "canola"
baseline = "swathed"
[fields]
file = "fields.gpkg"
[points]
files = ["yield/*.csv"]
[methods]
file = "fields.gpkg"
column = "method"
[[method]]
name = "swathed"
label = "Swathed, then picked up"
cut_width = "35 ft"
[[method]]
name = "standing"
label = "Cut standing"
cut_width = "40 ft"
)";

// The hand-made season with a season file that can be read again, as after a real run.
Results sample_run() {
    Results results = sample::results();
    results.season = parse_season(season_text, "season.toml");
    results.comparison.fields[0].contrasts[0].looks = 2;
    results.comparison.farm[0].fields = 2;
    results.comparison.farm[0].prediction95_t_ha = Interval{-0.1, 0.3};
    return results;
}

class Folder {
public:
    explicit Folder(const std::string& bytes)
        : path_(fs::temp_directory_path() /
                (std::string("quartercut_") + ::testing::UnitTest::GetInstance()->current_test_info()->name())) {
        fs::remove_all(path_);
        fs::create_directories(path_);
        if (!bytes.empty()) std::ofstream(path_ / "report-data.cbor", std::ios::binary) << bytes;
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] const fs::path& path() const { return path_; }

private:
    fs::path path_;
};

// The farthest check there is: whatever a section draws must have come back, to the last bit.
// What the page's menu points at, and the sections below it, in the order of the page.
std::vector<std::string> menu(const std::string& page) {
    std::vector<std::string> out;
    for (const auto& target : page::attribute(page::inside(page, "nav"), "href"))
        out.push_back(target.substr(1));
    return out;
}

std::vector<std::string> sections(const std::string& page) {
    const std::string mark = "<section id=\"";
    std::vector<std::string> out;
    for (std::size_t at = page.find(mark, page.find("</nav>")); at != std::string::npos; at = page.find(mark, at + 1))
        out.push_back(page.substr(at + mark.size(), page.find('"', at + mark.size()) - at - mark.size()));
    return out;
}

TEST(ReportData, ThePageDrawnAgainIsTheSamePage) {
    const Results results = sample_run();
    const Folder folder(report_data(results));
    EXPECT_EQ(report_html(read_report_data(folder.path())), report_html(results));
}

// Every table of the plan sections filled with some number, so that a member that is not stored changes the page.
TEST(ReportData, MoneyLossesAndWeatherComeBackToo) {
    Results results = sample_run();
    NetDifference net;
    net.field = "Home quarter";
    net.method = "standing";
    net.baseline = "swathed";
    net.evidence = "replicated";
    net.area_ha = 16.0;
    net.gain_t_ha = 0.09;
    net.net_cents_ha = 1234.5;
    net.ci95_cents_ha = Interval{-200.0, 2600.0};
    net.net_field_cents = 19752;
    net.ci95_field_cents = {{-3200, 41600}};
    net.extra_cost_cents_ha = -700.25;
    net.worth_cents_t = 60000.0;
    net.break_even_t_ha = 0.02;
    net.p_pays = 0.93;
    net.regret_cents_ha = 12.0;
    net.lines = {{"swathing", "swathed", "14.00 $/ac", "2025-08-01", "custom rate", 3459.5}};
    net.tornado = {{"price", -300.0, 500.0}};
    results.plan.money = MoneyResult{"$", {net}, {net}, {"drying is not priced"}, {"a note"}};
    results.plan.money->farm[0].field.clear();
    StageLoss stage{LossStage::before_cutting, 4, 16, 21.5, 3.0, 3.0, Interval{12.0, 31.0}, "spread between places"};
    MethodLoss loss{"standing", {stage}, {"pickup"}, 21.5, 3.0, 3.0, Interval{12.0, 31.0}, 2.6, 2.62, 0.8, 0.79};
    results.plan.losses =
        LossResult{{loss}, {{"standing", "swathed", 4.5, Interval{-2.0, 11.0}, "before cutting"}}, {}};
    results.plan.samples = {{"green seed (%)", "standing", "swathed", 1.2, 0.8, 0.4, Interval{-0.1, 0.9}, 4, "pairs"}};
    WeatherWindow window{"Home quarter", "swathed", "in swath", 20330, 20344, 14, 18.5, 3, 71.0, 20335, {}};
    window.days = {{20335, 6.5, 71.0}, {20336, std::nullopt, 40.0}};
    results.plan.weather = WeatherResult{{window}, {"Bush: the day of swathing is not known"}};
    const Folder folder(report_data(results));
    const std::string page = report_html(results);
    EXPECT_THAT(page, HasSubstr("drying is not priced"));
    EXPECT_EQ(menu(page), sections(page));
    EXPECT_THAT(menu(page), testing::IsSupersetOf({"money", "losses", "weather"}));
    EXPECT_EQ(report_html(read_report_data(folder.path())), page);
}

TEST(ReportData, SentencesComeBackToo) {
    Results results = sample_run();
    results.comparison.seasons = results.comparison.farm;
    results.comparison.seasons[0].years = 3;
    results.comparison.seasons[0].between_years_t_ha = 0.02;
    const Folder folder(report_data(results));
    EXPECT_EQ(report_html(read_report_data(folder.path())), report_html(results));
    EXPECT_EQ(answer_sentences(read_report_data(folder.path())), answer_sentences(results));
}

TEST(ReportData, LocalMetresStayLocal) {
    Results results = sample_run();
    for (auto& field : results.standardised.fields)
        field.frame = Frame();
    const Folder folder(report_data(results));
    const Results again = read_report_data(folder.path());
    EXPECT_TRUE(again.standardised.fields[0].frame.is_local());
    EXPECT_EQ(report_html(again), report_html(results));
}

TEST(ReportData, WithoutTheFileItSaysWhatToDo) {
    const Folder folder("");
    EXPECT_THAT([&] { (void)read_report_data(folder.path()); },
                ThrowsMessage<InputError>(HasSubstr("run 'quartercut compare' again")));
}

TEST(ReportData, CutShortAnywhereItEndsInWords) {
    const std::string bytes = report_data(sample_run());
    for (const double share : {0.001, 0.1, 0.5, 0.9, 0.9999}) {
        const Folder folder(bytes.substr(0, static_cast<std::size_t>(share * static_cast<double>(bytes.size()))));
        EXPECT_THROW((void)read_report_data(folder.path()), InputError) << share;
    }
}

std::string changed(const std::string& pointer, const nlohmann::json& value) {
    auto tree = nlohmann::json::from_cbor(report_data(sample_run()));
    tree[nlohmann::json::json_pointer(pointer)] = value;
    std::string bytes;
    nlohmann::json::to_cbor(tree, bytes);
    return bytes;
}

TEST(ReportData, NumbersThatPointNowhereAreRefused) {
    for (const auto& [pointer, value] :
         std::vector<std::pair<std::string, nlohmann::json>>{{"/schema", "quartercut.report-data/2"},
                                                             {"/fields/0/zones/0/method", 7},
                                                             {"/fields/0/segments/zone/0", 99},
                                                             {"/fields/0/segments/x_m", nlohmann::json::array({1.0})},
                                                             {"/fields/0/records/removal/0", 99},
                                                             {"/fields/0/records/x_m", nlohmann::json::array()},
                                                             {"/fields/0/records/kept", 99000000000},
                                                             {"/comparison/fields", nlohmann::json::array()},
                                                             {"/season_text", "crop = 3"}}) {
        const Folder folder(changed(pointer, value));
        EXPECT_THROW((void)read_report_data(folder.path()), InputError) << pointer;
    }
}

TEST(ReplaceResult, PutsTheFileAnewAndLeavesNothingBeside) {
    const Folder folder("data");
    std::ofstream(folder.path() / "report.html") << "old";
    replace_result(folder.path(), "report.html", "new");
    std::ifstream in(folder.path() / "report.html");
    EXPECT_EQ(std::string((std::istreambuf_iterator<char>(in)), {}), "new");
    EXPECT_EQ(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()), 2);
}

} // namespace
} // namespace quartercut
