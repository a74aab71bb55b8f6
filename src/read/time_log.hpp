// SPDX-License-Identifier: MIT
// One binary time log of ISO 11783-10 task data: an XML header that says which fields a record has, and the records.
//
// Layout (ISO 11783-10:2015, annex D, from memory; checked against nothing but files our tests write byte by byte).
// Numbers are little-endian. A record:
//   uint32  milliseconds since midnight, uint16 days since 1980-01-01      always (TIM attribute A)
//   those of the position (PTN) whose attribute stands empty in the header, in the order A to I:
//     A int32 north and B int32 east (1e-7 deg), C int32 up (mm), D uint8 status, E uint16 PDOP, F uint16 HDOP (0.1),
//     G uint8 satellites, H uint32 milliseconds since midnight UTC, I uint16 days since 1980-01-01 UTC
//   uint8 count, then count times: uint8 number of the DLV in the header, int32 value
#pragma once

#include "read/xml_tree.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut::reading {

/// A value the log may hold: which data dictionary identifier (DDI) of which device element.
struct LoggedValue {
    unsigned ddi = 0;
    std::string element;                  ///< "DET-1"
    std::optional<std::int32_t> constant; ///< stands in the header and not in the records
};

struct TimeLog {
    std::vector<LoggedValue> values;
    // One entry a record.
    std::vector<double> lon_deg, lat_deg;                         ///< NaN where the receiver had no place
    std::vector<double> time_s;                                   ///< seconds since 1970-01-01
    bool times_are_utc = false;                                   ///< taken from the satellites' time
    std::vector<std::vector<std::optional<std::int32_t>>> logged; ///< [value][record]; nullopt: not logged then
    bool cut_off = false;                                         ///< the file ends within a record
    [[nodiscard]] std::size_t size() const { return time_s.size(); }
};

/// \throws InputError  a header without time or position, a record that names a value the header does not have
[[nodiscard]] TimeLog read_time_log(const XmlElement& header, std::string_view bytes, const std::string& shown);

} // namespace quartercut::reading
