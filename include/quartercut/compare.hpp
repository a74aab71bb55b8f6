// SPDX-License-Identifier: MIT
// How much the methods differ, how sure that is, and what could explain it away.
//
// The unit of evidence is the strip pair or the field, never the record. A finding is taken from the total interval
// (sampling, calibration, moisture, width), and a layout that cannot show a difference is never worded as if it did.
#pragma once

#include "quartercut/history.hpp"
#include "quartercut/zone.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace quartercut {

enum class Evidence { replicated_randomised, replicated, split, whole_field };
enum class Finding { gain, loss, leans_gain, leans_loss, not_shown, not_comparable };

[[nodiscard]] const char* evidence_word(Evidence evidence); ///< "replicated-randomised", ...
[[nodiscard]] const char* finding_word(Finding finding);    ///< "leans-gain", ...

using Interval = std::array<double, 2>;

/// One answer of one estimator. Absent numbers are unknown, not zero.
struct Estimate {
    std::string estimator; ///< in words, e.g. "paired strips, t"
    std::optional<double> gain_t_ha, se_t_ha, df;
    std::optional<Interval> ci95_t_ha;
    std::string note;
};

/// One strip pair (or block) of the layout.
struct PairDifference {
    std::string block;
    std::string zone, baseline_zone; ///< ids
    double yield_t_ha = 0.0, baseline_yield_t_ha = 0.0;
    double difference_t_ha = 0.0;
};

/// Names of sources of error, the same in every language: the page has its own words for them.
namespace error_source {
inline constexpr const char* sampling = "sampling";
inline constexpr const char* calibration_of = "calibration of "; ///< the machine follows, or "machine, method"
inline constexpr const char* moisture = "moisture";
inline constexpr const char* dockage = "dockage";
inline constexpr const char* cut_width = "cut width";
inline constexpr const char* timing = "lag and ramps"; ///< flow delay and filling: a stated default until re-runs tell
inline constexpr const char* all_years = "calibration, moisture and width of all years";
} // namespace error_source

/// One source of error of the gain.
struct BudgetLine {
    std::string source;  ///< one of `error_source`
    double u_t_ha = 0.0; ///< standard uncertainty of the gain from it
    double df = 0.0;
    bool shared = false; ///< common to all fields of the season: does not average out
};

struct Placebo {
    int layouts = 0;
    double share_as_large = 0.0; ///< 0..1: layouts with nothing done whose difference was at least as large
    double share_found = 0.0;    ///< 0..1: layouts with nothing done that would have been called a difference
};

struct Contrast {
    std::string method, baseline;
    std::optional<std::string> stratum;
    Evidence evidence = Evidence::split; ///< of this contrast: it may be weaker than the field's best
    std::optional<double> gain_t_ha, se_t_ha, df;
    std::optional<Interval> ci95_t_ha; ///< sampling error only
    std::optional<double> p, p_randomisation;
    std::optional<double> p_adjusted; ///< Holm, where several looks were taken; sampling only, for information
    int looks = 1;                    ///< comparisons of one family: the total interval holds for all at once
    std::optional<double> u_calibration_t_ha, u_total_t_ha;
    std::optional<Interval> ci95_total_t_ha; ///< 95 % for all `looks` together (Bonferroni); the finding is its own
    std::optional<double> df_total;
    std::optional<double> break_even_calibration_pct;
    std::optional<double> break_even_moisture_pct; ///< points
    std::string fragile;                           ///< "fragile", "moderate", "sturdy" or empty
    std::optional<double> detectable_t_ha;         ///< difference the layout could have shown with 80 % power
    std::string unit_what;                         ///< "pairs", "fields", "segments of one split" ...
    int unit_n = 0;
    std::string estimator;
    Finding finding = Finding::not_shown;
    std::optional<double> yield_t_ha, baseline_yield_t_ha; ///< sum mass / sum area of each
    std::optional<double> raw_gain_t_ha; ///< difference of plain record means, as the raw map shows it
    std::vector<Estimate> also;
    std::vector<Estimate> robustness; ///< the gain with one thing changed; filled by the job
    /// The same analysis on earlier maps of this land, when nothing was done: `estimator` names the map, `note` says how.
    std::vector<Estimate> earlier;
    std::vector<PairDifference> pairs;
    std::vector<BudgetLine> budget;
    std::optional<Placebo> placebo;
    std::vector<std::string> leaves_out;
    /// The methods were cut by machines of their own that nothing checks against each other: the difference may be the
    /// machines', so the finding is held at not shown. `leaves_out` begins with it in words.
    bool machine_is_method = false;
    std::string coin_caution; ///< the sentence of `leaves_out` on drawing by a coin, changed with the finding; or empty
};

/// How often each level of something met each method, for the confounding table.
struct Crossing {
    std::string what; ///< "machine", "date", "variety"
    std::vector<std::string> levels, methods;
    std::vector<std::vector<double>> area_ha; ///< [level][method]
};

/// The spatial model that was chosen for a split field: where its re-runs begin.
struct SpatialModel {
    bool spherical = false, anisotropic = false;
    double sill = 0.0, range_m = 0.0, nugget = 0.0, pass = 0.0, across_ratio = 1.0; ///< variances in (t/ha)2
};

struct FieldComparison {
    std::string name;
    Evidence evidence = Evidence::whole_field;
    std::vector<Contrast> contrasts;
    std::vector<Crossing> crossings;
    std::optional<SpatialModel> spatial;
    Issues issues;
};

/// One field pooled: every number is the field's own. Several: they speak of fields like these. The range for a next
/// field holds the instruments' errors too and is never narrower than the total interval.
struct FarmContrast {
    std::string method, baseline;
    std::optional<double> gain_t_ha, se_t_ha, df;
    std::optional<Interval> ci95_t_ha, ci95_total_t_ha, prediction95_t_ha;
    std::optional<double> p, tau_t_ha, i2_pct, u_shared_t_ha;
    int fields = 0;
    std::string evidence; ///< which class was pooled: classes are never mixed
    std::string estimator;
    Finding finding = Finding::not_shown;
    std::vector<std::string> field_names;
    std::vector<std::string> leaves_out;
    bool machine_is_method = false; ///< as in a contrast, of at least one of the fields
    std::vector<BudgetLine> budget; ///< lines common to all fields, added after pooling
    std::optional<double> df_total, u_total_t_ha;
    std::optional<double> p_adjusted; ///< Holm over the rows of one kind of evidence, for information
    int looks = 1;                    ///< rows of one kind: total and prediction hold for all at once
    /// Speaks of the fields in the trial, not of fields like them: the mean of their gains over their land (fixed
    /// weights), its error from the fields' own errors alone. From two pooled fields on.
    std::optional<double> these_fields_gain_t_ha;
    std::optional<Interval> these_fields_ci95_total_t_ha;
    int years = 1;                            ///< more in the rows of `Comparison::seasons`
    std::optional<double> between_years_t_ha; ///< standard deviation, several seasons only; tau is then within a year
};

struct Comparison {
    std::vector<FieldComparison> fields; ///< same order as the input
    std::vector<FarmContrast> farm;
    std::vector<FarmContrast> seasons;  ///< fields within years, with the earlier results; empty without them
    std::vector<EarlierSeason> earlier; ///< the earlier results that were given
    std::vector<Crossing> crossings;    ///< of the season, e.g. variety x method over fields
    Issues issues;
};

/// The three views of one field, by reference.
struct FieldView {
    const StandardField& standard;
    const CleanedField& cleaned;
    const ZonedField& zoned;
};

/// Records of one earlier year, standardised, cleaned and cut up by this season's method areas. Nothing was done that
/// year that differed between them, so what they differ by is the land's own.
struct EarlierMap {
    std::string name; ///< as the season file writes it
    Standardised standardised;
    Cleaned cleaned;
    std::vector<ZonedField> zoned; ///< one per field of `standardised`; fields are found by name
};

/// What [history] names.
struct History {
    std::vector<EarlierMap> maps;
    std::vector<EarlierSeason> seasons;
};

struct CompareOptions {
    bool sensitivity = true; ///< also fit the spatial models beside the primary answer
    int placebo_layouts = 0;
    std::uint64_t seed = 20250901; ///< of every random draw: same input, same answer
    int jobs = 0;
    const History* history = nullptr; ///< lives as long as the call
    /// For re-runs with one thing changed: split fields keep the form of model found here and begin at its parameters,
    /// on half as many cells. Their estimates move by a small part of their error, their cost falls to a tenth.
    const std::vector<FieldComparison>* begin_at = nullptr;
};

/// Puts one more source of error into a contrast (or in the place of a line of the same `source`) and recomputes its
/// total uncertainty, total interval and finding. For errors only re-runs can tell. Call `pool_farm` when all fields
/// have theirs.
void add_budget_line(Contrast& contrast, BudgetLine line);

/// Pools the fields again from their contrasts: after `add_budget_line` on any of them.
/// `comparison.fields` must be the answer of `compare` for these very inputs.
void pool_farm(Comparison& comparison, const Season& season, const Standardised& standardised, const Cleaned& cleaned,
               const std::vector<ZonedField>& zoned);

/// Every field by itself, in their order: no field's answer depends on which others are looked at. `cleaned` holds the
/// fields alike; its factors and delays are the season's. \throws InputError  the baseline is no method of the season
[[nodiscard]] std::vector<FieldComparison> compare_each_field(const Season& season, const Standardised& standardised,
                                                              const Cleaned& cleaned,
                                                              const std::vector<ZonedField>& zoned,
                                                              const CompareOptions& options);

/// The season from its fields' answers: the farm pooled, what is mixed up with the methods everywhere said once.
/// \param fields  the answers of `compare_each_field` for these very inputs, from one run or several
[[nodiscard]] Comparison bring_together(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                                        const std::vector<ZonedField>& zoned, std::vector<FieldComparison> fields,
                                        const History* history);

/// Pools the fields again, their contrasts having changed since `bring_together`. Adds no issue.
void pool_farm(Comparison& comparison, const Season& season, const Standardised& standardised, const Cleaned& cleaned,
               const std::vector<ZonedField>& zoned);

/// Each field, then the season.
[[nodiscard]] Comparison compare(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                                 const std::vector<ZonedField>& zoned, const CompareOptions& options);

} // namespace quartercut
