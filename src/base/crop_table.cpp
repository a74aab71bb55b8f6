// SPDX-License-Identifier: MIT
// Every number we hold about a crop, with its source beside it, and the two ways mass changes with moisture.
//
// Moisture classes (percent, wet basis, to 0.1): Off Grades of Grain and Grades of Screenings Order, C.R.C., c. 890,
// Schedules I and II, consolidated 2025-08-12, last amended 2025-08-01 by SOR/2025-153 (Canada). "Sch." below.
// Bushel weights: Government of Alberta, Bushel/Tonne page reviewed 2002-02-02, quoting the Canada Grains Council's
// Statistical Handbook 1999. "CGC 1999" below; the pound weight is what the printed bushels per tonne imply.
// Believable yields of a single record are a judgement of ours, wide on purpose: no crop gives more, no monitor that
// works reads less where grain stood.
#include "quartercut/crop.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace quartercut {
namespace {

/// Highest moisture still in each class; absent where the law sets no such class.
struct Limits {
    std::optional<double> dry, tough, damp, moist;
};

struct YieldRange {
    double low_t_ha, high_t_ha;
};

Crop row(const char* name, double bushel_lb, const Limits& limits, YieldRange range, std::vector<std::string> also) {
    Crop crop;
    crop.name = name;
    crop.basis_pct = limits.dry.value_or(0.0);
    crop.bushel_lb = bushel_lb;
    crop.dry_to_pct = limits.dry;
    crop.tough_to_pct = limits.tough;
    crop.damp_to_pct = limits.damp;
    crop.moist_to_pct = limits.moist;
    crop.yield_low_t_ha = range.low_t_ha;
    crop.yield_high_t_ha = range.high_t_ha;
    crop.also = std::move(also);
    return crop;
}

Limits to_damp(double dry, double tough) { return {dry, tough, std::nullopt, std::nullopt}; }

std::vector<Crop> oilseeds() {
    return {
        // Sch. I; CGC 1999: 44.0920 bu/t, 50 lb.
        row("canola", 50.0, to_damp(10.0, 12.5), {0.1, 6.0}, {"canola seed"}),
        // Sch. I; CGC 1999 together with canola: 44.0920 bu/t, 50 lb.
        row("rapeseed", 50.0, to_damp(10.0, 12.5), {0.1, 6.0}, {"rape"}),
        // Sch. II; CGC 1999: 39.3680 bu/t, 56 lb.
        row("flax", 56.0, to_damp(10.0, 13.5), {0.05, 4.0}, {"flaxseed", "linseed"}),
        // Sch. I (domestic mustard); CGC 1999: 44.0920 bu/t, 50 lb.
        row("mustard", 50.0, to_damp(9.5, 12.5), {0.05, 4.0}, {"mustard seed", "domestic mustard"}),
        // Sch. I; CGC 1999: 73.4870 bu/t, 30 lb.
        row("sunflower", 30.0, {9.5, 13.5, 17.0, 22.0}, {0.1, 6.0}, {"sunflowers", "sunflower seed"}),
        // Sch. I; no published bushel weight at hand: the season file must give one.
        row("safflower", 0.0, {9.5, 13.5, 17.0, 22.0}, {0.05, 4.0}, {"safflowers"}),
        // Sch. I; CGC 1999: 36.7440 bu/t, 60 lb.
        row("soybeans", 60.0, {14.0, 16.0, 18.0, 20.0}, {0.1, 8.0}, {"soybean", "soy", "soya", "soyabeans"}),
    };
}

std::vector<Crop> wheats() {
    return {
        // Sch. II, western red spring and the classes with the same limits; CGC 1999: 36.7440 bu/t, 60 lb.
        row("wheat", 60.0, to_damp(14.5, 17.0), {0.1, 12.0},
            {"cwrs", "spring wheat", "red spring wheat", "cwhws", "hard white spring wheat", "cwad", "durum",
             "durum wheat", "cwrw", "winter wheat", "red winter wheat", "cwsws", "soft white wheat", "cwes",
             "extra strong wheat", "special purpose wheat", "feed wheat"}),
        // Sch. I since 2025-08-01 (SOR/2025-153); older copies of the Order lack these rows. Bushel as wheat.
        row("cps-wheat", 60.0, to_damp(14.5, 17.0), {0.1, 12.0},
            {"wheat cps", "cps", "cps red", "cps white", "prairie spring wheat", "cnhr", "northern hard red",
             "northern hard red wheat"}),
    };
}

std::vector<Crop> other_cereals() {
    return {
        // Sch. II, General Purpose class. CGC 1999: 45.9300 bu/t, 48 lb. Barley has three limits by class: the plain
        // word is read as this one, and the season says so in a note.
        row("feed-barley", 48.0, to_damp(14.8, 17.0), {0.1, 12.0},
            {"barley", "barley feed", "barley general purpose", "general purpose barley"}),
        // Sch. II, Malting and covered Food classes; bushel as above.
        row("malting-barley", 48.0, to_damp(13.5, 17.0), {0.1, 12.0},
            {"barley malting", "malt barley", "barley malt", "food barley", "covered food barley"}),
        // Sch. II, hulless Food class; bushel as above.
        row("hulless-barley", 48.0, to_damp(14.0, 17.0), {0.1, 12.0},
            {"barley hulless", "hulless food barley", "hull-less barley"}),
        // Sch. II; CGC 1999: 64.8420 bu/t, 34 lb (Canada).
        row("oats", 34.0, to_damp(13.5, 17.0), {0.1, 10.0}, {"oat", "oats canada"}),
        // Limits as above; 68.8944 bu/t, 32 lb in the United States (market data page, shown beside 64.8418).
        row("us-oats", 32.0, to_damp(13.5, 17.0), {0.1, 10.0}, {"oats us", "us oat", "oats usa"}),
        // Sch. II; CGC 1999: 39.3680 bu/t, 56 lb.
        row("rye", 56.0, to_damp(14.0, 17.0), {0.1, 11.0}, {"fall rye", "winter rye"}),
        // Sch. I; CGC 1999: 42.3960 bu/t, 52 lb.
        row("triticale", 52.0, to_damp(14.0, 17.0), {0.1, 11.0}, {}),
        // Sch. II; CGC 1999: 39.3680 bu/t, 56 lb.
        row("corn", 56.0, {15.5, 17.5, 21.0, 25.0}, {0.1, 22.0}, {"maize", "grain corn"}),
        // Sch. I; CGC 1999: 44.0920 bu/t, 50 lb.
        row("canary-seed", 50.0, to_damp(13.0, 17.0), {0.05, 4.5}, {"canary", "canaryseed"}),
        // Sch. I; CGC 1999: 45.9300 bu/t, 48 lb.
        row("buckwheat", 48.0, to_damp(16.0, 18.0), {0.05, 4.0}, {}),
    };
}

std::vector<Crop> pulses() {
    return {
        // Sch. I; CGC 1999: 36.7440 bu/t, 60 lb.
        row("peas", 60.0, to_damp(16.0, 18.0), {0.1, 9.0}, {"pea", "field peas", "dry peas"}),
        // Sch. I; 60 lb is common practice, no source.
        row("lentils", 60.0, to_damp(14.0, 16.0), {0.05, 5.0}, {"lentil"}),
        // Sch. II, desi and kabuli; 60 lb is common practice, no source.
        row("chickpeas", 60.0, to_damp(14.0, 16.0), {0.05, 5.0}, {"chickpea", "desi chickpeas", "kabuli chickpeas"}),
        // Sch. I; 60 lb is common practice, no source.
        row("faba-beans", 60.0, to_damp(16.0, 18.0), {0.1, 9.0}, {"faba bean", "fababeans", "fababean", "faba"}),
        // Sch. I sets damp (over 18.0) but no tough band, so there is no highest dry moisture and no legal floor for
        // shrink: the season file must give the basis. 60 lb is common practice, no source.
        row("beans", 60.0, {}, {0.05, 6.0}, {"bean", "dry beans", "field beans"}),
    };
}

std::vector<Crop> build_table() {
    std::vector<Crop> table;
    for (auto&& group : {oilseeds(), wheats(), other_cereals(), pulses()})
        table.insert(table.end(), group.begin(), group.end());
    return table;
}

/// Letters and digits only, small: "Canary Seed", "canary-seed" and "canaryseed" are one.
std::string bare(std::string_view name) {
    std::string letters;
    for (const char c : lower(name))
        if (is_letter(c) || is_digit(c)) letters += c;
    return letters;
}

/// The law writes moisture to 0.1 point; whole tenths compare without rounding trouble.
long tenths(double moisture_pct) { return std::lround(moisture_pct * 10.0); }

void require_moisture(double moisture_pct) {
    if (moisture_pct >= 0.0 && moisture_pct < 100.0) return;
    throw DataError(
        fmt::format("A moisture of {} % is impossible: moisture on the wet basis is at least 0 and less than "
                    "100 %.",
                    format_shortest(moisture_pct)));
}

} // namespace

const std::vector<Crop>& crop_table() {
    static const std::vector<Crop> table = build_table();
    return table;
}

const Crop* find_crop(std::string_view name) {
    const std::string wanted = bare(name);
    const auto same = [&wanted](const std::string& other) { return bare(other) == wanted; };
    for (const Crop& crop : crop_table())
        if (same(crop.name) || std::any_of(crop.also.begin(), crop.also.end(), same)) return &crop;
    return nullptr;
}

MoistureClass moisture_class(const Crop& crop, double moisture_pct) {
    require_moisture(moisture_pct);
    if (!crop.dry_to_pct || !crop.tough_to_pct)
        throw DataError(fmt::format(
            "The grading law sets no tough range for {}, so its grain has no dry or tough class.", crop.name));
    const long moisture = tenths(moisture_pct);
    if (moisture <= tenths(*crop.dry_to_pct)) return MoistureClass::dry;
    if (moisture <= tenths(*crop.tough_to_pct)) return MoistureClass::tough;
    if (!crop.damp_to_pct || moisture <= tenths(*crop.damp_to_pct)) return MoistureClass::damp;
    if (!crop.moist_to_pct || moisture <= tenths(*crop.moist_to_pct)) return MoistureClass::moist;
    return MoistureClass::wet;
}

double mass_at_moisture(double mass_kg, double from_pct, double to_pct) {
    require_moisture(from_pct);
    require_moisture(to_pct);
    return mass_kg * ((100.0 - from_pct) / (100.0 - to_pct));
}

double legal_shrink_pct(const Crop& crop, double before_pct, double after_pct) {
    require_moisture(after_pct);
    if (moisture_class(crop, before_pct) == MoistureClass::dry) return 0.0;
    const double to_pct = std::max(after_pct, *crop.dry_to_pct);
    if (to_pct >= before_pct) return 0.0;
    return (before_pct - to_pct) * 100.0 / (100.0 - to_pct);
}

} // namespace quartercut
