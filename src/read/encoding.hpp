// SPDX-License-Identifier: MIT
// Bytes of a text file -> UTF-8. UTF-8 and Windows-1252 are understood; UTF-16 is refused by the caller.
#pragma once

#include <string>
#include <string_view>

namespace quartercut::reading {

enum class Encoding { utf8, windows_1252, utf16 };

/// Looks at the whole text. UTF-16 is told by its mark or by zero bytes.
[[nodiscard]] Encoding encoding_of(std::string_view bytes);

/// Windows-1252 -> UTF-8 (table: Unicode Consortium, CP1252.TXT). Unassigned bytes become U+FFFD.
[[nodiscard]] std::string utf8_from_windows_1252(std::string_view bytes);

/// Is the text well-formed UTF-8?
[[nodiscard]] bool is_utf8(std::string_view bytes);

} // namespace quartercut::reading
