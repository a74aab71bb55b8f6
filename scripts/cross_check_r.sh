#!/bin/sh
# Fits the same models in R (nlme, lme4 + pbkrtest, metafor, from Debian) and in quartercut and compares the numbers.
# Usage: scripts/cross_check_r.sh BUILD_FOLDER     (a build with tests; needs root or sudo to install R)
set -eu

build=${1:?usage: scripts/cross_check_r.sh BUILD_FOLDER}
root=$(cd "$(dirname "$0")/.." && pwd)

if ! Rscript -e 'for (p in c("nlme", "lme4", "pbkrtest", "metafor")) stopifnot(requireNamespace(p))' >/dev/null 2>&1; then
    as_root=""
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    $as_root apt-get update -q >/dev/null
    $as_root apt-get install -q -y --no-install-recommends \
        r-base-core r-cran-nlme r-cran-lme4 r-cran-pbkrtest r-cran-metafor >/dev/null
fi

cmake --build "$build" --target cross_check_numbers
ours=$(find "$build" -name cross_check_numbers -type f | head -n 1)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$ours" "$root/tests/data/compare" >"$work/ours.csv"
Rscript "$root/tests/compare/cross_check.R" "$root/tests/data/compare" "$work/ours.csv"
