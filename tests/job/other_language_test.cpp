// SPDX-License-Identifier: MIT
// A whole run in another language: everything a reader meets comes from the table of words or from the season's files.
#include "../cli/text_season.hpp"
#include "quartercut/job.hpp"
#include "quartercut/job_plan.hpp"
#include "quartercut/report.hpp"
#include "support/marked_words.hpp"

#include <fmt/ranges.h>
#include <gmock/gmock.h>

namespace quartercut {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::string more_tables = R"(
[tickets]
file = "tickets.csv"
[money]
as_of = "2025-11-01"
source = "invented"
price = "12.20 $/bu"
[[money.cost]]
kind = "swathing"
method = "swathed"
amount = "13 $/ac"
[[money.cost]]
kind = "trampling"
method = "standing"
crushed_width = "2 ft"
boom_width = "130 ft"
in_yield = false
[loss_counts]
file = "losses.csv"
samples = "samples.csv"
[weather]
file = "weather.csv"
in_swath = ["swathed"]
[comparison]
placebo_layouts = 10
[next_year]
trial_cost = "10 $"
[[next_year.method]]
name = "standing"
share_low = "10 %"
share_high = "100 %"
[next_year.layout]
headland = "10 m"
min_length = "100 m"
[history]
maps = ["earlier.csv"]
)" + std::string(test::history_columns);

test::TextFiles full_season() {
    test::TextFiles files = test::text_season();
    files["season.toml"] += more_tables;
    files["earlier.csv"] = files["points.csv"];
    files["tickets.csv"] = "ticket,field,method,net_kg,moisture_pct,dockage_pct\n"
                           "1,Home,swathed,6900,8.0,1.0\n2,Home,standing,7700,9.0,1.0\n";
    files["losses.csv"] = "method,place,when,seeds,tray_area_ft2,seed_weight_g_per_1000\n"
                          "swathed,1,before,174,1,3\nswathed,2,before,174,1,3\nstanding,1,before,348,1,3\n";
    files["samples.csv"] = "method,block,seed_weight_g\nswathed,1,3.0\nstanding,1,3.2\nswathed,2,3.1\nstanding,2,3.4\n";
    files["weather.csv"] = "date,rain_mm,gust_km_h\n2025-09-09,3,40\n2025-09-10,0,30\n";
    return files;
}

/// The same land as a split field, whatever can be switched off switched off.
test::TextFiles split_season() {
    test::TextFiles files = full_season();
    std::string& season = files["season.toml"];
    test::replace_once(season, "randomised = true", "pairs = \"none\"");
    test::replace_once(season, "[tickets]\nfile = \"tickets.csv\"\n", "[cleaning]\nlag = false\nramps = false\n");
    return files;
}

// Kept in one spelling for every language: keys and meanings of the season file, names of columns, evidence and findings
// as files spell them beside their words, names of standards, and what HTML writes for quotation marks.
const std::string kept_tokens =
    "quartercut lag moisture ramps coverage speed turns limits neighbours short passes merge edge width check tickets "
    "machine offsets auto none time flow distance duration longitude latitude header load method yield wet dry pct "
    "replicated randomised split whole field gain loss leans not shown comparable SHA ISO UTC GPS WGS quot amp";

/// Words that no language changes: what the season's own files and the tokens above hold.
std::set<std::string> own_words(const test::TextFiles& files) {
    std::string all = kept_tokens;
    for (const auto& [name, text] : files)
        all += " " + name + " " + text.substr(0, text.find('\n', 200)) + (name == "season.toml" ? text : "");
    return plain_words(all);
}

/// A name that begins a sentence there.
std::string small(std::string word) {
    word[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(word[0])));
    return word;
}

std::vector<std::string> from_nowhere(const std::string& page, const std::set<std::string>& own) {
    const std::regex fingerprint("[0-9a-f]{64}");
    std::vector<std::string> out;
    for (const std::string& piece : pieces_of(page)) {
        std::vector<std::string> words;
        for (const std::string& word : plain_words(std::regex_replace(piece, fingerprint, "")))
            if (!own.contains(word) && !own.contains(small(word))) words.push_back(word);
        if (!words.empty()) out.push_back(fmt::format("{} in: {}", fmt::join(words, " "), piece.substr(0, 160)));
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

std::vector<std::string> pages_of(const test::SeasonFolder& folder) {
    const auto season = folder.path() / "season.toml";
    JobOptions options;
    options.jobs = 2; // words must be right in every thread
    options.out = folder.path() / "results";
    compare_season(season, options);
    options.out = folder.path() / "next";
    choose_season(season, options);
    options.out = folder.path() / "layout";
    layout_season(season, "Home", options);
    return {folder.text("results/report.html"), folder.text("next/choose.html"), folder.text("layout/cab_sheet.html")};
}

void expect_only_other_words(const test::TextFiles& files) {
    const MarkedWords other;
    const std::set<std::string> own = own_words(files);
    std::vector<std::string> pages;
    {
        const Speaking speaking(other.words);
        pages = pages_of(test::SeasonFolder(files));
    }
    for (const std::string& page : pages) {
        EXPECT_THAT(page, HasSubstr("lang=\"fr-CA\""));
        EXPECT_THAT(from_nowhere(page, own), IsEmpty());
    }
}

TEST(OtherLanguage, EveryWordOfARunComesFromTheTable) { expect_only_other_words(full_season()); }

TEST(OtherLanguage, EveryWordOfASplitFieldComesFromTheTable) { expect_only_other_words(split_season()); }

TEST(OtherLanguage, ThatTestCanFail) {
    const test::TextFiles files = full_season();
    const auto pages = pages_of(test::SeasonFolder(files)); // in English
    for (const std::string& page : pages)
        EXPECT_GT(from_nowhere(page, own_words(files)).size(), 15U);
}

} // namespace
} // namespace quartercut
