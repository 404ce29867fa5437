#!/usr/bin/env bash
# A simulated site of 10 s at 50 kHz, needle solved, warmed, on one core, in ms.
# Usage: benchmarks/simulation.sh [OPTIONS OF JMH...]
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
mvn -q -Pbenchmarks -pl benchmarks -am -DskipTests package
exec java -cp "benchmarks/target/classes:benchmarks/target/lib/*" org.openjdk.jmh.Main SimulationBenchmark "$@"
