// SPDX-License-Identifier: MIT
// Catalogue of bad input, part one: files, layers, boundaries, method areas, coordinate systems.
#include "case_table.hpp"

#include <sys/stat.h>

#include <fmt/format.h>

namespace quartercut::read_test {
namespace {

class BadLand : public testing::TestWithParam<BadCase> {};

TEST_P(BadLand, IsRefusedWithOneClearMessage) { expect_refused(GetParam()); }

std::string one_polygon(const std::string& coordinates) { return polygons({{"\"name\":\"Home\"", coordinates}}); }

const std::vector<BadCase> cases{
    // 0.001 of 0.010 degrees is 10 %.
    {"FieldsOverlap",
     [](SeasonFolder& f) {
         f.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(-112, 52, -111.99, 52.01)},
                                             {"\"name\":\"Next\"", rectangle(-111.991, 52, -111.981, 52.01)}}));
     },
     {"fields.geojson", "rows 1 and 2 ('Home' and 'Next') overlap by 10.0 %", "-111.990500, 52.005000",
      "Mend the boundaries"}},
    {"FieldThereTwice",
     [](SeasonFolder& f) {
         f.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(-112, 52, -111.99, 52.01)},
                                             {"\"name\":\"Home quarter\"", rectangle(-112, 52, -111.99, 52.01)}}));
     },
     {"fields.geojson", "'Home' and 'Home quarter'", "twice", "the same name"}},
    {"BoundaryFileIsAFolder",
     [](SeasonFolder& f) {
         std::filesystem::create_directory(f.path("land"));
         f.fields = "file = \"land\"\nname = \"name\"\n";
     },
     {"land", "this is a folder", "[fields]"}},
    {"BoundaryFileIsAPipe",
     [](SeasonFolder& f) {
         ASSERT_EQ(::mkfifo(f.path("pipe.geojson").c_str(), 0600), 0);
         f.fields = "file = \"pipe.geojson\"\nname = \"name\"\n";
     },
     {"pipe.geojson", "pipe or a device"}},
    {"BoundaryFileMissing",
     [](SeasonFolder& f) { f.remove("fields.geojson"); },
     {"fields.geojson", "no such file", "[fields]", "methods.geojson"}},
    {"BoundaryFileMisspelt",
     [](SeasonFolder& f) { f.fields = "file = \"feilds.geojson\"\nname = \"name\"\n"; },
     {"feilds.geojson", "Did you mean 'fields.geojson'?"}},
    {"FolderMissing",
     [](SeasonFolder& f) { f.fields = "file = \"land/fields.geojson\"\nname = \"name\"\n"; },
     {"no folder 'land'", "relative to the season file"}},
    {"BoundaryFileEmpty", [](SeasonFolder& f) { f.write("fields.geojson", ""); }, {"fields.geojson", "cannot be read"}},
    {"BoundaryFileIsRubbish",
     [](SeasonFolder& f) { f.write("fields.geojson", "not a map at all"); },
     {"fields.geojson", "cannot be read as", "GeoPackage"}},
    {"BoundaryFileCutOff",
     [](SeasonFolder& f) { f.write("fields.geojson", home_field().substr(0, 90)); },
     {"fields.geojson", "cannot be read"}},
    {"GeoPackageDamaged",
     [](SeasonFolder& f) {
         f.write("fields.gpkg", "SQLite format 3" + std::string(200, 'x'));
         f.fields = "file = \"fields.gpkg\"\nname = \"name\"\n";
     },
     {"fields.gpkg", "cannot be read"}},
    {"LayerMissing",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "land.gpkg", {"-nln", "boundaries"});
         f.fields = "file = \"land.gpkg\"\nlayer = \"boundries\"\nname = \"name\"\n";
     },
     {"land.gpkg", "no layer 'boundries'", "'boundaries'", "Did you mean 'boundaries'?"}},
    {"LayerNotChosen",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "land.gpkg", {"-nln", "boundaries"});
         f.convert("methods.geojson", "land.gpkg", {"-nln", "methods", "-update"});
         f.fields = "file = \"land.gpkg\"\nname = \"name\"\n";
     },
     {"land.gpkg", "several layers", "'boundaries'", "'methods'", "layer = \"...\"", "[fields]"}},
    {"EmptyLayer", [](SeasonFolder& f) { f.write("fields.geojson", polygons({})); }, {"fields.geojson", "empty"}},
    {"EmptyGeoPackageLayer",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "land.gpkg", {"-nln", "boundaries", "-where", "name = 'nobody'"});
         f.fields = "file = \"land.gpkg\"\nname = \"name\"\n";
     },
     {"land.gpkg, layer 'boundaries'", "empty", "[fields]"}},
    {"NameColumnUnknown",
     [](SeasonFolder& f) { f.fields = "file = \"fields.geojson\"\nname = \"nam\"\n"; },
     {"fields.geojson", "no column 'nam'", "'name'", "Did you mean 'name'?"}},
    {"MappedFieldColumnUnknown",
     [](SeasonFolder& f) { f.fields += "[fields.columns]\nvariety = \"varity\"\n"; },
     {"no column 'varity'", "Columns: 'name'"}},
    {"FieldWithoutName",
     [](SeasonFolder& f) {
         f.write("fields.geojson", polygons({{"\"name\":null", rectangle(-112, 52, -111.99, 52.01)}}));
     },
     {"row 1", "no name", "'name'"}},
    {"BoundaryIsAPoint",
     [](SeasonFolder& f) {
         f.write("fields.geojson",
                 "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{"
                 "\"name\":\"Home\"},\"geometry\":{\"type\":\"Point\",\"coordinates\":[-112,52]}}]}");
     },
     {"row 1", "a polygon is wanted", "point"}},
    {"BoundaryIsALine",
     [](SeasonFolder& f) {
         f.write(
             "fields.geojson",
             "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"name\":\"Home\"},"
             "\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[-112,52],[-111.9,52.1]]}}]}");
     },
     {"row 1", "a polygon is wanted", "line"}},
    {"BoundaryWithoutOutline",
     [](SeasonFolder& f) {
         f.write("fields.geojson",
                 "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{"
                 "\"name\":\"Home\"},\"geometry\":null}]}");
     },
     {"fields.geojson", "none of its rows holds a polygon"}},
    {"BoundaryIsACsv",
     [](SeasonFolder& f) {
         f.write("fields.csv", "name,wkt\nHome,POLYGON((0 0;1 0;1 1;0 0))\n");
         f.fields = "file = \"fields.csv\"\nname = \"name\"\n";
     },
     {"fields.csv", "polygons are wanted"}},
    // A bow-tie crosses itself in its middle: (-111.995, 52.005) by symmetry.
    {"BowTieIsRefusedWithThePlace",
     [](SeasonFolder& f) {
         f.write("fields.geojson",
                 one_polygon("[[[-112.0,52.0],[-111.99,52.01],[-111.99,52.0],[-112.0,52.01],[-112.0,52.0]]]"));
     },
     {"row 1 ('Home')", "crosses itself at -111.995000, 52.005000", "draw it anew"}},
    // Two lobes of 3 : 1; the crossing lies where the diagonals of the outline meet.
    {"UnevenCrossingIsRefused",
     [](SeasonFolder& f) {
         f.write("fields.geojson",
                 one_polygon("[[[-112.0,52.0],[-111.98,52.0],[-112.0,52.01],[-111.99,52.01],[-112.0,52.0]]]"));
     },
     {"crosses itself at", "change its area"}},
    {"BoundaryEnclosesNothing",
     [](SeasonFolder& f) {
         f.write("fields.geojson", one_polygon("[[[-112.0,52.0],[-111.99,52.0],[-111.98,52.0],[-112.0,52.0]]]"));
     },
     {"row 1"}},
    {"BoundaryInMetresCalledDegrees",
     [](SeasonFolder& f) { f.write("fields.geojson", one_polygon(rectangle(300000, 5760000, 300800, 5760800))); },
     {"fields.geojson", "not degrees", "crs = \"...\"", "[fields]"}},
    {"BoundaryAxesExchanged",
     [](SeasonFolder& f) { f.write("fields.geojson", one_polygon(rectangle(52.0, -112.0, 52.01, -111.99))); },
     {"fields.geojson", "seem swapped", "Longitude must come first"}},
    {"ShapefileWithoutPrj",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "fields.shp", {});
         f.remove("fields.prj");
         f.fields = "file = \"fields.shp\"\nname = \"name\"\n";
     },
     {"fields.shp", "does not say its coordinate system", "look like longitude and latitude", "crs = \"EPSG:4326\"",
      "[fields]"}},
    {"ShapefileWithoutPrjInMetres",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "fields.shp", {"-t_srs", "EPSG:32612"});
         f.remove("fields.prj");
         f.fields = "file = \"fields.shp\"\nname = \"name\"\n";
     },
     {"fields.shp", "does not say its coordinate system", "local metres", "EPSG:32612"}},
    {"ShapefileWithoutDbf",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "fields.shp", {});
         f.remove("fields.dbf");
         f.fields = "file = \"fields.shp\"\nname = \"name\"\n";
     },
     {"fields.shp", "'fields.dbf'", "missing", "Copy all files"}},
    {"ShapefileWithoutShx",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "fields.shp", {});
         f.remove("fields.shx");
         f.fields = "file = \"fields.shp\"\nname = \"name\"\n";
     },
     {"fields.shp", "'fields.shx'", "missing"}},
    {"CrsUnknown",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "fields.shp", {});
         f.remove("fields.prj");
         f.fields = "file = \"fields.shp\"\nname = \"name\"\ncrs = \"EPSG:999999\"\n";
     },
     {"[fields]", "'EPSG:999999' is not known", "EPSG:4326"}},
    {"LocalMetresHereOnly",
     [](SeasonFolder& f) {
         f.write("fields.geojson", one_polygon(rectangle(0, 0, 800, 800)));
         f.fields += "crs = \"local metres\"\n";
     },
     {"methods.geojson", "local metres", "all layers"}},
    {"LocalMetresAgainstTheFile",
     [](SeasonFolder& f) {
         f.convert("fields.geojson", "fields.shp", {});
         f.fields = "file = \"fields.shp\"\nname = \"name\"\ncrs = \"local metres\"\n";
     },
     {"fields.shp", "says local metres", "WGS 84"}},
    {"ZipWithoutLayer",
     [](SeasonFolder& f) {
         f.write("readme.txt", "nothing");
         f.write("fields.zip", std::string("PK\x05\x06", 4) + std::string(18, '\0'));
         f.fields = "file = \"fields.zip\"\nname = \"name\"\n";
     },
     {"fields.zip"}},
    {"MethodFileMissing",
     [](SeasonFolder& f) { f.remove("methods.geojson"); },
     {"methods.geojson", "no such file", "[methods]"}},
    {"MethodColumnUnknown",
     [](SeasonFolder& f) { f.methods = "file = \"methods.geojson\"\ncolumn = \"metod\"\n"; },
     {"methods.geojson", "no column 'metod'", "Did you mean 'method'?"}},
    {"MethodAreaOfNoMethod",
     [](SeasonFolder& f) {
         f.write("methods.geojson", polygons({{"\"method\":\"swathed\"", rectangle(-112, 52, -111.995, 52.01)},
                                              {"\"method\":\"standng\"", rectangle(-111.995, 52, -111.99, 52.01)}}));
     },
     {"methods.geojson", "row 2", "'standng'", "'swathed'", "Did you mean 'standing'?", "[[method]]"}},
    {"MethodAreasAllBlank",
     [](SeasonFolder& f) {
         f.write("methods.geojson", polygons({{"\"method\":null", rectangle(-112, 52, -111.995, 52.01)}}));
     },
     {"methods.geojson", "no area has a value", "'method'"}},
    {"MethodAreaBroken",
     [](SeasonFolder& f) {
         f.write("methods.geojson",
                 polygons({{"\"method\":\"swathed\"",
                            "[[[-112.0,52.0],[-111.99,52.01],[-111.99,52.0],[-112.0,52.01],[-112.0,52.0]]]"}}));
     },
     {"methods.geojson", "row 1 ('swathed')", "crosses itself at -111.995000, 52.005000"}},
    {"BlockColumnUnknown",
     [](SeasonFolder& f) { f.more = "[trial]\npairs = \"blok\"\n"; },
     {"methods.geojson", "no column 'blok'"}},
    {"MethodOfFieldUnknown",
     [](SeasonFolder& f) {
         f.write("fields.geojson",
                 polygons({{"\"name\":\"Home\",\"cut\":\"mown\"", rectangle(-112, 52, -111.99, 52.01)}}));
         f.methods = "from_fields = { column = \"cut\" }\n";
     },
     {"'Home'", "'cut'", "'mown' is no method"}},
    {"MethodColumnOfFieldsMissing",
     [](SeasonFolder& f) { f.methods = "from_fields = { column = \"cut\" }\n"; },
     {"fields.geojson", "no column 'cut'"}},
    {"StrataFileMissing",
     [](SeasonFolder& f) { f.more = "[strata]\nfile = \"soil.gpkg\"\ncolumn = \"unit\"\n"; },
     {"soil.gpkg", "no such file", "[strata]"}},
    {"StrataColumnUnknown",
     [](SeasonFolder& f) { f.more = "[strata]\nfile = \"methods.geojson\"\ncolumn = \"soil\"\n"; },
     {"methods.geojson", "no column 'soil'", "'method'"}},
    {"SeveralBoundaryFiles",
     [](SeasonFolder& f) {
         f.write("other.geojson", home_field());
         f.fields = "file = \"*.geojson\"\nname = \"name\"\n";
     },
     {"*.geojson", "several files", "[fields]"}},
};

INSTANTIATE_TEST_SUITE_P(Catalogue, BadLand, testing::ValuesIn(cases), name_of);

} // namespace
} // namespace quartercut::read_test
