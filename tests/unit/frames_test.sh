#!/bin/sh
# work --frames and draw --frames through the real program: a file a step, all of one size; no level
# that stood in a step is missing or another in the next, the last step has all of them, and each step
# has something new; sentences of all steps; what is refused leaves no file.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
mkdir empty
frames=0

wrong() {
  echo "wrong: $1"
  cat stdout stderr
  exit 1
}

# refuses STATUS WORDS COMMAND ...: that status, a message that holds the words, and no file.
refuses() {
  expected=$1
  words=$2
  shift 2
  status=0
  "$SUMWRIGHT" "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq "$expected" ] || wrong "status $status, not $expected, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] || wrong "not one line for: $*"
  grep -q -e "$words" stderr || wrong "nothing about '$words' for: $*"
  [ -z "$(ls -A empty)" ] || wrong "files for: $*"
}

refuses 2 "cannot show 4096 columns; a step has room for 64" work --width 4096 1 2 --frames empty
refuses 2 "cannot show 33 columns; a step has room for 32" draw --width 33 --example 1,2 --frames empty
refuses 2 "no steps to show; add --example" draw --frames empty
refuses 2 "both given" work 1 2 --frames empty --svg x.svg
refuses 2 "both given" draw --example 1,2 --frames empty --svg x.svg
refuses 4 "nowhere" work 1 2 --frames nowhere
refuses 4 "nowhere" draw --example 1,2 --frames nowhere
refuses 2 "rsvg-convert -f pdf" draw --svg x.pdf
refuses 2 "rsvg-convert -f png" work 1 2 --svg x.png

# The texts of a drawing that are digits, with their places.
digits() {
  sed -n 's/.*<text x="\([0-9.]*\)" y="\([0-9.]*\)"[^>]*>\([01]\)<.*/\1 \2 \3/p' "$1" | sort
}

# walk COUNT COMMAND ...: looks at the files of so many steps.
walk() {
  count=$1
  shift
  rm -rf steps
  mkdir steps
  "$SUMWRIGHT" "$@" --frames steps >stdout 2>stderr || wrong "status of: $*"
  [ "$(ls steps | wc -l)" -eq "$count" ] || wrong "$(ls steps | wc -l) steps, not $count, of: $*"
  previous=
  for file in steps/*; do
    xmllint --noout "$file" 2>stderr || wrong "$file of: $*"
    sed -n 's/.*<svg.* width="\([0-9.]*\)" height="\([0-9.]*\)".*/\1 \2/p' "$file"
    digits "$file" >now
    [ -z "$previous" ] || [ -z "$(comm -23 before now)" ] || wrong "$file loses a level: $*"
    previous=$file
    mv now before
    frames=$((frames + 1))
  done >sizes
  [ "$(sort -u sizes | wc -l)" -eq 1 ] || wrong "steps of several sizes: $*"
  [ "$(wc -l <sizes)" -eq "$count" ] || wrong "steps without a size: $*"
}

: >stderr
walk 17 work --operation sub 100 -50
[ "$(grep -l 'column 3: 0 + 0 + carry 0 = 0, carry 0' steps/*)" = steps/step_06.svg ] || wrong "column 3"
[ "$(grep -l 'OVERFLOW: 100' steps/*)" = "$(ls steps/step_12.svg steps/step_13.svg steps/step_14.svg \
  steps/step_15.svg steps/step_16.svg)" ] || wrong "the verdict comes at another step"
for step in 3 4 5 6 7 8 9; do # four rows, the first carry, two levels a column, two names
  [ "$(digits steps/step_0$step.svg | wc -l)" -eq $((4 * 8 + 1 + 2 * (step - 2) + 2)) ] ||
    wrong "$(digits steps/step_0$step.svg | wc -l) levels in step $step"
done
digits steps/step_16.svg | wc -l >last
"$SUMWRIGHT" work --operation sub 100 -50 --svg whole.svg >stdout
digits whole.svg | wc -l | cmp -s - last || wrong "the last step has other levels than the figure"
walk 13 work --width 1 --overflow saturate-signed --flags all 1 1
walk 77 work --width 64 --flags all 1 -1
walk 17 draw --example 100,-50,sub
[ "$(grep -c 'class="m"' steps/step_06.svg)" -eq 2 ] || wrong "not two new levels in column 3"
grep -q 'class="w off"' steps/step_16.svg && wrong "a wire without a level in the last step"
digits steps/step_16.svg | wc -l >last
"$SUMWRIGHT" draw --example 100,-50,sub --bare --svg bare.svg
grep -c '>[01]</text>' bare.svg | cmp -s - last || wrong "the last step has other levels than the drawing"
walk 13 draw --width 4 --detail nand --example 5,6,sub
walk 17 draw --width 16 --structure brent-kung --example 100,-50,sub
grep -q 'borrows: the carries turned over' steps/step_02.svg || wrong "nothing about borrows"
[ "$(grep -l 'Level 2 joins neighbouring columns; now known: c3 = 1, c4 = 1\.' steps/*)" = steps/step_05.svg ] ||
  wrong "level 2 finds other carries"
walk 14 draw --width 12 --structure select --example 100,50,sub --flags carry,overflow,zero
[ "$(grep -l 'The group of columns 4 to 2; now known: c3 = 0, c4 = 0, c5 = 1\.' steps/*)" = steps/step_05.svg ] ||
  wrong "no group in step 5"
walk 25 draw --width 16 --structure fewest --example 100,-50,sub

# The sentences of all steps in the figure.
"$SUMWRIGHT" work --operation sub 100 -50 --steps --svg steps.svg >stdout
[ "$(grep -c '>column [0-7].*carry [01]</text>' steps.svg)" -eq 8 ] || wrong "not a sentence a column"
echo "$frames steps keep their places"
