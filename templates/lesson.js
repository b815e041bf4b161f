"use strict";
// The script of a lesson's page. It evaluates the unit's own gates for what stands at the pins, works
// the same sum column by column beside them, and shows both up to the step that is on.
(function () {
  const unit = JSON.parse(document.getElementById("unit").textContent);
  const width = unit.width, top = width - 1;
  const size = 1n << BigInt(width), mask = size - 1n, half = size >> 1n;
  const numbers = text => text.split(" ").map(Number);
  const steps = unit.steps;
  steps.node = numbers(steps.node);
  steps.carry = numbers(steps.carry);
  steps.sum = numbers(steps.sum);
  const literals = { carries: numbers(unit.carries), result: numbers(unit.result), sum: numbers(unit.sum) };
  const nodes = unit.nodes.split(",").map(function (text) {
    const part = text.split(" ");
    return { kind: part[0], x: Number(part[1]), y: Number(part[2]) };
  });
  const carryOf = new Map();
  literals.carries.forEach(function (literal) { if (literal > 1) carryOf.set(literal >> 1, literal); });
  const FIRST = 2, CORE = 3;
  const byId = id => document.getElementById(id);

  // ---- the gates ------------------------------------------------------------------------------

  const gate = {
    AND: (x, y) => x & y, OR: (x, y) => x | y, XOR: (x, y) => x ^ y,
    NAND: (x, y) => 1 - (x & y), NOR: (x, y) => 1 - (x | y), XNOR: (x, y) => 1 - (x ^ y)
  };
  const bit = (word, i) => Number(word >> BigInt(i) & 1n);

  function evaluate(at) {
    const level = new Uint8Array(nodes.length);
    const of = literal => level[literal >> 1] ^ (literal & 1);
    for (let k = 1; k < nodes.length; k++) {
      const node = nodes[k];
      if (node.kind in gate) level[k] = gate[node.kind](of(node.x), of(node.y));
      else if (node.kind === "control") level[k] = at.control >> node.x & 1;
      else level[k] = node.kind === "cin" ? at.cin : bit(at[node.kind], node.x);
    }
    return of;
  }

  const wordOf = (of, list) => list.reduce((word, literal, i) => word | BigInt(of(literal)) << BigInt(i), 0n);

  // ---- the columns ----------------------------------------------------------------------------

  const signed = word => word >= half ? word - size : word;
  const addend = (name, at) => {
    const pin = name.replace("not ", ""), plain = pin === "0" ? 0n : at[pin];
    return name === pin ? plain : mask - plain;
  };
  // What an addend is worth exactly: the complement of x is -x - 1.
  const worth = (name, at, reading) => {
    const pin = name.replace("not ", ""), plain = pin === "0" ? 0n : reading(at[pin]);
    return name === pin ? plain : -plain - 1n;
  };

  function work(at) {
    const operation = unit.operations[at.op];
    const first = operation.first === "cin" ? at.cin ^ (operation.inverts ? 1 : 0) : Number(operation.first);
    const x = addend(operation.x, at), y = addend(operation.y, at), carry = [first];
    let sum = 0n;
    for (let i = 0; i < width; i++) {
      const total = bit(x, i) + bit(y, i) + carry[i];
      sum |= BigInt(total & 1) << BigInt(i);
      carry.push(total >> 1);
    }
    const exact = reading => worth(operation.x, at, reading) + worth(operation.y, at, reading) + BigInt(first);
    return { operation, x, y, first, carry, sum, unsigned: exact(word => word), signed: exact(signed) };
  }

  // ---- the words ------------------------------------------------------------------------------

  const both = word => word >= half ? signed(word) + ", unsigned " + word : "" + word;
  const holds = width === 1 ? "1 bit holds" : width + " bits hold";

  function equation(at, worked, reading) {
    return worked.operation.formula.replace(/[a-z]+/g, function (name, place) {
      const value = name === "a" || name === "b" ? "" + reading(at[name])
        : name === "carry" ? "" + at.cin
        : name === "borrow" ? (at.cin === (worked.operation.inverts ? 1 : 0) ? "1" : "0") : name;
      return value[0] === "-" && place > 0 ? "(" + value + ")" : value;
    });
  }

  function aboutReading(at, worked, isSigned) {
    const exact = isSigned ? worked.signed : worked.unsigned;
    const reading = isSigned ? signed : word => word;
    const least = isSigned ? -half : 0n, greatest = isSigned ? half - 1n : mask;
    const sum = equation(at, worked, reading) + " = " + exact;
    if (exact >= least && exact <= greatest) return "valid: " + sum + " lies in " + least + " to " + greatest;
    const below = exact < least;
    return (isSigned ? "OVERFLOW" : below ? "BORROW" : "CARRY") + ": " + sum + " is " +
      (below ? "below " + least + ", the least" : "above " + greatest + ", the greatest") + " that " + holds +
      "; the columns give " + reading(worked.sum) + ", 2^" + width + " too " + (below ? "high" : "low");
  }

  function aboutLast(worked) {
    const into = worked.carry[top], out = worked.carry[width];
    return "into the sign column " + top + ": " + into + ", out of it: " + out + "; they " +
      (into === out ? "are equal, so in two's complement the result is valid"
        : "differ, so in two's complement the result overflows");
  }

  function aboutSaturation(worked, result) {
    const isSigned = unit.overflow === "signed", reading = isSigned ? "two's complement" : "unsigned";
    if (result === worked.sum) return "the sum is delivered as it is: read as " + reading + " it fits";
    const below = (isSigned ? worked.signed : worked.unsigned) < 0n;
    return (isSigned ? signed(result) : result) + " is delivered in place of the sum: the " +
      (below ? "least " : "greatest ") + reading + " number of " + width + (width === 1 ? " bit" : " bits");
  }

  function aboutCarry(worked, column, what) {
    const out = worked.carry[column + 1];
    if (!worked.operation.subtracts)
      return "the carry out of column " + column + ": " + what + (out ? " does not fit unsigned" : " fits unsigned");
    const meaning = out ? "no borrow is needed" : "a borrow is needed";
    return "the carry out of column " + column + (unit.borrow ? ", " + out + ", turned over: " : ": ") + meaning;
  }

  const ones = word => word.toString(2).replace(/0/g, "").length;
  const less = (name, exact) => "the exact result " + name + ", " + exact + ", is " + (exact < 0n ? "" : "not ") + "below 0";
  const why = {
    "carry": w => aboutCarry(w, top, "the result"),
    "overflow": w => "the two last carries, " + w.carry[top] + " in and " + w.carry[width] + " out, " +
      (w.carry[top] === w.carry[width] ? "are equal" : "differ"),
    "zero": (w, r) => r === 0n ? "every bit of the result is 0"
      : "the result has a 1 in column " + (r.toString(2).length - 1 - r.toString(2).lastIndexOf("1")),
    "negative": () => "the sign bit of the result, column " + top,
    "less-signed": w => less("in two's complement", w.signed),
    "less-unsigned": w => less("unsigned", w.unsigned),
    "parity": (w, r) => "the result has " + ones(r) + (ones(r) === 1 ? " one" : " ones") + ", an " +
      (ones(r) % 2 === 0 ? "even" : "odd") + " number",
    "half-carry": w => aboutCarry(w, 3, "the lowest four columns' result")
  };

  function aboutColumn(worked, i) {
    return "column " + i + (i === top ? " (sign)" : "") + ": " + bit(worked.x, i) + " + " + bit(worked.y, i) +
      " + carry " + worked.carry[i] + " = " + bit(worked.sum, i) + ", carry " + worked.carry[i + 1];
  }

  // [label, text, step] of what there is to say at the end.
  function verdict(at, worked, of) {
    const result = wordOf(of, literals.result), lines = [
      ["last carries", aboutLast(worked), steps.compare],
      ["two's complement", aboutReading(at, worked, true), steps.result],
      ["unsigned", aboutReading(at, worked, false), steps.result]];
    if (unit.overflow !== "wrap") lines.push(["saturation", aboutSaturation(worked, result), steps.result]);
    unit.flags.forEach(function (flag) {
      lines.push([flag.name + " " + of(flag.literal), why[flag.name] ? why[flag.name](worked, result) : "", flag.step]);
    });
    return lines;
  }

  function atPins(at, operation) {
    return "a = " + both(at.a) + (operation.b ? "; b = " + both(at.b) : "") + (operation.cin ? "; cin = " + at.cin : "");
  }

  function aboutOperands(operation) {
    const one = (name, pin) => name === "not " + pin ? pin + " is inverted, bit by bit"
      : name === pin ? pin + " goes on as it is"
      : "in place of " + (pin === "b" ? "b" : "a") + " stands " + (name === "0" ? "0" : "a 1 in every column");
    const pins = operation.y.indexOf("a") >= 0 ? ["b", "a"] : ["a", "b"];
    return operation.name + ": " + one(operation.x, pins[0]) + ", " + one(operation.y, pins[1]) + ".";
  }

  function aboutFirst(at, worked) {
    const name = worked.operation.name;
    return "The first carry is " + worked.first + ": " + (worked.operation.first === "0" ? name + " lets no carry enter"
      : worked.operation.first === "1" ? name + " lets a 1 enter"
      : worked.operation.inverts ? "cin, " + at.cin + ", turned over" : "cin") + ".";
  }

  function aboutLevel(of, step) {
    const found = [];
    steps.carry.forEach(function (when, i) { 
      const literal = literals.carries[i];
      if (when === step && literal >= 0) found.push("c" + i + " = " + of(literal));
    });
    const stage = step - CORE === 0 ? "Every column sees from its two bits whether it makes a carry or passes one on"
      : step === steps.compare - 1 ? "Every column adds its two bits and its carry"
      : steps.kind === "group" ? "The group of columns " + steps.groups[step - CORE - 1]
      : "Level " + (step - CORE) + " joins neighbouring columns";
    return stage + (found.length ? "; now known: " + found.join(", ") : "") + ".";
  }

  function sentence(at, worked, of) {
    if (!worked) return "No operation is asked for: the result is 0.";
    if (at.step === 0) return "The operands arrive: " + atPins(at, worked.operation) + ".";
    if (at.step === 1) return aboutOperands(worked.operation);
    if (at.step === FIRST) return aboutFirst(at, worked);
    if (at.step < steps.compare)
      return steps.kind === "column" ? aboutColumn(worked, at.step - CORE) + "." : aboutLevel(of, at.step);
    return verdict(at, worked, of).filter(line => line[2] === at.step)
      .map(line => line[0] + ": " + line[1] + ".").join(" ");
  }

  // ---- what stands at the pins, and in the address ----------------------------------------------

  const state = { op: 0, control: unit.operations[0].control, a: 0n, b: 0n, cin: 0, step: 0 };

  function choose(op) {
    state.op = op;
    state.control = unit.operations[op].control;
  }

  function readNumber(text) {
    const match = /^\s*(-?)(0x[0-9a-f]+|0b[01]+|[0-9]+)\s*$/i.exec(text);
    if (!match || (match[1] && /^0[xb]/i.test(match[2]))) return null;
    const value = match[1] ? -BigInt(match[2]) : BigInt(match[2]);
    return value < -half || value > mask ? null : value & mask;
  }

  function readSet(op, a, b, cin) {
    const place = unit.operations.findIndex(o => o.name === op);
    const at = { op: place, a: readNumber(a), b: readNumber(b), cin: Number(cin) ? 1 : 0, step: steps.count - 1 };
    if (place < 0 || at.a === null || at.b === null) return null;
    at.control = unit.operations[place].control;
    return at;
  }

  function readAddress() {
    const said = new URLSearchParams(location.hash.slice(1));
    const set = readSet(said.get("op") || unit.operations[state.op].name, said.get("a") || "" + state.a,
      said.get("b") || "" + state.b, said.get("cin") || "" + state.cin);
    if (set) Object.assign(state, set);
    if (said.has("control")) turnControl(Number(said.get("control")));
    const step = Number(said.get("step"));
    state.step = said.has("step") && step >= 0 ? Math.min(Math.floor(step), steps.count - 1) : steps.count - 1;
  }

  function writeAddress() {
    const operation = unit.operations[state.op];
    const hash = "#" + (state.op < 0 ? "control=" + state.control : "op=" + operation.name) + "&a=" + signed(state.a) +
      "&b=" + signed(state.b) + "&cin=" + state.cin + "&step=" + state.step;
    try { history.replaceState(null, "", hash); } catch (refused) { location.hash = hash; }
  }

  function turnControl(value) {
    state.control = value;
    state.op = unit.operations.findIndex(o => o.control === value);
  }

  function turn(pin, i) {
    if (pin === "cin") state.cin ^= 1;
    else if (pin === "control") turnControl(state.control ^ 1 << i);
    else state[pin] ^= 1n << BigInt(i);
    show();
  }

  // ---- the circuit ------------------------------------------------------------------------------

  const shapes = Array.from(document.querySelectorAll("#circuit [data-n]")).map(function (shape) {
    const literal = Number(shape.dataset.n);
    return { shape, literal, step: steps.node[literal >> 1], carry: carryOf.get(literal >> 1), node: nodes[literal >> 1],
      wire: shape.classList.contains("w"), text: shape.classList.contains("v"), pin: shape.classList.contains("pin") };
  });

  // Only what changes is touched: a page of 32 columns has thousands of shapes.
  function showCircuit(of) {
    shapes.forEach(function (one) {
      const known = one.step <= state.step, fresh = one.step === state.step, level = of(one.literal);
      const heavy = one.wire && known && one.carry !== undefined && of(one.carry) === 1;
      const now = level + 2 * known + 4 * fresh + 8 * heavy, list = one.shape.classList;
      if (one.shown === now) return;
      one.shown = now;
      list.toggle("off", !known);
      list.toggle("new", fresh);
      if (one.wire) list.toggle("h", heavy);
      if (!one.text) return;
      one.shape.textContent = known ? level : "";
      if (one.pin) one.shape.setAttribute("aria-label", pinName(one.node) + " is " + level + ", turn over");
    });
  }

  const pinName = node => node.kind === "cin" ? "cin" : node.kind === "control" ? "control " + node.x : node.kind + node.x;

  shapes.filter(one => one.pin).forEach(function (one) {
    const flip = () => turn(one.node.kind, one.node.x);
    one.shape.addEventListener("click", flip);
    if (!one.text) return;
    one.shape.setAttribute("role", "button");
    one.shape.setAttribute("tabindex", "0");
    one.shape.addEventListener("keydown", function (event) {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      flip();
    });
  });

  // ---- the columns as a table -------------------------------------------------------------------

  const cell = (kind, text) => "<td class=\"" + kind + "\"><i>" + text + "</i></td>";
  const columns = () => Array.from({ length: width }, (unused, k) => top - k);

  function tableRow(kind, label, word, when, pin) {
    return "<tr class=\"" + kind + "\"><th scope=\"row\">" + label + "</th><td></td>" + columns().map(function (i) {
      const known = when(i) <= state.step, level = bit(word, i);
      const classes = (known ? "" : "blank ") + (when(i) === state.step ? "new " : "") + (i === top ? "sign" : "");
      if (!pin) return cell(classes, known ? level : "");
      return "<td class=\"" + classes + "\"><button type=\"button\" data-pin=\"" + pin + "\" data-bit=\"" + i +
        "\" aria-label=\"" + pin + i + " is " + level + ", turn over\">" + level + "</button></td>";
    }).join("") + "</tr>";
  }

  function carryRow(worked) {
    return "<tr class=\"carry\"><th scope=\"row\">carry</th>" + [width].concat(columns()).map(function (i) {
      const known = steps.carry[i] <= state.step, level = worked.carry[i];
      return cell((known ? level ? "one" : "nought" : "blank") + (steps.carry[i] === state.step ? " new" : "") +
        (i === width ? " out" : i === top ? " sign" : "") + (known && i >= top && state.step === steps.compare ? " new" : ""),
        known ? level : "");
    }).join("") + "</tr>";
  }

  function tableOf(worked, result) {
    const at = pin => () => 0, operand = () => 1, op = worked && worked.operation;
    const shown = [], pins = !op || op.x !== "a" || op.y !== "b";
    if (pins) shown.push(tableRow("pin", "a", state.a, at(), "a"));
    if (pins && hasB && (!op || op.b)) shown.push(tableRow("pin", "b", state.b, at(), "b"));
    if (op) {
      shown.push(carryRow(worked));
      shown.push(tableRow("added", op.x, worked.x, pins ? operand : at(), pins ? "" : "a"));
      shown.push(tableRow("added last", op.y, worked.y, pins ? operand : at(), pins ? "" : "b"));
      if (unit.overflow !== "wrap") shown.push(tableRow("result", "sum", worked.sum, i => steps.sum[i]));
    }
    const plain = op && unit.overflow === "wrap";
    shown.push(tableRow("result", "result", result, i => plain ? steps.sum[i] : steps.result));
    return "<table class=\"worked\"><thead><tr><th scope=\"row\">column</th><th scope=\"col\">out</th>" +
      columns().map(i => "<th scope=\"col\">" + i + (i === top ? "<small>sign</small>" : "") + "</th>").join("") +
      "</tr></thead><tbody>" + shown.join("") + "</tbody></table>";
  }

  const hasB = unit.operations.some(operation => operation.b);

  function showTable(worked, of) {
    const active = document.activeElement, place = byId("table");
    const key = active && active.dataset && active.dataset.pin && place.contains(active)
      ? "[data-pin=" + active.dataset.pin + "][data-bit=\"" + active.dataset.bit + "\"]" : null;
    place.innerHTML = tableOf(worked, wordOf(of, literals.result));
    if (key && place.querySelector(key)) place.querySelector(key).focus();
  }

  byId("table").addEventListener("click", function (event) {
    const pin = event.target.dataset.pin;
    if (pin) turn(pin, Number(event.target.dataset.bit));
  });

  // ---- all of it ----------------------------------------------------------------------------------

  function addTerm(list, label, text, fresh) {
    const term = document.createElement("dt"), words = document.createElement("dd");
    term.textContent = label;
    words.textContent = text;
    if (fresh) term.className = words.className = "new";
    list.append(term, words);
  }

  // Are the wires between the columns the complements of the carries of X + Y + first?
  function isTurned(worked, of) {
    return literals.carries.every((literal, i) => i === 0 || i === width || literal <= 1 || of(literal) !== worked.carry[i]) &&
      literals.carries.some((literal, i) => i < width && literal > 1 && of(literal) !== worked.carry[i]);
  }

  function showWords(worked, of) {
    const list = byId("verdict");
    byId("say").textContent = sentence(state, worked, of);
    byId("count").textContent = "step " + state.step + " of " + (steps.count - 1);
    byId("slider").value = state.step;
    byId("title").textContent = worked ? worked.operation.name + ": " + worked.operation.formula + ", added as " +
      worked.operation.x + " + " + worked.operation.y + " + " + (worked.operation.inverts && worked.operation.cin ? "not " : "") +
      worked.operation.first : "nothing is asked for";
    byId("turned").hidden = !worked || !isTurned(worked, of);
    list.textContent = "";
    if (worked) verdict(state, worked, of).filter(line => line[2] <= state.step)
      .forEach(line => addTerm(list, line[0], line[1], line[2] === state.step));
  }

  function showPins() {
    const operation = unit.operations[state.op];
    document.querySelectorAll("[name=op]").forEach(function (radio) { radio.checked = Number(radio.value) === state.op; });
    ["a", "b"].forEach(function (pin) {
      if (!byId(pin)) return;
      if (document.activeElement !== byId(pin)) byId(pin).value = signed(state[pin]);
      byId("also-" + pin).textContent = state[pin] >= half ? "unsigned " + state[pin] : "";
      byId("field-" + pin).hidden = pin === "b" && operation !== undefined && !operation.b;
    });
    if (byId("cin")) {
      byId("cin").checked = state.cin === 1;
      byId("field-cin").hidden = operation !== undefined && !operation.cin;
    }
  }

  // Brings what is new into sight, to the left and right only.
  function follow(view, fresh) {
    if (!fresh.length || view.scrollWidth <= view.clientWidth) return;
    const box = view.getBoundingClientRect(), first = fresh[0].getBoundingClientRect();
    if (first.left < box.left + 20 || first.right > box.right - 20)
      view.scrollLeft += first.left - box.left - box.width / 2;
  }

  function show() {
    const of = evaluate(state), worked = state.op < 0 ? null : work(state);
    showCircuit(of);
    showTable(worked, of);
    showWords(worked, of);
    showPins();
    writeAddress();
    requestAnimationFrame(function () { // when the page has its places
      follow(byId("view"), document.querySelectorAll("#circuit .m.new"));
      follow(byId("table"), document.querySelectorAll("#table .result .new, #table .new"));
    });
  }

  // ---- going through it ---------------------------------------------------------------------------

  let playing = 0;

  function stop() {
    clearInterval(playing);
    playing = 0;
    byId("play").textContent = "play";
  }

  function go(step) {
    state.step = Math.max(0, Math.min(step, steps.count - 1));
    show();
  }

  function play() {
    if (playing) return stop();
    if (state.step === steps.count - 1) go(0);
    byId("play").textContent = "pause";
    playing = setInterval(function () {
      go(state.step + 1);
      if (state.step === steps.count - 1) stop();
    }, 1500);
  }

  const move = { first: () => go(0), back: () => go(state.step - 1), next: () => go(state.step + 1), last: () => go(steps.count - 1) };
  Object.keys(move).forEach(id => byId(id).addEventListener("click", function () { stop(); move[id](); }));
  byId("play").addEventListener("click", play);
  byId("slider").addEventListener("input", function () { stop(); go(Number(byId("slider").value)); });
  document.addEventListener("keydown", function (event) {
    const keys = { ArrowLeft: "back", ArrowRight: "next", Home: "first", End: "last" };
    if (!keys[event.key] || event.target.tagName === "INPUT" || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    stop();
    move[keys[event.key]]();
  });

  // ---- examples -----------------------------------------------------------------------------------

  function take(at, step) {
    stop();
    Object.assign(state, at);
    choose(at.op);
    go(step);
  }

  unit.examples.forEach(function (example, k) {
    const at = { op: example[0], a: BigInt("0x" + example[1]), b: BigInt("0x" + example[2]), cin: example[3] };
    const button = byId("example-" + k);
    if (k === 0) {
      Object.assign(state, at, { step: steps.count - 1 });
      choose(at.op);
    }
    if (button) button.addEventListener("click", () => take(at, 0));
  });

  const below = count => Math.floor(Math.random() * count);

  function randomWord() {
    let word = 0n;
    for (let i = 0; i < width; i++) word = word << 1n | BigInt(below(2));
    return below(6) ? word : [0n, mask, half, half - 1n, 1n & mask][below(5)];
  }

  // Operands whose columns all pass the carry on, but for the lowest one of an operation that lets
  // none enter.
  function passing(operation, at) {
    if (!operation.b) return;
    if (operation.first === "cin") at.cin = operation.inverts ? 0 : 1;
    if (operation.first === "0") at.a |= 1n;
    const y = mask - addend(operation.x, at) | (operation.first === "0" ? 1n : 0n);
    const pin = operation.y.replace("not ", "");
    at[pin] = pin === operation.y ? y : mask - y;
  }

  const aims = {
    overflow: w => w.carry[top] !== w.carry[width],
    borrow: w => w.unsigned < 0n || w.unsigned > mask,
    all: w => w.carry.every((level, i) => level === 1 || (i === 0 && w.operation.first === "0")),
    any: () => true
  };

  function random(aim) {
    for (let tries = 0; tries < 4000; tries++) {
      const at = { op: state.op < 0 ? 0 : state.op, a: randomWord(), b: randomWord(), cin: below(2) };
      if (aim === "all") passing(unit.operations[at.op], at);
      if (aims[aim](work(at))) return take(at, 0);
    }
    byId("say").textContent = unit.operations[Math.max(state.op, 0)].name + " has no such operands, or very few.";
  }

  Object.keys(aims).forEach(aim => byId("random-" + aim).addEventListener("click", () => random(aim)));

  // ---- pins by hand --------------------------------------------------------------------------------

  document.querySelectorAll("[name=op]").forEach(radio => radio.addEventListener("change", function () {
    choose(Number(radio.value));
    show();
  }));
  ["a", "b"].forEach(function (pin) {
    const field = byId(pin);
    if (field) field.addEventListener("input", function () {
      const word = readNumber(field.value);
      field.setAttribute("aria-invalid", word === null);
      byId("error").textContent = word === null
        ? pin + " has " + width + " bits: unsigned 0 to " + mask + ", in two's complement " + -half + " to " + (half - 1n) : "";
      if (word === null) return;
      state[pin] = word;
      show();
    });
  });
  if (byId("cin")) byId("cin").addEventListener("change", () => turn("cin", 0));

  // ---- a test's table ------------------------------------------------------------------------------

  // #table=sub:100:-50:1,... in the address: what the page says of each, as text alone.
  function printTable(sets) {
    const lines = sets.split(",").map(function (text) {
      const part = text.split(":"), at = readSet(part[0], part[1], part[2], part[3]);
      if (!at) return text + " is not an example";
      const of = evaluate(at), worked = work(at), result = wordOf(of, literals.result);
      const sums = literals.sum.every((literal, i) => literal < 0 || of(literal) === bit(worked.sum, i));
      return [text, "result " + result + " " + signed(result)]
        .concat(columns().reverse().map(i => aboutColumn(worked, i)))
        .concat(verdict(at, worked, of).map(line => line[0] + ": " + line[1]))
        .concat(sums ? [] : ["the gates' sum is another"]).join("\n");
    });
    document.body.textContent = "";
    const place = document.createElement("pre");
    place.id = "said";
    place.textContent = lines.join("\n");
    document.body.append(place);
  }

  const asked = new URLSearchParams(location.hash.slice(1)).get("table");
  if (asked) return printTable(asked);
  byId("slider").max = steps.count - 1;
  document.documentElement.classList.add("live");
  if (location.hash.length > 1) readAddress();
  window.addEventListener("hashchange", function () { readAddress(); show(); });
  show();
}());
