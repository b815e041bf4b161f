# Sourced by the simulation tests: a temporary folder, and one case from options to verdict. POSIX
# sh; SUMWRIGHT is the program.
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM
cd "$folder"
cases=0
options=
unit=u

# wrong TEXT: this case fails; says how to make its files again.
wrong() {
  echo "wrong: $1"
  echo "  $SUMWRIGHT emit $options"
  exit 1
}

# emit OPTIONS: the unit, `u` unless the test calls it otherwise, into the current folder.
emit() {
  options="--name $unit $*"
  "$SUMWRIGHT" emit --name $unit --overwrite "$@" >emit.log 2>&1 ||
    { cat emit.log; wrong "emit fails"; }
}

# compile FILE ...: into $unit.vvp, without a word from the compiler.
compile() {
  iverilog -g2005 -Wall -o $unit.vvp "$@" >compile.log 2>&1 ||
    { cat compile.log; wrong "does not compile"; }
  [ ! -s compile.log ] || { cat compile.log; wrong "the compiler warns"; }
}

# passes [PLUSARGS]: the simulation ends with PASS and as many vectors as emit said, and says
# nothing else.
passes() {
  said=$(sed -n 's/^vectors *\([0-9]*\).*/\1/p' emit.log)
  timeout 300 vvp -n $unit.vvp "$@" >simulate.log 2>&1 ||
    { tail -n 5 simulate.log; wrong "does not pass"; }
  [ "$(cat simulate.log)" = "PASS $unit: $said vectors" ] ||
    { cat simulate.log; wrong "says more than PASS $unit: $said vectors"; }
  cases=$((cases + 1))
}

# fails [PLUSARGS]: the simulation ends with FAIL, once, and a status that is neither 0 nor that of
# a run that had to be stopped.
fails() {
  status=0
  timeout 60 vvp -n $unit.vvp "$@" >simulate.log 2>&1 || status=$?
  [ $status -ne 0 ] || { cat simulate.log; wrong "status 0"; }
  [ $status -ne 124 ] || wrong "the simulation hangs"
  [ "$(grep -c "^FAIL $unit: " simulate.log)" -eq 1 ] || { cat simulate.log; wrong "no FAIL line"; }
  ! grep -q '^PASS' simulate.log || wrong "PASS beside FAIL"
  cases=$((cases + 1))
}

# simulate OPTIONS: from options to PASS.
simulate() {
  emit "$@"
  compile $unit.v ${unit}_tb.v
  passes
}

# thin COUNT: keeps about COUNT vectors, evenly spread; for wide words.
thin() {
  awk -v want="$1" '
    /^\/\// { remarks = remarks $0 "\n"; next }
    { line[++count] = $0 }
    END {
      count--
      step = count > want ? count / want : 1
      for (at = 1; at <= count; at += step) {
        kept = kept line[int(at)] "\n"
        number++
      }
      sub(/^\/\/ [0-9]+ vectors/, "// " number " vectors", remarks)
      printf "%s%s%s\n", remarks, kept, line[count + 1]
    }' $unit.vec >thin.vec
  mv thin.vec $unit.vec
  sed "s/^vectors .*/vectors  $(sed -n '1s/[^0-9]*\([0-9]*\).*/\1/p' $unit.vec)/" emit.log >thin.log
  mv thin.log emit.log
}
