// SPDX-License-Identifier: MIT
// The facade: every field on its own, then the farm. Fields are worked on in parallel; each has its own draws and its
// own place in the result, so the number of threads changes nothing.
#include "quartercut/compare.hpp"

#include "base/words/words.hpp"

#include "base/random.hpp"
#include "compare/crossings.hpp"
#include "compare/farm.hpp"
#include "compare/field.hpp"
#include "compare/history.hpp"
#include "compare/paired.hpp"
#include "compare/seasons.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <map>
#include <string_view>
#include <utility>

namespace quartercut {
namespace {

void check_sizes(const Standardised& standardised, const Cleaned& cleaned, const std::vector<ZonedField>& zoned) {
    const std::size_t n = standardised.fields.size();
    if (cleaned.fields.size() != n || zoned.size() != n)
        throw InternalError("The views of the fields do not match: standardised, cleaned and zoned differ in number.");
}

} // namespace

std::vector<FieldComparison> compare_each_field(const Season& season, const Standardised& standardised,
                                                const Cleaned& cleaned, const std::vector<ZonedField>& zoned,
                                                const CompareOptions& options) {
    check_sizes(standardised, cleaned, zoned);
    if (season.baseline_code() < 0)
        throw InputError("The baseline '" + season.baseline + "' is not one of the season's methods.");
    std::vector<FieldComparison> fields(zoned.size());
    tbb::task_arena arena(options.jobs > 0 ? options.jobs : tbb::task_arena::automatic);
    arena.execute([&] {
        tbb::parallel_for(std::size_t{0}, fields.size(), [&](std::size_t f) {
            const FieldView view{standardised.fields[f], cleaned.fields[f], zoned[f]};
            CompareOptions own = options;
            own.seed = stream_seed(options.seed, std::string_view(view.standard.name));
            fields[f] = contrast::compare_field(season, standardised, view, own);
            contrast::add_earlier_answers(season, own, fields[f]);
        });
    });
    return fields;
}

namespace {

/// Land under any method, per field.
std::vector<double> method_land_m2(const std::vector<ZonedField>& zoned) {
    std::vector<double> out;
    for (const ZonedField& field : zoned) {
        double& land = out.emplace_back(0.0);
        for (const Zone& zone : field.zones)
            if (zone.method >= 0) land += zone.area_m2;
    }
    return out;
}

bool same_kind(const std::string& a, const std::string& b) {
    return a == b || (a.rfind("replicated", 0) == 0 && b.rfind("replicated", 0) == 0);
}

/// Several methods are several looks: Holm's p of the rows of one kind, for information. A field's own row keeps the
/// field's.
void adjust_rows(std::vector<FarmContrast>& rows, const std::string& evidence) {
    std::vector<FarmContrast*> of_kind;
    std::vector<double> p;
    for (FarmContrast& row : rows)
        if (same_kind(row.evidence, evidence) && row.p) {
            of_kind.push_back(&row);
            p.push_back(*row.p);
        }
    if (p.size() < 2) return;
    const std::vector<double> adjusted = contrast::holm_adjusted(p);
    for (std::size_t i = 0; i < of_kind.size(); ++i)
        if (of_kind[i]->fields > 1) of_kind[i]->p_adjusted = adjusted[i];
}

/// What is mixed up with the method in several fields is said once for the season, not field by field.
void gather_confounded(Comparison& comparison) {
    std::map<std::string, std::vector<std::string>> fields_of;
    for (const FieldComparison& field : comparison.fields)
        for (const Issue& issue : field.issues)
            if (issue.code == "confounded") fields_of[issue.message].push_back(field.name);
    std::erase_if(fields_of, [](const auto& entry) { return entry.second.size() < 2; });
    for (FieldComparison& field : comparison.fields)
        std::erase_if(field.issues, [&](const Issue& issue) {
            return issue.code == "confounded" && fields_of.contains(issue.message);
        });
    for (const auto& [sentence, names] : fields_of)
        comparison.issues.push_back(
            contrast::warning("confounded", "",
                              fill(spoken().compare.confounded_fields, fmt::arg("what", sentence),
                                   fmt::arg("fields", fmt::join(names, ", ")))));
}

void pool(Comparison& comparison, const Season& season, const Standardised& standardised, const Cleaned& cleaned,
          const std::vector<ZonedField>& zoned, Issues& issues) {
    comparison.farm = contrast::pool_fields(season, comparison.fields, method_land_m2(zoned));
    for (FarmContrast& row : contrast::compare_whole_fields(season, standardised, cleaned, zoned, issues))
        comparison.farm.push_back(std::move(row));
    for (const Evidence evidence : {Evidence::replicated, Evidence::split, Evidence::whole_field})
        adjust_rows(comparison.farm, evidence_word(evidence));
    for (FarmContrast& row : comparison.farm)
        for (const std::string& sentence : contrast::confounding_words(comparison.crossings))
            row.leaves_out.push_back(sentence);
    comparison.seasons = contrast::pool_seasons(season, comparison, issues);
}

} // namespace

void pool_farm(Comparison& comparison, const Season& season, const Standardised& standardised, const Cleaned& cleaned,
               const std::vector<ZonedField>& zoned) {
    Issues ignored; // said once, by `bring_together`
    pool(comparison, season, standardised, cleaned, zoned, ignored);
}

Comparison bring_together(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                          const std::vector<ZonedField>& zoned, std::vector<FieldComparison> fields,
                          const History* history) {
    Comparison comparison;
    comparison.fields = std::move(fields);
    comparison.crossings = contrast::season_crossings(season, standardised, zoned);
    for (const std::string& sentence : contrast::confounding_words(comparison.crossings))
        comparison.issues.push_back(contrast::warning("confounded", "", sentence));
    gather_confounded(comparison);
    if (history != nullptr) comparison.earlier = history->seasons;
    contrast::report_history(season, history, comparison);
    Issues issues;
    pool(comparison, season, standardised, cleaned, zoned, issues);
    comparison.issues.insert(comparison.issues.end(), issues.begin(), issues.end());
    return comparison;
}

Comparison compare(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                   const std::vector<ZonedField>& zoned, const CompareOptions& options) {
    return bring_together(season, standardised, cleaned, zoned,
                          compare_each_field(season, standardised, cleaned, zoned, options), options.history);
}

} // namespace quartercut
