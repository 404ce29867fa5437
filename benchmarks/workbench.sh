#!/usr/bin/env bash
# The workbench: ready, import, opening a study, decisions, memory, frames in a headless Chromium.
# Usage: benchmarks/workbench.sh
set -eu
cd -P "$(dirname "${BASH_SOURCE[0]}")/.."
mvn -q -pl app -am -DskipTests package
folder=$(mktemp -d "${TMPDIR:-/tmp}/lonefibre-workbench.XXXXXX")
trap 'rm -rf "$folder"' EXIT
path="app/target/test-classes:app/target/classes:app/target/lib/*"
java -cp "$path" org.lonefibre.app.Lonefibre simulate --sites 20 --duration-s 60 --out "$folder/recordings" >/dev/null
uptime
java -cp "$path" org.lonefibre.app.serve.WorkbenchSpeed "$folder/data" "$folder/recordings"
