// SPDX-License-Identifier: MIT
// What the room zone says: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut {

struct ZoneWords {
    const char* no_pass = "no pass";
    const char* no_method_area = "no method area";
    const char* no_stratum = "no stratum";
    const char* fuzzy_classes =
        "The field was put into {classes} classes by {layers}. {tries}. Small FPI and NCE mean that places belong "
        "clearly to one class. Class 1 has the smallest numbers of this field; classes are found per field, so class 1 "
        "of another field may be other land altogether.";
    const char* no_fuzzy_classes = "The layers under [strata] ({layers}) cover too little of the field together to "
                                   "find classes; it was left in one piece.";
    const char* repaired = "The {what} crosses or touches itself and was repaired; its area changed by {change:.1f} "
                           "m2. Draw it anew if that is not right.";
    const char* method_area = "method area of row {row}";
    const char* boundary = "boundary";
    const char* edge_width_unknown = "How wide the edge is cannot be told: no record has a width and no [[method]] a "
                                     "cut_width. The field was left without edge and interior.";
    const char* areas_overlap = "Method areas of rows {first} and {second} overlap; they are of one method, so the "
                                "land in both was counted to row {holder}.";
    const char* areas_differ =
        "The zones' areas on the plane differ by {pct:+.3f} % from the field's area on the ellipsoid; they were scaled "
        "to it. Check the boundary: it is repaired, or far larger than a field.";
    const char* area_lost =
        "The method area of row {row} is narrower than a sliver, or covered by others, and became no zone of its own.";
    const char* stratum = "stratum \"{name}\"";
    const char* strata_overlap = "Strata \"{first}\" and \"{second}\" overlap; the land in both was counted to "
                                 "\"{holder}\". Correct the polygons.";
    const char* try_of_classes =
        "{classes} classes: FPI {fpi:.3f}, NCE {nce:.3f}, {pct:.0f} % of the variance explained";
};

} // namespace quartercut
