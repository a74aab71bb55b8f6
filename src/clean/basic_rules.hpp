// SPDX-License-Identifier: MIT
// What needs no statistics: is the record in the field, was the machine cutting, is there grain, land and moisture.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// off_field, no_method, header_up: by place and header alone.
void mark_off_the_crop(FieldWork& work);

/// no_flow, no_travel, impossible_moisture, position_jump: after the flow was shifted.
void mark_without_reading(FieldWork& work, const Setting& setting);

/// Masses at the basis from masses as logged; a record without mass or moisture gets 0.
/// Moisture is not asked for where the record is at the basis already, where the correction is switched off, or where
/// the machine recorded none at all (an issue says so).
void set_basis_mass(FieldWork& work, const Setting& setting);

/// Land as logged: width x distance; 0 where either is missing.
void set_logged_area(FieldWork& work);

/// Finds machines without any moisture and says so.
void find_missing_moisture(FieldWork& work, const Setting& setting);

/// Mass (kg) of record i at the basis; NaN where mass or needed moisture is missing or impossible.
[[nodiscard]] double basis_mass_kg(const FieldWork& work, const Setting& setting, std::size_t i,
                                   bool moisture_recorded);

} // namespace quartercut::cleaning
