# bash completion for sumwright
_sumwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} values= items= own=
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "emit check work cost draw --help --version" -- "$word"))
    return
  fi
  # What a command takes beside the options that describe a unit.
  case ${COMP_WORDS[1]} in
    emit) own="--out --overwrite --vectors --seed --coverage --templates" ;;
    check) own="--vectors --seed --module --parameter --latency --each --jobs --format" ;;
    work) own="--operation --cin --steps --svg --overwrite" ;;
    cost) own="--structures --widths --format --overwrite --svg" ;;
    draw) own="--svg --example --cin --symbols --overwrite" ;;
  esac
  case $before in
    --operation | --operations) values="add adc sub sbc rsb inc dec neg pass" ;;
    --control) values="fixed high low one-hot code" ;;
    --subtract-carry) values="no-borrow borrow" ;;
    --flags) values="all none carry overflow zero negative less-signed less-unsigned parity half-carry" ;;
    --overflow) values="wrap saturate-signed saturate-unsigned" ;;
    --structure | --structures) values="ripple fewest skip select lookahead sklansky kogge-stone brent-kung han-carlson ladner-fischer depth=" ;;
    --detail) values="operators cells gates nand nor" ;;
    --registers) values="none output both" ;;
    --reset) values="none sync async" ;;
    --reset-level) values="high low" ;;
    --port) values="a= b= cin= result= carry= overflow= zero= negative= subtract= mode= op= clk= rst= rst_n= en=" ;;
    --out | --templates)
      COMPREPLY=($(compgen -d -- "$word"))
      return
      ;;
    --svg)
      COMPREPLY=($(compgen -f -- "$word"))
      return
      ;;
    --cin) values="0 1" ;;
    --symbols) values="distinctive rectangular" ;;
    --format)
      values="text json"
      [ "${COMP_WORDS[1]}" != cost ] || values="text json csv"
      ;;
    --name | --width | --widths | --vectors | --seed | --module | --parameter | --latency | --jobs | --example) return ;;
    *) values="--name --width --operations --control --subtract-carry --flags --overflow --structure --detail --registers --reset --reset-level --enable --port $own --help" ;;
  esac
  # What is no option is a design of check.
  if [ "${COMP_WORDS[1]}" = check ] && [[ $word != -* ]] && [[ $before != --* || $before = --each ]]; then
    COMPREPLY=($(compgen -f -- "$word"))
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
