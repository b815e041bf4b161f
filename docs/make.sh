#!/bin/sh
# docs/make.sh PROGRAM FOLDER: makes again, into FOLDER, every page of docs/ that shows what the
# program does, and the pictures that those pages have drawn. In a block that opens with ```console,
# a line that begins with "$ sumwright" is run; what stands between it and the next such line, or the
# block's end, is what it printed. So it is with "$ sed", which sees the files that pages emitted. A
# command that ends in \ goes on in the next line. To bring docs/ up to date:
#   docs/make.sh build/release/sumwright docs
set -eu
program=$(CDPATH='' cd "$(dirname "$1")" && pwd)/$(basename "$1")
mkdir -p "$2/pictures"
folder=$(CDPATH='' cd "$2" && pwd)
source=$(CDPATH='' cd "$(dirname "$0")" && pwd)
COLUMNS=80
export COLUMNS

# What pages emit.
emitted=$(mktemp -d)
trap 'rm -rf "$emitted"' EXIT

# The designs that pages check.
[ "$folder" = "$source" ] || cp "$source"/*.v "$folder"

# A picture of before may be replaced; a design that is checked may be wrong (status 1).
sumwright() {
  case " $* " in
    " check "*) "$program" "$@" || [ $? -eq 1 ] ;;
    " emit "*) (cd "$emitted" && "$program" "$@" --overwrite) ;;
    *" --svg "*) "$program" "$@" --overwrite ;;
    *) "$program" "$@" ;;
  esac
}

sed() { (cd "$emitted" && command sed "$@"); }

# remake: a page from standard input to standard output.
remake() {
  state=text
  while IFS= read -r line; do
    case $state$line in
      text'```console') state=output ;;
      output'```') state=text ;;
      output'$ sumwright '* | output'$ sed '*)
        command=${line#"$ "}
        printf '%s\n' "$line"
        while [ "${line%\\}" != "$line" ]; do
          IFS= read -r line
          printf '%s\n' "$line"
          command=${command%\\}$line
        done
        eval "$command" </dev/null
        continue
        ;;
      output*) continue ;; # what was printed before
    esac
    printf '%s\n' "$line"
  done
}

for page in $(cd "$source" && grep -l '^```console$' ./*.md); do
  (cd "$folder" && remake <"$source/$page" >"$page.new" && mv "$page.new" "$page")
done

# What pages have from the rows of options and operations, between a line that says so and its end;
# and the completions.
pages=$(dirname "$program")/tests/option_pages
fill() {
  skips=
  while IFS= read -r line; do
    case $line in '.\" end of '* | '<!-- end of '*) skips= ;; esac
    [ -n "$skips" ] || printf '%s\n' "$line"
    case $line in
      '.\" options of '*) "$pages" man "${line##* }"; skips=yes ;;
      '<!-- table of operations -->') "$pages" operations; skips=yes ;;
    esac
  done
}
for page in sumwright.1 conventions.md; do
  fill <"$source/$page" >"$folder/$page.new"
  mv "$folder/$page.new" "$folder/$page"
done
mkdir -p "$folder/completions"
"$pages" bash >"$folder/completions/sumwright.bash"
"$pages" zsh >"$folder/completions/_sumwright"
"$pages" fish >"$folder/completions/sumwright.fish"
