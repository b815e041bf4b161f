# bash completion for sumwright; made by docs/make.sh
_sumwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local values= items= paths=
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "emit check work cost draw lesson exercises --help --version" -- "$word"))
    return
  fi
  case ${COMP_WORDS[1]}:$before in
    *:--name) return ;;
    *:--width) return ;;
    *:--operations) values="add adc sub sbc rsb inc dec neg pass" ;;
    *:--control) values="fixed high low one-hot code" ;;
    *:--subtract-carry) values="no-borrow borrow" ;;
    *:--flags) values="all none carry overflow zero negative less-signed less-unsigned parity half-carry" ;;
    *:--overflow) values="wrap saturate-signed saturate-unsigned" ;;
    *:--structure) values="ripple fewest skip select lookahead sklansky kogge-stone brent-kung han-carlson ladner-fischer depth=" ;;
    *:--detail) values="operators cells gates nand nor" ;;
    *:--registers) values="none output both" ;;
    *:--reset) values="none sync async" ;;
    *:--reset-level) values="high low" ;;
    *:--port) values="clk= rst= rst_n= en= subtract= mode= op= do_add= do_adc= do_sub= do_sbc= do_rsb= do_inc= do_dec= do_neg= do_pass= cin= a= b= result= carry= overflow= zero= negative= less_signed= less_unsigned= parity= half_carry=" ;;
    emit:--out) paths=-d ;;
    emit:--vectors | check:--vectors) return ;;
    emit:--seed | check:--seed) return ;;
    emit:--coverage) paths=-f ;;
    emit:--templates) paths=-d ;;
    check:--module) return ;;
    check:--parameter) return ;;
    check:--latency) return ;;
    check:--jobs) return ;;
    check:--format) values="text json" ;;
    work:--operation) values="add adc sub sbc rsb inc dec neg pass" ;;
    work:--cin | draw:--cin | lesson:--cin) values="0 1" ;;
    cost:--format) values="text json csv" ;;
    cost:--structures) values="ripple fewest skip select lookahead sklansky kogge-stone brent-kung han-carlson ladner-fischer depth=" ;;
    cost:--widths) return ;;
    work:--svg | cost:--svg) paths=-f ;;
    draw:--svg) paths=-f ;;
    draw:--example) return ;;
    work:--frames | draw:--frames) paths=-d ;;
    lesson:--example) return ;;
    lesson:--html) paths=-f ;;
    draw:--symbols | lesson:--symbols) values="distinctive rectangular" ;;
    exercises:--count) return ;;
    exercises:--seed) return ;;
    exercises:--blank) values="carries result all" ;;
    exercises:--html) paths=-f ;;
    exercises:--solutions) paths=-f ;;
    emit:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --out --overwrite --vectors --seed --coverage --templates --help " ;;
    check:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --vectors --seed --module --parameter --latency --prove --each --jobs --format --help " ;;
    work:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --overwrite --operation --cin --steps --svg --frames --help " ;;
    cost:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --overwrite --format --structures --widths --svg --help " ;;
    draw:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --overwrite --cin --svg --example --frames --bare --symbols --help " ;;
    lesson:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --overwrite --cin --example --html --symbols --help " ;;
    exercises:*) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port --overwrite --count --seed --blank --html --solutions --help " ;;
  esac
  # What is no option is a design of check.
  if [ "${COMP_WORDS[1]}" = check ] && [[ $word != -* && $values = --* ]]; then
    paths=-f
  fi
  if [ -n "$paths" ]; then
    COMPREPLY=($(compgen "$paths" -- "$word"))
    return
  fi
  # In a comma list the last item is completed, and another may follow.
  case $before in
    --operations | --flags | --structures)
      items=${word%"${word##*,}"}
      compopt -o nospace 2>/dev/null
      ;;
    --port) compopt -o nospace 2>/dev/null ;;
  esac
  COMPREPLY=($(compgen -P "$items" -W "$values" -- "${word#"$items"}"))
}
complete -F _sumwright sumwright
