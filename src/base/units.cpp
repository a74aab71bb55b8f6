// SPDX-License-Identifier: MIT
// Units by name: a unit is read as a product of basic units with powers ("kg s-1", "bu/ac"), so every combination of a
// known mass with a known area or time works, and a speed given where a length is wanted is refused.
#include "quartercut/units.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace quartercut {
namespace {

/// Powers of metre, kilogram, second, dollar and degree; percent is a plain number times 0.01.
struct Powers {
    int metre = 0, kilogram = 0, second = 0, dollar = 0, degree = 0;
    friend bool operator==(const Powers&, const Powers&) = default;
};

struct Unit {
    double factor = 1.0;
    Powers powers;
};

struct NamedUnit {
    std::string_view names; ///< lower case, with a blank on either side of each
    Unit unit;
};

constexpr double seconds_per_hour = 3600.0;
constexpr Powers length{1, 0, 0, 0, 0}, area{2, 0, 0, 0, 0}, mass{0, 1, 0, 0, 0}, duration{0, 0, 1, 0, 0};
constexpr Powers speed{1, 0, -1, 0, 0}, money{0, 0, 0, 1, 0}, angle{0, 0, 0, 0, 1}, plain{};

// Trade units: Weights and Measures Act, R.S.C. 1985, c. W-6, Schedules I and II. Metric: the International System.
constexpr std::array<NamedUnit, 36> named_units{{
    {" m metre metres meter meters ", {1.0, length}},
    {" cm centimetre centimetres centimeter centimeters ", {0.01, length}},
    {" mm millimetre millimetres millimeter millimeters ", {0.001, length}},
    {" km kilometre kilometres kilometer kilometers ", {1000.0, length}},
    {" ft foot feet ' \xE2\x80\xB2 ", {m_per_foot, length}},
    {" in inch inches \" \xE2\x80\xB3 ", {m_per_inch, length}},
    {" yd yds yard yards ", {m_per_yard, length}},
    {" mi mile miles ", {m_per_mile, length}},
    {" ac acre acres ", {m2_per_acre, area}},
    {" ha hectare hectares ", {m2_per_hectare, area}},
    {" sqft ", {m_per_foot * m_per_foot, area}},
    {" sqm ", {1.0, area}},
    {" kg kgs kilo kilos kilogram kilograms ", {1.0, mass}},
    {" g gram grams ", {0.001, mass}},
    {" t tonne tonnes mt ", {kg_per_tonne, mass}},
    {" lb lbs pound pounds ", {kg_per_pound, mass}},
    {" oz ounce ounces ", {kg_per_pound / 16.0, mass}},
    {" cwt hundredweight ", {100.0 * kg_per_pound, mass}},
    {" shortton shorttons ton tons ", {kg_per_short_ton, mass}},
    {" s sec secs second seconds ", {1.0, duration}},
    {" ms millisecond milliseconds msec ", {0.001, duration}},
    {" min mins minute minutes ", {60.0, duration}},
    {" h hr hrs hour hours ", {seconds_per_hour, duration}},
    {" d day days ", {24.0 * seconds_per_hour, duration}},
    {" mph ", {m_per_mile / seconds_per_hour, speed}},
    {" kph kmh kmph ", {1000.0 / seconds_per_hour, speed}},
    {" mps ", {1.0, speed}},
    {" fps ", {m_per_foot, speed}},
    {" kn knot knots kt kts ", {1852.0 / seconds_per_hour, speed}}, // international nautical mile, exact
    {" $ cad dollar dollars ", {1.0, money}},
    {" \xC2\xA2 cent cents ", {0.01, money}},
    {" deg degs degree degrees \xC2\xB0 ", {1.0, angle}},
    {" rad rads radian radians ", {180.0 / std::numbers::pi, angle}},
    {" % percent pct ", {0.01, plain}},
    {" \xE2\x80\xB0 permille ", {0.001, plain}},
    {" fraction ratio ", {1.0, plain}},
}};

std::optional<Unit> named_unit(std::string_view word, std::optional<double> bushel_lb) {
    if (word == "Mg") return Unit{kg_per_tonne, mass}; // megagram; a milligram is nothing we meet
    const std::string wanted = fmt::format(" {} ", lower(word));
    if (wanted == " bu " || wanted == " bus " || wanted == " bushel " || wanted == " bushels ") {
        if (!bushel_lb || !(*bushel_lb > 0.0)) return std::nullopt;
        return Unit{*bushel_lb * kg_per_pound, mass};
    }
    for (const NamedUnit& named : named_units)
        if (named.names.find(wanted) != std::string_view::npos) return named.unit;
    return std::nullopt;
}

/// The same unit with every fancy sign in its plain form: "kg·s⁻¹" -> "kg s-1", "lb per acre" -> "lb / acre".
std::string plain_spelling(std::string_view unit) {
    std::string text = fmt::format(" {} ", trim(unit));
    static constexpr std::array<std::array<std::string_view, 2>, 20> spellings{{{"\xC2\xA0", " "},
                                                                                {"\xC2\xB7", " "},
                                                                                {"\xE2\x8B\x85", " "},
                                                                                {"**", "^"},
                                                                                {"*", " "},
                                                                                {"\xC2\xB2", "2"},
                                                                                {"\xC2\xB9", "1"},
                                                                                {"\xE2\x81\xBB", "-"},
                                                                                {"\xE2\x88\x92", "-"},
                                                                                {"^", ""},
                                                                                {"/", " / "},
                                                                                {" per cent ", " % "},
                                                                                {" Per Cent ", " % "},
                                                                                {" per ", " / "},
                                                                                {" Per ", " / "},
                                                                                {" PER ", " / "},
                                                                                {" sq. ", " square "},
                                                                                {" sq ", " square "},
                                                                                {" Sq ", " square "},
                                                                                {" short t", " shortt"}}};
    for (const auto& [from, to] : spellings)
        text = replace_all(text, from, to);
    return text;
}

Unit power_of(const Unit& unit, int exponent) {
    const Powers& p = unit.powers;
    return {std::pow(unit.factor, exponent),
            {p.metre * exponent, p.kilogram * exponent, p.second * exponent, p.dollar * exponent, p.degree * exponent}};
}

Unit product(const Unit& a, const Unit& b) {
    return {a.factor * b.factor,
            {a.powers.metre + b.powers.metre, a.powers.kilogram + b.powers.kilogram, a.powers.second + b.powers.second,
             a.powers.dollar + b.powers.dollar, a.powers.degree + b.powers.degree}};
}

/// One word with its power: "ha-1", "m2", "lb".
std::optional<Unit> unit_word(std::string_view word, bool squared, std::optional<double> bushel_lb) {
    const std::size_t name_end = word.find_last_not_of("0123456789");
    int exponent = 1;
    if (name_end != std::string_view::npos && name_end + 1 < word.size()) {
        const bool negative = word[name_end] == '-';
        const std::optional<int> digits = parse_whole_number(word.substr(name_end + 1));
        if (!digits || *digits < 1 || *digits > 2) return std::nullopt;
        exponent = negative ? -*digits : *digits;
        word = word.substr(0, negative ? name_end : name_end + 1);
    }
    if (word.size() > 1 && word.ends_with('.')) word.remove_suffix(1);
    const std::optional<Unit> basic = named_unit(word, bushel_lb);
    if (!basic) return std::nullopt;
    return power_of(*basic, squared ? 2 * exponent : exponent);
}

/// A whole unit: words multiplied, those after a slash divided.
std::optional<Unit> parse_unit(std::string_view text, std::optional<double> bushel_lb) {
    Unit whole;
    bool any = false, divide = false, squared = false, after_slash = false;
    for (const std::string& word : split(plain_spelling(text.substr(0, 80)), ' ')) {
        if (word.empty()) continue;
        if (word == "/") {
            if (after_slash) return std::nullopt;
            divide = after_slash = true;
            continue;
        }
        if (lower(word) == "square") {
            squared = true;
            continue;
        }
        const std::optional<Unit> unit = unit_word(word, squared, bushel_lb);
        if (!unit) return std::nullopt;
        whole = product(whole, divide ? power_of(*unit, -1) : *unit);
        any = true;
        squared = after_slash = false;
    }
    if (!any || squared || after_slash) return std::nullopt;
    return whole;
}

struct DimensionFacts {
    Dimension dimension;
    Powers powers;
    double scale;           ///< program's units in one product of basic units
    std::string_view words; ///< what to call it in a message
    std::string_view known;
};

constexpr std::array<DimensionFacts, 13> dimensions{{
    {Dimension::length, length, 1.0, "a length", "m, cm, km, ft, in, yd, mi"},
    {Dimension::area, area, 1.0, "an area", "ac, ha, m2, ft2"},
    {Dimension::mass, mass, 1.0, "a mass", "kg, t, lb, bu, ton (2000 lb)"},
    {Dimension::mass_flow, {0, 1, -1, 0, 0}, 1.0, "a mass per time", "kg/s, lb/s, t/h, bu/h"},
    {Dimension::speed, speed, 1.0, "a speed", "m/s, km/h, mph, ft/s"},
    {Dimension::duration, duration, 1.0, "a time", "s, ms, min, h"},
    {Dimension::yield, {-2, 1, 0, 0, 0}, 1.0, "a yield", "t/ha, kg/ha, bu/ac, lb/ac, kg/m2"},
    {Dimension::moisture, plain, 100.0, "a moisture", "%, fraction"},
    {Dimension::angle, angle, 1.0, "an angle", "deg, rad"},
    {Dimension::money_per_area, {-2, 0, 0, 1, 0}, 1.0, "money per area", "$/ac, $/ha"},
    {Dimension::money_per_mass, {0, -1, 0, 1, 0}, 1.0, "money per mass", "$/bu, $/t, $/kg, $/lb"},
    {Dimension::money, money, 1.0, "money", "$"},
    {Dimension::ratio, plain, 100.0, "a share", "%, fraction"},
}};

const DimensionFacts& facts_of(Dimension dimension) {
    for (const DimensionFacts& facts : dimensions)
        if (facts.dimension == dimension) return facts;
    throw InternalError("A dimension is missing from the table of units.");
}

/// Length of the number at the front of `text`; 0 when it does not start with one.
std::size_t number_length(std::string_view text) {
    std::size_t at = 0;
    const auto digits = [&] {
        const std::size_t start = at;
        while (at < text.size() && is_digit(text[at]))
            ++at;
        return at - start;
    };
    if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
    std::size_t count = digits();
    if (at < text.size() && text[at] == '.') {
        ++at;
        count += digits();
    }
    if (count == 0) return 0;
    // An exponent only where digits follow: "3e2 kg", but not the e of a unit.
    const std::size_t mantissa_end = at;
    if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        ++at;
        if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
        if (digits() > 0) return at;
    }
    return mantissa_end;
}

} // namespace

std::optional<double> unit_factor(Dimension dimension, std::string_view unit, std::optional<double> bushel_lb) {
    const DimensionFacts& facts = facts_of(dimension);
    const std::optional<Unit> parsed = parse_unit(unit, bushel_lb);
    if (!parsed || !(parsed->powers == facts.powers)) return std::nullopt;
    return parsed->factor * facts.scale;
}

std::string known_units(Dimension dimension) { return std::string(facts_of(dimension).known); }

ParsedQuantity parse_quantity(Dimension dimension, std::string_view text, std::optional<double> bushel_lb) {
    const DimensionFacts& facts = facts_of(dimension);
    const std::string_view written = trim(text);
    const auto refuse = [&](std::string_view why) {
        return InputError(fmt::format("\"{}\" {}; write {} as a number and a unit ({}).", shortened(written), why,
                                      facts.words, facts.known));
    };
    // "$14.20/bu" is how money is said; it reads as "14.20 $/bu".
    const bool dollar_first = written.starts_with('$');
    const std::string_view rest = trim(dollar_first ? written.substr(1) : written);
    const std::size_t length_of_number = number_length(rest);
    if (length_of_number == 0) throw refuse("does not start with a number");
    const std::optional<double> number = parse_number(rest.substr(0, length_of_number));
    if (!number) throw refuse("holds a number that cannot be used");
    const std::string_view after = rest.substr(length_of_number);
    if (after.starts_with(',')) throw refuse("has a comma in its number (the decimal sign is a point)");
    if (!trim(after).empty() && (is_digit(trim(after).front()) || after.front() == '.'))
        throw refuse("has more than one number");
    const std::string unit = fmt::format("{}{}", dollar_first ? "$" : "", trim(after));
    if (unit.empty()) throw refuse("has no unit, and units are never guessed");
    const std::optional<double> factor = unit_factor(dimension, unit, bushel_lb);
    if (!factor)
        throw refuse(fmt::format("has the unit \"{}\", which is not known as {}", shortened(unit), facts.words));
    const double value = *number * *factor;
    if (!std::isfinite(value)) throw refuse("is too large");
    return {value, unit};
}

std::optional<YieldUnit> yield_unit_from(std::string_view word) {
    // Any spelling of the four: the same unit gives the same factor. The bushel weight only has to be like no other.
    constexpr double some_bushel_lb = 50.123456789;
    const std::optional<double> factor = unit_factor(Dimension::yield, word, some_bushel_lb);
    if (!factor) return std::nullopt;
    for (const YieldUnit unit : {YieldUnit::bu_ac, YieldUnit::t_ha, YieldUnit::kg_ha, YieldUnit::lb_ac})
        if (std::abs(*factor / *unit_factor(Dimension::yield, yield_unit_word(unit), some_bushel_lb) - 1.0) < 1e-12)
            return unit;
    return std::nullopt;
}

const char* yield_unit_word(YieldUnit unit) {
    switch (unit) {
    case YieldUnit::bu_ac:
        return "bu/ac";
    case YieldUnit::t_ha:
        return "t/ha";
    case YieldUnit::kg_ha:
        return "kg/ha";
    case YieldUnit::lb_ac:
        return "lb/ac";
    }
    throw InternalError("A yield unit without a name.");
}

namespace {

/// One `unit` in t/ha.
double t_ha_per(YieldUnit unit, double bushel_lb) {
    constexpr double t_ha_per_kg_m2 = m2_per_hectare / kg_per_tonne;
    switch (unit) {
    case YieldUnit::bu_ac:
        if (!(bushel_lb > 0.0)) throw InternalError("A bushel weight is needed to speak in bushels.");
        return bushel_lb * kg_per_pound / m2_per_acre * t_ha_per_kg_m2;
    case YieldUnit::t_ha:
        return 1.0;
    case YieldUnit::kg_ha:
        return 1.0 / kg_per_tonne;
    case YieldUnit::lb_ac:
        return kg_per_pound / m2_per_acre * t_ha_per_kg_m2;
    }
    throw InternalError("A yield unit without a size.");
}

} // namespace

double from_t_ha(double yield_t_ha, YieldUnit unit, double bushel_lb) { return yield_t_ha / t_ha_per(unit, bushel_lb); }
double to_t_ha(double yield, YieldUnit unit, double bushel_lb) { return yield * t_ha_per(unit, bushel_lb); }

} // namespace quartercut
