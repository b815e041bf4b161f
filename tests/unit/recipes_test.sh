#!/bin/sh
# "How to add" in DEVELOPERS.md, by the letter: its code blocks are put into a copy of the sources,
# where its words say, which gains a flag, an operation, a carry structure and an option. The copy is
# built without a test, and everything that a user can ask for is asked of what was added.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
CCACHE_BASEDIR=$folder CCACHE_NOHASHDIR=1
export CCACHE_BASEDIR CCACHE_NOHASHDIR

wrong() {
  echo "wrong: $1"
  for log in "$folder"/*.log; do [ ! -s "$log" ] || tail -n 20 "$log"; done
  exit 1
}

mkdir "$folder/copy"
for part in CMakeLists.txt emit templates docs; do cp -R "$SOURCE/$part" "$folder/copy"; done
cd "$folder/copy"

# A block goes where the paragraph before it ends: "In `FILE`, before `TEXT`:", "In `FILE`, behind
# `TEXT`:" or "A new file `FILE`:". The place is the only line of the file with that text.
awk '
  /^## / { recipes = $0 == "## How to add" }
  !recipes { next }
  !inside && /^```/ {
    inside = 1; block = ""
    at = 0; rest = paragraph; sentence = ""
    while (match(rest, /(In|A new file) `/)) { sentence = substr(rest, RSTART); rest = substr(rest, RSTART + 1) }
    split(sentence, part, "`")
    next
  }
  /^```/ {
    inside = 0; count++
    print part[2] >("edit" count ".file")
    print (part[3] ~ /before/ ? "before" : part[3] ~ /behind/ ? "behind" : "new") >("edit" count ".where")
    print part[4] >("edit" count ".text")
    printf "%s", block >("edit" count ".block")
    next
  }
  inside { block = block $0 "\n"; next }
  $0 == "" { ended = 1; next }
  { paragraph = (ended ? "" : paragraph " ") $0; ended = 0 }
  END { print count >"edits" }' "$SOURCE/DEVELOPERS.md"
[ "$(cat edits)" -gt 8 ] || wrong "only $(cat edits) blocks in the recipes"

put() {
  file=$(cat "$1.file") where=$(cat "$1.where") text=$(cat "$1.text")
  if [ "$where" = new ]; then
    [ ! -e "$file" ] || wrong "$file is there already"
    cp "$1.block" "$file"
    return
  fi
  [ -f "$file" ] || wrong "a recipe names $file, which is not there"
  [ "$(grep -cF -e "$text" "$file")" -eq 1 ] || wrong "not one line of $file has '$text'"
  awk -v where="$where" -v text="$text" -v block="$1.block" '
    function show() { while ((getline line <block) > 0) print line }
    { here = index($0, text) }
    here && where == "before" { show() }
    { print }
    here && where == "behind" { show() }' "$file" >edited
  cat edited >"$file"
}
edit=1
while [ "$edit" -le "$(cat edits)" ]; do
  put "edit$edit"
  edit=$((edit + 1))
done

# A definition that is left out is an error of the compiler: the file without the block is refused.
# The blocks of the option are another matter: without one it is not there, or does nothing.
without() {
  awk -v block="$1.block" '
    BEGIN { while ((getline text <block) > 0) part[count++] = text }
    { line[NR] = $0 }
    END {
      for (i = 1; i <= NR; i++) {
        for (k = 0; k < count && line[i + k] == part[k]; k++) continue
        if (k == count) { i += count - 1; continue }
        print line[i]
      }
    }' "$2"
}
edit=1 left_out=0
while [ "$edit" -le "$(cat edits)" ]; do
  file=$(cat "edit$edit.file")
  case $file$(cat "edit$edit.where") in
    emit/commands/* | emit/options/* | *new) ;;
    *.c*)
      without "edit$edit" "$file" >"${file%.c}_without.c"
      ! "${CC:-cc}" -std=c17 -D_XOPEN_SOURCE=700 -fsyntax-only -I emit "${file%.c}_without.c" 2>/dev/null ||
        wrong "$file compiles without: $(cat "edit$edit.block")"
      rm "${file%.c}_without.c"
      left_out=$((left_out + 1))
      ;;
  esac
  edit=$((edit + 1))
done
[ "$left_out" -gt 5 ] || wrong "only $left_out blocks left out"

cmake -S . -B build -D CMAKE_BUILD_TYPE=Debug -D CMAKE_C_FLAGS=-O0 -D SUMWRIGHT_TESTS=OFF \
  -D SUMWRIGHT_WERROR=ON >"$folder/cmake.log" 2>&1 || wrong "the copy does not configure"
cmake --build build --target sumwright -j "$(getconf _NPROCESSORS_ONLN)" >"$folder/build.log" 2>&1 ||
  wrong "the copy does not build"
program=$PWD/build/sumwright
mkdir "$folder/work"
cd "$folder/work"

# says WORDS ARGUMENTS: the program succeeds and prints the words.
says() {
  words=$1
  shift
  "$program" "$@" >"$folder/said.log" 2>&1 || wrong "status $? of: $*"
  grep -qF -e "$words" "$folder/said.log" || wrong "nothing about '$words' in: $*"
}

# draws FILE WORDS ARGUMENTS: the drawing has the words.
draws() {
  file=$1 words=$2
  shift 2
  "$program" draw --svg "$file" "$@" >"$folder/said.log" 2>&1 || wrong "status $? of: draw $*"
  grep -qF -e "$words" "$file" || wrong "no '$words' in: draw $*"
}

# passes NAME ARGUMENTS: the unit is simulated, and check passes it as a design of somebody's.
passes() {
  name=$1
  shift
  "$program" emit --name "$name" --vectors 200 "$@" >"$folder/said.log" 2>&1 ||
    wrong "status $? of: emit $*"
  case " $* " in
    *" operators "*) ;;
    *) grep -q "^proof .*equal to the definition for all" "$folder/said.log" || wrong "no proof of: emit $*" ;;
  esac
  iverilog -g2005 -Wall -o "$name.vvp" "$name.v" "${name}_tb.v" >"$folder/iverilog.log" 2>&1 ||
    wrong "iverilog refuses: emit $*"
  [ ! -s "$folder/iverilog.log" ] || wrong "iverilog complains of: emit $*"
  vvp -n "$name.vvp" >"$folder/vvp.log" 2>&1 || wrong "fails: emit $*"
  grep -q "^PASS $name: " "$folder/vvp.log" || wrong "no PASS of: emit $*"
  says "PASS $name.v: " check "$name.v" "$@"
}

for command in emit check work cost draw; do
  says "odd" "$command" --help
  says "com" "$command" --help
  says "serial" "$command" --help
done
says "--brief" emit --help

for detail in operators cells gates nand nor; do
  passes "flag_$detail" --width 5 --flags all --detail $detail
  passes "operation_$detail" --width 5 --operations add,com,sbc --flags all --detail $detail
done
passes serial_cells --width 6 --structure serial --detail cells --operations sub,com --flags all
passes serial_gates --width 6 --structure serial --operations com --flags odd
passes saturated --width 5 --operations com,adc --flags all --overflow saturate-signed --registers both
grep -q "odd  *the lowest bit of the result" flag_gates.v || wrong "the header does not know the flag"
grep -q "com  *-a - 1" operation_gates.v || wrong "the header does not know the operation"

says "odd" work --width 5 --flags odd 3 4
says "= -6" work --width 5 --operations com 5
says "serial" cost --width 8
for structure in ripple serial kogge-stone; do
  draws "$structure.svg" "bit 0" --width 4 --structure $structure --operations com,add --flags all
  draws "example.svg" odd --width 4 --structure $structure --operations com --flags odd --example 5 --overwrite
done
draws gates.svg odd --width 4 --operations com,sub --flags all --detail gates --example 5,com
draws nands.svg odd --width 4 --flags all --detail nand

"$program" emit --brief --name short >"$folder/said.log" || wrong "emit --brief fails"
[ "$(wc -l <"$folder/said.log")" -eq 3 ] || wrong "emit --brief is not brief"
echo "$(cat ../copy/edits) edits add a flag, an operation, a structure and an option; without one of $left_out, it does not build"
