#!/bin/sh
# Drawings are XML by libxml2 and render with librsvg; their words are text, they hold no script and
# no colour but greys, and wide ones are abridged.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

wrong() {
  echo "wrong: $1"
  exit 1
}

# draw NAME ARGUMENTS: NAME.svg.
draw() {
  name=$1
  shift
  "$SUMWRIGHT" draw "$@" --svg "$name.svg"
}

draw row1 --width 1 --example 1,0,sub
draw row8 --example 100,-50,sub
draw row32 --width 32 --flags all --registers both --symbols rectangular
draw row4096 --width 4096 --flags all --example 0,-1,sub
draw many --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --control one-hot \
  --overflow saturate-signed --port a=observed --example 5,neg
draw fewest --structure fewest --width 12 --example 1042,1090,sub
draw gates1 --width 1 --detail gates
draw gates8 --detail gates --example 100,-50,sub
draw gates32 --width 32 --detail gates --flags all --symbols rectangular --registers output
draw gates1024 --width 1024 --detail gates --flags all --example 0,-1,sub
draw fewest8 --structure fewest --detail gates
draw network16 --structure kogge-stone --width 16 --example 1,-1,sub
draw network1024 --structure sklansky --width 1024
draw groups --structure lookahead --width 16

for figure in *.svg; do
  xmllint --noout --nonet "$figure" || wrong "$figure is no XML"
  name=${figure%.svg}
  rsvg-convert "$figure" -o "$name.png" || wrong "$figure does not render"
  [ "$(wc -c <"$name.png")" -gt 5000 ] || wrong "$figure renders to nothing"
  [ "$(wc -c <"$figure")" -lt 1048576 ] || wrong "$figure is a mebibyte or more"
  root=$(xmllint --xpath 'concat(namespace-uri(/*), " ", name(/*), " ", /*/@version)' "$figure")
  [ "$root" = "http://www.w3.org/2000/svg svg 1.1" ] || wrong "$figure is no SVG 1.1: $root"
  for element in title desc; do
    text=$(xmllint --xpath "string(/*/*[name() = '$element'])" "$figure")
    [ -n "$text" ] || wrong "$figure has no $element"
  done
  others=$(xmllint --xpath "count(//*[name() != 'svg' and name() != 'title' and name() != 'desc' and
    name() != 'g' and name() != 'rect' and name() != 'line' and name() != 'circle' and
    name() != 'path' and name() != 'text'])" "$figure")
  [ "$others" -eq 0 ] || wrong "$figure has elements of another kind"
  coloured=$(xmllint --xpath "count(//@*[(name() = 'fill' or name() = 'stroke') and . != 'black' and
    . != 'white' and . != 'none' and . != '#d8d8d8' and . != '#ececec'])" "$figure")
  [ "$coloured" -eq 0 ] || wrong "$figure has colours"
done

# The numbers of the example stand in the drawing and in its description.
for place in '//*[name() = "text"]/text()' '//*[name() = "desc"]/text()'; do
  xmllint --xpath "$place" row8.svg >words
  for number in 'a = 100' 'b = -50, unsigned 206' 'result = -106, unsigned 150'; do
    grep -q -e "$number" words || wrong "no '$number' in row8.svg at $place"
  done
done

# Pages stay small: a sheet or a band is no wider than its columns need.
for limit in row1:900 row8:1500 row32:2200 gates8:1500 gates32:2600; do
  wide=$(xmllint --xpath 'string(/*/@width)' "${limit%:*}.svg")
  [ "${wide%.*}" -le "${limit#*:}" ] || wrong "${limit%:*}.svg is $wide wide"
done
echo "$(ls ./*.svg | wc -l) drawings hold"
