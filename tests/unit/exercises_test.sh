#!/bin/sh
# sumwright exercises through the real program: what it refuses; that both sheets appear or neither;
# that the same seed gives the same sheet; that a sheet shows nothing that is to be filled in, and the
# solutions say what `work` says of every exercise; that both are well-formed.
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
  "$SUMWRIGHT" exercises "$@" >stdout 2>stderr || status=$?
  [ "$status" -eq "$expected" ] || wrong "status $status, not $expected, of: $*"
  [ "$(wc -l <stderr)" -eq 1 ] || wrong "not one line for: $*"
  grep -q -e "$words" stderr || wrong "nothing about '$words' for: $*"
  [ -z "$(ls | grep -v -e '^stdout$' -e '^stderr$')" ] || wrong "files for: $*"
}

refuses 2 "lacks --html"
refuses 2 "cannot have 33 columns; paper has room for 32" --width 33 --html x.html
refuses 2 "1 to 200" --count 0 --html x.html
refuses 2 "carries, result or all" --blank some --html x.html
refuses 2 "both sheets go into one folder" --html x.html --solutions /tmp/y.html
refuses 2 "both 'x.html'" --html x.html --solutions x.html
refuses 4 "missing" --html missing/x.html

# Well-formed, whatever the unit. The document type and the elements without content are HTML's.
well_formed() {
  for sheet in sheet.html solved.html; do
    sed -e 's/^<!DOCTYPE html>$//' -e 's/<meta \([^>]*\)>/<meta \1\/>/' "$sheet" |
      xmllint --noout - 2>stderr || wrong "$sheet is not well-formed for: $*"
  done
}

# What `work` says of an operation and of its operands stands among the solutions: the numbers of
# both readings are in the verdict, the rest follows from them.
same_as_work() {
  sed -n 's/^<dt>\(unsigned\|two.s complement\)<\/dt><dd>\(.*\)<\/dd>$/\2/p' solved.html >said
  : >worked
  sed -n 's/^<h2[^>]*>[0-9]*\. \([a-z]*\):.*/\1/p' solved.html >operations
  sed -n "s/^<p>\(unsigned\|two's complement\): a = \(.*\)<\/p>$/\2/p" solved.html |
    sed 's/, [a-z]* = / /g' | paste operations - >exercises
  while read -r operation a b cin; do
    case $operation in
      adc | sbc) set -- "$@" ;;
      *) cin= ;;
    esac
    COLUMNS=10000 "$SUMWRIGHT" work "$@" --operation "$operation" ${cin:+--cin $cin} $a $b |
      sed -n -e '/^verdict/,/^$/s/^  \(unsigned\|two.s complement\)  *//p' >>worked
  done <exercises
  [ "$(wc -l <worked)" -eq "$((2 * $(wc -l <operations)))" ] || wrong "work says less of: $*"
  sed 's/&gt;/>/g;s/&lt;/</g' said | cmp -s - worked || wrong "work says otherwise of: $*"
}

# sheet BLANK COUNT SEED OPTIONS of the unit: makes it, and looks at it.
sheet() {
  blank=$1 count=$2 seed=$3
  shift 3
  "$SUMWRIGHT" exercises "$@" --blank "$blank" --count "$count" --seed "$seed" --html sheet.html \
    --solutions solved.html >stdout 2>stderr ||
    wrong "status of: $*"
  [ ! -s stdout ] || wrong "standard output for: $*"
  well_formed "$@"
  grep -q '<td class="blank' solved.html && wrong "a blank in the solutions of: $*"
  grep -q -e '<script' -e 'http' sheet.html solved.html && wrong "more than plain HTML for: $*"
  for row in carry added result; do
    case $blank$row in
      all* | carriescarry | resultresult) may=blank ;;
      *) may='one\|nought' ;;
    esac
    sed -n "/^<tr class=\"$row/,/^<.tr>/s/^<td class=\"\(out \)*\([a-z]*\).*/\2/p" sheet.html |
      grep -v "^\($may\|out\)$" | grep -q . && wrong "$row is not as it should be with --blank $blank"
  done
  same_as_work "$@"
  [ "$(wc -l <operations)" -eq "$count" ] || wrong "not $count exercises for: $*"
  "$SUMWRIGHT" exercises "$@" --blank "$blank" --count "$count" --seed "$seed" --html again.html
  cmp -s sheet.html again.html || wrong "another sheet from the same seed for: $*"
  rm -f sheet.html solved.html again.html
}

: >stderr
sheet all 24 1
sheet carries 6 1 --width 1
sheet result 36 1 --width 4 --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all
sheet all 12 7 --width 32 --operations rsb,sbc --subtract-carry borrow
sheet carries 12 1 --width 12 --overflow saturate-signed --structure brent-kung
sheet all 12 1 --width 16 --operations sub --port a=observed --port b=predicted --flags none

# Another seed, another sheet. Nothing is replaced, and no sheet stands alone.
"$SUMWRIGHT" exercises --html one.html
"$SUMWRIGHT" exercises --html two.html --seed 2
cmp -s one.html two.html && wrong "the same sheet from another seed"
status=0
"$SUMWRIGHT" exercises --html new.html --solutions one.html >stdout 2>stderr || status=$?
[ "$status" -eq 4 ] || wrong "replaces a file"
[ ! -e new.html ] || wrong "a sheet without its solutions"
echo "exercises and solutions agree with work"
