// SPDX-License-Identifier: MIT
// The page's sections in reading order. Each writes one <section>.
#pragma once

#include "report/draw.hpp"

namespace quartercut::report {

void write_answer(Html& html, const Telling& telling);
void write_glance(Html& html, const Telling& telling);
void write_fields(Html& html, const Telling& telling);
void write_cleaning(Html& html, const Telling& telling);
void write_tickets(Html& html, const Telling& telling);
void write_moisture(Html& html, const Telling& telling);
void write_limits(Html& html, const Telling& telling); ///< what the range leaves out; cautions
void write_agronomist(Html& html, const Telling& telling);
void write_sources(Html& html, const Telling& telling); ///< remarks, settings, inputs, citation, words

} // namespace quartercut::report
