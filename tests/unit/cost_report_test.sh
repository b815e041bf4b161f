#!/bin/sh
# sumwright cost through the real program: text, CSV and JSON say the same, emit says it too, a
# drawing is valid XML with every figure in it, and what is wrong is refused in one line.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

wrong() {
  echo "wrong: $1"
  exit 1
}

# ---- three formats, one content -----------------------------------------------------------------

header=width,structure,gates,gates_bound,levels,levels_bound,fan_out,prefix_cells
header=$header,prefix_cells_bound,transistors,and,or,xor,nand,nor,xnor,inverters
header=$header,nands_only,nands_only_levels,nands_only_fan_out
header=$header,nors_only,nors_only_levels,nors_only_fan_out,smallest,shallowest,front

# From JSON to the CSV that it must equal; CMake reads JSON.
cat >csv.cmake <<'CMAKE'
file(READ ${JSON} json)
# value OUT FROM KEY ...: FROM is the name of a variable that holds a small piece of the JSON: CMake
# reads all of it each time.
function(value out from)
  string(JSON kind TYPE "${${from}}" ${ARGN})
  string(JSON found GET "${${from}}" ${ARGN})
  if(kind STREQUAL "NULL")
    set(found "")
  elseif(kind STREQUAL "BOOLEAN")
    string(COMPARE EQUAL "${found}" ON found)
    set(found $<${found}>)
    string(REGEX REPLACE "\\$<(TRUE|ON|1)>" 1 found "${found}")
    string(REGEX REPLACE "\\$<.*>" 0 found "${found}")
  endif()
  set(${out} "${found}" PARENT_SCOPE)
endfunction()
set(text "")
string(JSON widths LENGTH "${json}" widths)
math(EXPR widths "${widths} - 1")
foreach(w RANGE ${widths})
  string(JSON of_width GET "${json}" widths ${w})
  value(width of_width width)
  value(gates_bound of_width gates_bound)
  value(levels_bound of_width levels_bound)
  string(JSON rows LENGTH "${of_width}" structures)
  math(EXPR rows "${rows} - 1")
  foreach(r RANGE ${rows})
    string(JSON row GET "${of_width}" structures ${r})
    value(structure row structure)
    value(gates row gates)
    value(levels row levels)
    string(APPEND text "${width},${structure},${gates},${gates_bound},${levels},${levels_bound}")
    foreach(key fan_out prefix_cells prefix_cells_bound transistors)
      value(figure row ${key})
      string(APPEND text ",${figure}")
    endforeach()
    foreach(key and or xor nand nor xnor)
      value(figure row by_kind ${key})
      string(APPEND text ",${figure}")
    endforeach()
    value(figure row inverters)
    string(APPEND text ",${figure}")
    foreach(only nands_only nors_only)
      foreach(key gates levels fan_out)
        value(figure row ${only} ${key})
        string(APPEND text ",${figure}")
      endforeach()
    endforeach()
    foreach(key smallest shallowest front)
      value(figure row ${key})
      string(APPEND text ",${figure}")
    endforeach()
    string(APPEND text "\n")
  endforeach()
endforeach()
file(WRITE ${CSV} "${text}")
CMAKE

# From the text to the same: a row of the first table of a width, then of the second and the third.
from_text() {
  awk '
    function dash(text) { return text == "-" ? "" : text }
    /^[0-9]+ bits?: / { width = $1; at++; gates_bound = levels_bound = "" }
    /fewer than [0-9]+ gates/ { sub(/.*fewer than /, ""); gates_bound = $1 }
    /fewer than [0-9]+ levels/ { sub(/.*fewer than /, ""); levels_bound = $1 }
    /^structure/ { table = $2; reading = 1; next }
    /^$/ { reading = 0 }
    !reading { next }
    table == "gates" {
      order[++rows] = at " " $1
      first[at " " $1] = width "," $1 "," $2 "," gates_bound "," $3 "," levels_bound "," $4 "," dash($5) "," dash($6)
      marks[at " " $1] = ($0 ~ /smallest/) "," ($0 ~ /shallowest/) "," ($0 ~ /smallest|shallowest|front/)
    }
    table == "NANDs" { third[at " " $1] = "," $2 "," $3 "," $4 "," $5 "," $6 "," $7 }
    table == "AND" { second[at " " $1] = "," $9 "," $2 "," $3 "," $4 "," $5 "," $6 "," $7 "," $8 }
    END {
      for (k = 1; k <= rows; k++)
        print first[order[k]] second[order[k]] third[order[k]] "," marks[order[k]]
    }'
}

# same OPTIONS: all formats agree; the CSV stays in csv.
same() {
  "$SUMWRIGHT" cost --format csv "$@" >all.csv
  [ "$(head -n 1 all.csv)" = "$header" ] || wrong "the header of CSV: $*"
  sed 1d all.csv >csv
  "$SUMWRIGHT" cost --format json "$@" >json
  cmake -D JSON=json -D CSV=from_json -P csv.cmake >cmake.log 2>&1 || { cat cmake.log; wrong "JSON: $*"; }
  "$SUMWRIGHT" cost "$@" >text
  from_text <text >from_text
  diff csv from_json || wrong "JSON differs from CSV: $*"
  diff csv from_text || wrong "text differs from CSV: $*"
  awk 'length($0) > 80' text | grep . && wrong "lines over 80 characters: $*" || :
  ! grep -q ' $' text || wrong "blanks at the ends of lines: $*"
}

same
[ "$(cut -d, -f1 csv | uniq | paste -s -d , -)" = 8,16,32,64 ] || wrong "the default widths"
same --widths 1,2,3 --flags all
same --operations add --flags carry --widths 4096 --structures ripple
same --operations pass --flags none --widths 7
same --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all --width 9 --control one-hot
same --operations sub --structure ripple --overflow saturate-signed

# ---- emit says the same -------------------------------------------------------------------------

"$SUMWRIGHT" cost --format csv --width 13 --flags all --subtract-carry borrow >csv
sed 1d csv | while IFS=, read -r width structure gates gates_bound levels levels_bound fan_out cells cells_bound transistors \
  and or xor nand nor xnor inverters nands nand_levels nand_fan_out nors nor_levels nor_fan_out rest; do
  for detail in gates nand nor; do
    case $detail in
      nand) gates=$nands levels=$nand_levels fan_out=$nand_fan_out transistors=$((4 * nands)) ;;
      nor) gates=$nors levels=$nor_levels fan_out=$nor_fan_out transistors=$((4 * nors)) ;;
    esac
    "$SUMWRIGHT" emit --name u --vectors 0 --width 13 --flags all --subtract-carry borrow --structure "$structure" \
      --detail $detail --overwrite >emit.log </dev/null
    grep -q "^circuit  $gates two-input gates, $levels levels, largest fan-out $fan_out" emit.log &&
      grep -q "about $transistors transistors$" emit.log || { cat emit.log; wrong "emit differs: $structure, $detail"; }
  done
done

# ---- drawings -----------------------------------------------------------------------------------

# drawn OPTIONS: a valid drawing with every structure's name in it, as text.
drawn() {
  "$SUMWRIGHT" cost --svg drawing.svg --overwrite --format csv "$@" >csv
  if command -v xmllint >/dev/null; then xmllint --noout drawing.svg; else echo "no xmllint here"; fi
  grep -q '<title>Gates against levels: ' drawing.svg && grep -q '<desc>.*\.</desc>' drawing.svg ||
    wrong "no title or description: $*"
  ! grep -q '<script\|href\|<image' drawing.svg || wrong "more than a drawing: $*"
  sed 1d csv | cut -d, -f2 | sort >names
  # Each name is a text of its own.
  sed -n 's/^<text .*>\([a-z=0-9-]*\)<\/text>$/\1/p' drawing.svg | grep -v '^[0-9]*$' | sort >labels
  diff names labels || wrong "labels: $*"
  sed 1d csv | cut -d, -f1 | uniq | while read -r width; do
    grep -q ">$width bits\{0,1\}</text>" drawing.svg || wrong "no panel of $width bits: $*"
  done
}
drawn
drawn --widths 1
drawn --widths 1,2,3,4 --flags none
drawn --widths 40 --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all --overflow saturate-unsigned

"$SUMWRIGHT" cost --svg drawing.svg --width 5 >stdout 2>stderr && wrong "replaces a drawing" || status=$?
[ $status -eq 4 ] && grep -q -e --overwrite stderr && [ ! -s stdout ] || wrong "another drawing there"
cp drawing.svg before.svg
"$SUMWRIGHT" cost --width 5 --svg missing/drawing.svg >stdout 2>stderr && wrong "writes nowhere" || status=$?
[ $status -eq 4 ] && [ ! -s stdout ] && [ "$(wc -l <stderr)" -eq 1 ] || wrong "a folder that is not there"
(ulimit -f 1 && exec "$SUMWRIGHT" cost --width 5 --svg drawing.svg --overwrite >stdout 2>stderr) &&
  wrong "writes past the limit" || status=$?
[ $status -eq 4 ] && cmp drawing.svg before.svg || wrong "half a drawing"
[ -z "$(find . -name '.sumwright-*')" ] || wrong "something left"

# ---- refusals -----------------------------------------------------------------------------------

# refuses WORDS OPTIONS
refuses() {
  words=$1
  shift
  status=0
  "$SUMWRIGHT" cost "$@" >stdout 2>stderr || status=$?
  [ $status -eq 2 ] && [ "$(wc -l <stderr)" -eq 1 ] && [ ! -s stdout ] || { cat stderr; wrong "refusal of: $*"; }
  grep -q "^sumwright: error: .*; " stderr && grep -q -e "$words" stderr ||
    { cat stderr; wrong "nothing about '$words' for: $*"; }
}
for widths in '' 0 4097 8, ,8 8,,9 '8 9' 8-16 -1 1e3; do
  refuses "1 to 4096" --widths "$widths"
done
refuses "lists 8 twice" --widths 8,9,8
refuses "more than 64" --widths "$(seq -s , 1 65)"
refuses "'carry'" --structures ripple,carry
refuses "''" --structures ripple,
refuses "''" --structures ''
refuses "lists ripple twice" --structures ripple,ripple
refuses "lacks its number" --structures depth
refuses "1 to 4096" --structures depth=0
refuses "text, json or csv" --format xml
refuses "empty" --svg ''
refuses "takes no" add
refuses "column 3" --flags half-carry --widths 8,2
refuses "no circuit for these" --structures fewest --operations add,sub,inc
refuses "'$(printf %60s | tr ' ' x)...'" --structures "$(printf %9999s | tr ' ' x)"
refuses "'?'" --structures "$(printf '\033')"
"$SUMWRIGHT" cost --width 5 >/dev/full 2>stderr && wrong "status 0 with nowhere to print" || status=$?
[ $status -eq 4 ] || wrong "standard output full"
echo "cost says the same in every format"
