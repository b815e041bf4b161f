#!/bin/sh
# Makes the examples again: make.sh PROGRAM FOLDER, one folder in FOLDER for each. The scenario, a
# small harbour's tide gauge and its logger's little CPU, is invented.
set -eu
program=$1 folder=$2

example() { # name, options ...
  mkdir -p "$folder/$1"
  name=$1
  shift
  "$program" emit --name "$name" --out "$folder/$name" "$@" >/dev/null
}

# A coursework unit: four bits, add and subtract, one two-input gate a line.
example coursework --width 4 --operations add,sub --detail gates --flags carry,overflow

# The same of NAND gates alone.
example coursework_nand --width 4 --operations add,sub --detail nand --flags carry,overflow

# The surge residual, observed minus predicted level, 12 bits, millimetres from the datum.
example tide_residual --width 12 --operations sub \
  --port a=observed --port b=predicted --port result=residual

# The arithmetic of the logger's CPU: four operations by a code, every flag.
example logger_alu --width 16 --operations add,adc,sub,sbc --flags all --detail operators \
  --vectors 500

# A level and its rise, added or subtracted: the cells of a prefix network as modules.
example level_sum --width 16 --operations add,sub --flags carry,overflow --structure brent-kung \
  --detail cells --port b=rise --vectors 200

# What a lesson about the surge residual hands out (docs/lesson.md).
mkdir -p "$folder/lesson"
"$program" exercises --name surge --operations add,sub --html "$folder/lesson/exercises.html" \
  --solutions "$folder/lesson/solutions.html"
"$program" lesson --name surge --operations add,sub --example 104,110,sub --example 127,1 \
  --example -128,1,sub --html "$folder/lesson/lesson.html"
