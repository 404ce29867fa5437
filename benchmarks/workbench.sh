#!/usr/bin/env bash
# The workbench: ready, import, opening a study, decisions, memory, frames in a headless Chromium, an hour-long strip.
# Usage: benchmarks/workbench.sh
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
# Builds what is stale and learns the archive of classes, so that the starts below are warm.
./lonefibre --version >/dev/null
folder=$(mktemp -d "${TMPDIR:-/tmp}/lonefibre-workbench.XXXXXX")
trap 'rm -rf "$folder"' EXIT
path="app/target/test-classes:app/target/classes:app/target/lib/*"
java -cp "$path" org.lonefibre.app.Lonefibre simulate --sites 20 --duration-s 60 --out "$folder/recordings" >/dev/null
# An hour at 50 kHz.
java -Xmx4g -cp "$path" org.lonefibre.app.Lonefibre simulate --sites 1 --duration-s 3600 --seed 5 --out "$folder/hour" >/dev/null
uptime
java -cp "$path" org.lonefibre.app.serve.WorkbenchSpeed "$folder/data" "$folder/recordings" "$folder/hour"
uptime
