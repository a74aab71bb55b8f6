// SPDX-License-Identifier: MIT
// Faults that have nothing to do with each other are told together, one a line; of many alike the first, and how many.
#pragma once

#include "quartercut/error.hpp"

#include <fmt/format.h>
#include <string>
#include <vector>

namespace quartercut::cleaning {

class Faults {
public:
    /// Goes on after a refusal. \param kind  refusals of one kind are told once; empty: of no kind
    template <class Work>
    void attempt(const std::string& kind, const Work& work) {
        try {
            work();
        } catch (const DataError& error) {
            for (Fault& known : all_)
                if (!kind.empty() && known.kind == kind) {
                    ++known.more;
                    return;
                }
            all_.push_back({kind, error.what(), 0});
        }
    }

    /// \throws DataError  where anything was refused
    void raise() const {
        std::string told;
        for (const Fault& fault : all_) {
            told += (told.empty() ? "" : "\n") + fault.words;
            if (fault.more > 0) told += fmt::format(" (and {} more like it)", fault.more);
        }
        if (!told.empty()) throw DataError(told);
    }

private:
    struct Fault {
        std::string kind, words;
        std::size_t more = 0;
    };
    std::vector<Fault> all_;
};

} // namespace quartercut::cleaning
