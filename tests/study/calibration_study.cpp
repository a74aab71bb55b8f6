// SPDX-License-Identifier: MIT
// How often is the comparison wrong? Fields of five kinds are drawn, cut by every layout, read by instruments that are
// out by as much as the budget says, and compared. Printed, as a table for DEVELOPERS.md: how often a difference is
// found where there is none, and how often the intervals hold the truth.
// Usage: calibration_study [fields per row, default 1000]
//
// "sampling" speaks of the 95 % interval of sampling error and the difference as the instruments read it; "total" of
// the interval with all errors and the true difference.
#include "../compare/study_rows.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>

namespace quartercut::testing {
namespace {

void print_row(const StudyRow& row, const Tally& tally) {
    const double with = std::max(1, tally.n - tally.none);
    fmt::print("| {} | {} | {:.0f} % | {:.1f} % | {:.1f} % | {:.1f} % |\n", row.kind.name, design_word(row.design),
               100.0 * row.gain_t_ha / mean_t_ha, 100.0 * tally.found / with, 100.0 * tally.sampling_holds / with,
               100.0 * tally.total_holds / with);
    if (tally.none > 0) fmt::print("({} of {} fields gave no interval)\n", tally.none, tally.n);
    std::fflush(stdout);
}

} // namespace
} // namespace quartercut::testing

int main(int argc, char** argv) {
    using namespace quartercut::testing;
    const int fields = argc > 1 ? std::atoi(argv[1]) : 1000;
    if (fields < 1) {
        fmt::print(stderr, "Usage: calibration_study [fields per row, at least 1]\n");
        return 2;
    }
    fmt::print("| field | layout | effect | found | sampling interval holds | total interval holds |\n"
               "|---|---|---|---|---|---|\n");
    for (const LandKind& kind : land_kinds())
        for (const double gain : {0.0, 0.05 * mean_t_ha})
            for (const Design design : {Design::pairs, Design::pairs_not_random, Design::split, Design::whole}) {
                const StudyRow row{kind, design, gain, fields};
                print_row(row, study(row));
            }
    return 0;
}
