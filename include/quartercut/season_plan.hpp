// SPDX-License-Identifier: MIT
// What the season file says about money, losses, weather and next year. Nothing here is needed to compare methods.
//
// Money stands in cents of one currency per unit of the program (m2, s, kg); no price and no rate is built in.
#pragma once

#include "quartercut/units.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// What an amount of money is for.
enum class MoneyPer { area, hour, mass, once, share_of_price };

enum class CostKind { swathing, harvest_aid, application, combining, drying, trampling, grade, ownership, other };

/// "swathing", "harvest-aid", ...: the word used in the season file.
[[nodiscard]] const char* cost_kind_word(CostKind kind);

/// One [[money.cost]]: what one way of cutting costs. An amount of 0 is said by the grower, never assumed.
struct CostItem {
    CostKind kind = CostKind::other;
    std::string item;   ///< in the grower's words; defaults to the kind
    std::string method; ///< empty: every method
    MoneyPer per = MoneyPer::area;
    double amount = 0.0;      ///< cents per m2, per s, per kg, cents at once, or a share of the price (0..1)
    double u = 0.0;           ///< standard uncertainty, as `amount`; 0 where none is given
    bool per_point = false;   ///< drying: for each point of moisture taken out of a kilogram
    double work_m2_s = 0.0;   ///< per hour: land worked a second
    double over_m2 = 0.0;     ///< at once: the land that shares it
    double crushed_share = 0; ///< trampling: crushed width over boom width
    bool in_yield = false;    ///< trampling: the measured yield has lost it already
    std::string written;      ///< the amount as written
    std::string as_of, source;
};

struct MoneyInput {
    std::string currency = "$";
    std::string as_of, source; ///< day (year-month-day) and note that hold for every amount without its own
    std::optional<double> price_cents_kg;
    double price_u_cents_kg = 0.0;
    std::string price_written;
    std::vector<CostItem> costs;
};

struct LossCountsInput {
    std::string file;    ///< trays and pans; may be empty when only samples are given
    std::string samples; ///< seed weight and grade samples; may be empty
    unsigned line = 0;
};

struct WeatherInput {
    std::string file;
    std::vector<std::string> in_swath; ///< methods that lie in a swath before the combine comes
    std::string swathed_column;        ///< column of the boundaries with the day of swathing; empty: not known
    std::string ripe_column;           ///< the day the standing crop was ripe
    unsigned line = 0;
};

/// How many acres may go which way, and what the machines can do.
struct MethodLimits {
    std::string method;
    double share_low = 0.0, share_high = 1.0;
    std::optional<double> cut_m2_day;     ///< land the cutter (swather) of this method does in a day
    std::optional<double> combine_m2_day; ///< land one day of all combines does of this method
    std::string ready_column;             ///< column with the day the field is ready for the first cut
    int cure_days = 0;                    ///< days from that cut to the combine
};

/// A grower's column, what it speaks for, and which words in it count.
struct SuitabilityNote {
    std::string column, favours, because;
    std::vector<std::string> words; ///< empty: yes, true, 1, high, x
};

struct LayoutChoice {
    std::vector<std::string> methods;    ///< the two compared; empty: baseline and the other
    std::optional<double> direction_deg; ///< clockwise from north; unset: as the passes of this season run
    double headland_m = 40.0;            ///< kept free along the edge
    double obstacle_m = 12.0;            ///< kept free around holes of the boundary
    double overlap_m = 0.0;              ///< of neighbouring passes
    double min_length_m = 300.0;         ///< methods of practice: at least 300 m
    int guard_passes = 0;                ///< on either side of a strip, cut its way but not compared
    int most_pairs = 12;
    std::optional<double> difference_t_ha;   ///< what must be shown; unset: the break-even gain
    std::optional<double> minutes_per_strip; ///< extra time a strip costs at harvest
    bool weighed = false;                    ///< every strip is weighed on one scale, so monitors do not matter
    std::uint64_t seed = 1;
};

struct NextYearInput {
    std::string file, layer, crs; ///< empty file: this season's boundaries
    std::string name_column;
    int year = 0;
    std::string crop_column;    ///< fields of another crop are no candidates
    std::string variety_column; ///< shown beside the field
    std::string fixed_column;   ///< a method the field must be cut by
    std::vector<MethodLimits> methods;
    std::vector<SuitabilityNote> notes;
    std::optional<double> note_cents_m2;    ///< what one note is worth; unset: notes are only listed
    double risk = 0.0;                      ///< 0: expected money alone; 1: a possible loss counts twice
    int harvest_days = 0;                   ///< from the first ready day on; 0: not limited
    double years = 1.0;                     ///< years the decision will be used
    std::optional<double> trial_cost_cents; ///< of one trial field
    std::optional<double> spread_t_ha;      ///< field-to-field spread of the gain, where the farm's is not known
    LayoutChoice layout;
    unsigned line = 0;
};

} // namespace quartercut
