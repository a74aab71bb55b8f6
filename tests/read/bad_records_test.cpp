// SPDX-License-Identifier: MIT
// Catalogue of bad input, part two: records - files, columns, units, wet or dry, places, times.
#include "case_table.hpp"

#include <fmt/format.h>

namespace quartercut::read_test {
namespace {

class BadRecords : public testing::TestWithParam<BadCase> {};

TEST_P(BadRecords, IsRefusedWithOneClearMessage) { expect_refused(GetParam()); }

/// A sheet with place, flow, travel and width, the yield column to be added.
Sheet without_yield() { return plain_sheet(); }

/// Place, moisture and a yield column of that name: no flow to fall back on.
Sheet only_yield(const std::string& name, Holds holds, double factor) {
    return Sheet()
        .column("lon", Holds::lon)
        .column("lat", Holds::lat)
        .column("moisture_pct", Holds::moisture)
        .column(name, holds, factor);
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

const std::vector<BadCase> cases{
    {"RecordFileMissing",
     [](SeasonFolder& f) { f.points = "files = [\"yeild.csv\"]\n"; },
     {"yeild.csv", "no such file", "[points]", "Did you mean 'yield.csv'?"}},
    {"PatternMatchesNothing",
     [](SeasonFolder& f) { f.points = "files = [\"*.fgb\"]\n"; },
     {"*.fgb", "no such file", "[points]"}},
    {"RecordFileEmpty", [](SeasonFolder& f) { f.write("yield.csv", ""); }, {"yield.csv", "empty"}},
    {"HeaderOnly",
     [](SeasonFolder& f) { f.write("yield.csv", Sheet(plain_sheet()).rows(0).csv()); },
     {"yield.csv", "no record below"}},
    {"NoHeader",
     [](SeasonFolder& f) {
         const std::string csv = plain_sheet().csv();
         f.write("yield.csv", csv.substr(csv.find('\n') + 1));
     },
     {"yield.csv", "first line holds numbers", "names of the columns"}},
    {"LinesAboveTheHeader",
     [](SeasonFolder& f) { f.write("yield.csv", "Export of 4 September\nall fields\n" + plain_sheet().csv()); },
     {"yield.csv", "begin at line 3", "Delete the lines above"}},
    {"Utf16",
     [](SeasonFolder& f) {
         std::string wide = "\xFF\xFE";
         for (const char c : plain_sheet().csv())
             wide += {c, '\0'};
         f.write("yield.csv", wide);
     },
     {"yield.csv", "UTF-16", "UTF-8"}},
    {"MappedColumnUnknown",
     [](SeasonFolder& f) { f.columns = "flow = { column = \"flow_kgs\", unit = \"kg/s\" }\n"; },
     {"yield.csv", "no column 'flow_kgs'", "[points.columns]", "Did you mean 'flow_kg_s'?"}},
    {"OneColumnForTwoMeanings",
     [](SeasonFolder& f) {
         f.columns = "flow = { column = \"moisture_pct\", unit = \"kg/s\" }\nmoisture = { column = \"moisture_pct\", "
                     "unit = \"%\" }\n";
     },
     {"yield.csv", "'moisture_pct'", "both flow and moisture", "[points.columns]"}},
    {"SpeedInAnotherUnitThanDistance",
     [](SeasonFolder& f) {
         f.write("yield.csv",
                 plain_sheet().column("speed_mph", Holds::speed).csv()); // metres a second under miles an hour
     },
     {"yield.csv", "'distance_m' (m)", "2.24 times", "'speed_mph' (mph)", "[points.columns]"}},
    {"NoPlace",
     [](SeasonFolder& f) {
         f.write("yield.csv", Sheet().column("flow_kg_s", Holds::flow).column("moisture_pct", Holds::moisture).csv());
     },
     {"yield.csv", "longitude and latitude", "'flow_kg_s'", "[points.columns]"}},
    {"PlaceInDegreesMinutesSeconds",
     [](SeasonFolder& f) {
         f.write("yield.csv",
                 "longitude,latitude,flow_kg_s,moisture_pct\n\"111 59 56 W\",\"52 0 18 N\",5,12\n\"111 59 55 "
                 "W\",\"52 0 18 N\",5,12\n");
     },
     {"yield.csv", "decimal degrees"}},
    {"NoYieldAndNoFlow",
     [](SeasonFolder& f) {
         f.write(
             "yield.csv",
             Sheet().column("lon", Holds::lon).column("lat", Holds::lat).column("moisture_pct", Holds::moisture).csv());
     },
     {"yield.csv", "yield or grain flow", "'moisture_pct'", "[points.columns]"}},
    {"FlowWithoutUnit",
     [](SeasonFolder& f) { f.write("yield.csv", replaced(plain_sheet().csv(), "flow_kg_s", "Flow")); },
     {"yield.csv", "the unit of column 'Flow'", "flow = { column = \"Flow\", unit = \"...\" }", "kg/s, lb/s"}},
    {"WidthWithoutUnit",
     [](SeasonFolder& f) { f.write("yield.csv", replaced(plain_sheet().csv(), "width_m", "Swath width")); },
     {"the unit of column 'Swath width'", "width = { column = \"Swath width\""}},
    {"DistanceWithoutUnit",
     [](SeasonFolder& f) { f.write("yield.csv", replaced(plain_sheet().csv(), "distance_m", "Distance")); },
     {"the unit of column 'Distance'", "ft"}},
    {"DurationWithoutUnit",
     [](SeasonFolder& f) { f.write("yield.csv", replaced(plain_sheet().csv(), "duration_s", "Duration")); },
     {"the unit of column 'Duration'"}},
    {"YieldWithoutUnit",
     [](SeasonFolder& f) { f.write("yield.csv", only_yield("Yield", Holds::yield_wet, 1.0).csv()); },
     {"the unit of column 'Yield'", "t/ha", "bu/ac", "[points.columns]"}},
    {"UnitUnknown",
     [](SeasonFolder& f) { f.columns = "flow = { column = \"flow_kg_s\", unit = \"buckets\" }\n"; },
     {"buckets"}},
    {"UnitOfAnotherKind",
     [](SeasonFolder& f) { f.columns = "flow = { column = \"flow_kg_s\", unit = \"kg\" }\n"; },
     {"kg"}},
    {"WetOrDryNotSaid",
     [](SeasonFolder& f) { f.write("yield.csv", only_yield("Yield (t/ha)", Holds::yield_wet, 1.0).csv()); },
     {"'Yield (t/ha)'", "wet", "dry", "moisture = \"wet\"", "[points.columns]"}},
    {"TwoYields",
     [](SeasonFolder& f) {
         f.write(
             "yield.csv",
             only_yield("Yield wet (t/ha)", Holds::yield_wet, 1.0).column("Yield dry (t/ha)", Holds::yield_dry).csv());
     },
     {"several columns could be the yield", "'Yield wet (t/ha)', 'Yield dry (t/ha)'",
      "yield = { column = \"Yield wet (t/ha)\", unit = \"t/ha\", moisture = \"wet\" }", "moisture = \"dry\""}},
    {"TwoMoistures",
     [](SeasonFolder& f) { f.write("yield.csv", without_yield().column("Moisture (%)", Holds::moisture, 1.1).csv()); },
     {"several columns could be the moisture", "'moisture_pct', 'Moisture (%)'", "[points.columns]"}},
    {"OneNameForTwoColumns",
     [](SeasonFolder& f) { f.write("yield.csv", without_yield().column("flow_kg_s", Holds::flow, 1.3).csv()); },
     {"yield.csv", "'flow_kg_s' stands there more than once", "flow is ambiguous", "Rename or delete"}},
    {"OneNameForTwoColumnsMapped",
     [](SeasonFolder& f) {
         f.columns = "flow = { column = \"flow_kg_s\", unit = \"kg/s\" }\n";
         f.write("yield.csv", without_yield().column("flow_kg_s", Holds::flow, 1.3).csv());
     },
     {"yield.csv", "'flow_kg_s' stands there more than once"}},
    {"MoistureAsAFraction",
     [](SeasonFolder& f) {
         f.write("yield.csv", Sheet()
                                  .column("lon", Holds::lon)
                                  .column("lat", Holds::lat)
                                  .column("flow_kg_s", Holds::flow)
                                  .column("moisture_pct", Holds::moisture, 0.01)
                                  .csv());
     },
     {"yield.csv", "'moisture_pct'", "unit = \"fraction\"", "[points.columns]"}},
    {"MostMoisturesImpossible",
     [](SeasonFolder& f) {
         f.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct\n-111.999,52.005,5,120\n-111.998,52.005,5,120\n"
                              "-111.998,52.005,5,12\n");
     },
     {"yield.csv", "more than half of column 'moisture_pct'", "row 1: 120 %"}},
    {"QuoteNeverClosed",
     [](SeasonFolder& f) {
         f.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct,note\n-111.999,52.005,5,12,\n-111.998,52.005,5,12,\"wet\n"
                              "-111.997,52.005,5,12,\n");
     },
     {"yield.csv", "row 2", "quotation mark", "never closed"}},
    {"QuoteClosedMuchLater",
     [](SeasonFolder& f) {
         std::string csv = "lon,lat,flow_kg_s,moisture_pct,note\n-111.999,52.005,5,12,\"wet\n";
         for (int i = 0; i < 20; ++i)
             csv += "-111.998,52.005,5,12,\n";
         f.write("yield.csv", csv + "-111.998,52.005,5,12,\"dry\n");
     },
     {"yield.csv", "row 1", "runs over 22 lines"}},
    {"QuoteInTheHeaderNeverClosed",
     [](SeasonFolder& f) { f.write("yield.csv", "lon,\"lat,flow_kg_s,moisture_pct\n-111.999,52.005,5,12\n"); },
     {"yield.csv", "the column names", "never closed"}},
    {"RecordsAreAFolder",
     [](SeasonFolder& f) {
         std::filesystem::create_directory(f.path("yield"));
         f.points = "files = [\"yield\"]\n";
     },
     {"yield", "this is a folder", "yield/*.csv"}},
    {"MostTimesUnreadable",
     [](SeasonFolder& f) {
         std::string csv = "lon,lat,flow_kg_s,moisture_pct,timestamp\n";
         for (int i = 0; i < 250; ++i)
             csv += "-111.999,52.005,5,12,2025-09-04T15:33:20Z\n";
         for (int i = 0; i < 300; ++i)
             csv += "-111.999,52.005,5,12,later\n";
         f.write("yield.csv", csv);
     },
     {"yield.csv", "'timestamp' holds no times", "row 251: 'later'"}},
    {"TwoSpeeds",
     [](SeasonFolder& f) {
         f.write("yield.csv", without_yield()
                                  .column("Speed (mph)", Holds::speed, 2.23694)
                                  .column("Speed (km/h)", Holds::speed, 3.6)
                                  .csv());
     },
     {"several columns could be the speed", "speed = { column = \"Speed (mph)\", unit = \"mph\" }"}},
    {"TwoFlows",
     [](SeasonFolder& f) {
         f.write("yield.csv", without_yield()
                                  .column("Mass flow (lb/s)", Holds::flow, 2.0)
                                  .column("Grain flow lb/s", Holds::flow, 2.2)
                                  .csv());
     },
     {"several columns could be the flow"}},
    // 2.5 t/ha called 2.5 kg/m2 would be 25 t/ha of canola.
    {"YieldTooLargeForTheCrop",
     [](SeasonFolder& f) { f.write("yield.csv", only_yield("wet yield (kg/m2)", Holds::yield_wet, 1.0).csv()); },
     {"'wet yield (kg/m2)'", "canola", "t/ha"}},
    // 2.5 t/ha called 2.5 bu/ac would be 0.14 t/ha, and 2.5 lb/ac 0.0028 t/ha.
    {"YieldTooSmallForTheCrop",
     [](SeasonFolder& f) { f.write("yield.csv", only_yield("wet yield (lb/ac)", Holds::yield_wet, 1.0).csv()); },
     {"'wet yield (lb/ac)'", "less than", "canola"}},
    {"FlowTooLargeForTheCrop",
     [](SeasonFolder& f) { f.write("yield.csv", replaced(plain_sheet().csv(), "flow_kg_s", "flow (t/s)")); },
     {"flow (t/s)", "width_m", "canola", "t/ha"}},
    // Pounds called kilograms: yields 2.2 times those that follow from the flow.
    {"YieldInPoundsCalledKilograms",
     [](SeasonFolder& f) {
         f.write("yield.csv", without_yield().column("wet yield (kg/ha)", Holds::yield_wet, 1000.0 * 2.20462).csv());
     },
     {"'wet yield (kg/ha)'", "2.205 times", "flow_kg_s", "One of the units is wrong"}},
    // 10 m in feet is 32.8; called metres, the yield from flow is a third.
    {"WidthInFeetCalledMetres",
     [](SeasonFolder& f) {
         f.write("yield.csv", Sheet()
                                  .column("lon", Holds::lon)
                                  .column("lat", Holds::lat)
                                  .column("flow_kg_s", Holds::flow)
                                  .column("moisture_pct", Holds::moisture)
                                  .column("speed_m_s", Holds::speed)
                                  .column("width_m", Holds::width, 3.28084)
                                  .column("wet yield (t/ha)", Holds::yield_wet)
                                  .csv());
     },
     {"3.281 times", "width_m"}},
    {"WidthImpossible",
     [](SeasonFolder& f) { f.write("yield.csv", replaced(plain_sheet().csv(), "width_m", "width (in)")); },
     {"width (in)", "canola", "t/ha"}},
    {"WidthOfAHundredMetres",
     [](SeasonFolder& f) {
         f.write("yield.csv",
                 only_yield("wet yield (t/ha)", Holds::yield_wet, 1.0).column("width (ft)", Holds::width, 39.37).csv());
     },
     {"'width (ft)'", "width of a record", "cannot be"}},
    {"SpeedImpossible",
     [](SeasonFolder& f) {
         f.write("yield.csv",
                 only_yield("wet yield (t/ha)", Holds::yield_wet, 1.0).column("speed (m/s)", Holds::speed, 36.0).csv());
     },
     {"'speed (m/s)'", "72 m/s", "cannot be"}},
    {"NumbersThatAreWords",
     [](SeasonFolder& f) {
         f.columns = "flow = { column = \"rating\", unit = \"kg/s\" }\n";
         f.write("yield.csv", "lon,lat,rating,moisture_pct\n-111.999,52.005,good,12\n-111.998,52.005,bad,12\n");
     },
     {"yield.csv", "'rating' holds no numbers", "row 1: 'good'"}},
    {"DecimalCommaBetweenCommas",
     [](SeasonFolder& f) {
         f.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct\n-111,999,52,005,5,1,12,0\n-111,998,52,005,5,2,12,1\n");
     },
     {"yield.csv", "8 cells", "decimal comma", "semicolons"}},
    {"PlaceWithoutCrs",
     [](SeasonFolder& f) {
         f.write("yield.csv", replaced(replaced(plain_sheet().csv(), "longitude", "x"), "latitude", "y"));
     },
     {"yield.csv", "does not say its coordinate system", "look like longitude and latitude", "crs = \"EPSG:4326\"",
      "[points]"}},
    {"EastingWithoutCrs",
     [](SeasonFolder& f) {
         f.write("yield.csv", "Easting,Northing,flow_kg_s,moisture_pct\n431380,5761700,5,12\n431400,5761700,5,12\n");
     },
     {"yield.csv", "does not say its coordinate system", "EPSG:32612", "[points]"}},
    {"LongitudeAndLatitudeExchanged",
     [](SeasonFolder& f) {
         f.write("yield.csv", replaced(replaced(plain_sheet().csv(), "longitude", "latitude"), "latitude,latitude",
                                       "latitude,longitude"));
     },
     {"yield.csv", "seem swapped", "Longitude must come first"}},
    // At 52 E, 12 S both ways round are degrees; only the fields tell.
    {"LongitudeAndLatitudeExchangedWhereBothCouldBe",
     [](SeasonFolder& f) {
         f.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(52, -12, 52.01, -11.99)}}));
         f.write("methods.geojson", polygons({{"\"method\":\"swathed\"", rectangle(52, -12, 52.01, -11.99)}}));
         f.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct\n-11.995,52.005,5,12\n-11.994,52.005,5,12\n");
     },
     {"yield.csv", "longitude and latitude seem exchanged", "[points.columns]"}},
    {"ShapefileOfRecordsWithoutPrjExchanged",
     [](SeasonFolder& f) {
         f.write("exchanged.geojson",
                 "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{"
                 "\"flow_kg_s\":5,\"moist_pct\":12},\"geometry\":{\"type\":\"Point\",\"coordinates\":[52.005,"
                 "-111.995]}}]}");
         f.convert("exchanged.geojson", "yield.shp", {});
         f.remove("yield.prj");
         f.points = "files = [\"yield.shp\"]\n";
     },
     {"yield.shp", "does not say its coordinate system", "in the wrong order", "[points]"}},
    {"PlacesOutsideTheEarth",
     [](SeasonFolder& f) { f.write("yield.csv", "longitude,latitude,flow_kg_s,moisture_pct\n431380,5761700,5,12\n"); },
     {"yield.csv", "not degrees", "[points]"}},
    {"NoRecordHasAPlace",
     [](SeasonFolder& f) {
         f.columns = "longitude = { column = \"a\" }\nlatitude = { column = \"b\" }\n";
         f.write("yield.csv", "a,b,flow_kg_s,moisture_pct\n,,5,12\n,,5,12\n");
         f.points += "crs = \"EPSG:4326\"\n";
     },
     {"yield.csv", "no record has a place"}},
    {"TimesThatAreNone",
     [](SeasonFolder& f) {
         f.columns = "time = { column = \"noted\" }\n";
         f.write("yield.csv", plain_sheet().column("noted", Holds::machine).csv());
     },
     {"'noted' (time)", "'red one'", "no time", "ISO 8601"}},
    {"TimeNumbersThatAreNone",
     [](SeasonFolder& f) {
         f.columns = "time = { column = \"noted\" }\n";
         f.write("yield.csv", plain_sheet().column("noted", Holds::duration).csv());
     },
     {"'noted'", "no times"}},
    {"DayAndMonthUnclear",
     [](SeasonFolder& f) {
         f.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct,timestamp\n-111.999,52.005,5,12,09/04/2025 15:33:20\n");
     },
     {"'timestamp'", "day/month or month/day", "[points]", "dates = \"day/month\""}},
    {"ZonesMixed",
     [](SeasonFolder& f) {
         f.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct,timestamp\n-111.999,52.005,5,12,2025-09-04T15:33:20Z\n"
                              "-111.998,52.005,5,12,2025-09-04T15:33:21\n");
     },
     {"1 of the times in column 'timestamp' state their zone and 1 do not"}},
    {"HeaderValueUnclear",
     [](SeasonFolder& f) {
         f.columns = "header = { column = \"hdr\" }\n";
         f.write("yield.csv", plain_sheet().column("hdr", Holds::load).csv());
     },
     {"hdr"}},
    {"MethodColumnOfRecordsMissing",
     [](SeasonFolder& f) { f.methods = "from_points = { column = \"head\" }\n"; },
     {"yield.csv", "no column 'head'", "[methods]"}},
    {"MethodOfRecordsUnknown",
     [](SeasonFolder& f) {
         f.methods = "from_points = { column = \"head\" }\n";
         f.write("yield.csv", plain_sheet().column("head", Holds::machine).csv());
     },
     {"yield.csv", "'head'", "'red one' is no method"}},
    {"RecordsAreLines",
     [](SeasonFolder& f) {
         f.write("yield.geojson",
                 "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"flow_kg_s\":5,"
                 "\"moisture_pct\":12},\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[-112,52],[-111.9,52.1]]}"
                 "}]}");
         f.points = "files = [\"yield.geojson\"]\n";
     },
     {"yield.geojson", "row 1", "must be points"}},
    {"EmptyRecordLayer",
     [](SeasonFolder& f) {
         f.write("yield.geojson", polygons({}));
         f.points = "files = [\"yield.geojson\"]\n";
     },
     {"yield.geojson", "empty"}},
    {"RecordLayerMissing",
     [](SeasonFolder& f) {
         f.write("yield.geojson", plain_sheet().geojson());
         f.convert("yield.geojson", "yield.gpkg", {"-nln", "records"});
         f.points = "files = [\"yield.gpkg\"]\nlayer = \"points\"\n";
     },
     {"yield.gpkg", "no layer 'points'", "'records'"}},
};

INSTANTIATE_TEST_SUITE_P(Catalogue, BadRecords, testing::ValuesIn(cases), name_of);

} // namespace
} // namespace quartercut::read_test
