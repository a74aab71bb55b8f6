// SPDX-License-Identifier: MIT
// From numbers to what may be said. The finding is taken from the total interval; how strong a word is allowed depends
// on how the methods were laid out, never on how small an error a model prints.
#pragma once

#include "compare/t_math.hpp"

namespace quartercut::contrast {

/// What a contrast's layout allows at most.
enum class Ceiling { shown, leans, nothing };

/// gain/loss for replicated evidence of three or more pairs; leans for a split or three or more whole fields a side.
/// Nothing but the total interval decides: one that holds 0 is never more than not shown, one that does not is.
[[nodiscard]] Finding finding_from(const Interval& total, Ceiling ceiling);

/// Sets u_total, df_total, the total interval, break-evens' word, detectable difference and finding from the gain, its
/// sampling error and the budget lines. Contrasts without a sampling interval are left without a total one.
void settle(Contrast& contrast);

/// Puts the contrasts into one family: total intervals that hold all at once, said in words, and Holm's p for
/// information. Those without an interval are no looks. `what`: "comparisons of this field" and the like.
void share_looks(const std::vector<Contrast*>& family, const std::string& what);
[[nodiscard]] std::string looks_words(int looks, const std::string& what);

/// What drawing the order by a coin says, where it says less than the finding; empty where it says the same.
[[nodiscard]] std::string coin_words(const Contrast& contrast);

/// Where `unchecked_machines_apart`: says first why nothing is shown, and holds the finding down, however often the
/// budget is settled again.
template <class Row>
void hold_for_machines(Row& row, std::string words) {
    row.machine_is_method = true;
    row.leaves_out.insert(row.leaves_out.begin(), std::move(words));
}

/// What this kind of evidence cannot answer, in words.
[[nodiscard]] std::vector<std::string> left_out(Evidence evidence);

} // namespace quartercut::contrast
