// SPDX-License-Identifier: MIT
// The page's style sheet and its one small script; both stand in the page, admitted by their hashes.
#pragma once

namespace quartercut::report {

extern const char* const style_sheet;
extern const char* const script;

} // namespace quartercut::report
