#!/usr/bin/env bash
# Reading, conditioning, detection and the whole chain on a simulated minute at 50 kHz, warmed, on one
# core: the score is a multiple of real time. Usage: benchmarks/jmh.sh [OPTIONS OF JMH...]
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
mvn -q -Pbenchmarks -pl benchmarks -am -DskipTests package
exec java -cp "benchmarks/target/classes:benchmarks/target/lib/*" org.openjdk.jmh.Main RealTimeBenchmark "$@"
