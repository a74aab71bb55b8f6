// SPDX-License-Identifier: MIT
// Reads legal land descriptions of the Dominion Land Survey: pieces of words and numbers in a fixed order, whatever
// stands between them, then each part against the range the survey has.
//
// Ranges: Government of Alberta, water-well search by legal land description (sections 1-36, townships 1-126, ranges
// 1-30, legal subdivisions 1-16); Saskatchewan archives guide (townships 1-129, ranges 1-34), which we also allow in
// Manitoba. The numbering runs back and forth from the south-east corner.
#include "quartercut/land.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <vector>

namespace quartercut {
namespace {

constexpr std::string_view example = "NE-16-74-20-W4, 6-16-74-20-W4 or SW-9-8-6E1";

[[noreturn]] void refuse(std::string_view text, std::string_view why) {
    throw InputError(fmt::format("\"{}\" is not a legal land description: {}. Write it like {}.", text, why, example));
}

/// One run of letters or one run of digits.
struct Piece {
    std::string word; ///< small letters, empty for a number
    int number = -1;
};

bool is_filler(std::string_view word) {
    static constexpr std::array<std::string_view, 22> fillers{
        "sec", "section", "tp",      "twp", "township", "r",   "rg", "rge", "range", "of", "the",
        "and", "qtr",     "quarter", "lsd", "meridian", "mer", "m",  "st",  "nd",    "rd", "th"};
    return std::find(fillers.begin(), fillers.end(), word) != fillers.end();
}

/// Signs that only part or decorate: dashes, dots, commas, blanks, a quarter sign.
std::string without_decoration(std::string_view text) {
    std::string plain(text);
    for (const std::string_view sign : {"1/4", "\xC2\xBC", "\xC2\xA0", "\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x93",
                                        "\xE2\x80\x94", "-", ",", "/", "(", ")", "\t", "\r", "\n"})
        plain = replace_all(plain, sign, " ");
    // "N.E." is one word, "Sec. 16" are two, and in "SW.16.74" the points part.
    std::string joined;
    for (std::size_t at = 0; at < plain.size(); ++at) {
        const bool beside_digit =
            (at > 0 && is_digit(plain[at - 1])) || (at + 1 < plain.size() && is_digit(plain[at + 1]));
        if (plain[at] != '.') joined += plain[at];
        if (plain[at] == '.' && beside_digit) joined += ' ';
    }
    return lower(joined);
}

std::vector<Piece> pieces_of(std::string_view text) {
    const std::string plain = without_decoration(text);
    std::vector<Piece> pieces;
    for (std::size_t at = 0; at < plain.size();) {
        const std::size_t start = at;
        if (is_digit(plain[at])) {
            while (at < plain.size() && is_digit(plain[at]))
                ++at;
            const std::optional<int> number = parse_whole_number(std::string_view(plain).substr(start, at - start));
            if (!number) refuse(text, "a number in it is far too large");
            pieces.push_back({"", *number});
        } else if (is_letter(plain[at])) {
            while (at < plain.size() && is_letter(plain[at]))
                ++at;
            const std::string word = plain.substr(start, at - start);
            if (!is_filler(word)) pieces.push_back({word, -1});
        } else if (plain[at] == ' ') {
            ++at;
        } else {
            refuse(text, "it holds a sign that has no place in one");
        }
    }
    return pieces;
}

std::optional<std::string> quarter_from(std::string_view word) {
    if (word == "ne" || word == "northeast") return "NE";
    if (word == "nw" || word == "northwest") return "NW";
    if (word == "se" || word == "southeast") return "SE";
    if (word == "sw" || word == "southwest") return "SW";
    return std::nullopt;
}

std::optional<char> side_from(std::string_view word) {
    if (word == "w" || word == "west" || word == "wpm") return 'W';
    if (word == "e" || word == "east" || word == "epm") return 'E';
    return std::nullopt;
}

void require_range(std::string_view text, std::string_view part, int value, int last, std::string_view where = "") {
    if (value < 1 || value > last)
        refuse(text, fmt::format("{} {} does not exist{} (it runs from 1 to {})", part, value, where, last));
}

void check_ranges(std::string_view text, const LegalLand& land) {
    require_range(text, "meridian", land.meridian, 6);
    if (land.side == 'E' && land.meridian != 1)
        refuse(text, "ranges are counted eastward from the first meridian only");
    if (land.subdivision) require_range(text, "legal subdivision", *land.subdivision, 16);
    require_range(text, "section", land.section, 36);
    // West of the fourth meridian lies Alberta, whose townships and ranges end sooner.
    const bool alberta = land.meridian >= 4;
    const std::string_view where = alberta ? " west of the fourth meridian" : "";
    require_range(text, "township", land.township, alberta ? 126 : 129, where);
    require_range(text, "range", land.range, alberta ? 30 : 34, where);
}

/// Takes the side and the meridian off the end: "... W 4", or "wpm" (the first, or principal, meridian).
void take_meridian(std::string_view text, std::vector<Piece>& pieces, LegalLand& land) {
    const auto is_side = [](const Piece& piece) { return side_from(piece.word).has_value(); };
    const auto side = std::find_if(pieces.begin(), pieces.end(), is_side);
    if (side == pieces.end()) refuse(text, "the meridian is missing (W1 to W6, or E1)");
    land.side = *side_from(side->word);
    const bool principal = side->word.size() == 3;
    const auto after = side + 1;
    if (principal && after == pieces.end()) {
        land.meridian = 1;
    } else if (after != pieces.end() && after + 1 == pieces.end() && after->number >= 0) {
        land.meridian = after->number;
    } else {
        refuse(text, "after W or E comes the number of the meridian and nothing else");
    }
    pieces.erase(side, pieces.end());
}

} // namespace

LegalLand parse_legal_land(std::string_view text) {
    if (text.size() > 120) refuse(text.substr(0, 40), "it is far too long");
    if (trim(text).empty()) refuse(text, "it is empty");
    if (text.find("1/2") != std::string_view::npos || text.find("\xC2\xBD") != std::string_view::npos)
        refuse(text, "halves are not read, name a quarter");
    LegalLand land;
    std::vector<Piece> pieces = pieces_of(text);
    if (!pieces.empty())
        if (const std::optional<std::string> quarter = quarter_from(pieces.front().word)) {
            land.quarter = *quarter;
            pieces.erase(pieces.begin());
        }
    take_meridian(text, pieces, land);
    for (const Piece& piece : pieces)
        if (piece.number < 0) refuse(text, fmt::format("\"{}\" has no place in one", piece.word));
    const bool subdivided = pieces.size() == 4 && land.quarter.empty();
    if (pieces.size() != 3 && !subdivided)
        refuse(text, "before the meridian come a quarter (or a legal subdivision), section, township and range");
    if (subdivided) land.subdivision = pieces.front().number;
    land.section = pieces[pieces.size() - 3].number;
    land.township = pieces[pieces.size() - 2].number;
    land.range = pieces.back().number;
    check_ranges(text, land);
    return land;
}

std::string quarter_of_subdivision(int subdivision) {
    if (subdivision < 1 || subdivision > 16)
        throw InputError(fmt::format("Legal subdivision {} does not exist (they run from 1 to 16).", subdivision));
    // Rows of four from the south-east corner, back and forth: 1-4 run west, 5-8 east, and so on.
    const int row = (subdivision - 1) / 4, along = (subdivision - 1) % 4;
    const int from_east = row % 2 == 0 ? along : 3 - along;
    return fmt::format("{}{}", row < 2 ? 'S' : 'N', from_east < 2 ? 'E' : 'W');
}

std::string to_string(const LegalLand& land) {
    const std::string whole_section =
        fmt::format("{}-{}-{}-{}{}", land.section, land.township, land.range, land.side, land.meridian);
    if (land.subdivision) return fmt::format("{}-{}", *land.subdivision, whole_section);
    return land.quarter.empty() ? whole_section : fmt::format("{}-{}", land.quarter, whole_section);
}

} // namespace quartercut
