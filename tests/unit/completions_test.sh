#!/bin/sh
# The manual page and the three completions know every option that the program has, and no other;
# an installation puts everything where it belongs and works from anywhere.
set -eu
docs=$SOURCE/docs
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

"$SUMWRIGHT" emit --help | sed -n 's/^  --\([a-z-]*\).*/\1/p' | sort >options
[ "$(wc -l <options)" -gt 15 ]
grep -o -- '--[a-z][a-z-]*' "$docs/completions/sumwright.bash" | sed 's/^--//' | sort -u | grep -v -x version >bash_options
grep -o "'\*\{0,1\}--[a-z-]*\[" "$docs/completions/_sumwright" | tr -d "'*[" | sed 's/^--//' | sort -u >zsh_options
sed -n 's/^complete .* -l \([a-z-]*\).*/\1/p' "$docs/completions/sumwright.fish" | sort -u | grep -v -x version >fish_options
sed -n 's/^\.It Fl -\([a-z-]*\).*/\1/p' "$docs/sumwright.1" | sort -u >man_options
for shell in bash zsh fish man; do
  diff options ${shell}_options || { echo "wrong: the options of $shell"; exit 1; }
done

for value in one-hot no-borrow less-unsigned saturate-signed kogge-stone operators async both; do
  "$SUMWRIGHT" emit --help | grep -q -e "$value"
  for file in sumwright.bash _sumwright sumwright.fish; do
    grep -q -e "$value" "$docs/completions/$file" || { echo "wrong: $file lacks $value"; exit 1; }
  done
done

if command -v bash >/dev/null; then
  offered=$(bash -c ". '$docs/completions/sumwright.bash'; COMP_WORDS=(sumwright emit --detail ga)
    COMP_CWORD=3; _sumwright; echo \"\${COMPREPLY[*]}\"")
  [ "$offered" = gates ] || { echo "wrong: bash offers '$offered'"; exit 1; }
fi
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
