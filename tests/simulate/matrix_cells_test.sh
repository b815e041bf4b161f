#!/bin/sh
# The matrix of simulations for --detail cells.
set -eu
detail=cells
. "$SOURCE/tests/simulate/matrix.sh"
