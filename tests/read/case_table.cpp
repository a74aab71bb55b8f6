// SPDX-License-Identifier: MIT
// Running the cases of the catalogue of bad inputs.
#include "case_table.hpp"

#include "quartercut/error.hpp"

#include <gmock/gmock.h>

namespace quartercut::read_test {

void expect_refused(const BadCase& bad) {
    SeasonFolder folder;
    bad.spoil(folder);
    testing::internal::CaptureStderr();
    std::string message;
    try {
        (void)folder.read();
    } catch (const Error& error) {
        message = error.what();
        EXPECT_EQ(error.code(), ExitCode::input) << message;
    }
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << "a room never prints";
    ASSERT_FALSE(message.empty()) << "nothing was refused";
    // The season file itself is told as it was named to us.
    if (const std::size_t at = message.find("season.toml"); at != std::string::npos && message.starts_with("/"))
        message.erase(0, at);
    for (const std::string& part : bad.message)
        EXPECT_THAT(message, testing::HasSubstr(part));
    EXPECT_THAT(message, testing::Not(testing::HasSubstr("quartercut-read-")))
        << "paths are told as the season file has them";
    EXPECT_LT(message.size(), 900U) << message;
}

std::string name_of(const testing::TestParamInfo<BadCase>& tested) { return tested.param.name; }

void PrintTo(const BadCase& bad, std::ostream* out) { *out << bad.name; }

} // namespace quartercut::read_test
