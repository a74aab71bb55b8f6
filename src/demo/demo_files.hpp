// SPDX-License-Identifier: MIT
// A simulated season -> the texts and layers of its folder.
#pragma once

#include "quartercut/demo.hpp"
#include "quartercut/write.hpp"

#include <string>

namespace quartercut::demo {

/// "2025-09-04T17:30:00Z"; tenths only where the interval has them.
[[nodiscard]] std::string utc_text(double time_s);

[[nodiscard]] std::string season_toml();
[[nodiscard]] std::string readme_md(const DemoSeason& season);
[[nodiscard]] std::string tickets_csv(const DemoSeason& season);
/// One machine's records of one field; empty when it never cut there.
[[nodiscard]] std::string records_csv(const DemoField& field, int machine);
/// One machine's records of all strip trials.
[[nodiscard]] Layer trial_records_layer(const DemoSeason& season, int machine);
[[nodiscard]] bool is_strip_trial(const DemoField& field);
[[nodiscard]] Layer boundaries_layer(const DemoSeason& season);
[[nodiscard]] Layer methods_layer(const DemoSeason& season);

} // namespace quartercut::demo
