// SPDX-License-Identifier: MIT
// The results folder is whole or absent, and never takes what is not ours.
#include "files.hpp"
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cerrno>
#include <csignal>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

namespace quartercut {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

void write_results(const fs::path& target, const std::string& text) {
    ResultsFolder folder(target);
    folder.write_text("comparison.json", text);
    folder.commit();
}

std::string message_of(const std::function<void()>& act) {
    try {
        act();
    } catch (const WriteError& error) {
        return error.what();
    }
    return "no WriteError";
}

TEST(ResultsFolder, AppearsOnlyOnCommit) {
    const fs::path parent = fresh_folder();
    {
        ResultsFolder folder(parent / "results");
        folder.write_text("comparison.json", "{}\n");
        EXPECT_FALSE(fs::exists(parent / "results"));
        EXPECT_TRUE(fs::exists(folder.building() / "comparison.json"));
        folder.commit();
    }
    EXPECT_EQ(names_in(parent), "results ");
    EXPECT_EQ(names_in(parent / "results"), ".quartercut-results comparison.json ");
    EXPECT_EQ(text_of(parent / "results/comparison.json"), "{}\n");
}

TEST(ResultsFolder, LeavesNothingBehindAfterAnError) {
    const fs::path parent = fresh_folder();
    try {
        ResultsFolder folder(parent / "deep/er/results");
        folder.write_text("comparison.json", "{}\n");
        throw DataError("no record in any field");
    } catch (const DataError&) {
    }
    EXPECT_EQ(names_in(parent), "");
}

TEST(ResultsFolder, ReplacesAnEarlierRunWhole) {
    const fs::path target = fresh_folder() / "results";
    {
        ResultsFolder folder(target);
        folder.write_text("old.txt", "old");
        folder.write_text("comparison.json", "old");
        folder.commit();
    }
    write_results(target.string() + "/", "new"); // a trailing slash changes nothing
    EXPECT_EQ(names_in(target), ".quartercut-results comparison.json ");
    EXPECT_EQ(text_of(target / "comparison.json"), "new");
    EXPECT_EQ(names_in(target.parent_path()), "results ");
}

TEST(ResultsFolder, KeepsTheEarlierRunWhenTheNewOneFails) {
    const fs::path target = fresh_folder() / "results";
    write_results(target, "old");
    {
        ResultsFolder folder(target);
        folder.write_text("comparison.json", "half");
    }
    EXPECT_EQ(text_of(target / "comparison.json"), "old");
    EXPECT_EQ(names_in(target.parent_path()), "results ");
}

TEST(ResultsFolder, RefusesAFolderThatIsNotOurs) {
    const fs::path target = fresh_folder() / "photos";
    fs::create_directories(target);
    put_text(target / "harvest.jpg", "picture");
    const std::string message = message_of([&] { ResultsFolder folder(target); });
    EXPECT_THAT(message, HasSubstr("untouched"));
    EXPECT_THAT(message, HasSubstr("--out"));
    EXPECT_EQ(names_in(target), "harvest.jpg ");
    EXPECT_EQ(names_in(target.parent_path()), "photos ");
}

TEST(ResultsFolder, RefusesAFileOfThatName) {
    const fs::path target = fresh_folder() / "results";
    put_text(target, "mine");
    EXPECT_THAT(message_of([&] { ResultsFolder folder(target); }), HasSubstr("there is a file of that name"));
    EXPECT_EQ(text_of(target), "mine");
}

TEST(ResultsFolder, RefusesAnEarlierRunWithAUsersFileInIt) {
    const fs::path target = fresh_folder() / "results";
    write_results(target, "old");
    put_text(target / "notes.txt", "my notes");
    EXPECT_THAT(message_of([&] { write_results(target, "new"); }), HasSubstr("'notes.txt'"));
    EXPECT_EQ(text_of(target / "notes.txt"), "my notes");
    EXPECT_EQ(text_of(target / "comparison.json"), "old");
}

void write_kind(const fs::path& target, const std::vector<std::string>& names) {
    ResultsFolder folder(target);
    for (const std::string& name : names)
        folder.write_text(name, "of " + names.front());
    folder.commit();
}

TEST(ResultsFolder, RefusesResultsOfAnotherKindOfOurs) {
    const fs::path target = fresh_folder() / "results";
    const std::vector<std::vector<std::string>> kinds = {{"comparison.json", "inputs.json"},
                                                         {"zones.csv", "inputs.json"},
                                                         {"choose.json"},
                                                         {"layout.json", "counting_sheet.csv"},
                                                         {"counting_sheet.csv"}};
    for (const auto& there : kinds) {
        fs::remove_all(target);
        write_kind(target, there);
        for (const auto& coming : kinds) {
            const std::string message = message_of([&] { write_kind(target, coming); });
            if (coming == there) {
                EXPECT_EQ(message, "no WriteError") << there.front();
            } else {
                EXPECT_THAT(message, testing::AllOf(HasSubstr("untouched"), HasSubstr("--out"))) << coming.front();
            }
            EXPECT_EQ(text_of(target / there.front()), "of " + there.front()) << coming.front();
            EXPECT_EQ(names_in(target.parent_path()), "results ") << coming.front();
        }
    }
}

TEST(ResultsFolder, ReplacesSideFilesThatAViewerLeft) {
    const fs::path target = fresh_folder() / "results";
    write_results(target, "old");
    put_text(target / "comparison.json.aux.xml", "viewer");
    write_results(target, "new");
    EXPECT_EQ(names_in(target), ".quartercut-results comparison.json ");
}

TEST(ResultsFolder, TakesAnEmptyFolder) {
    const fs::path target = fresh_folder() / "results";
    fs::create_directories(target);
    write_results(target, "new");
    EXPECT_EQ(text_of(target / "comparison.json"), "new");
}

TEST(ResultsFolder, ReplacesWhatALinkPointsToAndKeepsTheLink) {
    const fs::path parent = fresh_folder();
    write_results(parent / "real", "old");
    fs::create_symlink("real", parent / "results");
    write_results(parent / "results", "new");
    EXPECT_TRUE(fs::is_symlink(parent / "results"));
    EXPECT_EQ(text_of(parent / "real/comparison.json"), "new");
}

TEST(ResultsFolder, ReportsAFileInPlaceOfTheParent) {
    const fs::path parent = fresh_folder();
    put_text(parent / "file", "x");
    const std::string message = message_of([&] { ResultsFolder folder(parent / "file/results"); });
    EXPECT_THAT(message, HasSubstr("Not a directory"));
    EXPECT_EQ(text_of(parent / "file"), "x");
}

TEST(ResultsFolder, ReportsAParentThatCannotBeWritten) {
    if (::geteuid() == 0) GTEST_SKIP() << "root may write everywhere";
    const fs::path parent = fresh_folder();
    fs::permissions(parent, fs::perms::owner_read | fs::perms::owner_exec);
    EXPECT_THAT(message_of([&] { ResultsFolder folder(parent / "results"); }), HasSubstr("Permission denied"));
    fs::permissions(parent, fs::perms::owner_all);
}

TEST(ResultsFolder, CleansUpAfterAKilledRun) {
    const fs::path parent = fresh_folder();
    const pid_t child = ::fork();
    if (child == 0) {
        ResultsFolder folder(parent / "results");
        folder.write_text("comparison.json", "half");
        ::raise(SIGKILL);
    }
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status));
    EXPECT_THAT(names_in(parent), HasSubstr(".results.quartercut-")); // the kill did leave something
    EXPECT_FALSE(fs::exists(parent / "results"));
    write_results(parent / "results", "new");
    EXPECT_EQ(names_in(parent), "results ");
}

TEST(ResultsFolder, LeavesTheFolderOfALivingRunAlone) {
    const fs::path parent = fresh_folder();
    ResultsFolder first(parent / "results");
    const ResultsFolder second(parent / "results");
    EXPECT_TRUE(fs::exists(first.building()));
    EXPECT_NE(first.building(), second.building());
}

TEST(ResultsFolder, SaysWhenTheDiskIsFullAndKeepsTheEarlierRun) {
    const fs::path disk = fresh_folder();
    if (::mount("none", disk.c_str(), "tmpfs", 0, "size=64k") != 0) GTEST_SKIP() << "cannot mount a small disk here";
    write_results(disk / "results", "old");
    const std::string message = message_of([&] { write_results(disk / "results", std::string(200000, 'x')); });
    const std::string left = names_in(disk), text = text_of(disk / "results/comparison.json");
    ::umount(disk.c_str());
    EXPECT_THAT(message, HasSubstr("comparison.json"));
    EXPECT_THAT(message, HasSubstr("No space left on device"));
    EXPECT_EQ(left, "results ");
    EXPECT_EQ(text, "old");
}

} // namespace
} // namespace quartercut
