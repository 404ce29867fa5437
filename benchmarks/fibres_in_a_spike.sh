#!/usr/bin/env bash
# The table of docs/needle.md: fibres in a spike, fibre density and background, for the built-in needles and several
# high-passes, as lines of Markdown. Usage: benchmarks/fibres_in_a_spike.sh [OPTIONS OF lonefibre needle...]
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
for needle in single-fibre concentric-small concentric-standard; do
  ./lonefibre needle --needle "$needle" --spike-high-passes-hz 0,500,1000,2000 --json - "$@" |
    python3 benchmarks/fibres_in_a_spike.py
done
