// SPDX-License-Identifier: MIT
#include "season/faults.hpp"

#include <algorithm>
#include <utility>

namespace quartercut::season {
namespace {

thread_local std::vector<std::string>* gathered = nullptr;

} // namespace

FaultGatherer::FaultGatherer() : before_(std::exchange(gathered, &faults_)) {}
FaultGatherer::~FaultGatherer() { gathered = before_; }

bool gathering_faults() { return gathered != nullptr; }

void gather_fault(const std::string& message) {
    if (std::find(gathered->begin(), gathered->end(), message) == gathered->end()) gathered->push_back(message);
}

} // namespace quartercut::season
