// SPDX-License-Identifier: MIT
// Every string of the pages stands with the words: none is left in the code, and other words give another language.
#include "base/words/words.hpp"
#include "page_reader.hpp"
#include "quartercut/report.hpp"
#include "quartercut/write.hpp"
#include "report/telling.hpp"
#include "support/marked_words.hpp"
#include "support/plan_results.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

#include <array>
#include <cstring>
#include <deque>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <type_traits>

namespace quartercut {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::string without(std::string text, const std::regex& what) { return std::regex_replace(text, what, ""); }

// Literals of a source file that a reader of the page could meet as words: letters, a space, letters. Class names of
// the style ("place place-"), rules of the policy and what other rooms write are no such words.
std::vector<std::string> readable_literals(const std::filesystem::path& file) {
    std::ifstream in(file);
    std::stringstream all;
    all << in.rdbuf();
    std::istringstream code(without(all.str(), std::regex("^#include.*$|//.*$", std::regex::multiline)));
    const std::regex literal("\"((?:[^\"\\\\]|\\\\.)*)\"");
    const std::regex words("[A-Za-z]{2,}[,.;:]? [A-Za-z{]|[}a-z] [a-z]{2,}");
    const std::regex no_words(
        "^(best|place place-|gone gone-|pair 1|key classes|swatch dot|map (yield|method)-map|note meant|"
        "zone-letter long-|answer (second )?(none)?|label strong|link (more|less)|"
        "width=device-width.*|light dark|default-src 'none'.*|.*form-action 'none'|"
        "tint m|<!DOCTYPE html>.*|calibration of |No machine cut both|The report could not hash.*)$");
    std::vector<std::string> found;
    for (std::string line; std::getline(code, line);) {
        for (std::sregex_iterator at(line.begin(), line.end(), literal), end; at != end; ++at) {
            const std::string text = (*at)[1];
            if (std::regex_search(text, words) && !std::regex_match(text, no_words)) found.push_back(text);
        }
    }
    return found;
}

TEST(ReportWords, NoReadableTextStandsInTheCode) {
    int files = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(QUARTERCUT_TESTS_DIR) / ".." / "src" / "report")) {
        const auto name = entry.path().filename().string();
        if (entry.path().extension() != ".cpp" || name == "style.cpp" || name == "script.cpp" || name == "tokens.cpp")
            continue;
        ++files;
        EXPECT_THAT(readable_literals(entry.path()), IsEmpty()) << name << ": move it to src/base/words/";
    }
    EXPECT_GT(files, 25);
}

TEST(ReportWords, TheScanFindsWhatItLooksFor) {
    const auto file = std::filesystem::temp_directory_path() / "quartercut_words_scan.cpp";
    std::ofstream(file) << "html.leaf(\"p\", \"Grain left on the land\", {{\"class\", \"note meant\"}});\n"
                           "text += fmt::format(\", {} % moisture\", 3); // \"a remark in words\"\n";
    EXPECT_THAT(readable_literals(file), ::testing::ElementsAre("Grain left on the land"));
    std::filesystem::remove(file);
}

// Pieces of text between tags that read as words and carry no mark.
std::vector<std::string> unmarked(const std::string& page) {
    std::vector<std::string> found;
    const std::string body = page.substr(page.find("<body"), page.find("<script>") - page.find("<body"));
    const std::regex piece(">([^<>]*[A-Za-z]{3,} [a-z]{2,}[^<>]*)<");
    for (std::sregex_iterator at(body.begin(), body.end(), piece), end; at != end; ++at) {
        const std::string text = (*at)[1];
        if (text.find(mark) == std::string::npos) found.push_back(text);
    }
    return found;
}

Results season() { return plans::with_plan(sample::results()); }

// Strings of the results themselves, as typed by hand or handed over by other rooms.
bool is_of_the_results(const std::string& text) {
    const Season season = sample::season();
    for (const std::string& phrase :
         {season.title, season.methods[0].label, season.methods[1].label, std::string("title = &quot;Invented farm"),
          std::string("rain shelled before the combine came"), std::string("the field was cut one way only"),
          std::string("paired strips"), std::string("segments of one split"), std::string("No lag was found for"),
          std::string("no method area")}) {
        if (text.find(phrase) != std::string::npos) return true;
    }
    return false;
}

std::vector<std::string> from_nowhere(const std::string& page, const std::string& data) {
    auto found = unmarked(page);
    std::erase_if(found, [&](const std::string& text) {
        return is_of_the_results(text) || data.find(text) != std::string::npos;
    });
    return found;
}

// The words other rooms hand over (sources of error, estimators, steps, remarks) are the only ones left in English.
TEST(ReportWords, OtherWordsGiveAnotherLanguage) {
    const MarkedWords marked;
    const std::string english_page = report_html(season());
    std::string page;
    {
        const Speaking other(marked.words);
        page = report_html(season());
    }
    EXPECT_THAT(page, HasSubstr("lang=\"fr-CA\""));
    EXPECT_THAT(page, HasSubstr("1,6 bu/ac")) << "numbers by locale";
    EXPECT_GT(from_nowhere(english_page, report_data(season())).size(), 100U) << "the test can fail";
    EXPECT_THAT(from_nowhere(page, report_data(season())), IsEmpty());
    EXPECT_EQ(report_html(season()), english_page) << "English again afterwards";
}

TEST(ReportWords, ThePagesBesideTheReportSpeakItToo) {
    const MarkedWords marked;
    const Speaking other(marked.words);
    const Season season = sample::season();
    for (const auto& page : {choice_html(plans::choice("Home"), season), layout_html(plans::layout("Home"), season),
                             counting_sheet_html(season, {"Home"})}) {
        EXPECT_THAT(page, HasSubstr("lang=\"fr-CA\""));
        EXPECT_THAT(from_nowhere(page, ""), IsEmpty());
    }
}

} // namespace
} // namespace quartercut
