// SPDX-License-Identifier: MIT
#include "text_season.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <random>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace quartercut::test {
namespace {

constexpr double origin_lon_deg = -106.5, origin_lat_deg = 52.1;
constexpr int strips = 8, passes_per_strip = 2, records_per_pass = 200;
constexpr double pass_m = 10.0, length_m = 400.0, step_m = 2.0;

std::string number(double value, int digits) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", digits, value);
    return text;
}

/// Degrees of a place given in metres from the corner; good to centimetres over this field, which is all it needs.
std::string lon(double x_m) { return number(origin_lon_deg + x_m / 68507.0, 8); }
std::string lat(double y_m) { return number(origin_lat_deg + y_m / 111266.0, 8); }

std::string corner(double x_m, double y_m) { return "[" + lon(x_m) + "," + lat(y_m) + "]"; }

std::string rectangle(double x0, double x1, double y0, double y1, const std::string& properties) {
    return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":"Polygon","coordinates":[[)" +
           corner(x0, y0) + "," + corner(x1, y0) + "," + corner(x1, y1) + "," + corner(x0, y1) + "," + corner(x0, y0) +
           "]]}}";
}

std::string collection(const std::string& features) {
    return R"({"type":"FeatureCollection","features":[)" + features + "]}\n";
}

/// Within each pair of strips the order is swapped by turns, as a coin would now and then.
bool is_standing(int strip) { return ((strip / 2) % 2 == 0) == (strip % 2 == 0); }

std::string methods_text() {
    std::string features;
    for (int s = 0; s < strips; ++s) {
        const double x0 = s * passes_per_strip * pass_m, x1 = x0 + passes_per_strip * pass_m;
        if (s > 0) features += ",\n";
        features += rectangle(x0, x1, 0.0, length_m,
                              std::string(R"("method":")") + (is_standing(s) ? "standing" : "swathed") + '"');
    }
    return collection(features);
}

std::string points_text() {
    std::mt19937_64 draw(7);
    std::ostringstream out;
    out << "time,lon,lat,flow_kg_s,moisture_pct,speed_m_s,dist_m,dur_s,width_m,combine\n";
    int seconds = 0;
    for (int pass = 0; pass < strips * passes_per_strip; ++pass, seconds += 60) {
        const bool standing = is_standing(pass / passes_per_strip);
        const double x = (pass + 0.5) * pass_m;
        for (int i = 0; i < records_per_pass; ++i, ++seconds) {
            const double along = (i + 0.5) * step_m, y = pass % 2 == 0 ? along : length_m - along;
            const double noise = (static_cast<double>(draw() >> 11) * 0x1.0p-53 - 0.5) * 0.2;
            const double dry_t_ha = (standing ? 2.30 : 2.10) + 0.0005 * x + 0.0003 * y + noise;
            const double moisture = standing ? 9.0 : 8.0;
            const double flow = dry_t_ha / 10.0 * pass_m * step_m * 90.0 / (100.0 - moisture);
            char clock[32];
            std::snprintf(clock, sizeof clock, "2025-09-10T%02d:%02d:%02dZ", 15 + seconds / 3600, seconds / 60 % 60,
                          seconds % 60);
            out << clock << ',' << lon(x) << ',' << lat(y) << ',' << number(flow, 4) << ',' << number(moisture, 1)
                << ',' << number(step_m, 2) << ',' << number(step_m, 2) << ",1.0,10.0,A\n";
        }
    }
    return out.str();
}

std::string read_whole(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

} // namespace

const char* const history_columns = R"([history.columns]
flow = { column = "flow_kg_s", unit = "kg/s" }
moisture = { column = "moisture_pct", unit = "%" }
distance = { column = "dist_m", unit = "m" }
duration = { column = "dur_s", unit = "s" }
width = { column = "width_m", unit = "m" }
)";

TextFiles text_season() {
    TextFiles files;
    files["season.toml"] = R"(title = "Text season"
year = 2025
crop = "canola"
baseline = "swathed"
units = "t/ha"

[fields]
file = "fields.geojson"
name = "name"

[points]
files = ["points.csv"]
crs = "EPSG:4326"
[points.columns]
flow = { column = "flow_kg_s", unit = "kg/s" }
moisture = { column = "moisture_pct", unit = "%" }
distance = { column = "dist_m", unit = "m" }
duration = { column = "dur_s", unit = "s" }
width = { column = "width_m", unit = "m" }

[methods]
file = "methods.geojson"
column = "method"

[[method]]
name = "swathed"
cut_width = "10 m"
[[method]]
name = "standing"
cut_width = "10 m"

[trial]
randomised = true
)";
    files["fields.geojson"] =
        collection(rectangle(0.0, strips * passes_per_strip * pass_m, 0.0, length_m, R"("name":"Home")"));
    files["methods.geojson"] = methods_text();
    files["points.csv"] = points_text();
    return files;
}

void replace_once(std::string& text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    ASSERT_NE(at, std::string::npos) << "'" << from << "' is not in the text";
    ASSERT_EQ(text.find(from, at + 1), std::string::npos) << "'" << from << "' is in the text twice";
    text.replace(at, from.size(), to);
}

SeasonFolder::SeasonFolder(const TextFiles& files) : files_(files) {
    std::string pattern = (std::filesystem::temp_directory_path() / "quartercut season XXXXXX").string();
    path_ = mkdtemp(pattern.data());
    for (const auto& [name, text] : files_)
        std::ofstream(path_ / name, std::ios::binary) << text;
}

SeasonFolder::~SeasonFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

std::string SeasonFolder::text(const std::string& name) const { return read_whole(path_ / name); }

Ran SeasonFolder::run(const std::string& arguments) const {
    const auto out = path_ / ".stdout", err = path_ / ".stderr";
    const std::string command = "cd '" + path_.string() + "' && { '" QUARTERCUT_PROGRAM "' " + arguments + "; } >'" +
                                out.string() + "' 2>'" + err.string() + "'";
    const int status = std::system(command.c_str());
    Ran ran{WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_whole(out), read_whole(err)};
    std::filesystem::remove(out);
    std::filesystem::remove(err);
    return ran;
}

std::string SeasonFolder::left_behind() const {
    std::string names;
    for (const auto& entry : std::filesystem::directory_iterator(path_))
        if (!files_.contains(entry.path().filename().string())) names += entry.path().filename().string() + " ";
    return names;
}

} // namespace quartercut::test
