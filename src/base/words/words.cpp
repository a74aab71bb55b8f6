// SPDX-License-Identifier: MIT
// Which language is spoken (words.hpp).
#include "base/words/words.hpp"

#include <atomic>

namespace quartercut {
namespace {

// One for the whole process, not one a thread: sentences are composed by worker threads too, and all of them must speak
// the language the caller asked for.
std::atomic<const Words*> in_use = &english;

} // namespace

const Words& spoken() { return *in_use.load(std::memory_order_acquire); }

std::string crossing_word(const std::string& what) {
    const auto& words = spoken().compare;
    if (what == "machine") return words.what_machine;
    if (what == "date") return words.what_date;
    return what == "variety" ? words.what_variety : what;
}

Speaking::Speaking(const Words& words) : before_(*in_use.exchange(&words, std::memory_order_acq_rel)) {}
Speaking::~Speaking() { in_use.store(&before_, std::memory_order_release); }

} // namespace quartercut
