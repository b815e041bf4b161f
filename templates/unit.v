%# The unit's file: header, module, registers where there are any, cells where it uses them.
${header}

%if keeps_width
module ${name} #(
    parameter WIDTH = ${width}
) (
%else
module ${name} (
%end
%each port
    ${direction} ${type} ${range}${pin}${comma}
%end
);
%if held

  // What stood at the input pins at the last clock edge.
%each held
  reg ${range}${register};
%end
%end
%if registered

  // What the output pins become at the next clock edge.
%each next
  wire ${range}${next};
%end
%end
${core}
%if registered

%if async
  always @(posedge ${pin.clk} or ${reset_edge} ${pin.rst}) begin
%else
  always @(posedge ${pin.clk}) begin
%end
%if reset
    if (${reset_condition}) begin
%each register
      ${register} <= ${cleared};
%end
%if pin.en
    end else if (${pin.en}) begin
%else
    end else begin
%end
%each register
      ${register} <= ${next};
%end
    end
%else
%if pin.en
    if (${pin.en}) begin
%each register
      ${register} <= ${next};
%end
    end
%else
%each register
    ${register} <= ${next};
%end
%end
%end
  end
%end
endmodule
%if cells

// The cells stand in the unit's file, so that it can be copied or handed in whole.
// verilator lint_off DECLFILENAME
%each module
${module}
%end
// verilator lint_on DECLFILENAME
%end
