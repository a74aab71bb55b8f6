// SPDX-License-Identifier: MIT
// A season may hold more records than the machine has memory. Large blocks beyond a budget lie in an unnamed file, and
// what is resident of it is given back to the system as soon as the program holds more than it may.
#pragma once

#include <cstddef>
#include <filesystem>
#include <vector>

namespace quartercut::cli {

/// From now on the program holds about `budget_bytes` in memory. Blocks of 32 KiB and more beyond a third of it lie in a
/// file without a name in `folder`, gone when the program ends, however it ends. Where the folder takes no such file, or
/// its disk is full, memory is used as usual: results never depend on it. The first call counts; 0 does nothing.
void keep_memory_within(std::size_t budget_bytes, const std::vector<std::filesystem::path>& folders);

} // namespace quartercut::cli
