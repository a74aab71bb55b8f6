// SPDX-License-Identifier: MIT
// The facade: every field on its own, then the farm. Fields are worked on in parallel; each has its own draws and its
// own place in the result, so the number of threads changes nothing.
#include "quartercut/compare.hpp"

#include "base/random.hpp"
#include "compare/crossings.hpp"
#include "compare/farm.hpp"
#include "compare/field.hpp"
#include "compare/paired.hpp"

#include "quartercut/error.hpp"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace quartercut {
namespace {

void check_sizes(const Standardised& standardised, const Cleaned& cleaned, const std::vector<ZonedField>& zoned) {
    const std::size_t n = standardised.fields.size();
    if (cleaned.fields.size() != n || zoned.size() != n)
        throw InternalError("The views of the fields do not match: standardised, cleaned and zoned differ in number.");
}

std::vector<FieldComparison> compare_fields(const Season& season, const Standardised& standardised,
                                            const Cleaned& cleaned, const std::vector<ZonedField>& zoned,
                                            const CompareOptions& options) {
    std::vector<FieldComparison> fields(zoned.size());
    tbb::task_arena arena(options.jobs > 0 ? options.jobs : tbb::task_arena::automatic);
    arena.execute([&] {
        tbb::parallel_for(std::size_t{0}, fields.size(), [&](std::size_t f) {
            const FieldView view{standardised.fields[f], cleaned.fields[f], zoned[f]};
            CompareOptions own = options;
            own.seed = stream_seed(options.seed, f);
            fields[f] = contrast::compare_field(season, standardised, view, own);
        });
    });
    return fields;
}

/// Several methods are several looks: rows of one kind of evidence share Holm's correction.
void adjust_rows(std::vector<FarmContrast>& rows, const std::string& evidence) {
    std::vector<FarmContrast*> of_kind;
    std::vector<double> p;
    for (FarmContrast& row : rows)
        if (row.evidence == evidence && row.p) {
            of_kind.push_back(&row);
            p.push_back(*row.p);
        }
    if (p.size() < 2) return;
    const std::vector<double> adjusted = contrast::holm_adjusted(p);
    for (std::size_t i = 0; i < of_kind.size(); ++i) {
        of_kind[i]->p_adjusted = adjusted[i];
        if (adjusted[i] >= 0.05 && of_kind[i]->finding != Finding::not_comparable)
            of_kind[i]->finding = Finding::not_shown;
    }
}

} // namespace

void pool_farm(Comparison& comparison, const Season& season, const Standardised& standardised, const Cleaned& cleaned,
               const std::vector<ZonedField>& zoned) {
    comparison.farm = contrast::pool_fields(season, comparison.fields);
    Issues ignored;
    for (FarmContrast& row : contrast::compare_whole_fields(season, standardised, cleaned, zoned, ignored))
        comparison.farm.push_back(std::move(row));
    for (const Evidence evidence :
         {Evidence::replicated_randomised, Evidence::replicated, Evidence::split, Evidence::whole_field})
        adjust_rows(comparison.farm, evidence_word(evidence));
    for (FarmContrast& row : comparison.farm)
        for (const std::string& sentence : contrast::confounding_words(comparison.crossings))
            row.leaves_out.push_back(sentence);
}

Comparison compare(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                   const std::vector<ZonedField>& zoned, const CompareOptions& options) {
    check_sizes(standardised, cleaned, zoned);
    if (season.baseline_code() < 0)
        throw InputError("The baseline '" + season.baseline + "' is not one of the season's methods.");
    Comparison comparison;
    comparison.fields = compare_fields(season, standardised, cleaned, zoned, options);
    comparison.crossings = contrast::season_crossings(season, standardised, zoned);
    for (const std::string& sentence : contrast::confounding_words(comparison.crossings))
        comparison.issues.push_back(contrast::warning("confounded", "", sentence));
    Issues whole_issues;
    static_cast<void>(contrast::compare_whole_fields(season, standardised, cleaned, zoned, whole_issues));
    comparison.issues.insert(comparison.issues.end(), whole_issues.begin(), whole_issues.end());
    pool_farm(comparison, season, standardised, cleaned, zoned);
    return comparison;
}

} // namespace quartercut
