#!/bin/sh
# The page of a lesson in a browser without a window: what its script makes of hundreds of operands,
# by the gates that the page has, is what `work` says, bit by bit and word for word; for every carry
# structure, every operation and the ways to ask for one. Also: a page fetches nothing, shows its first
# example without scripts, keeps within its size, opens at a step, and lets pins be turned over.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
export HOME=$folder COLUMNS=10000
units=0 sets=0

wrong() {
  echo "wrong: $1"
  exit 1
}

# open_page NAME HASH: the page as it stands after its script, to dom.
open_page() {
  timeout 120 chromium --headless --no-sandbox --disable-gpu --no-first-run \
    --disable-background-networking --disable-extensions --disable-dev-shm-usage \
    --user-data-dir="$folder/profile" --dump-dom "file://$folder/$1#$2" >dom 2>log ||
    { cat log; wrong "no browser for $1"; }
}

# operands WIDTH COUNT: pairs of numbers of that width, corners among them.
operands() {
  awk -v width="$1" -v count="$2" 'BEGIN {
    srand(17)
    top = 2 ^ width
    split(sprintf("0 1 %.0f %.0f %.0f", top - 1, top / 2, top / 2 - (width > 1)), corner, " ")
    for (k = 0; k < count; k++) {
      a = k < 10 ? corner[1 + k % 5] : int(rand() * top)
      b = k < 10 ? corner[1 + (k * 3) % 5] : k % 3 == 0 ? top - 1 - a : int(rand() * top)
      printf "%.0f %.0f %d\n", a, b, int(rand() * 2)
    }
  }'
}

# same_as_work COUNT OPTIONS of the unit: each of its operations on so many operands.
same_as_work() {
  count=$1
  shift
  "$SUMWRIGHT" lesson "$@" --html page.html --overwrite || wrong "no page for: $*"
  width=8
  previous=
  for word; do
    [ "$previous" != --width ] || width=$word
    previous=$word
  done
  : >expected
  : >table
  for operation in $(sed -n 's/^<span class="soft">\([a-z]*\):.*/\1/p' page.html); do
    case $operation in
      adc | sbc) cin=yes ;;
      *) cin= ;;
    esac
    operands "$width" "$count" | while read -r a b level; do
      case $operation in
        inc | dec | neg | pass) set -- "$a" ;;
        *) set -- "$a" "$b" ;;
      esac
      [ -z "$cin" ] || set -- "$@" --cin "$level"
      printf '%s%s:%s:%s:%s' "$(cat comma 2>/dev/null)" "$operation" "$a" "$b" "$level" >>table
      printf , >comma
      echo "$operation:$a:$b:$level" >>expected
      # shellcheck disable=SC2046
      "$SUMWRIGHT" work $(cat unit) --operation "$operation" --steps "$@" >sheet || exit 1
      sed -n 's/^  result  *\([0-9-]*\)  *\([0-9-]*\)$/result \1 \2/p' sheet >>expected
      sed -n 's/^  \(column .*\)/\1/p' sheet >>expected
      sed -n -e '/^verdict/,/^$/s/^  \([a-z].*[a-z]\)   *\(.*\)/\1: \2/p' sheet >>expected
      sed -n -e '/^flags/,/^$/s/^  \([a-z-]* [01]\)  *\(.*\)/\1: \2/p' sheet >>expected
    done || wrong "work fails for: $*"
  done
  rm -f comma
  open_page page.html "table=$(cat table)"
  sed -n '/<pre id="said">/,/<\/pre>/p' dom | sed -e 's/.*<pre id="said">//' -e '/<\/pre>/s/<\/pre>.*//' \
    -e 's/&lt;/</g;s/&gt;/>/g;s/&amp;/\&/g' >said
  diff expected said >difference || { head -20 difference; wrong "the page of: $*"; }
  units=$((units + 1))
  sets=$((sets + $(grep -c '^[a-z]*:[0-9]' expected)))
}

# page COUNT OPTIONS: the same, the options kept for work.
page() {
  count=$1
  shift
  echo "$@" >unit
  same_as_work "$count" "$@"
}

every=add,adc,sub,sbc,rsb,inc,dec,neg,pass
page 14 --operations $every --flags all
page 8 --operations add,adc,sub,sbc,rsb --flags all --control one-hot --subtract-carry borrow
page 20 --structure fewest --flags carry,overflow,zero,negative
page 20 --structure fewest --detail gates --subtract-carry borrow --flags all
for structure in skip select lookahead sklansky kogge-stone brent-kung han-carlson ladner-fischer depth=5; do
  page 6 --width 12 --operations $every --structure $structure
done
page 40 --structure brent-kung --control low --overflow saturate-signed --flags all
page 40 --width 4 --detail nand --overflow saturate-unsigned
page 20 --width 1 --flags carry,overflow,zero,negative,parity
page 20 --width 5 --operations sub --detail gates
page 20 --width 32 --structure kogge-stone --subtract-carry borrow --operations sub,rsb

# What a page is.
"$SUMWRIGHT" lesson --html eight.html --example 100,-50,sub --example 127,1,add
"$SUMWRIGHT" lesson --width 32 --structure kogge-stone --html wide.html
[ "$(wc -c <eight.html)" -lt 150000 ] || wrong "8 bits: $(wc -c <eight.html) bytes"
[ "$(wc -c <wide.html)" -lt 1000000 ] || wrong "32 bits: $(wc -c <wide.html) bytes"
for file in eight.html wide.html; do
  sed 's/http:\/\/www.w3.org\/2000\/svg//' "$file" | grep -e 'https\{0,1\}:' -e 'src=' -e '@import' -e 'url(' &&
    wrong "$file fetches something"
  sed '/<script/,/<\/script>/d' "$file" | grep -q '>OVERFLOW' || wrong "$file shows no verdict without its script"
done

# A step by its address: column 2 is the newest, column 3 is open; then a level that is turned over.
open_page eight.html 'op=sub&a=100&b=-50&step=5'
grep -q 'aria-live="polite">column 2: 1 + 0 + carry 0 = 1, carry 0\.<' dom || wrong "another sentence in step 5"
grep -q 'step 5 of 16' dom || wrong "another step"
[ "$(grep -c 'class="m new"' dom)" -eq 2 ] || wrong "not two new levels in step 5"
[ "$(grep -o '<td class="\(one\|nought\)' dom | wc -l)" -eq 4 ] || wrong "not four carries in step 5"
open_page eight.html 'op=add&a=127&b=1'
grep -q 'OVERFLOW: 127 + 1 = 128 is above 127' dom || wrong "no overflow of 127 + 1"
echo "$units pages say what work says of $sets operations"
