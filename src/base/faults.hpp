// SPDX-License-Identifier: MIT
// Faults that have nothing to do with each other are told together, one a line; of many alike the first, and how many.
#pragma once

#include "quartercut/error.hpp"

#include <fmt/format.h>
#include <string>
#include <vector>

namespace quartercut {

class Faults {
public:
    /// Goes on after a refusal. \param kind  refusals of one kind are told once; empty: of no kind
    /// \returns whether it went well
    template <class Work>
    bool attempt(const std::string& kind, const Work& work) {
        try {
            work();
            return true;
        } catch (const InputError& error) {
            take(kind, error.what());
        } catch (const DataError& error) {
            of_data_ = true;
            take(kind, error.what());
        }
        return false;
    }

    /// \throws DataError  where anything was refused; InputError where all of it was
    void raise() const {
        std::string told;
        for (const Fault& fault : all_) {
            told += (told.empty() ? "" : "\n") + fault.words;
            if (fault.more > 0) told += fmt::format(" (and {} more like it)", fault.more);
        }
        if (told.empty()) return;
        if (of_data_) throw DataError(told);
        throw InputError(told);
    }

private:
    struct Fault {
        std::string kind, words;
        std::size_t more = 0;
    };

    void take(const std::string& kind, const std::string& words) {
        for (Fault& known : all_)
            if (!kind.empty() && known.kind == kind) {
                ++known.more;
                return;
            }
        all_.push_back({kind, words, 0});
    }

    std::vector<Fault> all_;
    bool of_data_ = false;
};

} // namespace quartercut
