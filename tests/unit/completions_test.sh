#!/bin/sh
# The manual page and the three completions know every option that the program has and every value of
# it, and no other; an installation puts everything where it belongs and works from anywhere.
set -eu
docs=$SOURCE/docs
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

# bash_offers WORD ...: what bash offers for the last word of a command line.
bash_offers() {
  bash -c '. "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _sumwright
    printf "%s\n" "${COMPREPLY[@]}"' "$docs/completions/sumwright.bash" sumwright "$@" | sort
}

commands=$("$SUMWRIGHT" --help | sed -n 's/^  \([a-z]\{1,\}\)  .*/\1/p')
[ -n "$commands" ]
printf '%s\n' $commands | sort >commands
for command in $commands; do
  "$SUMWRIGHT" "$command" --help | sed -n 's/^  --\([a-z-]*\).*/\1/p' | sort >of_command
  cat of_command >>all
  bash_offers "$command" -- | sed 's/^--//' >offered
  diff of_command offered || { echo "wrong: the options of $command in bash"; exit 1; }
done
sort -u all >options
[ "$(wc -l <options)" -gt 15 ]
bash_offers "" | grep -v -e -- | diff - commands || { echo "wrong: the commands of bash"; exit 1; }
grep -o "'\*\{0,1\}--[a-z-]*\[" "$docs/completions/_sumwright" | tr -d "'*[" | sed 's/^--//' | sort -u >zsh_options
sed -n 's/^complete .* -l \([a-z-]*\).*/\1/p' "$docs/completions/sumwright.fish" | sort -u | grep -v -x version >fish_options
sed -n 's/^\.It Fl -\([a-z-]*\).*/\1/p' "$docs/sumwright.1" | sort -u >man_options
for shell in zsh fish man; do
  diff options ${shell}_options || { echo "wrong: the options of $shell"; exit 1; }
done

# The values of an option, one a line: as the program says when it is given a wrong one, and as each
# shell offers them.
known_values() {
  "$SUMWRIGHT" emit "--$1" wrong 2>&1 | sed 's/.*; it \(is\|knows\|takes\) //; s/, or a comma list of/,/
    s/ or /, /' | tr -d ' ' | tr , '\n' | sed 's/=N$/=/' | sort
}
bash_values() {
  bash_offers emit "--$1" ''
}
zsh_values() {
  sed -n "s/^ *'--$1\[[^:]*:[^:]*:\(_values -s , [a-z]* \)\{0,1\}(\{0,1\}\([^)']*\).*/\2/p" \
    "$docs/completions/_sumwright" | tr ' ' '\n' | sort
}
fish_values() {
  sed -n "s/.* -l $1 -x -a '\((__fish_append , \)\{0,1\}\([^)']*\).*/\2/p" \
    "$docs/completions/sumwright.fish" | tr ' ' '\n' | sort
}
for option in operations control subtract-carry flags overflow structure detail registers reset \
  reset-level; do
  known_values $option >known
  [ "$(wc -l <known)" -gt 1 ]
  for shell in bash zsh fish; do
    ${shell}_values $option >offered
    diff known offered || { echo "wrong: the values of --$option in $shell"; exit 1; }
  done
done

offered=$(bash_offers emit --flags carry,less- | tr '\n' ' ')
[ "$offered" = "carry,less-signed carry,less-unsigned " ] ||
  { echo "wrong: bash offers $offered"; exit 1; }
if command -v zsh >/dev/null; then zsh -n "$docs/completions/_sumwright"; else echo "no zsh here"; fi
if command -v fish >/dev/null; then fish --no-execute "$docs/completions/sumwright.fish"; else echo "no fish here"; fi
if command -v mandoc >/dev/null; then mandoc -Tlint -Wwarning "$docs/sumwright.1"; else echo "no mandoc here"; fi

cmake --install "$(dirname "$SUMWRIGHT")" --prefix "$folder/there" >install.log
for file in bin/sumwright share/man/man1/sumwright.1 \
  share/bash-completion/completions/sumwright share/zsh/site-functions/_sumwright \
  share/fish/vendor_completions.d/sumwright.fish; do
  [ -f "there/$file" ] || { echo "wrong: $file is not installed"; exit 1; }
done
mkdir elsewhere
(cd elsewhere && env -i "$folder/there/bin/sumwright" emit --width 4 >/dev/null && [ -s addsub4.v ])
echo "completions, manual page and installation agree with the program"
