#!/bin/sh
# Figures of worked examples are XML by libxml2 and render with librsvg; their words are text, they
# hold no script and no colour but one grey, and say what the text says.
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
  "$SUMWRIGHT" work "$@" --svg "$name.svg" >"$name.txt"
}

draw add --width 4 5 6 --overflow saturate-signed
draw adc --operations adc,sub --width 8 200 100 --cin 1 --flags all
draw sub --operations sub --width 12 1042 -1090 --port a=observed --flags all
draw sbc --operations sbc --width 1 0 1 --subtract-carry borrow
draw rsb --operations rsb --width 32 0x80000000 1
draw inc --operations inc --width 16 0x7fff --overflow saturate-unsigned
draw dec --operations dec --width 33 0
draw neg --operations neg --width 64 -1
draw pass --operations pass --width 8 77
draw wide --width 4096 --flags all -1 1

for figure in *.svg; do
  xmllint --noout --nonet "$figure" || wrong "$figure is no XML"
  name=${figure%.svg}
  rsvg-convert "$figure" -o "$name.png" || wrong "$figure does not render"
  [ "$(wc -c <"$name.png")" -gt 5000 ] || wrong "$figure renders to nothing"
  root=$(xmllint --xpath 'concat(namespace-uri(/*), " ", name(/*), " ", /*/@version)' "$figure")
  [ "$root" = "http://www.w3.org/2000/svg svg 1.1" ] || wrong "$figure is no SVG 1.1: $root"
  for element in title desc; do
    text=$(xmllint --xpath "string(/*/*[name() = '$element'])" "$figure")
    [ -n "$text" ] || wrong "$figure has no $element"
  done
  [ "$(xmllint --xpath "string(/*/*[name() = 'title'])" "$figure")" = "$(head -n 1 "$name.txt")" ] ||
    wrong "the title of $figure is not the text's"
  others=$(xmllint --xpath "count(//*[name() != 'svg' and name() != 'title' and name() != 'desc' and
    name() != 'g' and name() != 'rect' and name() != 'line' and name() != 'circle' and
    name() != 'path' and name() != 'text'])" "$figure")
  [ "$others" -eq 0 ] || wrong "$figure has elements of another kind"
  coloured=$(xmllint --xpath "count(//@*[(name() = 'fill' or name() = 'stroke') and . != 'black' and
    . != 'white' and . != 'none' and . != '#e8e8e8'])" "$figure")
  [ "$coloured" -eq 0 ] || wrong "$figure has colours"
done

# The figure and the text say the same: every line of the verdict and of the flags, joined again.
words() {
  tr -s ' \n' '\n\n' | grep -v '^$'
}
xmllint --xpath '//*[name() = "text"]/text()' sub.svg | sed "s/&lt;/</g; s/&gt;/>/g; s/&amp;/\&/g" |
  words | sort >in_figure
sed -n '/^verdict/,$p' sub.txt | words | sort >in_text
missing=$(comm -13 in_figure in_text)
[ -z "$missing" ] || wrong "not in the figure: $missing"

# Bits: columns times rows (a, b, a, not b, result), and a carry more than there are columns.
bits=$(xmllint --xpath "count(//*[name() = 'text' and (. = '0' or . = '1') and
  @text-anchor = 'middle' and @font-size > 13])" sub.svg)
[ "$bits" -eq $((12 * 5 + 13)) ] || wrong "$bits bits in sub.svg"
echo "$(ls ./*.svg | wc -l) figures hold"
