#!/bin/sh
# The rooms of emit/ as a table: which others each may include. What stands here is the order in which
# data flows; above all, the model and the gates, two witnesses of the same thing, know nothing of each
# other, the proof knows no more of the gates than a finished netlist, and only the commands and the
# library, which read what a user says, know of options.
set -eu
cd "$SOURCE/emit"

while read -r room allowed; do
  [ -d "$room" ] || continue
  rooms="${rooms-} $room"
  for included in $(grep -rh '^#include "' "$room" | sed 's/^#include "\([a-z_]*\)\/.*/\1/' | sort -u); do
    case " $room $allowed " in
      *" $included "*) ;;
      *) echo "wrong: emit/$room includes emit/$included:"
        grep -rn "^#include \"$included/" "$room"
        exit 1 ;;
    esac
  done
done <<'END'
base
unit base
options base unit
model base unit
gates base unit
proof base unit gates
vectors base unit model
chart base write
write base unit gates vectors
work base unit model write
draw base unit gates work write
lesson base unit model gates vectors write work draw
verilog base unit model gates vectors write
check base unit model proof vectors write
commands base unit options model gates proof vectors write chart work draw lesson verilog check
library base unit options model gates proof vectors write work draw verilog
END
[ ! -d proof ] || ! grep -rn '^#include "gates/' proof | grep -v '"gates/netlist/' ||
  { echo "wrong: the proof includes more of the gates than the netlist"; exit 1; }
for room in */; do
  case " $rooms " in *" ${room%/} "*) ;; *) echo "wrong: emit/$room is not in the table"; exit 1 ;; esac
done
echo "$(echo $rooms | wc -w) rooms include what they may"
