#!/usr/bin/env bash
# Makes the samples in this folder anew: reports/make.sh [PROGRAM [FOLDER]], from the root of the project.
# PROGRAM is target/release/planewright unless given, FOLDER is reports.
# A program built with --features pdf makes the typeset papers too.
set -euo pipefail
p=${1:-target/release/planewright}
into=${2:-reports}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$into"
lantern=data/boats/lantern.toml
stock=data/stock/planes.csv

$p size $lantern --full > "$into/lantern-size.txt"
$p size $lantern --stock $stock --full > "$into/lantern-stock.txt"
$p loads $lantern --stock $stock --part "750 x 300 aluminium electric" --full > "$into/lantern-loads.txt"
$p run data/boats/wren.toml --full > "$into/wren-run.txt"
$p run $lantern --condition light --condition "full fuel, nine aboard" --full > "$into/lantern-run.txt"
$p level $lantern --full > "$into/lantern-level.txt"
$p on-plane $lantern --full > "$into/lantern-on-plane.txt"
$p fuel $lantern --full > "$into/lantern-fuel.txt"
$p seaway data/boats/holm.toml --waves "0.8 m" --full > "$into/holm-seaway.txt"
$p doubt $lantern --full > "$into/lantern-doubt.txt"
$p doubt $lantern --charts "$work/doubt" > /dev/null
cp "$work/doubt/doubt-trim.svg" "$into/lantern-doubt-trim.svg"
$p doubt --calibration > "$into/calibration.txt"
$p size data/boats/wren.toml --chance 90 --full > "$into/wren-chance.txt"
$p trial $lantern data/trials/lantern.csv --report-only > "$into/lantern-trial.txt"
$p run data/boats/holm.toml --speed "18 kn" --deflection "5 deg" --budget --full > "$into/holm-budget.txt"
$p check > "$into/check.txt"

$p size $lantern --charts "$work/charts" > /dev/null
for c in trim resistance power plane-lift area-resistance schedule; do
  cp "$work/charts/$c.svg" "$into/lantern-$c.svg"
done
cp "$work/charts/trim.png" "$into/lantern-trim.png"

$p mark $lantern --units imperial --papers "$work/papers" > /dev/null
cp "$work/papers/marking-out.txt" "$into/lantern-mark.txt"
cp "$work/papers/marking-out.html" "$into/lantern-mark.html"
cp "$work/papers/transom.svg" "$into/lantern-transom.svg"
cp "$work/papers/transom.pdf" "$into/lantern-transom.pdf"
cp "$work/papers/transom.dxf" "$into/lantern-transom.dxf"
cp "$work/papers/template-port.pdf" "$into/lantern-template-port.pdf"

for r in architect dealer owner; do
  $p report $lantern --for $r --stock $stock --out "$into/lantern-$r.html" --force > /dev/null
done
if [ -e "$work/papers/marking-out.pdf" ]; then
  for r in architect dealer owner; do
    $p report $lantern --for $r --stock $stock --format pdf --out "$into/lantern-$r.pdf" --force > /dev/null
  done
  pdftoppm -r 110 -png -singlefile "$into/lantern-dealer.pdf" "$into/lantern-dealer"
fi
