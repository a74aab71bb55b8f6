// SPDX-License-Identifier: MIT
// Numbers after every step, so that a reader can see what each did.
#pragma once

#include "clean/work.hpp"

#include <string>

namespace quartercut::cleaning {

/// Records kept, spread, nugget and means of the field as it stands.
struct StepNumbers {
    std::size_t records = 0;
    double cv_pct = nan_value, nugget = nan_value;
    std::vector<double> mean_t_ha;
};

[[nodiscard]] StepNumbers measure(const FieldWork& work, std::size_t methods);

/// Appends a report that starts where the last one ended.
void report_step(FieldWork& work, const Setting& setting, const std::string& step, bool on);

/// Fills CleanedField::removed and warns about uneven or unusual removal.
void report_removals(FieldWork& work, const Setting& setting);

} // namespace quartercut::cleaning
