// SPDX-License-Identifier: MIT
// Units by name and quantities as people write them. Expected numbers are by hand from the Weights and Measures Act.
#include "quartercut/units.hpp"

#include "quartercut/error.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using testing::AllOf;
using testing::HasSubstr;

std::string refusal(Dimension dimension, const std::string& text) {
    try {
        static_cast<void>(parse_quantity(dimension, text));
    } catch (const InputError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(UnitNames, OfLengthAreForgiving) {
    for (const char* foot : {"ft", "feet", "foot", "FT", "Ft.", "'", " ft "})
        EXPECT_DOUBLE_EQ(unit_factor(Dimension::length, foot).value_or(-1), 0.3048) << foot;
    for (const char* inch : {"in", "inch", "inches", "\""})
        EXPECT_DOUBLE_EQ(unit_factor(Dimension::length, inch).value_or(-1), 0.0254) << inch;
    for (const char* metre : {"m", "metre", "meters", "M"})
        EXPECT_DOUBLE_EQ(unit_factor(Dimension::length, metre).value_or(-1), 1.0) << metre;
    EXPECT_DOUBLE_EQ(unit_factor(Dimension::length, "mi").value_or(-1), 1609.344);
    EXPECT_DOUBLE_EQ(unit_factor(Dimension::length, "cm").value_or(-1), 0.01);
    EXPECT_DOUBLE_EQ(unit_factor(Dimension::length, "yd").value_or(-1), 0.9144);
}

TEST(UnitNames, OfFlowComeInManySpellings) {
    for (const char* kg_s : {"kg/s", "kg s-1", "kg s^-1", "kg\xC2\xB7s\xE2\x81\xBB\xC2\xB9", "kg*s**-1",
                             "kg per second", "kilograms/sec", "KG/S", "kg / s"})
        EXPECT_DOUBLE_EQ(unit_factor(Dimension::mass_flow, kg_s).value_or(-1), 1.0) << kg_s;
    for (const char* lb_s : {"lb/s", "lbs/sec", "lb s-1", "pounds per second"})
        EXPECT_DOUBLE_EQ(unit_factor(Dimension::mass_flow, lb_s).value_or(-1), 0.45359237) << lb_s;
    EXPECT_DOUBLE_EQ(unit_factor(Dimension::mass_flow, "t/h").value_or(-1), 1000.0 / 3600.0);
    EXPECT_DOUBLE_EQ(unit_factor(Dimension::mass_flow, "bu/h", 60.0).value_or(-1), 60.0 * 0.45359237 / 3600.0);
}

TEST(UnitNames, OfSpeedAndTime) {
    EXPECT_NEAR(unit_factor(Dimension::speed, "mph").value_or(-1), 0.44704, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::speed, "mi/h").value_or(-1), 0.44704, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::speed, "km/h").value_or(-1), 1.0 / 3.6, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::speed, "ft/s").value_or(-1), 0.3048, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::duration, "ms").value_or(-1), 0.001, 1e-15);
    EXPECT_NEAR(unit_factor(Dimension::duration, "min").value_or(-1), 60.0, 1e-12);
}

TEST(UnitNames, OfYieldArePerSquareMetreInside) {
    for (const char* t_ha : {"t/ha", "t ha-1", "tonnes per hectare", "Mg/ha", "Mg ha\xE2\x81\xBB\xC2\xB9"})
        EXPECT_NEAR(unit_factor(Dimension::yield, t_ha).value_or(-1), 0.1, 1e-15) << t_ha;
    EXPECT_NEAR(unit_factor(Dimension::yield, "kg/ha").value_or(-1), 1e-4, 1e-18);
    EXPECT_NEAR(unit_factor(Dimension::yield, "g/m2").value_or(-1), 1e-3, 1e-17);
    for (const char* bu_ac : {"bu/ac", "bu/acre", "bushels per acre", "bu ac-1", "Bu/Ac"})
        EXPECT_NEAR(unit_factor(Dimension::yield, bu_ac, 50.0).value_or(-1), 0.005604256, 1e-9) << bu_ac;
}

TEST(UnitNames, SquareMeasureIsReadAsArea) {
    EXPECT_NEAR(unit_factor(Dimension::area, "ft2").value_or(-1), 0.09290304, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::area, "sq ft").value_or(-1), 0.09290304, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::area, "square feet").value_or(-1), 0.09290304, 1e-12);
    EXPECT_NEAR(unit_factor(Dimension::area, "m\xC2\xB2").value_or(-1), 1.0, 1e-15);
    EXPECT_NEAR(unit_factor(Dimension::area, "km2").value_or(-1), 1e6, 1e-6);
}

TEST(UnitNames, MoistureMayBeAShareOfOne) {
    for (const char* percent : {"%", "percent", "pct", "per cent"})
        EXPECT_DOUBLE_EQ(unit_factor(Dimension::moisture, percent).value_or(-1), 1.0) << percent;
    EXPECT_DOUBLE_EQ(unit_factor(Dimension::moisture, "fraction").value_or(-1), 100.0);
    EXPECT_NEAR(unit_factor(Dimension::moisture, "g/kg").value_or(-1), 0.1, 1e-12);
}

TEST(UnitNames, BushelsNeedTheirWeight) {
    EXPECT_FALSE(unit_factor(Dimension::yield, "bu/ac"));
    EXPECT_FALSE(unit_factor(Dimension::yield, "bu/ac", 0.0));
    EXPECT_TRUE(unit_factor(Dimension::yield, "bu/ac", 60.0));
}

// Milligrams per hectare is what a small m would say: nobody harvests those.
TEST(UnitNames, MegagramIsNotMilligram) {
    EXPECT_TRUE(unit_factor(Dimension::yield, "Mg/ha"));
    EXPECT_FALSE(unit_factor(Dimension::yield, "mg/ha"));
}

TEST(UnitNames, OfAnotherDimensionOrOfNoneAreUnknown) {
    for (const char* wrong :
         {"kg", "s", "m/s", "m2", "", " ", "/", "m/", "/m", "furlong", "m m", "35", "-1", "m3", "ftlb"})
        EXPECT_FALSE(unit_factor(Dimension::length, wrong)) << '"' << wrong << '"';
    EXPECT_FALSE(unit_factor(Dimension::mass_flow, "kg"));
    EXPECT_FALSE(unit_factor(Dimension::yield, "t"));
    EXPECT_FALSE(unit_factor(Dimension::mass, "bu/ac", 50.0));
}

TEST(UnitNames, NamedInMessagesAreAllKnown) {
    EXPECT_EQ(known_units(Dimension::length), "m, cm, km, ft, in, yd, mi");
    EXPECT_EQ(known_units(Dimension::moisture), "%, fraction");
}

TEST(ParsedQuantities, KeepTheUnitAsWritten) {
    const ParsedQuantity cut = parse_quantity(Dimension::length, "35 ft");
    EXPECT_DOUBLE_EQ(cut.value, 10.668);
    EXPECT_EQ(cut.unit, "ft");
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::length, "10.7 m").value, 10.7);
    EXPECT_NEAR(parse_quantity(Dimension::area, "160 ac").value, 647497.027584, 1e-6);
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::moisture, "10 %").value, 10.0);
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::moisture, "10%").value, 10.0);
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::length, "  35ft ").value, 10.668);
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::length, "1e3 cm").value, 10.0);
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::length, ".5 m").value, 0.5);
    EXPECT_DOUBLE_EQ(parse_quantity(Dimension::length, "-3 m").value, -3.0);
}

// Statistics Canada, farm price July 2024, Saskatchewan: 646.97 $/t is 14.67 $/bu of 50 lb.
TEST(ParsedQuantities, ReadMoneyPerBushel) {
    EXPECT_NEAR(parse_quantity(Dimension::money_per_mass, "14.6730 $/bu", 50.0).value * 1000.0, 646.97, 0.005);
    EXPECT_NEAR(parse_quantity(Dimension::money_per_mass, "$14.6730/bu", 50.0).value * 1000.0, 646.97, 0.005);
    EXPECT_NEAR(parse_quantity(Dimension::money_per_area, "15 $/ac").value * 4046.8564224, 15.0, 1e-9);
}

TEST(ParsedQuantities, RefuseABareNumber) {
    EXPECT_THAT(refusal(Dimension::length, "35"),
                AllOf(HasSubstr("has no unit"), HasSubstr("m, cm, km, ft, in, yd, mi")));
    EXPECT_THAT(refusal(Dimension::moisture, "10.0"), HasSubstr("units are never guessed"));
}

TEST(ParsedQuantities, RefuseWhatIsNotANumberAndAUnit) {
    EXPECT_THAT(refusal(Dimension::length, ""), HasSubstr("does not start with a number"));
    EXPECT_THAT(refusal(Dimension::length, "ft"), HasSubstr("does not start with a number"));
    EXPECT_THAT(refusal(Dimension::length, "nan m"), HasSubstr("does not start with a number"));
    EXPECT_THAT(refusal(Dimension::length, "inf m"), HasSubstr("does not start with a number"));
    EXPECT_THAT(refusal(Dimension::length, "10,7 m"), HasSubstr("the decimal sign is a point"));
    EXPECT_THAT(refusal(Dimension::length, "5 5 m"), HasSubstr("more than one number"));
    EXPECT_THAT(refusal(Dimension::length, "1.2.3 m"), HasSubstr("more than one number"));
    EXPECT_THAT(refusal(Dimension::length, "35 kg"), HasSubstr("\"kg\", which is not known as a length"));
    EXPECT_THAT(refusal(Dimension::length, "35 ftt"), HasSubstr("\"ftt\""));
    EXPECT_THAT(refusal(Dimension::length, "1e400 m"), HasSubstr("cannot be used"));
    EXPECT_THAT(refusal(Dimension::length, "1e308 km"), HasSubstr("too large"));
    EXPECT_THAT(refusal(Dimension::length, "0x10 m"), HasSubstr("not known as a length"));
}

TEST(YieldUnitWords, AreReadInAnySpelling) {
    EXPECT_EQ(yield_unit_from("bu/ac"), YieldUnit::bu_ac);
    EXPECT_EQ(yield_unit_from("bushels/acre"), YieldUnit::bu_ac);
    EXPECT_EQ(yield_unit_from("t/ha"), YieldUnit::t_ha);
    EXPECT_EQ(yield_unit_from("kg/ha"), YieldUnit::kg_ha);
    EXPECT_EQ(yield_unit_from("lbs/ac"), YieldUnit::lb_ac);
    EXPECT_FALSE(yield_unit_from("bu"));
    EXPECT_FALSE(yield_unit_from("g/m2"));
    EXPECT_FALSE(yield_unit_from(""));
}

} // namespace
} // namespace quartercut
