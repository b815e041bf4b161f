#!/bin/sh
# The matrix of simulations for --detail operators.
set -eu
detail=operators
. "$SOURCE/tests/simulate/matrix.sh"
