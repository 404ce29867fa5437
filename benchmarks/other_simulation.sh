#!/usr/bin/env bash
# How the chain does on recordings of another simulation than the project's own: a table, a line a condition.
# Usage: benchmarks/other_simulation.sh [SITES [SEED]]; needs python3-scipy.
set -euo pipefail
cd "$(dirname "$0")/.."
sites=${1:-24}
seed=${2:-1}
python3 -c 'import scipy' 2>/dev/null || { echo "other_simulation.sh: SciPy is missing; install python3-scipy" >&2; exit 2; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
conditions=$(python3 -c 'import sys; sys.path.insert(0, "benchmarks"); import other_simulation as o; print(*o.CONDITIONS)')
echo "| condition | sites | eligible pairs | found | jitter right | false blocks / judged | blocks found | invented pairs |"
echo "|---|---|---|---|---|---|---|---|"
for condition in $conditions; do
  python3 benchmarks/other_simulation.py make "$work/$condition" "$condition" "$seed" "$sites"
  ./lonefibre analyse "$work/$condition"/*.edf --needle single-fibre --out "$work/$condition/out" >/dev/null 2>&1 || true
  python3 benchmarks/other_simulation.py score "$work/$condition/truth.json" "$work/$condition/out/analysis.json"
done
