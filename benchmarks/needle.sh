#!/usr/bin/env bash
# Solving needles by number of triangles and potentials a second (JMH), and the same with NumPy and SciPy, in
# one run. Usage: benchmarks/needle.sh [OPTIONS OF JMH...]
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
mvn -q -Pbenchmarks -pl benchmarks -am -DskipTests package
folder=$(mktemp -d "${TMPDIR:-/tmp}/lonefibre-needle.XXXXXX")
trap 'rm -rf "$folder"' EXIT
ours=(java -cp "benchmarks/target/classes:benchmarks/target/lib/*")
uptime
"${ours[@]}" org.openjdk.jmh.Main 'NeedleBenchmark|FibrePotentialBenchmark' "$@" | sed -n '/^Benchmark/,$p'
for needle in single-fibre concentric-small concentric-standard; do
  "${ours[@]}" org.lonefibre.benchmarks.NeedleSurfaces "$needle" 0.75 "$folder/coarse.csv"
  "${ours[@]}" org.lonefibre.benchmarks.NeedleSurfaces "$needle" 1.06 "$folder/fine.csv"
  echo "$needle"
  python3 benchmarks/needle_numpy.py "$folder/coarse.csv" "$folder/fine.csv"
done
uptime
