// SPDX-License-Identifier: MIT
// An invented season on invented land whose true answer is known, for the demo, for tests and for trying the program.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace quartercut {

/// What the harvest simulator is told. Defaults give the demo season.
struct DemoOptions {
    std::uint64_t seed = 1;
    double true_gain_t_ha = 0.09;        ///< standing minus swathed, in truth
    double record_interval_s = 3.0;      ///< logging interval of the monitors
};

struct DemoTruth {
    double gain_t_ha = 0.0;
    double raw_gain_t_ha = 0.0;          ///< what plain record means would say
    std::vector<std::string> fields;
};

/// Writes the season file, layers, records, tickets and a README with the truth into `folder`.
/// \throws WriteError  the folder exists and is not empty, or cannot be written
DemoTruth write_demo(const std::filesystem::path& folder, const DemoOptions& options);

} // namespace quartercut
