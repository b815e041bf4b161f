# Sourced by emit/try, tests/run, tests/bench/run, tests/bare_root.sh and .ci/run: the one place
# that knows what the packages are called that each needs, how to get them, and how to build
# quietly. POSIX sh.
#
#   need TOOL ...                      installs what provides these tools, or says what to install
#                                      and stops; calls no package manager when all is there
#   need_cmake                         the same for CMake, which must be new enough
#   quietly COMMAND ...                stops and shows what the command said if it fails
#   writable_or_temporary FOLDER       prints the folder, or a new one where it cannot be written
#   configure SOURCE BUILD OPTION ...  runs CMake in a build folder of any past
#   processors                         prints how many there are

# tool: apt, dnf, pacman, brew; several packages with commas between (gcc alone comes without the C
# library's headers).
package_table='
cc           gcc,libc6-dev         gcc               gcc               gcc
cxx          g++                   gcc-c++           gcc               gcc
cmake        cmake                 cmake             cmake             cmake
make         make                  make              make              make
iverilog     iverilog              iverilog          iverilog          icarus-verilog
pkg-config   pkg-config            pkgconf-pkg-config pkgconf          pkgconf
nextpnr-ice40 nextpnr-ice40       nextpnr           nextpnr           nextpnr
verilator    verilator             verilator         verilator         verilator
yosys        yosys                 yosys             yosys             yosys
cmocka       libcmocka-dev         libcmocka-devel   cmocka            cmocka
gmp          libgmp-dev            gmp-devel         gmp               gmp
xmllint      libxml2-utils         libxml2           libxml2           libxml2
chromium     chromium              chromium          chromium          chromium
rsvg-convert librsvg2-bin          librsvg2-tools    librsvg           librsvg
cadical      cadical               cadical           cadical           cadical
musl         musl-tools            musl-gcc          musl              musl-cross
clang        clang                 clang             clang             llvm
fuzzer       clang,libclang-rt-dev clang,compiler-rt clang,compiler-rt llvm
clang-format clang-format          clang-tools-extra clang             clang-format
clang-tidy   clang-tidy            clang-tools-extra clang             llvm
valgrind     valgrind              valgrind          valgrind          valgrind
mandoc       mandoc                mandoc            mandoc            mandoc
zsh          zsh                   zsh               zsh               zsh
fish         fish                  fish              fish              fish
debootstrap  debootstrap           debootstrap       debootstrap       debootstrap
'

# Is it there? Compilers and libraries must build a program, because a compiler can be there without
# the headers or the library; of the others the name is enough.
has_tool() {
  case $1 in
    cc) builds '#include <stdio.h>
int main(void) { return puts("") < 0; }' cc -x c - ;;
    cxx) builds '#include <iostream>
int main() { std::cout << 1; }' c++ -x c++ - ;;
    cmocka) builds '#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>
int main(void) { skip(); }' cc -x c - -lcmocka ;;
    gmp) builds '#include <gmp.h>
int main(void) { mpz_t n; mpz_init(n); mpz_clear(n); }' cc -x c - -lgmp ;;
    musl) builds '#include <stdio.h>
int main(void) { return puts("") < 0; }' musl-gcc -x c - ;;
    fuzzer) builds '#include <stddef.h>
int LLVMFuzzerTestOneInput(const char *data, size_t size) { return data && size > 9; }' \
      clang -fsanitize=fuzzer,address,undefined -x c - ;;
    *) command -v "$1" >/dev/null 2>&1 ;;
  esac
}

# builds TEXT COMPILER ...: the compiler, reading standard input, makes a program of the text.
builds() {
  built=$(mktemp)
  text=$1
  shift
  works=0
  printf '%s\n' "$text" | "$@" -o "$built" >/dev/null 2>&1 || works=1
  rm -f "$built"
  return $works
}

# packages_for COLUMN TOOL ...: their packages for the manager in this column of the table, 2 to 5.
packages_for() {
  column=$1
  shift
  for tool; do
    printf '%s\n' "$package_table" |
      awk -v tool="$tool" -v column="$column" '$1 == tool { gsub(",", "\n", $column); print $column }'
  done | sort -u | paste -s -d ' ' -
}

say_packages() {
  echo "missing: $*; install these packages, then run this again:" >&2
  echo "  apt install $(packages_for 2 "$@")" >&2
  echo "  dnf install $(packages_for 3 "$@")" >&2
  echo "  pacman -S $(packages_for 4 "$@")" >&2
  echo "  brew install $(packages_for 5 "$@")" >&2
}

# The package manager that this machine has, if we may install with it; nothing otherwise.
package_manager() {
  [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null 2>&1 || return 0
  for manager in apt-get dnf pacman; do
    if command -v $manager >/dev/null 2>&1; then
      echo $manager
      return 0
    fi
  done
}

# A command as root: as it is, or through sudo, which may ask for the password on the terminal.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}

# install_packages MANAGER TOOL ...: when the lists of one repository cannot be had, the packages may
# still come from the others, so it is the installation that decides.
# shellcheck disable=SC2046 # a list of names
install_packages() {
  manager=$1
  shift
  case $manager in
    apt-get)
      as_root apt-get update -qq
      as_root env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=120 install -y -qq \
        --no-install-recommends $(packages_for 2 "$@")
      ;;
    dnf) as_root dnf install -y -q $(packages_for 3 "$@") ;;
    pacman) as_root pacman -Sy --noconfirm --needed $(packages_for 4 "$@") ;;
  esac
}

# shellcheck disable=SC2086 # lists of names
need() {
  missing=
  for tool; do
    has_tool "$tool" || missing="$missing $tool"
  done
  missing=${missing# }
  [ -n "$missing" ] || return 0
  manager=$(package_manager)
  if [ -z "$manager" ]; then
    say_packages $missing
    exit 1
  fi
  echo "installing with $manager what is missing: $missing"
  log=$(mktemp)
  if ! install_packages "$manager" $missing >"$log" 2>&1 </dev/null; then
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

# 3.22 is what CMakeLists.txt is written for.
need_cmake() {
  need cmake
  found=$(cmake --version | awk 'NR == 1 { print $3 }')
  if ! printf '%s\n' "$found" | awk -F. '{ exit !($1 > 3 || ($1 == 3 && $2 >= 22)) }'; then
    echo "CMake $found is too old: sumwright needs 3.22 or newer," \
      "which Debian 12, Ubuntu 22.04 and later have" >&2
    exit 1
  fi
}

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

writable_or_temporary() {
  if mkdir -p "$1" 2>/dev/null && [ -w "$1" ]; then
    echo "$1"
  else
    mktemp -d "${TMPDIR:-/tmp}/sumwright-build.XXXXXX"
  fi
}

# A build folder that was moved, or whose compiler is gone, is begun anew.
configure() {
  configure_source=$1
  configure_build=$2
  shift 2
  cmake -S "$configure_source" -B "$configure_build" "$@" >/dev/null 2>&1 && return
  rm -rf "$configure_build/CMakeCache.txt" "$configure_build/CMakeFiles"
  quietly cmake -S "$configure_source" -B "$configure_build" "$@"
}

processors() {
  nproc 2>/dev/null || getconf _NPROCESSORS_ONLN 2>/dev/null || echo 2
}
