#!/bin/sh
# The table of gates in docs/fewest.md is what the program builds, at widths 1 to 5 and 16.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# A line a count: operations, sense, flags, and the three numbers, the last one as a formula in n.
awk -F '|' '
  /^## / { inside = $0 == "## How many gates" }
  inside && NF == 8 && $5 ~ /^ [0-9]+ $/ {
    gsub(/`/, "")
    gsub(/−/, "-")
    if ($2 ~ /[a-z]/) { operations = $2; senses = $3 ~ /[a-z]/ ? $3 : " no-borrow borrow " }
    count = split(operations, operation, " ")
    senses_count = split(senses, sense, " ")
    gsub(/ /, "")
    sub(/n/, "*n", $7)
    for (k = 1; k <= count; k++)
      for (s = 1; s <= senses_count; s++)
        print operation[k], sense[s], $4, $5, $6, $7
  }' "$SOURCE/docs/fewest.md" >"$folder/claims"
[ "$(wc -l <"$folder/claims")" -eq 104 ] || { echo "wrong: $(wc -l <"$folder/claims") rows are read"; exit 1; }

while read -r operations sense flags one two formula; do
  "$SUMWRIGHT" cost --operations "$operations" --subtract-carry "$sense" --flags "$flags" \
    --structures fewest --widths 1,2,3,4,5,16 --format csv >"$folder/counts"
  while IFS=, read -r n name gates rest; do
    case $n in
      width) continue ;;
      1) claimed=$one ;;
      2) claimed=$two ;;
      *) claimed=$(($(echo "$formula" | sed "s/n/$n/"))) ;;
    esac
    [ "$gates" -eq "$claimed" ] ||
      { echo "wrong: $operations with $flags, $sense: $claimed gates on the page, $name of $n bits has $gates"; exit 1; }
  done <"$folder/counts"
done <"$folder/claims"
echo "$(wc -l <"$folder/claims") rows of docs/fewest.md are what is built"
