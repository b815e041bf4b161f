#!/bin/sh
# sumwright lesson through the real program: what it refuses, with one line on standard error and no
# file; that the page is well-formed and the same from run to run; and drawings without words.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

wrong() {
  echo "wrong: $1"
  cat stdout stderr
  exit 1
}

# refuses STATUS WORDS ARGUMENTS: that status, a message that holds the words, and no file.
refuses() {
  expected=$1
  words=$2
  shift 2
  status=0
  "$SUMWRIGHT" lesson "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq "$expected" ] || wrong "status $status, not $expected, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] || wrong "not one line for: $*"
  grep -q -e "$words" stderr || wrong "nothing about '$words' for: $*"
  [ -z "$(ls | grep -v -e '^stdout$' -e '^stderr$')" ] || wrong "files for: $*"
}

refuses 2 "lesson lacks --html; name the file of the page, for example --html addsub8.html"
refuses 2 "cannot show 4096 columns; a page has room for 32" --width 4096 --html x.html
refuses 2 "operand a '256' does not fit 8 bits" --html x.html --example 1,2 --example 256,1
refuses 2 "takes 2 operands and 1 is given" --html x.html --example 1
refuses 2 "this unit does add or sub" --html x.html --example 1,neg
refuses 2 "does not read cin" --html x.html --example 1,2 --cin 1
refuses 2 "nothing to enter" --html x.html --cin 1
refuses 4 "missing" --html missing/x.html
many=
for k in 1 2 3 4 5 6 7 8; do many="$many --example $k,1 --example $k,2 --example $k,3 --example $k,4 \
  --example $k,5 --example $k,6 --example $k,7 --example $k,8"; done
refuses 2 "more than 64 times" --html x.html $many --example 9,9

# A page's marks are in order, whatever the unit; what stands in a script is no mark.
page() {
  "$SUMWRIGHT" lesson "$@" --html page.html >stdout 2>stderr || wrong "status of: $*"
  [ ! -s stdout ] || wrong "standard output for: $*"
  sed -e 's/^<!DOCTYPE html>$//' -e 's/<\(meta\|input\|br\)\( [^>]*\)\{0,1\}>/<\1\2\/>/g' \
    -e '/^<script>$/,/^<\/script>$/d' page.html | xmllint --noout - 2>stderr || wrong "page of: $*"
  "$SUMWRIGHT" lesson "$@" --html again.html
  cmp -s page.html again.html || wrong "another page of: $*"
  rm page.html again.html
}

: >stderr
page
page $many
page --width 1 --flags none
page --width 16 --structure lookahead --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all
page --width 4 --detail nor --registers both --symbols rectangular
page --width 12 --operations sub --port a=observed --port b=predicted --port result=residual

# A bare drawing has the picture and no sentence.
"$SUMWRIGHT" draw --example 5,6 --svg full.svg
"$SUMWRIGHT" draw --example 5,6 --bare --svg bare.svg
grep -q '>Example: add' full.svg || wrong "no heading"
grep '<text' bare.svg | grep -q -e 'Example' -e 'Carry path' -e 'Rings' && wrong "words in a bare drawing"
[ "$(grep -c '<path' bare.svg)" -eq "$(grep -c '<path' full.svg)" ] || wrong "another picture"
grep -q '<desc>.*Example' bare.svg || wrong "a bare drawing without its description"
echo "pages are in order, and what makes no page is refused"
