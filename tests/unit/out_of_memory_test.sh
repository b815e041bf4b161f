#!/bin/sh
# Memory that runs out at any moment: the program (short_of_memory/allocate.c) says so in one line,
# ends with status 4, and leaves no part of a file. emit and draw leave no file at all; the drawing of
# work and cost stands, whole, before their text is made.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/out" "$folder/whole"
cd "$folder/out"

wrong() {
  echo "wrong: $1: sumwright $command"
  cat ../said
  exit 1
}

line='sumwright: error: out of memory; a narrower unit or fewer vectors need less'

# fails_at K COMMAND ...: false when the command needs fewer blocks than that.
fails_at() {
  status=0
  number=$1
  shift
  FAILING=$number "$SHORT_OF_MEMORY" "$@" >../answer 2>../said || status=$?
  [ "$status" -ne 0 ] || return 1
  [ "$status" -eq 4 ] || wrong "block $number: status $status"
  [ "$(cat ../said)" = "$line" ] || wrong "block $number: another message"
  for file in $(ls -A); do
    case $file in
      work.svg | cost.svg) cmp -s "$file" "../whole/$file" || wrong "block $number: half of $file" ;;
      *) wrong "block $number: $file is left" ;;
    esac
    rm "$file"
  done
}

# at_every_block COMMAND ...: fails at each of the first 100 blocks, then at every seventh, and is done
# at last.
at_every_block() {
  command=$*
  (cd ../whole && "$SHORT_OF_MEMORY" "$@" >/dev/null)
  block=1
  while fails_at $block "$@"; do
    if [ $block -lt 100 ]; then block=$((block + 1)); else block=$((block + 7)); fi
  done
  [ $block -gt 20 ] || wrong "done with $block blocks"
  rm -f -- * ../whole/*
  echo "$block: $command"
}

at_every_block emit --width 2 --operations add --flags none --vectors 2
at_every_block emit --width 3 --structure brent-kung --detail nand --registers both --vectors 2
at_every_block work --width 4 --flags all --steps 5 -3 --svg work.svg
at_every_block cost --widths 4,5 --structures ripple,fewest,sklansky --svg cost.svg
at_every_block draw --width 3 --detail gates --example 1,2 --svg draw.svg
at_every_block draw --width 4 --structure sklansky --svg draw.svg
