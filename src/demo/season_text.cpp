// SPDX-License-Identifier: MIT
// The season file of the demo: commented line by line, because people will copy it and change it.
#include "demo/demo_files.hpp"

namespace quartercut::demo {

std::string season_toml() {
    return R"(# A season file says which files hold what. Everything in this one is invented: the farm, the land, the numbers.
# Quantities carry their unit ("35 ft", "10.7 m"); paths are relative to this file; a word the program does not know
# is an error that names the nearest word it does know.

title    = "Invented farm, 2025 canola"
year     = 2025
crop     = "canola"        # sets the basis (10.0 % moisture) and the bushel (50 lb) from the program's sourced table
baseline = "swathed"       # the method that the others are compared with: gain = other method - baseline
units    = "bu/ac"         # what the report speaks: bu/ac, t/ha, kg/ha or lb/ac

# The fields: one polygon each. Sloughs are holes in it. The column `name` names the field.
[fields]
file  = "fields.gpkg"
layer = "boundaries"
name  = "name"
[fields.columns]           # other columns worth knowing; none is needed
legal   = "legal"
variety = "variety"

# The yield-monitor records. A record belongs to the field it lies in, whatever its file is called.
# They came as one CSV file for each field and machine, and one GeoPackage with machine B's part of the strip trials.
[points]
files = ["yield/*.csv", "yield/trials_b.gpkg"]
crs   = "EPSG:4326"        # longitude and latitude; needed because a CSV file cannot say
[points.columns]           # meaning = column; units where a quantity has one
time     = { column = "time" }
flow     = { column = "flow_kg_s", unit = "kg/s" }
moisture = { column = "moisture_pct", unit = "%" }
speed    = { column = "speed_m_s", unit = "m/s" }
distance = { column = "dist_m", unit = "m" }
duration = { column = "dur_s", unit = "s" }
width    = { column = "width_m", unit = "m" }
header   = { column = "header_up", up = "1" }
machine  = { column = "combine" }

# Which land was cut which way: polygons with the method's name in a column.
# They may run over the field's edge; the program cuts them to it.
[methods]
file   = "fields.gpkg"
layer  = "methods"
column = "method"

[[method]]
name      = "swathed"
label     = "Swathed, then picked up"
cut_width = "35 ft"        # the swather's cut: the land one windrow stands for. Not the width of the pick-up!
[[method]]
name      = "standing"
label     = "Cut standing"
cut_width = "40 ft"        # the combine's header

# Weighed loads. They outrank the monitors: each machine is set right by them, once per method.
[tickets]
file = "tickets.csv"       # ticket, field, machine, method, start, end, net_kg, moisture_pct, dockage_pct

# How the strips were laid out. A map cannot show whether a coin was tossed; only you know.
[trial]
randomised = true          # in each pair of strips a coin said which one was swathed
pairs      = "block"       # the column of the method polygons that numbers the pairs; "auto" finds them from the map
)";
}

} // namespace quartercut::demo
