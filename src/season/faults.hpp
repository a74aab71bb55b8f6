// SPDX-License-Identifier: MIT
// Telling everything that is wrong with a season file at once, rather than the first thing only.
//
// While a FaultGatherer lives on this thread, a piece of the season file that cannot be read adds its fault to the list
// and the next piece is tried. What was read then is not to be used where there is a fault.
#pragma once

#include "quartercut/error.hpp"

#include <string>
#include <vector>

namespace quartercut::season {

class FaultGatherer {
public:
    FaultGatherer();
    ~FaultGatherer();
    FaultGatherer(const FaultGatherer&) = delete;
    FaultGatherer& operator=(const FaultGatherer&) = delete;
    [[nodiscard]] const std::vector<std::string>& faults() const { return faults_; }

private:
    std::vector<std::string> faults_;
    std::vector<std::string>* before_;
};

[[nodiscard]] bool gathering_faults();
void gather_fault(const std::string& message);

/// Does a piece of work. \returns whether it went well \throws InputError  where nobody gathers
template <class Work>
bool attempt(const Work& work) {
    if (!gathering_faults()) {
        work();
        return true;
    }
    try {
        work();
        return true;
    } catch (const InputError& fault) {
        gather_fault(fault.what());
        return false;
    }
}

} // namespace quartercut::season
