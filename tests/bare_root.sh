#!/bin/sh
# The README's two commands on a machine that has only git and a shell. Run by hand, as root; it is
# no part of tests/run, because it downloads a whole system:
#
#   tests/bare_root.sh                    a Debian of this machine's release
#   tests/bare_root.sh trixie             of another release that the same mirror has
#   tests/bare_root.sh bookworm .ci/run   with everything that CI runs in place of tests/run
#
# Makes a minimal root with debootstrap in a temporary folder, clones the last commit into it (into a
# folder with a blank in its name), and runs there, in order: emit/try as a user who cannot install,
# emit/try as root, emit/try once more with a package manager that refuses to be called, the whole
# suite.
# About 2 GB and ten minutes. Everything stays in the folder, which is removed at the end.
set -eu
source=$(CDPATH='' cd "$(dirname "$0")/.." && pwd)
[ "$(id -u)" -eq 0 ] || { echo "bare_root.sh: run it as root, it makes a root folder" >&2; exit 1; }
. "$source/emit/packages.sh"
need debootstrap
suite=${1:-$(. /etc/os-release && echo "$VERSION_CODENAME")}
whole=${2:-tests/run}
# Where this machine itself gets its packages; updates and security are of no interest here.
mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Origin: Debian' \
  'Label: Debian' | head -n 1)

folder=$(mktemp -d)
bare=$folder/root
trap 'rm -rf --one-file-system "$folder"' EXIT

step() { printf '\n== %s\n' "$1"; }

# Runs a line of shell in the root, as the user named first, in an environment as bare as the root.
# The mount of /proc ends with the line.
inside() {
  unshare --mount sh -c 'mount -t proc proc "$1/proc" && exec env -i TERM=dumb HOME=/tmp \
    PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
    ${http_proxy:+http_proxy="$http_proxy"} chroot --userspec="$2" "$1" sh -c "$3" </dev/null' \
    sh "$bare" "$1" "$2"
}

fail() {
  echo "bare_root.sh: $1" >&2
  exit 1
}

step "a minimal $suite with git"
debootstrap --variant=minbase --include=git "$suite" "$bare" "$mirror" >"$folder/log" 2>&1 ||
  { tail -n 20 "$folder/log"; fail "debootstrap failed"; }
cp -L /etc/resolv.conf "$bare/etc/resolv.conf"
apt-config dump --no-empty Acquire::http Acquire::https Acquire::Check-Valid-Until \
  Acquire::Check-Date >"$bare/etc/apt/apt.conf.d/90mirror"
git -C "$source" bundle create --quiet "$bare/tmp/sumwright.bundle" HEAD
inside root:root 'mkdir "/home/tide gauge" && cd "/home/tide gauge" &&
  git -c advice.detachedHead=false clone --quiet /tmp/sumwright.bundle sumwright'

step "emit/try as a user who cannot install"
if inside nobody:nogroup '"/home/tide gauge/sumwright/emit/try"' >"$folder/log" 2>&1; then
  fail "went on without the packages"
fi
cat "$folder/log"
for manager in apt dnf pacman brew; do
  grep -q "$manager .*iverilog\|$manager .*icarus-verilog" "$folder/log" || fail "no line for $manager"
done

step "emit/try as root"
inside root:root '"/home/tide gauge/sumwright/emit/try"' | tee "$folder/log"
grep -q '^PASS tide_residual: [0-9]* vectors$' "$folder/log" || fail "no PASS line"
grep -q '^module tide_residual' "$folder/log" || fail "no Verilog"

step "emit/try again, nothing to install"
printf '#!/bin/sh\necho "the package manager was called" >&2\nexit 99\n' >"$bare/usr/local/sbin/apt-get"
chmod +x "$bare/usr/local/sbin/apt-get"
inside root:root 'cd /usr && "/home/tide gauge/sumwright/emit/try"' | tee "$folder/log" | grep PASS ||
  fail "no PASS line"
inside nobody:nogroup '"/home/tide gauge/sumwright/emit/try"' | tee "$folder/log" | grep PASS ||
  fail "no PASS line where the source cannot be written"
rm "$bare/usr/local/sbin/apt-get"

step "$whole"
inside root:root "'/home/tide gauge/sumwright/$whole'" | tee "$folder/log"
tail -n 1 "$folder/log" | grep -Eq '^[1-9][0-9]* passed, 0 failed(, [0-9]+ skipped)?$' ||
  fail "$whole did not pass"
