#!/bin/sh
# The library as it is installed: the program of docs/library.md builds with it by pkg-config, as C
# and as C++, shared and static, without a warning, and prints what the page shows; what the library
# makes is what the program makes; no name but the header's can be seen; nothing in it can be written
# to but what is listed here; and no file of it frees what a pool may own in another way than the pool
# knows.
set -eu
: "${CC:=cc}" "${CXX:=c++}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

wrong() {
  echo "wrong: $1"
  exit 1
}

build=$(dirname "$SUMWRIGHT")
cmake --install "$build" --prefix "$folder/there is" >install.log
pc=$(find "there is" -name sumwright.pc)
library=$(dirname "$(dirname "$pc")")
PKG_CONFIG_PATH=$folder/$(dirname "$pc")
LD_LIBRARY_PATH=$folder/$library
export PKG_CONFIG_PATH LD_LIBRARY_PATH
[ "sumwright $(pkg-config --modversion sumwright)" = "$("$SUMWRIGHT" --version)" ] || wrong "version"

# The page's blocks: the program, and what it prints.
block() { awk -v opens="\`\`\`$1" '$0 == opens { on = 1; next } /^```$/ { on = 0 } on' "$SOURCE/docs/library.md"; }
block c >residual.c
block text >expected
[ -s residual.c ] || wrong "no program in docs/library.md"

# built LABEL COMPILER ...: the program, given the flags that pkg-config tells.
warnings="-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror"
sanitizers=
nm "$build/libsumwright.a" | grep -q __asan_init && sanitizers=-fsanitize=address,undefined
flags=$(pkg-config --cflags --libs sumwright)
built() {
  label=$1
  shift
  eval "$* \$warnings \$sanitizers -o \"\$label\" residual.c $flags" || wrong "$label does not build"
  "./$label" >printed || wrong "$label ends with a status that is not 0"
  diff expected printed || wrong "$label prints something else"
}
built c "$CC" -std=c99
built cxx "$CXX" -std=c++11 -x c++
flags="-I\"there is/include\" \"$library/libsumwright.a\" -lm"
built static "$CC" -std=c17
flags="-x none $flags"
built static_cxx "$CXX" -std=c++17 -x c++

# Names: in the shared library those that the header declares, in the static one no others.
sed -n 's/^SUMWRIGHT_API .*[ *]\(sumwright_[a-z_]*\)(.*/\1/p' "there is/include/sumwright.h" | sort >declared
nm -D --defined-only "$library/libsumwright.so" | awk '{ print $3 }' | grep -v '^__\|^_[_a-z]*$' | sort >seen
diff declared seen || wrong "names that the shared library shows"
nm --defined-only --extern-only "$library/libsumwright.a" | awk 'NF == 3 { print $3 }' | grep -v '^__' | sort >seen
diff declared seen || wrong "names that the static library shows"

# What can be written to: base/memory.c's hook and pool, one for each thread.
echo watch >allowed
objdump -t "$library/libsumwright.a" |
  awk '/ \.t?(data|bss)/ && !/\.data\.rel\.ro/ && $NF !~ /^\.|^__/ { print $NF }' | grep -v asan >found || :
diff allowed found || wrong "data that can be written to"

# memory_free() is the only way to free what memory_zeroed() and its kin gave; these files free what
# the C library gave.
for file in $(grep -rlE '(^|[^_[:alnum:]])free\(' "$SOURCE/emit" --include='*.c' | grep -v 'emit/check/\|emit/commands/'); do
  case ${file#"$SOURCE"/} in
    emit/base/memory.c | emit/library/library.c | emit/lesson/lesson.c | emit/write/files.c) ;;
    *) wrong "$file calls free(), not memory_free()" ;;
  esac
done
echo "the installed library does what docs/library.md says"
