#!/usr/bin/env bash
# Whole processes on the same 20 files of 60 s at 50 kHz: ours, and a plain pipeline in SciPy.
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
files=${1:-20}
folder=$(mktemp -d "${TMPDIR:-/tmp}/lonefibre-scipy.XXXXXX")
trap 'rm -rf "$folder"' EXIT
ours() { ./lonefibre "$@"; }
# Builds first, and learns the classes, if that is still to be done.
ours simulate --out "$folder" --seed 1 --sites "$files" --duration-s 60 >/dev/null
# Clock and processor: on a shared machine the clock alone says little.
seconds() { local TIMEFORMAT='%R s by the clock, %U s of processor'; { time "$@" >/dev/null 2>&1; } 2>&1; }
printf 'ours:  %s\n' "$(seconds ours analyse "$folder"/*.edf --json -)"
printf 'SciPy: %s\n' "$(seconds python3 benchmarks/scipy_pipeline.py "$folder"/*.edf)"
