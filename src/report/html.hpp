// SPDX-License-Identifier: MIT
// A small writer of HTML and SVG: the only door by which text reaches the page.
//
// Everything that goes through `text`, `leaf` or an attribute is escaped here and nowhere else, so a field named
// "<script>" shows as text. `raw` takes only text of this room (style, script). Elements close by leaving the scope:
//     { auto list = html.in("ul"); html.leaf("li", field.name); }
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace quartercut::report {

/// Text made safe for element content and quoted attributes: & < > " ' as entities; control characters and bytes that
/// are not UTF-8 as U+FFFD.
[[nodiscard]] std::string escape(std::string_view text);

/// Text as an id or anchor: lower-case letters, digits and hyphens; empty text becomes "x".
[[nodiscard]] std::string slug(std::string_view text);

struct Attribute {
    std::string_view name;
    std::string value;
};
using Attributes = std::vector<Attribute>;

class Html {
public:
    /// An open element; closes when it goes out of scope.
    class Scope {
    public:
        explicit Scope(Html& html) : html_(&html) {}
        Scope(Scope&& other) noexcept : html_(std::exchange(other.html_, nullptr)) {}
        Scope(const Scope&) = delete;
        Scope& operator=(const Scope&) = delete;
        Scope& operator=(Scope&&) = delete;
        ~Scope() {
            if (html_ != nullptr) html_->close();
        }

    private:
        Html* html_;
    };

    [[nodiscard]] Scope in(std::string_view tag, const Attributes& attributes = {});
    void leaf(std::string_view tag, std::string_view text, const Attributes& attributes = {});
    void empty(std::string_view tag, const Attributes& attributes = {}); ///< <meta ...> or <path .../>
    void text(std::string_view text) { out_ += escape(text); }
    void raw(std::string_view trusted) { out_ += trusted; }
    [[nodiscard]] const std::string& page() const { return out_; }

private:
    void start(std::string_view tag, const Attributes& attributes, std::string_view end);
    void close();
    std::string out_;
    std::vector<std::string> open_;
};

} // namespace quartercut::report
