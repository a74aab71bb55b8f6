#!/bin/sh
# SPDX-License-Identifier: MIT
# Opens the maps of a results folder in a real viewer (QGIS from Debian, without a screen), checks colours, labels and
# titles, and writes pictures to look at. Not part of the test command: the viewer is a large install.
#
#     scripts/check_in_viewer.sh RESULTS_FOLDER [PICTURE_FOLDER]
set -eu
results=${1:?usage: scripts/check_in_viewer.sh RESULTS_FOLDER [PICTURE_FOLDER]}
pictures=${2:-$(mktemp -d)}
here=$(dirname "$0")
if ! /usr/bin/python3 -c 'import qgis.core' 2>/dev/null; then
    echo "Installing python3-qgis from Debian (about 1 GB unpacked) ..." >&2
    as_root=
    [ "$(id -u)" = 0 ] || as_root=sudo
    $as_root apt-get update -q
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends python3-qgis
fi
/usr/bin/python3 "$here/../tests/write/check_in_viewer.py" "$results" "$pictures"
echo "Pictures: $pictures"
