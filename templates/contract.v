%# What the unit promises: how each operation is chosen, what every pin means, when the result
%# comes. Part of the comment that opens each of the three files.
%each operation
//   ${row}
%end
%if idle
//   Anything else at ${selectors} asks for nothing: result 0, zero 1, every other flag 0.
%end
%if one_hot
//   Several requests at once are outside the contract of this unit.
%end
//
%if pin.clk
//   ${column.clk}clock, rising edge
%end
%if pin.rst
//   ${column.rst}${reset_kind} reset, active ${reset_level}: result 0, zero 1, every other flag 0
%end
%if pin.en
//   ${column.en}clock enable; while it is 0 the registers hold
%end
%if pin.line
//   ${column.line}chooses the operation
%end
%if pin.op
//   ${column.op}chooses the operation
%end
%each request
//   ${column}requests ${operation}
%end
%each cin_reader
%if not subtracts
//   ${column.cin}in ${operation}: carry, 1 adds one more
%else
%if borrow
//   ${column.cin}in ${operation}: borrow, 1 subtracts one more
%else
//   ${column.cin}in ${operation}: no borrow, 0 subtracts one more
%end
%end
%end
//   ${column.a}first operand, a
%if pin.b
//   ${column.b}second operand, b
%end
%if saturates_signed
//   ${column.result}the exact result; the nearest signed number where it does not fit
%else
%if saturates_unsigned
//   ${column.result}the exact result; the nearest unsigned number where it does not fit
%else
//   ${column.result}the exact result, modulo 2^${width}
%end
%end
%if pin.carry
%if carry.adds
//   ${column.carry}in addition: carry, the exact unsigned result is 2^${width} or more
%end
%if carry.subtracts
%if borrow
//   ${column.carry}in subtraction: borrow, the exact unsigned result is below 0
%else
//   ${column.carry}in subtraction: no borrow, the exact unsigned result is not below 0
%end
%end
%if carry.still
//   ${column.carry}in ${carry.still}: always 0
%end
%if carry.never
//   ${column.carry}always 0: there is nothing to carry
%end
%end
%each flag
//   ${column}${meaning}
%end
//
%if registered
//   Latency: ${latency} clock ${edges} from the operands at the pins to their result at the pins;
//   new operands may come with every clock.
%else
//   Without registers: the outputs follow the inputs.
%end
