// SPDX-License-Identifier: MIT
// Units: the legal definitions, strong types for room doors, and the one place where units are converted.
//
// Inside the program everything is SI with the unit in the name (mass_kg, area_m2, yield_t_ha, moisture_pct). Trade
// units come in through `parse_quantity` / `unit_factor` and go out through `from_t_ha`.
//
// Source of the constants: Weights and Measures Act, R.S.C. 1985, c. W-6, Schedules I and II (Canada).
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace quartercut {

// ---- exact legal definitions -------------------------------------------------------------------------------------
inline constexpr double kg_per_pound = 0.45359237;     // 45 359 237 / 100 000 000 kg
inline constexpr double m_per_yard = 0.9144;           // 9 144 / 10 000 m
inline constexpr double m_per_foot = m_per_yard / 3.0; // 1/3 yard
inline constexpr double m_per_inch = m_per_foot / 12.0;
inline constexpr double m_per_mile = 1760.0 * m_per_yard;
inline constexpr double m2_per_acre = 4840.0 * m_per_yard * m_per_yard; // 4 840 square yards
inline constexpr double m2_per_hectare = 10000.0;
inline constexpr double kg_per_tonne = 1000.0;
inline constexpr double kg_per_short_ton = 2000.0 * kg_per_pound; // the Act's "ton"

/// A number with its unit in the type: `Metres + Hectares` does not compile, nor does `Metres m = 3.0`.
template <class Unit>
class Quantity {
public:
    constexpr Quantity() = default;
    constexpr explicit Quantity(double value) : value_(value) {}
    [[nodiscard]] constexpr double value() const { return value_; }
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.value_ + b.value_}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.value_ - b.value_}; }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity{k * a.value_}; }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
    friend constexpr auto operator<=>(Quantity, Quantity) = default;

private:
    double value_ = 0.0;
};

using Metres = Quantity<struct MetreUnit>;
using SquareMetres = Quantity<struct SquareMetreUnit>;
using Hectares = Quantity<struct HectareUnit>;
using Acres = Quantity<struct AcreUnit>;
using Kilograms = Quantity<struct KilogramUnit>;
using Tonnes = Quantity<struct TonneUnit>;
using TonnesPerHectare = Quantity<struct TonnePerHectareUnit>;
using Percent = Quantity<struct PercentUnit>;
using Seconds = Quantity<struct SecondUnit>;

[[nodiscard]] constexpr Hectares to_hectares(SquareMetres a) { return Hectares{a.value() / m2_per_hectare}; }
[[nodiscard]] constexpr Acres to_acres(SquareMetres a) { return Acres{a.value() / m2_per_acre}; }
[[nodiscard]] constexpr SquareMetres to_square_metres(Acres a) { return SquareMetres{a.value() * m2_per_acre}; }
[[nodiscard]] constexpr SquareMetres to_square_metres(Hectares a) { return SquareMetres{a.value() * m2_per_hectare}; }
[[nodiscard]] constexpr TonnesPerHectare yield(Kilograms mass, SquareMetres area) {
    return TonnesPerHectare{mass.value() / area.value() * m2_per_hectare / kg_per_tonne};
}

// ---- units by name -----------------------------------------------------------------------------------------------
enum class Dimension {
    length,
    area,
    mass,
    mass_flow,
    speed,
    duration,
    yield,
    moisture,
    angle,
    money_per_area,
    money_per_mass,
    money,
    ratio
};

/// Factor that turns a number in `unit` into the program's unit of that dimension:
/// m, m2, kg, kg/s, m/s, s, kg/m2 for yield, % for moisture and ratio, degree, $/m2, $/kg, $.
/// Spelling is forgiving ("ft", "feet", "bu/ac", "bu/acre", "lb/s", "kg s-1", "mph", "km/h", "in").
/// `bushel_lb` is the trade weight of a bushel (lb), needed for units with bu; nullopt makes those unknown.
/// \returns nullopt when the unit is not known for that dimension
[[nodiscard]] std::optional<double> unit_factor(Dimension dimension, std::string_view unit,
                                                std::optional<double> bushel_lb = std::nullopt);

/// The unit names `unit_factor` knows for a dimension, for error messages, e.g. "m, ft, in, cm".
[[nodiscard]] std::string known_units(Dimension dimension);

struct ParsedQuantity {
    double value = 0.0; ///< in the program's unit (see unit_factor)
    std::string unit;   ///< as written
};

/// Reads "35 ft", "10.7 m", "160 ac", "14.20 $/bu", "10 %". A bare number is refused: units are never guessed.
/// \throws InputError saying what was wrong with the text and which units are known
[[nodiscard]] ParsedQuantity parse_quantity(Dimension dimension, std::string_view text,
                                            std::optional<double> bushel_lb = std::nullopt);

// ---- what the report speaks --------------------------------------------------------------------------------------
enum class YieldUnit { bu_ac, t_ha, kg_ha, lb_ac };

[[nodiscard]] std::optional<YieldUnit> yield_unit_from(std::string_view word);
[[nodiscard]] const char* yield_unit_word(YieldUnit unit); ///< "bu/ac", "t/ha", "kg/ha", "lb/ac"

/// A yield in t/ha expressed in `unit`. `bushel_lb`: trade weight of one bushel (lb), > 0.
[[nodiscard]] double from_t_ha(double yield_t_ha, YieldUnit unit, double bushel_lb);
[[nodiscard]] double to_t_ha(double yield, YieldUnit unit, double bushel_lb);

/// Whoever counts yields by the acre measures land in acres and lengths in feet; others in hectares and metres.
[[nodiscard]] constexpr bool speaks_acres(YieldUnit unit) {
    return unit == YieldUnit::bu_ac || unit == YieldUnit::lb_ac;
}
[[nodiscard]] constexpr const char* land_unit_word(YieldUnit unit) { return speaks_acres(unit) ? "ac" : "ha"; }
[[nodiscard]] constexpr const char* length_unit_word(YieldUnit unit) { return speaks_acres(unit) ? "ft" : "m"; }
[[nodiscard]] constexpr double from_m2(double area_m2, YieldUnit unit) {
    return area_m2 / (speaks_acres(unit) ? m2_per_acre : m2_per_hectare);
}
[[nodiscard]] constexpr double from_m(double length_m, YieldUnit unit) {
    return speaks_acres(unit) ? length_m / m_per_foot : length_m;
}

} // namespace quartercut
