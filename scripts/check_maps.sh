#!/bin/sh
# SPDX-License-Identifier: MIT
# Writes the maps of part of the sample season in every format and opens them with readers that are not ours: GDAL's
# tools may not print a warning, GDAL's own checks of GeoPackage and Cloud Optimized GeoTIFF must pass, GeoJSON and KML
# must keep to their standards. The test command runs it. scripts/check_in_viewer.sh opens them in a real viewer.
#
#     scripts/check_maps.sh PROGRAM [RESULTS_FOLDER]
set -eu
program=${1:?usage: scripts/check_maps.sh PROGRAM [RESULTS_FOLDER]}
here=$(cd "$(dirname "$0")/.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
results=${2:-$scratch/results}
[ -n "${2:-}" ] || "$program" compare "$here/sample_geo/season.toml" --only Hill --out "$results" --quiet \
    --formats gpkg,geojson,kml,tif,fgb,shp

# A tool that fails, or says a word where only faults are told, is a fault.
quietly() {
    "$@" >"$scratch/said" 2>"$scratch/faults" || { cat "$scratch/said" "$scratch/faults"; exit 1; }
    [ ! -s "$scratch/faults" ] || { echo "$*:"; cat "$scratch/faults"; exit 1; }
}
for map in gpkg geojson kml fgb shp; do
    [ -e "$results/zones.$map" ] && quietly ogrinfo -ro -al "$results/zones.$map"
done
quietly gdalinfo -checksum "$results/yield.tif"
quietly /usr/bin/python3 -m osgeo_utils.samples.validate_gpkg "$results/zones.gpkg"
quietly /usr/bin/python3 -m osgeo_utils.samples.validate_cloud_optimized_geotiff "$results/yield.tif"
/usr/bin/python3 "$here/tests/write/check_maps.py" "$results"
