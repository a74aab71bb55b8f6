#!/bin/sh
# Opens a report in Debian's Chromium, offline, and checks it as a reader would meet it (tests/report/browser/check.mjs).
#
#     scripts/check_report.sh RESULTS_FOLDER [FOLDER_FOR_PICTURES]
#
# Needs: apt-get install chromium nodejs npm
set -eu
results=${1:?usage: scripts/check_report.sh RESULTS_FOLDER [FOLDER_FOR_PICTURES]}
results=$(cd "$results" && pwd)
pictures=${2:-$(mktemp -d)}
mkdir -p "$pictures"
pictures=$(cd "$pictures" && pwd)
cd "$(dirname "$0")/../tests/report/browser"
[ -d node_modules ] || npm ci --ignore-scripts --no-audit --no-fund
exec node check.mjs "$results/report.html" --json "$results/comparison.json" --out "$pictures"
