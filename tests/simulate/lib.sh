# Sourced by the simulation tests: a temporary folder, and one case from options to PASS. POSIX sh;
# SUMWRIGHT is the program.
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
cases=0

wrong() {
  echo "wrong: $1"
  echo "  sumwright emit $options"
  exit 1
}

# emit OPTIONS: the unit `u` into the current folder.
emit() {
  options="--name u $*"
  "$SUMWRIGHT" emit --name u --overwrite "$@" >emit.log 2>&1 || { cat emit.log; wrong "emit fails"; }
}

# compile FILE ...: into u.vvp, without a word from the compiler.
compile() {
  iverilog -g2005 -Wall -o u.vvp "$@" >compile.log 2>&1 || { cat compile.log; wrong "does not compile"; }
  [ ! -s compile.log ] || { cat compile.log; wrong "the compiler warns"; }
}

# passes: the simulation ends with PASS and as many vectors as emit said.
passes() {
  said=$(sed -n 's/^vectors *\([0-9]*\).*/\1/p' emit.log)
  vvp -n u.vvp >simulate.log 2>&1 || { tail -n 5 simulate.log; wrong "does not pass"; }
  [ "$(cat simulate.log)" = "PASS u: $said vectors" ] || { cat simulate.log; wrong "says more than PASS"; }
  cases=$((cases + 1))
}

# fails [PLUSARGS]: the simulation ends with FAIL, once, and a status that is not 0.
fails() {
  if timeout 60 vvp -n u.vvp "$@" >simulate.log 2>&1; then cat simulate.log; wrong "status 0"; fi
  [ "$(grep -c '^FAIL u: ' simulate.log)" -eq 1 ] || { cat simulate.log; wrong "no FAIL line"; }
  ! grep -q '^PASS' simulate.log || wrong "PASS beside FAIL"
  cases=$((cases + 1))
}

# simulate OPTIONS: from options to PASS.
simulate() {
  emit "$@"
  compile u.v u_tb.v
  passes
}

# thin COUNT: keeps about COUNT vectors, evenly spread, of u.vec; for wide words, whose carries make
# a simulator's work grow with the square of the width.
thin() {
  awk -v want="$1" '
    /^\/\// { remarks = remarks $0 "\n"; next }
    { line[++count] = $0 }
    END {
      count--
      step = count > want ? count / want : 1
      for (at = 1; at <= count; at += step) kept = kept line[int(at)] "\n" substr("", ++number)
      sub(/^\/\/ [0-9]+ vectors/, "// " number " vectors", remarks)
      printf "%s%s%s\n", remarks, kept, line[count + 1]
    }' u.vec >thin.vec
  mv thin.vec u.vec
  sed -i "s/^vectors .*/vectors  $(sed -n '1s/[^0-9]*\([0-9]*\).*/\1/p' u.vec)/" emit.log
}
