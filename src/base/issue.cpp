// SPDX-License-Identifier: MIT
// The words in which an issue's severity is written to the results and shown on the page.
#include "quartercut/issue.hpp"

namespace quartercut {

const char* severity_word(Severity severity) {
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::warning:
        return "warning";
    case Severity::error:
        return "error";
    }
    return "error";
}

} // namespace quartercut
