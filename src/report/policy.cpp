// SPDX-License-Identifier: MIT
// Hashes for the page's Content-Security-Policy (policy.hpp).
#include "report/policy.hpp"

#include "quartercut/error.hpp"

#include <array>
#include <openssl/evp.h>

namespace quartercut::report {

std::string hash_source(std::string_view text) {
    std::array<unsigned char, 32> digest{};
    unsigned length = 0;
    const bool done = EVP_Digest(text.data(), text.size(), digest.data(), &length, EVP_sha256(), nullptr) == 1;
    if (!done || length != digest.size()) throw InternalError("The report could not hash its own style and script.");
    std::array<unsigned char, 45> base64{};
    const int written = EVP_EncodeBlock(base64.data(), digest.data(), static_cast<int>(digest.size()));
    std::string out = "sha256-";
    for (int i = 0; i < written; ++i)
        out += static_cast<char>(base64[static_cast<std::size_t>(i)]);
    return out;
}

std::string security_policy(std::string_view style, std::string_view script) {
    return "default-src 'none'; img-src data:; style-src '" + hash_source(style) + "'; script-src '" +
           hash_source(script) + "'; base-uri 'none'; form-action 'none'";
}

} // namespace quartercut::report
