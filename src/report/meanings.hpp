// SPDX-License-Identifier: MIT
// What the page's words mean: said in short where a word is first used, and all together at the end.
#pragma once

#include "report/html.hpp"
#include "report/telling.hpp"

#include <initializer_list>

namespace quartercut::report {

/// The meanings of these words of the word list, in one small paragraph.
void write_meant(Html& html, const Telling& telling, std::initializer_list<Term> terms);

/// The whole word list.
void write_glossary(Html& html, const Telling& telling);

} // namespace quartercut::report
