// SPDX-License-Identifier: MIT
// A season compared in parts and joined: the same bytes as one run, and nothing else is taken for a part of it.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace quartercut::test {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// What stands between the brackets of a collection.
std::string features_of(const std::string& collection) {
    const std::size_t from = collection.find('[') + 1;
    return collection.substr(from, collection.rfind(']') - from);
}

/// The field three times, a degree apart, under three names.
TextFiles three_fields() {
    TextFiles files = text_season();
    const std::string fields = features_of(files["fields.geojson"]), methods = features_of(files["methods.geojson"]);
    const std::string points = files["points.csv"].substr(files["points.csv"].find('\n') + 1);
    std::string all_fields = fields, all_methods = methods;
    for (const std::string west : {"-107.", "-108."}) {
        std::string more_fields = fields, more_methods = methods, more_points = points;
        for (std::string* text : {&more_fields, &more_methods, &more_points})
            replace_all(*text, "-106.", west);
        replace_all(more_fields, "Home", "Home " + west);
        all_fields += "," + more_fields;
        all_methods += "," + more_methods;
        files["points.csv"] += more_points;
    }
    files["fields.geojson"] = R"({"type":"FeatureCollection","features":[)" + all_fields + "]}\n";
    files["methods.geojson"] = R"({"type":"FeatureCollection","features":[)" + all_methods + "]}\n";
    return files;
}

void make_parts(const SeasonFolder& folder, int count) {
    for (int number = count; number >= 1; --number) { // in whatever order they come
        const std::string part = std::to_string(number) + "/" + std::to_string(count);
        const Ran ran = folder.run("compare season.toml --part " + part);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_THAT(ran.out, HasSubstr("quartercut join season.toml"));
    }
}

TEST(Parts, JoinedGiveTheBytesOfOneRun) {
    const SeasonFolder folder(three_fields());
    ASSERT_EQ(folder.run("compare season.toml --out whole").exit_code, 0);
    for (const int count : {2, 5}) { // five parts of three fields: two have nothing to do
        fs::remove_all(folder.path() / "parts");
        make_parts(folder, count);
        const Ran joined = folder.run("join season.toml");
        ASSERT_EQ(joined.exit_code, 0) << joined.err;
        std::size_t files = 0;
        for (const auto& entry : fs::directory_iterator(folder.path() / "whole")) {
            const std::string name = entry.path().filename().string();
            EXPECT_EQ(folder.text("results/" + name), folder.text("whole/" + name)) << name;
            ++files;
        }
        EXPECT_GE(files, 8U);
    }
}

TEST(Parts, AreRefusedWhereOneIsMissingOrAnotherDivisionLiesBesideThem) {
    const SeasonFolder folder(three_fields());
    EXPECT_THAT(folder.run("join season.toml").err, HasSubstr("parts"));
    make_parts(folder, 2);
    fs::rename(folder.path() / "parts/part-2-of-2.cbor", folder.path() / "aside");
    const Ran missing = folder.run("join season.toml");
    EXPECT_EQ(missing.exit_code, 1);
    EXPECT_THAT(missing.err, HasSubstr("of 2 parts these are missing: 2"));
    ASSERT_EQ(folder.run("compare season.toml --part 1/3").exit_code, 0);
    EXPECT_THAT(folder.run("join season.toml").err, HasSubstr("divided by"));
    EXPECT_FALSE(folder.has("results"));
}

TEST(Parts, OfFilesThatChangedSinceAreRefused) {
    TextFiles files = three_fields();
    const SeasonFolder before(files);
    make_parts(before, 2);
    replace_once(files["season.toml"], "randomised = true", "randomised = false");
    const SeasonFolder after(files);
    const Ran ran = after.run("join season.toml --parts '" + (before.path() / "parts").string() + "'");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, HasSubstr("season.toml has changed since"));
    EXPECT_FALSE(after.has("results"));
}

TEST(Parts, ThatAreDamagedAreNamed) {
    const SeasonFolder folder(three_fields());
    make_parts(folder, 2);
    fs::resize_file(folder.path() / "parts/part-1-of-2.cbor", 100);
    const Ran ran = folder.run("join season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, testing::AllOf(HasSubstr("part-1-of-2.cbor"), HasSubstr("Run that part again")));
}

/// Lists in lists in lists: a reader that follows them all runs out of stack. 0x81 is a list of one (RFC 8949, 3.1).
TEST(FilesOfOurs, NestedWithoutEndAreRefused) {
    const SeasonFolder folder(text_season());
    const std::string nested(3'000'000, '\x81');
    for (const std::string name : {"parts/part-1-of-1.cbor", "results/report-data.cbor"}) {
        fs::create_directories((folder.path() / name).parent_path());
        std::ofstream(folder.path() / name, std::ios::binary) << nested;
        const Ran ran = folder.run(name.starts_with("parts") ? "join season.toml" : "report results");
        EXPECT_EQ(ran.exit_code, 1) << name;
        EXPECT_THAT(ran.err, HasSubstr("damaged")) << name;
    }
}

TEST(Parts, AreAskedForAsOneOfSoMany) {
    const SeasonFolder folder(text_season());
    for (const std::string wrong : {"0/2", "3/2", "2", "1/", "a/b", "1/2/3", "-1/2"})
        EXPECT_EQ(folder.run("compare season.toml --part=" + wrong).exit_code, 2) << wrong;
    EXPECT_EQ(folder.run("compare season.toml --part 1/2 --only Home").exit_code, 2);
    EXPECT_EQ(folder.left_behind(), "");
}

} // namespace
} // namespace quartercut::test
