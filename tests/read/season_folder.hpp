// SPDX-License-Identifier: MIT
// A small season in a folder of its own, written by the test: one field of 0.01 x 0.01 degrees at 52 N, 112 W, its west
// half swathed and its east half cut standing, and records whose flow, width, speed and yield agree with each other:
// 2.5 t/ha wet, 10 m wide, 2 m/s, so 5 kg/s, at 12 % moisture.
#pragma once

#include "quartercut/read.hpp"

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace quartercut::read_test {

/// What a column of the sheet holds, in SI and degrees.
enum class Holds {
    lon,
    lat,
    flow,
    yield_wet,
    yield_dry,
    moisture,
    speed,
    distance,
    duration,
    width,
    heading,
    unix_time,
    iso_z,
    iso_plain,
    date,
    clock,
    machine,
    header_up,
    load,
    nothing
};

/// Records as a table with freely named columns.
class Sheet {
public:
    /// \param factor  what the SI number is multiplied with before it is written
    Sheet& column(const std::string& name, Holds holds, double factor = 1.0);
    Sheet& rows(std::size_t count) {
        rows_ = count;
        return *this;
    }
    Sheet& separator(const std::string& sign) {
        separator_ = sign;
        return *this;
    }
    Sheet& decimal_comma() {
        comma_ = true;
        return *this;
    }
    /// Written between header and records.
    Sheet& units_row(const std::string& row) {
        units_ = row;
        return *this;
    }
    [[nodiscard]] std::string csv() const;
    /// The same as GeoJSON points; longitude and latitude columns become the geometry.
    [[nodiscard]] std::string geojson() const;

private:
    struct Column {
        std::string name;
        Holds holds;
        double factor;
    };
    [[nodiscard]] std::string cell(const Column& column, std::size_t row) const;
    std::vector<Column> columns_;
    std::size_t rows_ = 40;
    std::string separator_ = ",", units_;
    bool comma_ = false;
};

/// lon, lat, flow, moisture, distance, duration, width with units in the names.
[[nodiscard]] Sheet plain_sheet();

/// Ring of a rectangle as GeoJSON coordinates.
[[nodiscard]] std::string rectangle(double west, double south, double east, double north);
/// A feature collection; each feature is {properties, coordinates of a polygon}.
[[nodiscard]] std::string polygons(const std::vector<std::pair<std::string, std::string>>& features);

[[nodiscard]] std::string home_field();  ///< GeoJSON: the field "Home"
[[nodiscard]] std::string two_methods(); ///< GeoJSON: "swathed" west, "standing" east

class SeasonFolder {
public:
    /// With fields.geojson, methods.geojson and yield.csv in it.
    SeasonFolder();
    ~SeasonFolder();
    SeasonFolder(const SeasonFolder&) = delete;
    SeasonFolder& operator=(const SeasonFolder&) = delete;

    [[nodiscard]] std::filesystem::path path(const std::string& name) const { return folder_ / name; }
    void write(const std::string& name, const std::string& bytes) const;
    void remove(const std::string& name) const { std::filesystem::remove(path(name)); }
    /// GeoJSON file -> another format by GDAL; `options` as for ogr2ogr.
    void convert(const std::string& from, const std::string& to, std::vector<std::string> options) const;

    // Lines of the season file, free to be changed.
    std::string top =
        "year = 2025\ncrop = \"canola\"\nbaseline = \"swathed\"\ntitle = \"Invented\"\nunits = \"bu/ac\"\n";
    std::string fields = "file = \"fields.geojson\"\nname = \"name\"\n";
    std::string points = "files = [\"yield.csv\"]\n";
    std::string columns;
    std::string methods = "file = \"methods.geojson\"\ncolumn = \"method\"\n";
    std::string method_list = "[[method]]\nname = \"swathed\"\n[[method]]\nname = \"standing\"\n";
    std::string more;

    [[nodiscard]] Season season() const;
    [[nodiscard]] Raw read() const { return quartercut::read(season()); }
    /// The message `read` stops with; empty when it does not stop.
    [[nodiscard]] std::string refusal() const;

private:
    std::filesystem::path folder_;
};

/// Codes of all issues.
[[nodiscard]] std::vector<std::string> codes(const Issues& issues);

} // namespace quartercut::read_test
