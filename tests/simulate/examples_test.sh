#!/bin/sh
# The committed examples are what the program makes today, byte for byte; they compile without a
# warning and pass their testbenches.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
sh "$SOURCE/generated_examples/make.sh" "$SUMWRIGHT" "$folder"
cp "$SOURCE/generated_examples/make.sh" "$folder"
diff -r "$SOURCE/generated_examples" "$folder"
for example in "$folder"/*/; do
  name=$(basename "$example")
  cd "$example"
  [ -e "$name.v" ] || continue # sheets of a lesson
  iverilog -g2005 -Wall -o "$name.vvp" "$name.v" "${name}_tb.v" >warnings 2>&1
  [ ! -s warnings ] || { cat warnings; exit 1; }
  vvp -n "$name.vvp" | tee "$name.log"
  tail -n 1 "$name.log" | grep -q "^PASS $name: [0-9]* vectors$"
done
