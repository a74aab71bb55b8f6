// SPDX-License-Identifier: MIT
// Trade words by meaning. Common practice, no source: the words are what any grower or manual would write.
#include "read/column_words.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <array>

namespace quartercut::reading {
namespace {

using enum Meaning;

constexpr std::array<ColumnWord, 116> words{{
    {yield, "yield", 10},
    {yield, "yld", 10},
    {yield, "dryyield", 10},
    {yield, "wetyield", 10},
    {yield, "yieldmass", 10},
    {yield, "yields", 9},
    {flow, "flow", 10},
    {flow, "mass flow", 11},
    {flow, "massflow", 11},
    {flow, "flow rate", 11},
    {flow, "flowrate", 11},
    {flow, "throughput", 8},
    {flow, "grainflow", 11},
    {moisture, "moisture", 10},
    {moisture, "moist", 10},
    {moisture, "mst", 8},
    {moisture, "moisture content", 11},
    {moisture, "h2o", 7},
    {moisture, "mstr", 8},
    {speed, "speed", 10},
    {speed, "spd", 9},
    {speed, "velocity", 9},
    {speed, "ground speed", 11},
    {speed, "groundspeed", 11},
    {speed, "vehicle speed", 11},
    {speed, "travel speed", 11},
    {speed, "forward speed", 11},
    {speed, "gps speed", 11},
    {distance, "distance", 10},
    {distance, "dist", 10},
    {distance, "travel", 6},
    {distance, "distance travelled", 11},
    {distance, "distance traveled", 11},
    {distance, "travelled", 7},
    {distance, "dst", 8},
    {distance, "travel distance", 11},
    {duration, "duration", 10},
    {duration, "dur", 9},
    {duration, "cycle", 7},
    {duration, "cycles", 7},
    {duration, "cycle time", 10},
    {duration, "interval", 8},
    {duration, "logging interval", 11},
    {duration, "log interval", 11},
    {duration, "elapsed time", 9},
    {duration, "elapsed", 7},
    {duration, "time interval", 10},
    {duration, "time step", 9},
    {duration, "timestep", 9},
    {duration, "record time", 7},
    {width, "width", 10},
    {width, "swath", 8},
    {width, "swath width", 11},
    {width, "cut width", 11},
    {width, "cutting width", 11},
    {width, "working width", 11},
    {width, "work width", 11},
    {width, "header width", 11},
    {width, "swathwidth", 11},
    {width, "swth", 7},
    {width, "wdth", 9},
    {width, "effective width", 11},
    {width, "widthcut", 10},
    {width, "cutwidth", 10},
    {time, "time", 8},
    {time, "timestamp", 11},
    {time, "time stamp", 11},
    {time, "datetime", 11},
    {time, "date time", 11},
    {time, "date and time", 11},
    {time, "gps time", 10},
    {time, "gpstime", 10},
    {time, "utc", 8},
    {time, "utc time", 10},
    {time, "unix time", 11},
    {time, "epoch", 9},
    {time, "iso time", 11},
    {time, "isotime", 11},
    {time, "recorded at", 8},
    {time, "gps week seconds", 11},
    {time, "gps seconds", 11},
    {time, "time of week", 11},
    {time, "unix", 9},
    {heading, "heading", 10},
    {heading, "course", 8},
    {heading, "bearing", 9},
    {heading, "track", 7},
    {heading, "azimuth", 8},
    {heading, "direction", 7},
    {heading, "cog", 7},
    {heading, "course over ground", 11},
    {machine, "machine", 10},
    {machine, "combine", 9},
    {machine, "harvester", 9},
    {machine, "machine id", 11},
    {machine, "machine name", 11},
    {machine, "combine id", 11},
    {machine, "combine name", 11},
    {machine, "vehicle", 6},
    {machine, "mach", 8},
    {header, "header", 7},
    {header, "header up", 11},
    {header, "header down", 11},
    {header, "header status", 11},
    {header, "header state", 11},
    {header, "header position", 10},
    {header, "head up", 10},
    {header, "head down", 10},
    {load, "load", 9},
    {load, "load id", 11},
    {load, "load number", 11},
    {load, "load no", 11},
    {load, "load name", 11},
    {load, "loadid", 11},
    {load, "loadno", 11},
    {load, "ticket", 6},
}};

constexpr std::array<ColumnWord, 26> place_words{{
    {longitude, "longitude", 12},
    {longitude, "lon", 11},
    {longitude, "long", 11},
    {longitude, "lng", 11},
    {longitude, "longitude deg", 12},
    {longitude, "x", 6},
    {longitude, "easting", 9},
    {longitude, "east", 6},
    {longitude, "x coordinate", 8},
    {longitude, "xcoord", 8},
    {longitude, "coord x", 8},
    {latitude, "latitude", 12},
    {latitude, "lat", 11},
    {latitude, "latitude deg", 12},
    {latitude, "y", 6},
    {latitude, "northing", 9},
    {latitude, "north", 6},
    {latitude, "y coordinate", 8},
    {latitude, "ycoord", 8},
    {latitude, "coord y", 8},
    {date, "date", 9},
    {date, "day", 5},
    {date, "gps date", 10},
    {date, "local date", 10},
    {clock, "clock", 8},
    {clock, "time of day", 11},
}};

constexpr std::array<ColumnWord, words.size() + place_words.size()> all_words = [] {
    std::array<ColumnWord, words.size() + place_words.size()> joined{};
    std::copy(words.begin(), words.end(), joined.begin());
    std::copy(place_words.begin(), place_words.end(), joined.begin() + words.size());
    return joined;
}();

constexpr std::array<ForbiddenWord, 13> forbidden{{
    {yield,
     " target average avg min max goal expected price loss losses class id std sd rank previous history number count "
     "potential zone limit total name "},
    {flow, " fuel air return tailings delay lag status max min total number volume oil hydraulic "},
    {moisture, " soil delay lag status min max target class basis standard number temperature "},
    {speed, " fan engine wind rotor drum cylinder rpm max min elevator chopper sieve limit status "},
    {distance, " row offset antenna total height max min sensor "},
    {duration, " engine delay lag start end total "},
    {width, " row offset sensor max total status "},
    {time, " engine zone delay lag lead fill interval cycle elapsed step hours start end total "},
    {heading, " wind error "},
    {machine, " speed hours width height type serial model status engine load heading "},
    {header, " width height type name offset rows make model id "},
    {load, " engine factor fuel status time count total weight mass moisture "},
    {date, " seeded planted seeding planting birth time updated created modified "},
}};

constexpr std::string_view fillers =
    " grain crop value gps vehicle actual wet dry mass vol volume instantaneous instant inst raw monitor sensor logged "
    "harvest adjusted current the of at local utc record recorded measured wgs84 deg dd decimal degrees ";

} // namespace

bool in_list(std::string_view list, std::string_view word) {
    if (word.empty()) return false;
    std::size_t at = list.find(word);
    while (at != std::string_view::npos) {
        const bool starts = at > 0 && list[at - 1] == ' ';
        const bool ends = at + word.size() < list.size() && list[at + word.size()] == ' ';
        if (starts && ends) return true;
        at = list.find(word, at + 1);
    }
    return false;
}

std::span<const ColumnWord> column_words() { return all_words; }

std::string_view forbidden_words(Meaning meaning) {
    for (const ForbiddenWord& entry : forbidden)
        if (entry.meaning == meaning) return entry.words;
    return {};
}

bool is_filler(std::string_view word) { return in_list(fillers, word); }

std::optional<Dimension> stated_dimension_of(Meaning meaning) {
    if (meaning == longitude || meaning == latitude) return std::nullopt;
    return dimension_of(meaning);
}

} // namespace quartercut::reading
