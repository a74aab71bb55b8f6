// SPDX-License-Identifier: MIT
// A layer of polygons -> areas in longitude and latitude, each with its name and attributes.
#pragma once

#include "read/context.hpp"

namespace quartercut::reading {

struct AreaWish {
    std::string role; ///< "fields", "methods", "strata"
    LayerInput input;
    std::string name_column;       ///< column that names an area; empty: recognised for fields, an error otherwise
    std::string key;               ///< how the season file asks for it: "name", "column"
    std::vector<std::string> more; ///< further columns that must be there
};

struct AreaLayer {
    std::string shown; ///< "fields.gpkg, layer 'methods'"
    std::vector<RawArea> areas;
};

/// \throws InputError  missing file, layer, column or CRS; empty layer; a broken polygon
[[nodiscard]] AreaLayer read_areas(Context& context, const AreaWish& wish);

/// Boundaries: rows of one name joined, overlaps and twins remarked, legal descriptions checked.
void read_fields(Context& context);

/// Method areas: values matched to the methods of the season. \throws DataError  a value that is no method
void read_method_areas(Context& context);

/// Polygons, rasters and layers of numbers under [strata] and [[strata.across]]; after the fields.
void read_strata(Context& context);
/// After the records: none of the layers that make classes may be the harvest being compared. \throws InputError
void check_class_layers(const Context& context);

/// The spelling of `value` that the season knows: a method's name or a key of `values`, exactly or but for case.
/// \param value  as found; changed to the known spelling
/// \returns false when it is none
[[nodiscard]] bool known_method_value(const Season& season, std::string& value);

/// ": 'swaht' is no method ..." with those there are and the nearest.
[[nodiscard]] std::string no_method_words(const Season& season, const std::string& value);

} // namespace quartercut::reading
