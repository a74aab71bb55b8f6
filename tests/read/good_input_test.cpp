// SPDX-License-Identifier: MIT
// Land as people really have it: read, with a note where something was mended or taken.
#include "season_folder.hpp"

#include <gmock/gmock.h>

namespace quartercut::read_test {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

/// Area of the field in square degrees: 0.01 x 0.01.
constexpr double home_area_deg2 = 1e-4;
constexpr double rounding = 1e-12;

void use(SeasonFolder& folder, const std::string& coordinates) {
    folder.write("fields.geojson", polygons({{"\"name\":\"Home\"", coordinates}}));
}

std::string issue_text(const Raw& raw, const std::string& code) {
    for (const Issue& issue : raw.issues)
        if (issue.code == code) return issue.where + ": " + issue.message;
    return "(no issue " + code + ")";
}

TEST(Reading, TakesAPlainSeasonWithoutComplaint) {
    const SeasonFolder folder;
    const Raw raw = folder.read();
    ASSERT_EQ(raw.fields.size(), 1U);
    EXPECT_EQ(raw.fields[0].name, "Home");
    EXPECT_NEAR(planar_area(raw.fields[0].shape_deg), home_area_deg2, rounding);
    ASSERT_EQ(raw.method_areas.size(), 2U);
    EXPECT_EQ(raw.method_areas[0].name, "swathed");
    EXPECT_EQ(raw.method_areas[1].row, 2U);
    ASSERT_EQ(raw.records.size(), 1U);
    EXPECT_EQ(raw.records[0].size(), 40U);
    EXPECT_FALSE(raw.local_metres);
    for (const Issue& issue : raw.issues)
        EXPECT_EQ(issue.severity, Severity::note) << issue.message;
}

TEST(Reading, NamesEveryInputWithItsFingerprint) {
    const SeasonFolder folder;
    const Raw raw = folder.read();
    ASSERT_EQ(raw.inputs.size(), 4U);
    EXPECT_EQ(raw.inputs[0].role, "season");
    EXPECT_EQ(raw.inputs[1].role, "fields");
    EXPECT_EQ(raw.inputs[2].role, "methods");
    EXPECT_EQ(raw.inputs[3].role, "points");
    EXPECT_EQ(raw.inputs[3].rows, 40U);
    for (const InputFile& input : raw.inputs) {
        EXPECT_EQ(input.sha256.size(), 64U);
        EXPECT_GT(input.bytes, 0U);
    }
    EXPECT_EQ(raw.records[0].input, 3U);
}

TEST(Boundaries, KeepHolesAndGiveRingsTheirTurn) {
    SeasonFolder folder;
    // Shell drawn clockwise, hole counter-clockwise: both the wrong way round.
    use(folder, "[[[-112,52],[-112,52.01],[-111.99,52.01],[-111.99,52],[-112,52]],"
                "[[-111.997,52.004],[-111.993,52.004],[-111.993,52.006],[-111.997,52.006],[-111.997,52.004]]]");
    const Raw raw = folder.read();
    const MultiPolygon& shape = raw.fields[0].shape_deg;
    ASSERT_EQ(shape.size(), 1U);
    ASSERT_EQ(shape[0].holes.size(), 1U);
    EXPECT_GT(signed_area(shape[0].shell), 0.0);
    EXPECT_LT(signed_area(shape[0].holes[0]), 0.0);
    EXPECT_NEAR(planar_area(shape), home_area_deg2 - 0.004 * 0.002, rounding);
    EXPECT_EQ(shape[0].shell.size(), 4U) << "the closing vertex is not repeated";
}

TEST(Boundaries, LoseTheirHeights) {
    SeasonFolder folder;
    use(folder, "[[[-112,52,700],[-111.99,52,701],[-111.99,52.01,702],[-112,52.01,699],[-112,52,700]]]");
    EXPECT_NEAR(planar_area(folder.read().fields[0].shape_deg), home_area_deg2, rounding);
}

TEST(Boundaries, TakeManyParts) {
    SeasonFolder folder;
    folder.write(
        "fields.geojson",
        "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"name\":\"Home\"},"
        "\"geometry\":{\"type\":\"MultiPolygon\",\"coordinates\":[" +
            rectangle(-112, 52, -111.996, 52.01) + "," + rectangle(-111.995, 52, -111.99, 52.01) + "]}}]}");
    const Raw raw = folder.read();
    EXPECT_EQ(raw.fields[0].shape_deg.size(), 2U);
    EXPECT_NEAR(planar_area(raw.fields[0].shape_deg), 0.009 * 0.01, rounding);
}

TEST(Boundaries, AreMendedWhereHardlyAnythingChanges) {
    SeasonFolder folder;
    // The east edge overshoots the north edge by 0.00001 degrees: a loop at the corner (-111.99, 52.01).
    use(folder, "[[[-112,52],[-111.99,52],[-111.99,52.01001],[-111.98999,52.01],[-112,52.01],[-112,52]]]");
    const Raw raw = folder.read();
    EXPECT_NEAR(planar_area(raw.fields[0].shape_deg), home_area_deg2, home_area_deg2 * 0.01);
    EXPECT_THAT(
        issue_text(raw, "outline-mended"),
        HasSubstr(
            "fields.geojson, layer 'fields', row 1 ('Home'): The outline crosses itself at -111.990000, 52.010000"));
}

TEST(Boundaries, OfOneNameAreJoined) {
    SeasonFolder folder;
    folder.write("fields.geojson",
                 polygons({{"\"name\":\"Home\",\"variety\":\"early\"", rectangle(-112, 52, -111.995, 52.01)},
                           {"\"name\":\"Far\",\"variety\":\"late\"", rectangle(-112.1, 52, -112.09, 52.01)},
                           {"\"name\":\"Home\",\"variety\":\"late\"", rectangle(-111.995, 52, -111.99, 52.01)}}));
    const Raw raw = folder.read();
    ASSERT_EQ(raw.fields.size(), 2U);
    EXPECT_EQ(raw.fields[0].shape_deg.size(), 1U) << "the edge between the parts is dissolved";
    EXPECT_NEAR(planar_area(raw.fields[0].shape_deg), home_area_deg2, rounding);
    EXPECT_EQ(raw.fields[0].attributes.at("variety"), "early; late");
    EXPECT_THAT(issue_text(raw, "field-joined"), HasSubstr("Rows 1 and 3"));
    EXPECT_EQ(issue_text(raw, "field-pieces"), "(no issue field-pieces)") << "parts that touch are one field";
}

TEST(Boundaries, OfOneNameThatDoNotTouchAreDoubted) {
    SeasonFolder folder;
    folder.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(-112, 52, -111.995, 52.01)},
                                             {"\"name\":\"Home\"", rectangle(-111.994, 52, -111.99, 52.01)}}));
    EXPECT_THAT(issue_text(folder.read(), "field-pieces"),
                HasSubstr("2 separate pieces share the name 'Home' (rows 1 and 2)"));
}

TEST(Boundaries, ThatOverlapAreTold) {
    SeasonFolder folder;
    folder.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(-112, 52, -111.99, 52.01)},
                                             {"\"name\":\"Next\"", rectangle(-111.9904, 52, -111.9804, 52.01)}}));
    // 0.0004 of 0.010 degrees is 4 %.
    EXPECT_THAT(issue_text(folder.read(), "fields-overlap"), HasSubstr("('Home' and 'Next') overlap by 4.0 %"));
}

TEST(Boundaries, ThatTouchAreNoOverlap) {
    SeasonFolder folder;
    folder.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(-112, 52, -111.99, 52.01)},
                                             {"\"name\":\"Next\"", rectangle(-111.99, 52, -111.98, 52.01)}}));
    EXPECT_THAT(codes(folder.read().issues), Not(Contains("fields-overlap")));
}

TEST(Boundaries, WithoutOutlineArePassedOver) {
    SeasonFolder folder;
    folder.write("fields.geojson",
                 "{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"properties\":{\"name\":"
                 "\"Lost\"},\"geometry\":null},{\"type\":\"Feature\",\"properties\":{\"name\":\"Home\"},"
                 "\"geometry\":{\"type\":\"Polygon\",\"coordinates\":" +
                     rectangle(-112, 52, -111.99, 52.01) + "}}]}");
    const Raw raw = folder.read();
    ASSERT_EQ(raw.fields.size(), 1U);
    EXPECT_EQ(raw.fields[0].row, 2U);
    EXPECT_THAT(issue_text(raw, "no-outline"), HasSubstr("row 1 ('Lost')"));
}

TEST(Boundaries, TellAQuarterThatIsTooLarge) {
    SeasonFolder folder;
    folder.write("fields.geojson",
                 polygons({{"\"name\":\"Home\",\"legal\":\"NE-16-74-20-W4\"", rectangle(-112, 52, -111.97, 52.01)}}));
    folder.fields += "[fields.columns]\nlegal = \"legal\"\n";
    EXPECT_THAT(issue_text(folder.read(), "legal-area"), HasSubstr("NE-16-74-20-W4"));
}

TEST(Boundaries, KeepALegalDescriptionNobodyUnderstandsAsALabel) {
    SeasonFolder folder;
    folder.write("fields.geojson",
                 polygons({{"\"name\":\"Home\",\"legal\":\"NE-99-74-20-W4\"", rectangle(-112, 52, -111.99, 52.01)}}));
    folder.fields += "[fields.columns]\nlegal = \"legal\"\n";
    const Raw raw = folder.read();
    EXPECT_EQ(raw.fields[0].attributes.at("legal"), "NE-99-74-20-W4");
    EXPECT_THAT(issue_text(raw, "legal-description"), HasSubstr("NE-99-74-20-W4"));
}

TEST(Boundaries, NameColumnIsRecognisedWithANote) {
    SeasonFolder folder;
    folder.fields = "file = \"fields.geojson\"\n";
    const Season season = [&] {
        Season out = SeasonFolder().season();
        out.file = folder.path("season.toml");
        out.fields.name_column.clear();
        return out;
    }();
    const Raw raw = read(season);
    EXPECT_EQ(raw.fields[0].name, "Home");
    EXPECT_THAT(codes(raw.issues), Contains("column-taken"));
}

TEST(Boundaries, ColumnNameMayDifferByCase) {
    SeasonFolder folder;
    folder.fields = "file = \"fields.geojson\"\nname = \"NAME\"\n";
    EXPECT_EQ(folder.read().fields[0].name, "Home");
}

TEST(MethodAreas, AreMatchedButForCaseWithANote) {
    SeasonFolder folder;
    folder.write("methods.geojson", polygons({{"\"method\":\"Swathed \"", rectangle(-112, 52, -111.995, 52.01)},
                                              {"\"method\":\"standing\"", rectangle(-111.995, 52, -111.99, 52.01)}}));
    const Raw raw = folder.read();
    EXPECT_EQ(raw.method_areas[0].name, "swathed");
    EXPECT_THAT(issue_text(raw, "method-spelling"), HasSubstr("'swathed'"));
}

TEST(MethodAreas, WithoutAValueAreLeftOut) {
    SeasonFolder folder;
    folder.write("methods.geojson", polygons({{"\"method\":null", rectangle(-112, 52, -111.995, 52.01)},
                                              {"\"method\":\"standing\"", rectangle(-111.995, 52, -111.99, 52.01)}}));
    const Raw raw = folder.read();
    EXPECT_EQ(raw.method_areas.size(), 1U);
    EXPECT_THAT(issue_text(raw, "area-without-method"), HasSubstr("row 1"));
}

TEST(MethodAreas, MayComeFromTheFields) {
    SeasonFolder folder;
    folder.write("fields.geojson",
                 polygons({{"\"name\":\"Home\",\"cut\":\"STANDING\"", rectangle(-112, 52, -111.99, 52.01)}}));
    folder.methods = "from_fields = { column = \"cut\" }\n";
    const Raw raw = folder.read();
    EXPECT_TRUE(raw.method_areas.empty());
    EXPECT_EQ(raw.fields[0].attributes.at("cut"), "standing");
}

TEST(Strata, AreReadWithTheirNames) {
    SeasonFolder folder;
    folder.write("soil.geojson", polygons({{"\"unit\":\"loam\"", rectangle(-112, 52, -111.995, 52.01)},
                                           {"\"unit\":\"clay\"", rectangle(-111.995, 52, -111.99, 52.01)}}));
    folder.more = "[strata]\nfile = \"soil.geojson\"\ncolumn = \"unit\"\n";
    const Raw raw = folder.read();
    ASSERT_EQ(raw.strata.size(), 2U);
    EXPECT_EQ(raw.strata[1].name, "clay");
}

TEST(CoordinateSystems, LocalMetresAreTakenWhenAllLayersSaySo) {
    SeasonFolder folder;
    folder.write("fields.geojson", polygons({{"\"name\":\"Home\"", rectangle(0, 0, 800, 800)}}));
    folder.write("methods.geojson", polygons({{"\"method\":\"swathed\"", rectangle(0, 0, 400, 800)},
                                              {"\"method\":\"standing\"", rectangle(400, 0, 800, 800)}}));
    folder.write("yield.csv", "x,y,flow_kg_s,moisture_pct\n10,10,5,12\n12,10,5,12\n");
    folder.fields += "crs = \"local metres\"\n";
    folder.methods += "crs = \"local metres\"\n";
    folder.points += "crs = \"local metres\"\n";
    const Raw raw = folder.read();
    EXPECT_TRUE(raw.local_metres);
    EXPECT_NEAR(planar_area(raw.fields[0].shape_deg), 640000.0, 1e-6);
    EXPECT_EQ(raw.records[0].lon_deg[1], 12.0);
}

TEST(CoordinateSystems, MissingOneIsTakenFromTheSeasonFile) {
    SeasonFolder folder;
    folder.convert("fields.geojson", "fields.shp", {"-t_srs", "EPSG:32612"});
    folder.remove("fields.prj");
    folder.fields = "file = \"fields.shp\"\nname = \"name\"\ncrs = \"EPSG:32612\"\n";
    const Raw raw = folder.read();
    const Box box = bounding_box(raw.fields[0].shape_deg);
    constexpr double millimetre_deg = 1e-8;
    EXPECT_NEAR(box.min_x, -112.0, millimetre_deg);
    EXPECT_NEAR(box.max_y, 52.01, millimetre_deg);
}

TEST(CoordinateSystems, OfAnotherDatumAreTold) {
    SeasonFolder folder;
    folder.convert("fields.geojson", "fields.gpkg", {"-t_srs", "EPSG:3400", "-nln", "fields"});
    folder.fields = "file = \"fields.gpkg\"\nname = \"name\"\n";
    const Raw raw = folder.read();
    EXPECT_THAT(codes(raw.issues), Contains("datum"));
    EXPECT_NEAR(planar_area(raw.fields[0].shape_deg), home_area_deg2, home_area_deg2 * 1e-4);
}

} // namespace
} // namespace quartercut::read_test
