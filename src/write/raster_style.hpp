// SPDX-License-Identifier: MIT
// Colours of the yield raster as side-car files.
#pragma once

#include <filesystem>
#include <vector>

namespace quartercut::write {

/// NAME.qml and NAME.sld beside `file`: five classes of equal count of the cells that have a value, cividis.
void write_raster_side_cars(const std::vector<float>& values, double no_data, const std::filesystem::path& file);

} // namespace quartercut::write
