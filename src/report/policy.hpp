// SPDX-License-Identifier: MIT
// The page's Content-Security-Policy: nothing may be fetched, only the page's own style and script may act.
#pragma once

#include <string>
#include <string_view>

namespace quartercut::report {

/// "sha256-..." of a text as Content Security Policy Level 3 (W3C) wants it: base64 of the digest.
/// \throws InternalError  the digest could not be computed
[[nodiscard]] std::string hash_source(std::string_view text);

/// Value of the Content-Security-Policy meta element for a page with this one style and this one script.
[[nodiscard]] std::string security_policy(std::string_view style, std::string_view script);

} // namespace quartercut::report
