# Sourced by run: grading the vectors by stuck-at faults, and how few vectors catch how much.

part() { # line, number of a word
  echo "$1" | cut -d ' ' -f "$2"
}
least_grade() { # options ...: the run of pace with the least time of three
  for round in 1 2 3; do
    "$pace" grade "$@"
  done | sort -n | head -n 1
}

graded=$(least_grade --structure kogge-stone --width 64)
row "grading Kogge-Stone, 64 bits : once per fault" \
  "$(awk "BEGIN { printf \"%.4f\", $(part "$graded" 1) / $(part "$graded" 2) }")" "below 1.00"
row "  seconds, default vectors, $(part "$graded" 4) faults" "$(part "$graded" 1)" "below 1"

# As many vectors a width: none at random, and words of more than 64 bits, whose chains are sampled.
before=
for width in 128 256 512; do
  graded=$(least_grade --structure kogge-stone --width $width)
  [ -z "$before" ] || row "  growth with gates, $width bits: exponent" \
    "$(awk "BEGIN { printf \"%.2f\", log($(part "$graded" 1) / $(part "$before" 1)) / log($(part "$graded" 3) / $(part "$before" 3)) }")" \
    "at most 2"
  before=$graded
done

# So many of the first vectors catch every single stuck-at fault. Of a ripple adder, 8 catch any change
# of a cell's function at any width, which is least (Cheng and Patel 1987); for trees of groups sets
# are published that grow with log n (Becker 1988).
for structure in ripple lookahead sklansky kogge-stone brent-kung; do
  for width in 8 64 512; do
    "$sumwright" emit --name strength --overwrite --operations adc --flags carry --detail gates \
      --structure $structure --width $width --vectors 0 >strength.log
    wanted="grows with log n"
    [ $structure != ripple ] || wanted="8, published least"
    row "first vectors that catch all faults, adc, $structure, $width bits" \
      "$(sed -n 's/^faults .* by the first \([0-9]*\) vectors.*/\1/p' strength.log)" "$wanted"
  done
done
