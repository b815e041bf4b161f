#!/bin/sh
# The matrix of simulations for --detail gates.
set -eu
detail=gates
. "$SOURCE/tests/simulate/matrix.sh"
