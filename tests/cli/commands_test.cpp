// SPDX-License-Identifier: MIT
// The command line itself: help, version, wrong usage, output that cannot be written.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

namespace quartercut::test {
namespace {

using testing::HasSubstr;

TEST(Commands, HelpTeachesAndExitsWithZero) {
    const SeasonFolder folder(TextFiles{});
    for (const std::string command : {"--help", "compare --help", "check --help", "demo --help", "start --help"}) {
        const Ran ran = folder.run(command);
        EXPECT_EQ(ran.exit_code, 0) << command;
        EXPECT_THAT(ran.out, HasSubstr("quartercut")) << command;
        EXPECT_EQ(ran.err, "") << command;
    }
    EXPECT_THAT(folder.run("compare --help").out,
                testing::AllOf(HasSubstr("Example"), HasSubstr("--only"), HasSubstr("quartercut compare")));
}

TEST(Commands, VersionIsOneLine) {
    const SeasonFolder folder(TextFiles{});
    const Ran ran = folder.run("--version");
    EXPECT_EQ(ran.exit_code, 0);
    EXPECT_THAT(ran.out, testing::MatchesRegex("quartercut [0-9.]+\n"));
}

TEST(Commands, WrongUsageExitsWithTwoAndSuggests) {
    const SeasonFolder folder(TextFiles{});
    EXPECT_EQ(folder.run("").exit_code, 2);
    EXPECT_EQ(folder.run("compare").exit_code, 2);
    EXPECT_EQ(folder.run("compare a.toml --jobs none").exit_code, 2);
    const Ran ran = folder.run("comapre season.toml");
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_THAT(ran.err, HasSubstr("Did you mean 'quartercut compare'?"));
    EXPECT_EQ(ran.out, "");
}

TEST(Commands, ACommandThatDoesNotExistIsRefusedEvenWhenHelpIsAsked) {
    const SeasonFolder folder(TextFiles{});
    const Ran ran = folder.run("sow --help");
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_THAT(ran.err, HasSubstr("no command 'sow'"));
}

TEST(Commands, OptionsStandBeforeOrBehindTheCommand) {
    const SeasonFolder folder(text_season());
    EXPECT_EQ(folder.run("--quiet check season.toml").out, "");
    EXPECT_EQ(folder.run("check season.toml --quiet").out, "");
}

TEST(Commands, AFullDeviceOnStandardOutputIsSaid) {
    const SeasonFolder folder(text_season());
    const Ran ran = folder.run("check season.toml >/dev/full 2>.said; code=$?; cat .said >&2; rm .said; (exit $code)");
    EXPECT_EQ(ran.exit_code, 74);
    EXPECT_THAT(ran.err, HasSubstr("cannot be written"));
}

TEST(Commands, AFolderThatIsNotOursIsNeverTouched) {
    const SeasonFolder folder(text_season());
    std::filesystem::create_directory(folder.path() / "results");
    std::ofstream(folder.path() / "results" / "letters.txt") << "mine";
    const Ran ran = folder.run("compare season.toml");
    EXPECT_EQ(ran.exit_code, 74) << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("results"));
    EXPECT_EQ(folder.text("results/letters.txt"), "mine");
    EXPECT_EQ(folder.left_behind(), "results ");
}

TEST(Commands, DemoRefusesAFolderThatIsNotEmpty) {
    const SeasonFolder folder(TextFiles{{"notes.txt", "mine"}});
    const Ran ran = folder.run("demo .");
    EXPECT_EQ(ran.exit_code, 74) << ran.err;
    EXPECT_EQ(folder.left_behind(), "");
}

} // namespace
} // namespace quartercut::test
