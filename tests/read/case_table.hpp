// SPDX-License-Identifier: MIT
// The catalogue of bad inputs: each case changes one thing of a good season and says what the message must tell.
#pragma once

#include "season_folder.hpp"

#include <gtest/gtest.h>

namespace quartercut::read_test {

struct BadCase {
    std::string name; ///< a sentence, without blanks
    std::function<void(SeasonFolder&)> spoil;
    std::vector<std::string> message; ///< parts of the message: what, where, what to do
};

/// The season is refused with code 1 and one message that holds all parts and nothing of our insides.
void expect_refused(const BadCase& bad);

/// Name of a test of the catalogue.
[[nodiscard]] std::string name_of(const testing::TestParamInfo<BadCase>& tested);

void PrintTo(const BadCase& bad, std::ostream* out);

} // namespace quartercut::read_test
