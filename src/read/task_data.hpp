// SPDX-License-Identifier: MIT
// ISO 11783-10 task data (TASKDATA.XML with its time logs) as records.
//
// Structure from memory of ISO 11783-10:2015: TSK (task) holds TLG (time log, attribute A: file name without ending);
// DVC (device) holds DET (device element); XFR names a further XML file whose elements belong here. Values by data
// dictionary identifier (ISO 11783-11, public data base): 67 actual working width (mm), 84 mass per area yield
// (mg/m2), 87 mass per time yield (mg/s), 99 crop moisture (ppm), 141 actual work state, 161 condensed work state of
// the first sections.
#pragma once

#include "read/record_source.hpp"

namespace quartercut::reading {

/// Is it the main file of task data? By its name and its first bytes.
[[nodiscard]] bool is_task_data(const FoundFile& file);

/// \throws InputError  no time log, a file that is missing or damaged
[[nodiscard]] std::unique_ptr<RecordSource> task_records(const FoundFile& file);

/// One log from memory, for fuzzing: header and records.
[[nodiscard]] std::unique_ptr<RecordSource> task_records(std::string_view header, std::string_view records);

} // namespace quartercut::reading
