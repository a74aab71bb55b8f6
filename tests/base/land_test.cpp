// SPDX-License-Identifier: MIT
// Legal land descriptions. Forms and ranges: Government of Alberta, water-well search by legal land description;
// documentation of an rOpenSci package on Manitoba quarter sections (east of the first meridian); Saskatchewan archives
// guide (townships to 129, ranges to 34). Numbering of legal subdivisions: back and forth from the south-east corner.
#include "quartercut/land.hpp"

#include "quartercut/error.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using testing::HasSubstr;

std::string refusal(const std::string& text) {
    try {
        static_cast<void>(parse_legal_land(text));
    } catch (const InputError& error) {
        return error.what();
    }
    return "accepted";
}

void expect_land(const LegalLand& land, const std::string& quarter, std::vector<int> numbers, char side) {
    EXPECT_EQ(land.quarter, quarter);
    EXPECT_EQ(land.section, numbers.at(0));
    EXPECT_EQ(land.township, numbers.at(1));
    EXPECT_EQ(land.range, numbers.at(2));
    EXPECT_EQ(land.meridian, numbers.at(3));
    EXPECT_EQ(land.side, side);
    EXPECT_FALSE(land.subdivision);
}

TEST(LegalLandDescriptions, OfThreeProvincesAreRead) {
    expect_land(parse_legal_land("NE-16-74-20-W4"), "NE", {16, 74, 20, 4}, 'W');
    expect_land(parse_legal_land("SW-27-36-5-W3"), "SW", {27, 36, 5, 3}, 'W');
    expect_land(parse_legal_land("SW-9-8-6E1"), "SW", {9, 8, 6, 1}, 'E');
    expect_land(parse_legal_land("SW 24-38-20-W5"), "SW", {24, 38, 20, 5}, 'W');
}

TEST(LegalLandDescriptions, AreReadInTheWaysTheyAreWritten) {
    const std::string same[] = {"ne 16 74 20 w4",
                                "NE16-74-20W4",
                                "NE 1/4 16-74-20 W4",
                                "NE\xC2\xBC 16-74-20-W4M",
                                "N.E. Sec. 16, Twp. 74, Rge. 20, W4th",
                                "  NE-016-074-20-W4 ",
                                "NE.16.74.20.W4",
                                "NE\xE2\x80\x93"
                                "16\xE2\x80\x93"
                                "74\xE2\x80\x93"
                                "20\xE2\x80\x93W4",
                                "Northeast quarter of section 16 township 74 range 20 west of the 4th meridian"};
    for (const std::string& text : same)
        EXPECT_EQ(to_string(parse_legal_land(text)), "NE-16-74-20-W4") << text;
    EXPECT_EQ(to_string(parse_legal_land("SW 9-8-6 WPM")), "SW-9-8-6-W1");
}

TEST(LegalLandDescriptions, MayNameALegalSubdivisionOrAWholeSection) {
    const LegalLand land = parse_legal_land("06-16-74-20-W4");
    EXPECT_EQ(land.subdivision, 6);
    EXPECT_EQ(land.quarter, "");
    EXPECT_EQ(land.section, 16);
    EXPECT_EQ(to_string(parse_legal_land("LSD 6-16-74-20-W4")), "6-16-74-20-W4");
    EXPECT_EQ(to_string(parse_legal_land("16-74-20-W4")), "16-74-20-W4");
}

TEST(LegalLandDescriptions, ComeBackTheSameFromTheirText) {
    for (const std::string text : {"NE-16-74-20-W4", "SW-9-8-6-E1", "16-36-129-34-W3", "1-1-1-W1", "NW-36-126-30-W6"})
        EXPECT_EQ(to_string(parse_legal_land(text)), text);
}

TEST(LegalLandDescriptions, OutsideTheSurveyAreRefused) {
    EXPECT_THAT(refusal("NE-0-74-20-W4"), HasSubstr("section 0 does not exist (it runs from 1 to 36)"));
    EXPECT_THAT(refusal("NE-37-74-20-W4"), HasSubstr("section 37 does not exist"));
    EXPECT_THAT(refusal("NE-16-127-20-W4"), HasSubstr("township 127 does not exist west of the fourth meridian"));
    EXPECT_THAT(refusal("17-16-74-20-W4"), HasSubstr("legal subdivision 17 does not exist (it runs from 1 to 16)"));
    EXPECT_THAT(refusal("0-16-74-20-W4"), HasSubstr("legal subdivision 0"));
    EXPECT_THAT(refusal("NE-16-74-31-W4"), HasSubstr("range 31 does not exist west of"));
    EXPECT_THAT(refusal("NE-16-130-20-W3"), HasSubstr("township 130"));
    EXPECT_THAT(refusal("NE-16-74-35-W3"), HasSubstr("range 35"));
    EXPECT_THAT(refusal("NE-16-74-20-W0"), HasSubstr("meridian 0"));
    EXPECT_THAT(refusal("NE-16-74-20-W7"), HasSubstr("meridian 7"));
    EXPECT_THAT(refusal("NE-16-74-20-E4"), HasSubstr("first meridian only"));
}

// Township 127 exists in Saskatchewan's records and not in Alberta's.
TEST(LegalLandDescriptions, KnowWhereAlbertaEnds) {
    EXPECT_EQ(parse_legal_land("NE-16-127-20-W3").township, 127);
    EXPECT_THAT(refusal("NE-16-127-20-W5"), HasSubstr("127"));
}

TEST(LegalLandDescriptions, ThatAreNoneAreRefused) {
    EXPECT_THAT(refusal(""), HasSubstr("it is empty"));
    EXPECT_THAT(refusal("  "), HasSubstr("it is empty"));
    EXPECT_THAT(refusal("NE-16-74-20"), HasSubstr("the meridian is missing"));
    EXPECT_THAT(refusal("NE-16-74-W4"), HasSubstr("section, township and range"));
    EXPECT_THAT(refusal("NE-6-16-74-20-W4"), HasSubstr("section, township and range"));
    EXPECT_THAT(refusal("NE-16-74-20-W"), HasSubstr("number of the meridian"));
    EXPECT_THAT(refusal("NE-16-74-20-W4-9"), HasSubstr("nothing else"));
    EXPECT_THAT(refusal("North field"), HasSubstr("the meridian is missing"));
    EXPECT_THAT(refusal("NN-16-74-20-W4"), HasSubstr("\"nn\" has no place"));
    EXPECT_THAT(refusal("N1/2 16-74-20-W4"), HasSubstr("halves"));
    EXPECT_THAT(refusal("NE-16-74-99999999999999-W4"), HasSubstr("far too large"));
    EXPECT_THAT(refusal("NE-16-74-20-W4 @home"), HasSubstr("a sign that has no place"));
    EXPECT_THAT(refusal(std::string(500, 'N')), HasSubstr("far too long"));
}

TEST(LegalSubdivisions, LieInTheQuarterTheNumberingSays) {
    for (const int lsd : {1, 2, 7, 8})
        EXPECT_EQ(quarter_of_subdivision(lsd), "SE") << lsd;
    for (const int lsd : {3, 4, 5, 6})
        EXPECT_EQ(quarter_of_subdivision(lsd), "SW") << lsd;
    for (const int lsd : {11, 12, 13, 14})
        EXPECT_EQ(quarter_of_subdivision(lsd), "NW") << lsd;
    for (const int lsd : {9, 10, 15, 16})
        EXPECT_EQ(quarter_of_subdivision(lsd), "NE") << lsd;
    EXPECT_THROW(static_cast<void>(quarter_of_subdivision(0)), InputError);
    EXPECT_THROW(static_cast<void>(quarter_of_subdivision(17)), InputError);
}

} // namespace
} // namespace quartercut
