// SPDX-License-Identifier: MIT
// The fields of the season in their places, shaded by finding, with the sign in text.
#include "report/map.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace quartercut::report {
namespace {

using fmt::arg;

constexpr double radians_per_degree = 0.017453292519943295;
constexpr double metres_per_degree = 111320.0; // of latitude; for a picture only

// One plane for all fields: degrees made square at the middle latitude. Local metres stay as they are.
std::vector<MultiPolygon> shapes_in_one_plane(const Telling& telling) {
    std::vector<MultiPolygon> shapes;
    double latitude_sum = 0.0;
    std::size_t vertices = 0;
    bool local = false;
    for (const auto& field : telling.results.standardised.fields) {
        MultiPolygon shape = field.boundary_m;
        local = local || field.frame.is_local();
        for (auto& polygon : shape) {
            for (auto& vertex : polygon.shell) {
                vertex = field.frame.to_degrees(vertex);
                latitude_sum += vertex.y;
                ++vertices;
            }
            for (auto& hole : polygon.holes) {
                for (auto& vertex : hole)
                    vertex = field.frame.to_degrees(vertex);
            }
        }
        shapes.push_back(std::move(shape));
    }
    if (local || vertices == 0) return shapes;
    const double across =
        metres_per_degree * std::cos(latitude_sum / static_cast<double>(vertices) * radians_per_degree);
    for (auto& shape : shapes) {
        for (auto& polygon : shape) {
            const auto scale = [across](Ring& ring) {
                for (auto& vertex : ring)
                    vertex = {vertex.x * across, vertex.y * metres_per_degree};
            };
            scale(polygon.shell);
            for (auto& hole : polygon.holes)
                scale(hole);
        }
    }
    return shapes;
}

Box box_of(const std::vector<MultiPolygon>& shapes) {
    Box all;
    for (const auto& shape : shapes) {
        const Box box = bounding_box(shape);
        if (box.max_x < box.min_x) continue;
        if (all.max_x < all.min_x) all = box;
        all = {std::min(all.min_x, box.min_x), std::min(all.min_y, box.min_y), std::max(all.max_x, box.max_x),
               std::max(all.max_y, box.max_y)};
    }
    return all;
}

std::string style_of(const Telling& telling, std::size_t field) {
    for (const auto& contrast : telling.results.comparison.fields[field].contrasts) {
        if (!contrast.stratum) return finding_word(contrast.finding);
    }
    return finding_word(Finding::not_comparable);
}

std::string field_text(const Telling& telling, std::size_t field) {
    const auto& compared = telling.results.comparison.fields[field];
    std::string text = compared.name;
    const auto legal = telling.results.standardised.fields[field].attributes.find("legal");
    if (legal != telling.results.standardised.fields[field].attributes.end() && !legal->second.empty() &&
        legal->second != compared.name) {
        text += " (" + legal->second + ")";
    }
    for (const auto& contrast : compared.contrasts) {
        if (!contrast.stratum) return text + ": " + finding_text(contrast.finding);
    }
    return text;
}

void draw_field(Html& html, const Telling& telling, const MultiPolygon& shape, const MapFrame& frame, std::size_t i) {
    const Box box = bounding_box(shape);
    if (box.max_x < box.min_x) return;
    const Point middle = frame.at({(box.min_x + box.max_x) / 2, (box.min_y + box.max_y) / 2});
    const std::string style = "place place-" + style_of(telling, i);
    const double size = std::max(box.max_x - box.min_x, box.max_y - box.min_y) * frame.units_per_m;
    // A field too small to see at this scale gets a dot in its place.
    if (size < 10.0) {
        html.empty("circle",
                   {{"class", style}, {"cx", coordinate(middle.x)}, {"cy", coordinate(middle.y)}, {"r", "7"}});
    } else {
        html.empty("path", {{"class", style}, {"fill-rule", "evenodd"}, {"d", shape_path(shape, frame)}});
    }
    html.leaf("text", std::to_string(i + 1),
              {{"class", "place-number"},
               {"x", coordinate(middle.x)},
               {"y", coordinate(middle.y + 4)},
               {"text-anchor", "middle"}});
}

// The findings that occur, so that the shading is explained where it stands.
void write_place_key(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const std::array<std::pair<Finding, const char*>, 6> all = {
        {{Finding::gain, words.place_key_gain},
         {Finding::loss, words.place_key_loss},
         {Finding::leans_gain, words.place_key_leans_gain},
         {Finding::leans_loss, words.place_key_leans_loss},
         {Finding::not_shown, words.place_key_not_shown},
         {Finding::not_comparable, words.place_key_not_comparable}}};
    std::set<std::string> met;
    for (std::size_t i = 0; i < telling.results.comparison.fields.size(); ++i)
        met.insert(style_of(telling, i));
    const auto list = html.in("ul", {{"class", "key classes"}});
    for (const auto& [finding, text] : all) {
        if (met.count(finding_word(finding)) == 0) continue;
        const auto item = html.in("li");
        {
            const auto svg = html.in("svg", {{"viewBox", "0 0 24 16"}, {"class", "swatch"}, {"aria-hidden", "true"}});
            html.empty("rect", {{"class", "place place-" + std::string(finding_word(finding))},
                                {"x", "1"},
                                {"y", "1"},
                                {"width", "22"},
                                {"height", "14"}});
        }
        html.text(text);
    }
}

} // namespace

void write_season_map(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto shapes = shapes_in_one_plane(telling);
    const Box box = box_of(shapes);
    const auto figure = html.in("figure", {{"class", "map"}});
    html.leaf("figcaption", words.season_map);
    if (box.max_x >= box.min_x) {
        const auto frame = map_frame(box);
        const auto svg = open_image(
            html, {"season-map", words.season_map, fill(words.season_map_text, arg("n", count(shapes.size())))},
            drawing_width, drawing_height(frame));
        for (std::size_t i = 0; i < shapes.size(); ++i)
            draw_field(html, telling, shapes[i], frame, i);
        draw_north_and_scale(html, telling, frame);
    }
    write_place_key(html, telling);
    const auto list = html.in("ol", {{"class", "places"}});
    for (std::size_t i = 0; i < shapes.size() && i < telling.results.comparison.fields.size(); ++i) {
        const auto item = html.in("li");
        html.leaf("a", field_text(telling, i), {{"href", "#field-" + std::to_string(i + 1)}});
    }
}

} // namespace quartercut::report
