// SPDX-License-Identifier: MIT
// Which language the page speaks (words.hpp).
#include "report/words.hpp"

namespace quartercut::report {
namespace {

thread_local const Words* in_use = &english;

} // namespace

const Words& spoken() { return *in_use; }

Speaking::Speaking(const Words& words) : before_(*in_use) { in_use = &words; }
Speaking::~Speaking() { in_use = &before_; }

} // namespace quartercut::report
