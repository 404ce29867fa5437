#!/usr/bin/env bash
# Reading every format to double, warmed, on one core, and the same files with MNE, NumPy and SciPy where
# they are: MB of file a second by the shortest time of each, in one run. Usage: benchmarks/reading.sh [OPTIONS OF JMH...]
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
mvn -q -Pbenchmarks -pl benchmarks -am -DskipTests package
folder=$(mktemp -d "${TMPDIR:-/tmp}/lonefibre-reading.XXXXXX")
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/files"
java -cp "benchmarks/target/classes:benchmarks/target/lib/*" org.openjdk.jmh.Main ReadingBenchmark \
  -jvmArgsAppend "-Dlonefibre.reading=$folder/files" -rf csv -rff "$folder/ours.csv" "$@" >"$folder/log" || { cat "$folder/log"; exit 1; }
python=/usr/bin/python3 # the system's first: MNE comes from the distribution
[ -x "$python" ] || python=python3
"$python" benchmarks/reading_with_python.py "$folder/files" >"$folder/theirs" || true
uptime
awk -F, -v folder="$folder/files" '
  function size(what,   name, command, bytes) {
    name = what == "wav-float" ? "f.wav" : what == "mat-packed" ? "p.mat" : what == "hdf" ? "s.h5" : what == "text" ? "s.csv" : what == "wfdb" ? "s.dat" : "s." what
    command = "wc -c <" folder "/" name; command | getline bytes; close(command)
    return bytes / 1e6
  }
  FNR == NR { split($0, p, " "); theirs[p[1]] = theirs[p[1]] " " p[2] ":" p[3]; next }
  /p0\.00/ {
    gsub(/["\r]/, ""); mb = size($NF)
    printf "%-11s %6.1f MB  ours %6.0f MB/s", $NF, mb, mb / $5
    n = split(theirs[$NF], list, " ")
    for (i = 1; i <= n; i++) { split(list[i], p, ":"); printf "  %s %6.0f MB/s", p[1], mb / p[2] }
    printf "\n"
  }' "$folder/theirs" "$folder/ours.csv"
