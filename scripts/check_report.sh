#!/usr/bin/env bash
# Opens reports in Debian's Chromium, offline, and checks them as a reader would meet them (tests/report/browser/check.mjs).
#
#     scripts/check_report.sh                                    # builds, then the sample season and one without an answer
#     scripts/check_report.sh RESULTS_FOLDER [FOLDER_FOR_PICTURES]
#
# Installs chromium, nodejs and npm from Debian where they are missing, and the two npm packages of the lock file.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)

missing=()
for program in chromium node npm; do
  command -v "$program" >/dev/null || missing+=("${program/#node/nodejs}")
done
if [ ${#missing[@]} -gt 0 ]; then
  as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}"
fi
browser="$root/tests/report/browser"
[ -d "$browser/node_modules" ] || (cd "$browser" && npm ci --ignore-scripts --no-audit --no-fund)

check() { # RESULTS_FOLDER PICTURES
  mkdir -p "$2"
  (cd "$browser" && node check.mjs "$1/report.html" --json "$1/comparison.json" --out "$2")
}

if [ $# -gt 0 ]; then
  pictures=${2:-$(mktemp -d)}
  mkdir -p "$pictures"
  check "$(cd "$1" && pwd)" "$(cd "$pictures" && pwd)"
  exit
fi
cd "$root"
scripts/build release quartercut
compare=(build-release/src/cli/quartercut compare sample_geo/season.toml --quiet)
"${compare[@]}" --out build-release/sample_results
"${compare[@]}" --out build-release/nothing_shown --only Road --only Stone
for results in sample_results nothing_shown; do
  check "$root/build-release/$results" "$root/build-release/pictures_$results"
done
