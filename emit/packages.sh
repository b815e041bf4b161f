# Sourced by emit/try, tests/run and .ci/run: the one place that knows what the packages are called
# that each needs, and how to get them. POSIX sh.
#
#   need TOOL ...   installs what provides these tools, or says what to install and stops

# tool: apt, dnf, pacman, brew; several packages with commas between (gcc alone comes without the C
# library's headers).
package_table='
cc          gcc,libc6-dev       gcc                 gcc           gcc
cxx         g++                 gcc-c++             gcc           gcc
cmake       cmake               cmake               cmake         cmake
make        make                make                make          make
iverilog    iverilog            iverilog            iverilog      icarus-verilog
verilator   verilator           verilator           verilator     verilator
yosys       yosys               yosys               yosys         yosys
cmocka      libcmocka-dev       libcmocka-devel     cmocka        cmocka
gmp         libgmp-dev          gmp-devel           gmp           gmp
clang       clang               clang               clang         llvm
fuzzer      libclang-rt-14-dev  compiler-rt         compiler-rt   llvm
clang-format clang-format       clang-tools-extra   clang         clang-format
clang-tidy  clang-tidy          clang-tools-extra   clang         llvm
valgrind    valgrind            valgrind            valgrind      valgrind
mandoc      mandoc              mandoc              mandoc        mandoc
zsh         zsh                 zsh                 zsh           zsh
fish        fish                fish                fish          fish
'

# Is it there? Libraries are asked of the compiler, tools of the path.
has_tool() {
  case $1 in
    cc) printf '#include <stdio.h>\n' | cc -E - ;;
    cxx) command -v c++ ;;
    cmocka) printf '#include <stdarg.h>\n#include <stddef.h>\n#include <stdint.h>\n#include <setjmp.h>\n#include <cmocka.h>\n' | cc -E - ;;
    gmp) printf '#include <gmp.h>\n' | cc -E - ;;
    fuzzer) ls /usr/lib/llvm-*/lib/clang/*/lib/linux/libclang_rt.fuzzer-*.a /usr/lib/clang/*/lib/*/libclang_rt.fuzzer*.a 2>/dev/null | grep . ;;
    *) command -v "$1" ;;
  esac >/dev/null 2>&1
}

# The packages of some tools for the manager in this column of the table (2 to 5).
packages_for() {
  column=$1
  shift
  for tool; do
    printf '%s\n' "$package_table" | awk -v tool="$tool" -v column="$column" '$1 == tool { print $column }' | tr , "\n"
  done | sort -u | tr '\n' ' '
}

say_packages() {
  echo "missing: $*" >&2
  echo "install these packages, then run this again:" >&2
  echo "  apt install $(packages_for 2 "$@")" >&2
  echo "  dnf install $(packages_for 3 "$@")" >&2
  echo "  pacman -S $(packages_for 4 "$@")" >&2
  echo "  brew install $(packages_for 5 "$@")" >&2
}

# A command run as root: as it is, or through sudo.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}

can_be_root() {
  [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null 2>&1
}

install_packages() {
  if command -v apt-get >/dev/null 2>&1; then
    as_root apt-get update -qq &&
      as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        $(packages_for 2 "$@")
  elif command -v dnf >/dev/null 2>&1; then
    as_root dnf install -y -q $(packages_for 3 "$@")
  elif command -v pacman >/dev/null 2>&1; then
    as_root pacman -Sy --noconfirm --needed $(packages_for 4 "$@")
  else
    return 1
  fi
}

need() {
  missing=
  for tool; do
    has_tool "$tool" || missing="$missing $tool"
  done
  [ -n "$missing" ] || return 0
  if ! can_be_root || ! { command -v apt-get || command -v dnf || command -v pacman; } >/dev/null 2>&1; then
    say_packages $missing
    exit 1
  fi
  echo "installing:$missing"
  log=$(mktemp)
  if ! install_packages $missing >"$log" 2>&1 </dev/null; then
    cat "$log" >&2
    rm -f "$log"
    say_packages $missing
    exit 1
  fi
  rm -f "$log"
  for tool in $missing; do
    has_tool "$tool" || { echo "$tool is still missing after the installation" >&2; exit 1; }
  done
}

# CMake new enough for the presets and the language level.
need_cmake() {
  need cmake
  found=$(cmake --version | awk 'NR == 1 { print $3 }')
  if ! printf '%s\n' "$found" | awk -F. '{ exit !($1 > 3 || ($1 == 3 && $2 >= 25)) }'; then
    echo "CMake $found is too old: sumwright needs 3.25 or newer" >&2
    exit 1
  fi
}

# Runs a command quietly; shows what it said when it fails.
quietly() {
  output=$(mktemp)
  if "$@" >"$output" 2>&1; then
    rm -f "$output"
  else
    quiet_status=$?
    cat "$output" >&2
    rm -f "$output"
    exit "$quiet_status"
  fi
}
