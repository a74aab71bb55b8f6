// SPDX-License-Identifier: MIT
// Slivers join a neighbour: what is narrower than the stated width is a drawing error, not land anyone cut.
#include "zone/cutting.hpp"
#include "zone/edges.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace quartercut::zone_room {

namespace {

using Lengths = std::map<std::size_t, double>; ///< neighbour face -> length of the shared edge (m)

std::vector<Lengths> shared_lengths(const std::vector<Face>& faces) {
    std::vector<Edge> edges;
    for (std::size_t f = 0; f < faces.size(); ++f)
        add_edges(faces[f].shape, f, edges);
    std::sort(edges.begin(), edges.end());
    std::vector<Lengths> shared(faces.size());
    for (std::size_t i = 1; i < edges.size(); ++i) {
        const Edge &a = edges[i - 1], &b = edges[i];
        if (!a.same_place(b) || a.owner == b.owner) continue;
        shared[a.owner][b.owner] += a.length();
        shared[b.owner][a.owner] += a.length();
    }
    return shared;
}

using Label = std::pair<int, int>; ///< area, stratum

/// How near a label is to the sliver's own: the same method area comes first, then the same method, then any. Land cut
/// no way has no kin, be it an area of its own (zones cut again) or none.
int kinship(const Face& sliver, Label label, const std::vector<int>& method_of_area) {
    const auto method = [&](int area) { return area < 0 ? -1 : method_of_area[static_cast<std::size_t>(area)]; };
    if (method(sliver.area) < 0) return 0;
    if (label.first == sliver.area) return 2;
    return method(label.first) == method(sliver.area) ? 1 : 0;
}

/// The label to take, or the sliver's own when no neighbour has one to give.
bool take_label(std::size_t sliver, const Lengths& neighbours, const std::vector<int>& method_of_area,
                std::vector<Face>& faces) {
    std::map<Label, double> by_label;
    for (const auto& [other, length] : neighbours)
        if (!faces[other].sliver) by_label[{faces[other].area, faces[other].stratum}] += length;
    if (by_label.empty()) return false;
    const auto worth = [&](const auto& entry) {
        return std::pair(kinship(faces[sliver], entry.first, method_of_area), entry.second);
    };
    const auto best = std::max_element(by_label.begin(), by_label.end(),
                                       [&](const auto& a, const auto& b) { return worth(a) < worth(b); });
    std::tie(faces[sliver].area, faces[sliver].stratum) = best->first;
    return true;
}

} // namespace

void merge_slivers(std::vector<Face>& faces, const std::vector<int>& method_of_area) {
    if (std::none_of(faces.begin(), faces.end(), [](const Face& face) { return face.sliver; })) return;
    const std::vector<Lengths> shared = shared_lengths(faces);
    bool merged = true;
    while (merged) { // slivers beside slivers wait for a neighbour that has been settled
        std::vector<std::size_t> settled;
        for (std::size_t f = 0; f < faces.size(); ++f)
            if (faces[f].sliver && take_label(f, shared[f], method_of_area, faces)) settled.push_back(f);
        for (const std::size_t f : settled)
            faces[f].sliver = false;
        merged = !settled.empty();
    }
}

} // namespace quartercut::zone_room
