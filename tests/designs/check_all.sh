# Sourced by the tests that check designs. The first lines of a design say how it is checked and what
# must come out:
#   // options: ...      of check
#   // verdict: PASS; WRONG and the identifiers, or alone any; UNTESTED, UNPROVED and words of the
#   reason
# MORE has options for all of them.
# A design is a file, or a folder whose files make one design.
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
mkdir temporary
export TMPDIR="$folder/temporary"

cat >check_one <<'END'
# check_one DESIGN: a line that says right or wrong, and of a wrong one what was printed.
design=$1
files=$design
[ ! -d "$design" ] || files=$(ls "$design"/*.v)
header=$(sed -n '/^\/\/ [a-z]*: /p' $files)
options=$(echo "$header" | sed -n 's|^// options: ||p')
expected=$(echo "$header" | sed -n 's|^// verdict: ||p')
log=$(mktemp ./log.XXXXXX)
status=0
"$SUMWRIGHT" check $options ${MORE-} $files >"$log" 2>&1 || status=$?
verdict=$(sed -n '1s/ .*//p' "$log")
names=$(sed -n '/^  nearest: /d; s/^  \([a-z]*\(-[a-z]*\)*\): .*/ \1/p' "$log" | tr -d '\n')
case $verdict in
  UNTESTED | UNPROVED) names=" $(sed -n '1s/^[A-Z]* [^ ]*: //p' "$log")" ;;
esac
found=$verdict$names
right=no
case $verdict in
  PASS) [ $status -ne 0 ] || [ "$expected" != PASS ] || right=yes ;;
  WRONG) [ $status -ne 1 ] || { [ "$expected" != "$found" ] && [ "$expected" != WRONG ]; } || right=yes ;;
  UNTESTED | UNPROVED)
    case "$expected/$names" in
      "$verdict"/*) right=yes ;;
      "$verdict "*/*"${expected#"$verdict" }"*) right=yes ;;
    esac
    [ $status -eq 3 ] || right=no
    ;;
esac
if [ $right = yes ]; then
  echo "right $design: $found"
else
  echo "wrong $design: $found, status $status, and should be $expected"
  cat "$log"
fi
END

# check_all DESIGN ...: two at a time; fails when a verdict is not as it should be or a temporary
# folder is left.
check_all() {
  printf '%s\n' "$@" | xargs -P 2 -I NAME sh check_one NAME >results
  ! grep -A 40 '^wrong ' results || exit 1
  [ -z "$(ls -A temporary)" ] || { echo "wrong: left behind:" && ls temporary && exit 1; }
}
