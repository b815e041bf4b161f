# Sourced by the Yosys tests: runs a Yosys script, which must end well and warn of nothing.
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

run_yosys() {
  if ! yosys -q -s "$1" >"$folder/yosys.log" 2>&1 || grep -i warning "$folder/yosys.log"; then
    cat "$folder/yosys.log"
    echo "failed: $1"
    exit 1
  fi
}
