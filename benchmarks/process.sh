#!/usr/bin/env bash
# The whole process on 1, 10 and 60 minutes at 50 kHz in a heap of 256 MB: time should grow with length.
# Usage: benchmarks/process.sh [MINUTES...], after the program was built (./lonefibre --version does it).
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
folder=$(mktemp -d "${TMPDIR:-/tmp}/lonefibre-process.XXXXXX")
trap 'rm -rf "$folder"' EXIT
[ $# -gt 0 ] || set -- 1 10 60
run() { java -Xmx256m -cp "app/target/lonefibre-app.jar:app/target/lib/*" org.lonefibre.app.Lonefibre "$@"; }
[ -f app/target/lonefibre-app.jar ] || { echo "process.sh: build first: mvn -q -DskipTests package" >&2; exit 2; }
printf 'minutes  seconds  times real time\n'
for minutes in "$@"; do
  java -cp "app/target/lonefibre-app.jar:app/target/lib/*" org.lonefibre.app.Lonefibre simulate \
    --out "$folder/$minutes" --seed 1 --sites 1 --duration-s $((60 * minutes)) >/dev/null
  begun=$(date +%s%N)
  run analyse "$folder/$minutes"/*.edf --json - >/dev/null 2>"$folder/err" || { cat "$folder/err" >&2; exit 1; }
  awk -v m="$minutes" -v n="$(( $(date +%s%N) - begun ))" \
    'BEGIN { s = n / 1e9; printf "%7d  %7.1f  %15.1f\n", m, s, 60 * m / s }'
done
