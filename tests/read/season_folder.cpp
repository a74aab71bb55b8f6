// SPDX-License-Identifier: MIT
// Writing small seasons for the tests of reading.
#include "season_folder.hpp"

#include "quartercut/error.hpp"

#include <cmath>
#include <cpl_error.h>
#include <fmt/format.h>
#include <fstream>
#include <gdal_priv.h>
#include <gdal_utils.h>
#include <random>
#include <stdexcept>

namespace quartercut::read_test {
namespace fs = std::filesystem;
namespace {

constexpr double moisture_pct = 12.0;
constexpr double first_second = 1757000000.0; // 2025-09-04T15:33:20Z, by `date -u -d @1757000000`

std::string number(double value) { return fmt::format("{:.9g}", value); }

std::string clock_text(std::size_t row) {
    const auto second = 20 + row;
    return fmt::format("15:{:02}:{:02}", 33 + second / 60, second % 60);
}

bool is_text(Holds holds) {
    return holds == Holds::iso_z || holds == Holds::iso_plain || holds == Holds::date || holds == Holds::clock ||
           holds == Holds::machine;
}

} // namespace

Sheet& Sheet::column(const std::string& name, Holds holds, double factor) {
    columns_.push_back({name, holds, factor});
    return *this;
}

std::string Sheet::cell(const Column& column, std::size_t row) const {
    const double n = static_cast<double>(row);
    const double wobble = 1.0 + 0.1 * std::sin(n); // the crop is not even
    switch (column.holds) {
    case Holds::lon:
        return fmt::format("{:.7f}", -111.999 + 0.0002 * n);
    case Holds::lat:
        return fmt::format("{:.7f}", 52.005);
    case Holds::flow:
        return number(5.0 * wobble * column.factor);
    case Holds::yield_wet:
        return number(2.5 * wobble * column.factor);
    case Holds::yield_dry:
        return number(2.5 * wobble * (100.0 - moisture_pct) / 90.0 * column.factor);
    case Holds::moisture:
        return number(moisture_pct * column.factor);
    case Holds::speed:
        return number(2.0 * column.factor);
    case Holds::distance:
        return number(2.0 * column.factor);
    case Holds::duration:
        return number(1.0 * column.factor);
    case Holds::width:
        return number(10.0 * column.factor);
    case Holds::heading:
        return "90";
    case Holds::unix_time:
        return fmt::format("{:.0f}", first_second + n);
    case Holds::iso_z:
        return "2025-09-04T" + clock_text(row) + "Z";
    case Holds::iso_plain:
        return "2025-09-04T" + clock_text(row);
    case Holds::date:
        return "2025-09-04";
    case Holds::clock:
        return clock_text(row);
    case Holds::machine:
        return row % 2 == 0 ? "red one" : "old one";
    case Holds::header_up:
        return row < 5 ? "1" : "0";
    case Holds::load:
        return fmt::format("{}", 1 + row / 20);
    case Holds::nothing:
        return "";
    }
    return {};
}

std::string Sheet::csv() const {
    std::string out;
    for (std::size_t c = 0; c < columns_.size(); ++c)
        out += (c == 0 ? "" : separator_) + columns_[c].name;
    out += "\n" + units_ + (units_.empty() ? "" : "\n");
    for (std::size_t row = 0; row < rows_; ++row) {
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            std::string text = cell(columns_[c], row);
            if (comma_)
                for (char& sign : text)
                    if (sign == '.') sign = ',';
            out += (c == 0 ? "" : separator_) + text;
        }
        out += "\n";
    }
    return out;
}

std::string Sheet::geojson() const {
    std::string features;
    for (std::size_t row = 0; row < rows_; ++row) {
        std::string x, y, properties;
        for (const Column& column : columns_) {
            const std::string text = cell(column, row);
            if (column.holds == Holds::lon)
                x = text;
            else if (column.holds == Holds::lat)
                y = text;
            else
                properties += fmt::format("{}\"{}\":{}", properties.empty() ? "" : ",", column.name,
                                          is_text(column.holds) ? "\"" + text + "\"" : text);
        }
        features += fmt::format("{}{{\"type\":\"Feature\",\"properties\":{{{}}},\"geometry\":{{\"type\":\"Point\","
                                "\"coordinates\":[{},{}]}}}}",
                                row == 0 ? "" : ",\n", properties, x, y);
    }
    return "{\"type\":\"FeatureCollection\",\"features\":[" + features + "]}";
}

Sheet plain_sheet() {
    return Sheet()
        .column("longitude", Holds::lon)
        .column("latitude", Holds::lat)
        .column("flow_kg_s", Holds::flow)
        .column("moisture_pct", Holds::moisture)
        .column("distance_m", Holds::distance)
        .column("duration_s", Holds::duration)
        .column("width_m", Holds::width);
}

std::string rectangle(double west, double south, double east, double north) {
    return fmt::format("[[[{0},{1}],[{2},{1}],[{2},{3}],[{0},{3}],[{0},{1}]]]", west, south, east, north);
}

std::string polygons(const std::vector<std::pair<std::string, std::string>>& features) {
    std::string out;
    for (const auto& [properties, coordinates] : features)
        out += fmt::format("{}{{\"type\":\"Feature\",\"properties\":{{{}}},\"geometry\":{{\"type\":\"Polygon\","
                           "\"coordinates\":{}}}}}",
                           out.empty() ? "" : ",\n", properties, coordinates);
    return "{\"type\":\"FeatureCollection\",\"features\":[" + out + "]}";
}

std::string home_field() { return polygons({{"\"name\":\"Home\"", rectangle(-112.0, 52.0, -111.99, 52.01)}}); }

std::string two_methods() {
    return polygons({{"\"method\":\"swathed\"", rectangle(-112.0, 52.0, -111.995, 52.01)},
                     {"\"method\":\"standing\"", rectangle(-111.995, 52.0, -111.99, 52.01)}});
}

SeasonFolder::SeasonFolder() {
    std::string name = (fs::temp_directory_path() / "quartercut-read-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    folder_ = name;
    write("fields.geojson", home_field());
    write("methods.geojson", two_methods());
    write("yield.csv", plain_sheet().csv());
}

SeasonFolder::~SeasonFolder() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
}

void SeasonFolder::write(const std::string& name, const std::string& bytes) const {
    fs::create_directories(path(name).parent_path());
    std::ofstream(path(name), std::ios::binary) << bytes;
}

void SeasonFolder::convert(const std::string& from, const std::string& to, std::vector<std::string> options) const {
    GDALAllRegister();
    CPLPushErrorHandler(CPLQuietErrorHandler); // cut names and the like are what these tests want
    std::vector<char*> list;
    for (std::string& option : options)
        list.push_back(option.data());
    list.push_back(nullptr);
    GDALDatasetH source = GDALOpenEx(path(from).c_str(), GDAL_OF_VECTOR, nullptr, nullptr, nullptr);
    GDALVectorTranslateOptions* const how = GDALVectorTranslateOptionsNew(list.data(), nullptr);
    GDALDatasetH made = GDALVectorTranslate(path(to).c_str(), nullptr, 1, &source, how, nullptr);
    GDALVectorTranslateOptionsFree(how);
    GDALClose(source);
    CPLPopErrorHandler();
    if (made == nullptr) throw std::runtime_error("GDAL could not write " + to);
    GDALClose(made);
}

Season SeasonFolder::season() const {
    std::string text = top + "[fields]\n" + fields + "[points]\n" + points;
    if (!columns.empty()) text += "[points.columns]\n" + columns;
    text += "[methods]\n" + methods + method_list + more;
    return parse_season(text, path("season.toml"));
}

std::string SeasonFolder::refusal() const {
    try {
        (void)read();
    } catch (const Error& error) {
        return error.what();
    }
    return {};
}

std::vector<std::string> codes(const Issues& issues) {
    std::vector<std::string> out;
    for (const Issue& issue : issues)
        out.push_back(issue.code);
    return out;
}

} // namespace quartercut::read_test
