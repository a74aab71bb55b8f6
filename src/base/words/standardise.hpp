// SPDX-License-Identifier: MIT
// What the room standardise says: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut {

struct StandardiseWords {
    const char* no_method = "{blanks} of {records} records name no method and take part in no comparison.";
    const char* several_rows = "The boundary layer has more than one row named \"{name}\" (also row {row}); they are "
                               "taken as parts of one field. Give them different names if they are different fields.";
    const char* records_outside = "{outside} of {records} records lie farther than 100 m from every field ({where}) "
                                  "and were left out. Add the missing boundary if they belong to this season.";
    const char* no_record = "No record lies in field \"{field}\"; it takes part in no comparison.";
    const char* other_year = "{elsewhere} of {records} records are not from {year}, the season's year, and take part "
                             "as if they were. Correct 'year' in the season file, or take the records of other years "
                             "out: earlier years belong under [history], maps.";
    const char* records_twice =
        "{records} of its records stand in {other} too; each counts once. Keep one of the two files under [points].";
    const char* width_missing =
        "{records} records log no width where their machine otherwise does; the full width was taken for them.";
    const char* nowhere = "nowhere";
    const char* extent_m = "x {x0} to {x1} m, y {y0} to {y1} m";
    const char* extent_deg = "longitude {x0} to {x1}, latitude {y0} to {y1}";
    const char* the_records = "the records";
    const char* method_blank =
        "Column \"{column}\" is blank for this field, so it takes part in no comparison; fill it in.";
    const char* fields_overlap = "The boundaries of \"{first}\" and \"{second}\" overlap; {records} records lie in "
                                 "both and were given to \"{holder}\". Correct the boundaries.";
    const char* width_differs = "The monitor of \"{machine}\" was set to {logged} m in \"{method}\", but one pass "
                                "stands for {cut} m of land (cut_width). Areas are taken from cut_width; yields as the "
                                "monitor logged them are out by {pct} % for that reason alone.";
    const char* width_not_logged = "The records of \"{machine}\" in \"{method}\" log no width, or 0 throughout; "
                                   "cut_width ({cut} m) was taken for all of them.";
};

} // namespace quartercut
