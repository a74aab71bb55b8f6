// SPDX-License-Identifier: MIT
// Raw tables -> one metric frame a field, SI units, every record in the field and method area it lies in.
//
// Frame: a transverse Mercator on the WGS 84 ellipsoid with scale 1, centred on the field. Over one quarter section its
// area differs from the geodesic area by less than 1e-6 of it (tests/standardise/frame_test.cpp).
#pragma once

#include "quartercut/read.hpp"

#include <memory>
#include <string>
#include <vector>

namespace quartercut {

/// A local metric frame; copies share the projection. Safe to use from several threads at once.
class Frame {
public:
    Frame(); ///< metres stay metres (local coordinates)
    Frame(double centre_lon_deg, double centre_lat_deg);
    [[nodiscard]] Point to_metres(Point lon_lat_deg) const;
    [[nodiscard]] Point to_degrees(Point metres) const; ///< returns its argument in a frame of local metres
    void to_metres(std::vector<double>& x, std::vector<double>& y) const; ///< in place, many at once
    [[nodiscard]] bool is_local() const;
    [[nodiscard]] std::string definition() const; ///< PROJ string, for inputs.json

private:
    struct Projection;
    std::shared_ptr<const Projection> projection_;
};

/// Area on the ellipsoid (m2) of a shape in WGS 84 degrees, edges as geodesics, by PROJ's geodesic routines.
[[nodiscard]] double geodesic_area_m2(const MultiPolygon& shape_deg);

/// Records of one field as columns, all of one length, sorted by machine, then time (file order where times lack).
struct Records {
    std::vector<double> x_m, y_m;
    std::vector<double> time_s;     ///< NaN where unknown
    std::vector<double> duration_s; ///< > 0, or NaN where neither recorded nor to be had from times
    std::vector<double> distance_m;
    std::vector<double> width_m; ///< width of land the record stands for: the method's cut where given, scaled
                                 ///< by the logged share of the full width
    std::vector<double> speed_m_s;
    std::vector<double> heading_deg;  ///< logged, clockwise from north; NaN where not logged
    std::vector<double> mass_kg;      ///< grain of the record: wet, or at the basis where at_basis; NaN: no reading
    std::vector<double> moisture_pct; ///< wet basis; NaN where not recorded
    std::vector<double> logged_yield_t_ha; ///< yield at the basis as the record stands (mass over logged width), before
                                           ///< any cleaning or calibration: what the raw yield map shows
    std::vector<std::uint8_t> at_basis;    ///< 1: mass is already at the basis
    std::vector<std::uint8_t> header_up;   ///< 1: raised
    std::vector<std::int32_t> machine;     ///< index into Standardised::machines, never -1
    std::vector<std::int32_t> method;      ///< index into Season::methods, -1: in no method area
    std::vector<std::int32_t> area;        ///< index into StandardField::method_areas, -1: none
    std::vector<std::int32_t> load;        ///< index into Standardised::loads, -1: none
    std::vector<std::uint8_t> off_field;   ///< 1: outside the boundary (or in a hole) but nearer than 100 m to it
    std::vector<std::uint32_t> input;      ///< index into Raw::inputs
    std::vector<std::uint32_t> row;        ///< 1-based row in that input
    [[nodiscard]] std::size_t size() const { return x_m.size(); }
};

struct MethodArea {
    MultiPolygon shape_m; ///< as drawn, not yet cut to the boundary
    int method = -1;
    std::string block; ///< value of the pairs column, or empty
    std::size_t row = 0;
};

struct StratumArea {
    MultiPolygon shape_m;
    std::string name;
    std::size_t table = 0; ///< index into Season::strata_tables()
};

/// Numbers over one field and a little around it, for fuzzy classes.
struct LandNumbers {
    std::string name;
    std::size_t table = 0;
    std::vector<double> x_m, y_m, values;
};

/// Plain means over records, before any cleaning: the number the raw yield map suggests.
struct RawMean {
    int method = -1;
    std::size_t records = 0;
    double mean_yield_t_ha = 0.0;   ///< mean of logged_yield_t_ha over readings up to five times their median
    double mean_moisture_pct = 0.0; ///< NaN where not recorded
};

struct StandardField {
    std::string name;
    std::map<std::string, std::string> attributes; ///< mapped meaning (legal, variety, ...) -> text, plus all columns
    Frame frame;
    MultiPolygon boundary_m;
    double area_m2 = 0.0; ///< geodesic where the frame is of the Earth, planar otherwise
    std::vector<MethodArea> method_areas;
    std::vector<StratumArea> strata;
    std::vector<LandNumbers> numbers;
    Records records;
    std::vector<RawMean> raw_means; ///< one per method present
    Issues issues;
};

struct Standardised {
    std::vector<StandardField> fields; ///< in the order of the boundary layer
    std::vector<std::string> machines; ///< names; "machine" when the records name none
    std::vector<std::string> loads;
    std::vector<Ticket> tickets;
    std::vector<InputFile> inputs;
    std::size_t records_read = 0;
    std::size_t records_outside = 0; ///< farther than 100 m from every field
    Issues issues;
};

/// \throws DataError  no record in any field; moisture of 100 or more, or 0, everywhere; widths missing altogether
[[nodiscard]] Standardised standardise(const Season& season, Raw raw);

/// Fields, method areas and strata in their frames, without records.
[[nodiscard]] Standardised standardise_land(const Season& season, Raw raw);

} // namespace quartercut
