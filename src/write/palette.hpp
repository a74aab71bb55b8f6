// SPDX-License-Identifier: MIT
// Colours that stay apart for colour-blind readers.
//
// Categories: Okabe and Ito (2008), "Color Universal Design". Ordered values: cividis, Nunez, Anderton and Renslow (2018),
// PLoS ONE 13(7) e0199239, five even steps. Differences: PuOr, 5 classes, from ColorBrewer, copyright 2002 Cynthia Brewer,
// Mark Harrower and The Pennsylvania State University, Apache License 2.0.
#pragma once

#include <array>
#include <cstddef>

namespace quartercut::write {

inline constexpr std::array okabe_ito{"#E69F00", "#56B4E9", "#009E73", "#F0E442", "#0072B2", "#D55E00", "#CC79A7"};
inline constexpr const char* no_method_grey = "#BBBBBB";
inline constexpr std::array cividis_5{"#00224E", "#434E6C", "#7D7C78", "#BCAF6F", "#FEE838"};
inline constexpr std::array puor_5{"#E66101", "#FDB863", "#F7F7F7", "#B2ABD2", "#5E3C99"};

[[nodiscard]] inline const char* category_colour(std::size_t index) { return okabe_ito[index % okabe_ito.size()]; }

} // namespace quartercut::write
