// SPDX-License-Identifier: MIT
// Plans -> files, part of the room write/. Everything goes into a folder under construction (ResultsFolder).
#pragma once

#include "quartercut/plan_choose.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace quartercut {

/// strips.gpkg (layers strips, guidance), strips.geojson, guidance.geojson, strips.kml, strips.shp, guidance.shp.
/// The strips carry `method` and `block`: next year they are the method areas of the season file as they are.
void write_layout_maps(const TrialLayout& layout, const Season& season, const std::filesystem::path& folder);
/// The field whose layout a folder holds; empty where it holds none.
[[nodiscard]] std::string field_of_layout(const std::filesystem::path& folder);
/// layout.json, schema quartercut.layout/1: every design tried, the strips, the seed.
[[nodiscard]] std::string layout_json(const TrialLayout& layout);
/// What next year's season file needs to say, ready to be copied.
[[nodiscard]] std::string layout_season_lines(const TrialLayout& layout);

/// choose.gpkg, choose.geojson, choose.kml: the candidate fields with what is proposed.
void write_choice_maps(const Choice& choice, const Season& season, const std::filesystem::path& folder);
[[nodiscard]] std::string choice_csv(const Choice& choice);
[[nodiscard]] std::string choice_json(const Choice& choice);

/// A blank sheet for tray and pan counts: what [loss_counts] reads, one row a tray, counts left empty.
[[nodiscard]] std::string counting_sheet_csv(const Season& season, const std::vector<std::string>& fields);

} // namespace quartercut
