// SPDX-License-Identifier: MIT
// Where a remark belongs: a part of words.hpp.
#pragma once

namespace quartercut {

/// What stands before the first place of `field`, `then_machine`, `then_method` and `then_row` is cut off, or ends the
/// name, where many places are listed.
struct PlaceWords {
    const char* field = "field {field}";
    const char* then_machine = ", machine {machine}";
    const char* then_method = ", method {method}";
    const char* then_row = ", row {row}";
    const char* field_machine = "field {field}, machine {machine}";
    const char* field_method = "field {field}, method {method}";
    const char* field_area = "field {field}, method area {area} ({method})";
    const char* machine_method = "machine {machine}, method {method}";
    const char* machine_methods = "machine {machine}, methods {method} and {other}";
    const char* row = "row {row}";
    const char* file_row = "{file}, row {row}";
    const char* file_layer = "{file}, layer '{layer}'";
    const char* machine_of = "{machine}, {method}";
    const char* loss_row = "loss counts, row {row}";
};

} // namespace quartercut
