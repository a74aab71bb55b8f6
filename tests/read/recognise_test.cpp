// SPDX-License-Identifier: MIT
// Column names and what they mean. Trade words: common practice, no source.
#include "read/recognise.hpp"

#include <gtest/gtest.h>

namespace quartercut::reading {
namespace {

std::optional<int> points(Meaning meaning, const char* name) { return points_for(meaning, taken_apart(name), 50.0); }

TEST(HeaderNames, AreTakenApart) {
    EXPECT_EQ(taken_apart("GrainFlow(lb/s)").words, (std::vector<std::string>{"grain", "flow"}));
    EXPECT_EQ(taken_apart("GrainFlow(lb/s)").bracket, "lb/s");
    EXPECT_EQ(taken_apart("GPSTime").words, (std::vector<std::string>{"gps", "time"}));
    EXPECT_EQ(taken_apart("moist_pct").words, (std::vector<std::string>{"moist", "pct"}));
    EXPECT_TRUE(taken_apart("Yield (dry)").dry);
    EXPECT_TRUE(taken_apart("WetYield").wet);
    EXPECT_FALSE(taken_apart("Yield").wet || taken_apart("Yield").dry);
    EXPECT_TRUE(taken_apart("").words.empty());
    EXPECT_EQ(taken_apart("Yield (t/ha").bracket, "t/ha");
}

TEST(HeaderNames, HoldUnits) {
    const auto unit = [](const char* name, Dimension dimension) {
        const auto found = unit_in_name(taken_apart(name), dimension, 50.0);
        return found ? found->unit : std::string("none");
    };
    EXPECT_EQ(unit("flow_kg_s", Dimension::mass_flow), "kg/s");
    EXPECT_EQ(unit("yield t/ha", Dimension::yield), "t/ha");
    EXPECT_EQ(unit("Yield_kg_per_ha", Dimension::yield), "kg/ha");
    EXPECT_EQ(unit("Yield (bu/ac)", Dimension::yield), "bu/ac");
    EXPECT_EQ(unit("Speed mph", Dimension::speed), "mph");
    EXPECT_EQ(unit("dist_in", Dimension::length), "in");
    EXPECT_EQ(unit("moist_pct", Dimension::moisture), "pct");
    EXPECT_EQ(unit("Moisture(%)", Dimension::moisture), "%");
    EXPECT_EQ(unit("Flow", Dimension::mass_flow), "none");
    EXPECT_EQ(unit("Yield (kg)", Dimension::yield), "none");
    EXPECT_EQ(unit("in", Dimension::length), "none") << "a name of one word is no unit";
}

struct NameCase {
    Meaning meaning;
    const char* name;
};

TEST(TradeWords, AreKnown) {
    const std::vector<NameCase> cases{
        {Meaning::yield, "Yield (bu/ac)"},    {Meaning::yield, "yld_t_ha"},
        {Meaning::yield, "DryYield"},         {Meaning::flow, "Mass Flow (lb/s)"},
        {Meaning::flow, "flow_kg_s"},         {Meaning::flow, "Grain flow"},
        {Meaning::moisture, "Moisture(%)"},   {Meaning::moisture, "moist_pct"},
        {Meaning::moisture, "MOISTURE"},      {Meaning::speed, "Speed mph"},
        {Meaning::speed, "Ground speed"},     {Meaning::speed, "velocity_m_s"},
        {Meaning::distance, "Distance (ft)"}, {Meaning::distance, "dist_in"},
        {Meaning::duration, "Cycles"},        {Meaning::duration, "Elapsed time (s)"},
        {Meaning::duration, "dur_s"},         {Meaning::width, "Swath Width(ft)"},
        {Meaning::width, "width_m"},          {Meaning::time, "timestamp"},
        {Meaning::time, "GPS Time"},          {Meaning::heading, "Track (deg)"},
        {Meaning::heading, "heading_deg"},    {Meaning::machine, "combine"},
        {Meaning::machine, "Machine name"},   {Meaning::header, "header_up"},
        {Meaning::load, "load_id"},           {Meaning::longitude, "Longitude"},
        {Meaning::latitude, "lat"},           {Meaning::longitude, "GPS long"},
    };
    for (const NameCase& c : cases)
        EXPECT_TRUE(points(c.meaning, c.name).has_value()) << c.name;
}

TEST(TradeWords, AreNotMistaken) {
    const std::vector<NameCase> cases{
        {Meaning::speed, "Fan speed (rpm)"},  {Meaning::speed, "Rotor speed"},
        {Meaning::yield, "Target yield"},     {Meaning::yield, "Yield loss (t/ha)"},
        {Meaning::flow, "Fuel flow (l/h)"},   {Meaning::load, "Engine load (%)"},
        {Meaning::moisture, "Soil moisture"}, {Meaning::width, "Row width"},
        {Meaning::time, "Engine hours"},      {Meaning::header, "Header width (ft)"},
        {Meaning::date, "Seeding date"},      {Meaning::machine, "Machine speed"},
        {Meaning::flow, "Variety"},           {Meaning::yield, "Field"},
        {Meaning::distance, "Altitude (ft)"},
    };
    for (const NameCase& c : cases)
        EXPECT_FALSE(points(c.meaning, c.name).has_value()) << c.name;
}

TEST(LineToAdd, HoldsTheUnitTheNameHas) {
    EXPECT_EQ(line_to_add(Meaning::speed, "Speed (mph)", 50.0), "speed = { column = \"Speed (mph)\", unit = \"mph\" }");
    EXPECT_EQ(line_to_add(Meaning::machine, "who", 50.0), "machine = { column = \"who\" }");
}

} // namespace
} // namespace quartercut::reading
