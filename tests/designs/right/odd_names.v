// Names of the designer's own, given with --port; an escaped one among them.
// options: --width 4 --flags none --port a=high_water --port b=low_water --port subtract=falling
// verdict: PASS
module \tide-range (input [3:0] high_water, low_water, input falling, output [3:0] range,
                    output \is_zero? );
  assign range = falling ? high_water - low_water : high_water + low_water;
  assign \is_zero? = range == 0;
endmodule
