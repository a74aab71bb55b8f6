// SPDX-License-Identifier: MIT
// The small tables behind losses, samples, weather and next year's fields, read and checked. Part of the room read/.
#pragma once

#include "quartercut/read.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// When a tray or pan lay in the crop. The stages are separate losses and add up.
enum class LossStage { before_cutting, behind_header, behind_machine };
[[nodiscard]] const char* loss_stage_word(LossStage stage); ///< "before", "header", "machine"

/// What lay in one tray or pan.
struct LossCount {
    std::string field, method, place;
    LossStage stage = LossStage::before_cutting;
    std::optional<double> seeds;
    std::optional<double> grams;
    double area_m2 = 0.0;
    std::optional<double> seed_weight_g; ///< of 1000 seeds
    std::optional<double> cut_width_m, discharge_width_m;
    std::size_t row = 0;
};

/// One sample of grain: every number column of the file by its name ("seed_weight_g", "green_pct" ...).
struct SeedSample {
    std::string field, method, block;
    std::map<std::string, double> values;
    std::size_t row = 0;
};

/// One day of a weather station; hourly rows are joined: rain summed, the highest gust kept.
struct WeatherDay {
    long day = 0; ///< days since 1970-01-01
    std::optional<double> rain_mm, gust_km_h;
};

struct PlanTables {
    std::vector<LossCount> losses;
    std::vector<SeedSample> samples;
    std::vector<WeatherDay> weather; ///< by day
    std::vector<InputFile> inputs;
    Issues issues;
};

/// Reads what [loss_counts] and [weather] name.
/// \throws InputError  missing file or column  \throws DataError  an impossible number
[[nodiscard]] PlanTables read_plan_tables(const Season& season);

/// What is wrong with those tables, a fault a table: errors where `read_plan_tables` would throw, and a warning where
/// next year's fields cannot be read, which stops no comparison.
[[nodiscard]] Issues plan_table_faults(const Season& season);

struct Candidates {
    std::vector<RawArea> areas;
    std::vector<InputFile> inputs;
    bool local_metres = false;
    Issues issues;
};

/// Next year's fields. \pre season.next_year
/// \throws InputError  as for boundaries
[[nodiscard]] Candidates read_candidates(const Season& season);

/// Names of the season's fields, from the boundaries alone.
[[nodiscard]] std::vector<std::string> read_field_names(const Season& season);

/// "2025-09-01" (also 9/13/2025, 20250901) -> days since 1970-01-01; nullopt when it is no day.
[[nodiscard]] std::optional<long> day_number(const std::string& text);
[[nodiscard]] std::string day_text(long day); ///< "2025-09-01"

} // namespace quartercut
