(function () {
  "use strict";
  const $ = (id) => document.getElementById(id);
  const data = JSON.parse($("data").textContent);
  const KEY = "pentice/" + data.reference + "/" + data.revision;
  const DEGREES = "measured.sheet_temperature_c";
  const PLACES = ["head", "middle", "foot"];

  // --- what is typed, kept on this phone ---
  let isKept = true;
  let state = { readings: {}, holds: {}, by: "" };

  function load() {
    let text = null;
    try {
      localStorage.setItem(KEY + "/try", "1");
      localStorage.removeItem(KEY + "/try");
      text = localStorage.getItem(KEY);
    } catch (refused) {
      isKept = false;
    }
    try {
      if (text) state = Object.assign({ readings: {}, holds: {}, by: "" }, JSON.parse(text));
    } catch (spoilt) {
      // What cannot be read is not ours: begin anew.
    }
  }

  function keep() {
    if (!isKept) return;
    try {
      localStorage.setItem(KEY, JSON.stringify(state));
    } catch (refused) {
      isKept = false;
    }
  }

  function now() {
    const date = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return date.getFullYear() + "-" + two(date.getMonth() + 1) + "-" + two(date.getDate()) +
      "T" + two(date.getHours()) + ":" + two(date.getMinutes());
  }

  function setReading(key, value, unit) {
    if (value === null) delete state.readings[key];
    else state.readings[key] = { value: value, unit: unit, by: state.by, on: now(), sent: false };
    keep();
  }

  function setHold(hold, item, ok, reading) {
    const id = hold + "|" + item;
    if (ok === null) delete state.holds[id];
    else state.holds[id] = { hold: hold, item: item, ok: ok, reading: reading, by: state.by, on: now(), sent: false };
    keep();
  }

  const valueOf = (key) => (state.readings[key] ? state.readings[key].value : null);

  // --- words and numbers ---
  function shown(value) {
    const text = (Math.round(value * 10) / 10).toFixed(1).replace(/\.0$/, "");
    return (text === "-0" ? "0" : text).replace("-", "−");
  }

  function numberIn(text) {
    const plain = text.trim().replace(",", ".").replace("−", "-");
    return /^-?\d{0,6}(\.\d{0,2})?$/.test(plain) && /\d/.test(plain) ? parseFloat(plain) : null;
  }

  function make(tag, attributes, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes || {})) {
      if (name === "on") for (const [event, act] of Object.entries(value)) element.addEventListener(event, act);
      else if (value !== null && value !== false) element.setAttribute(name, value === true ? "" : value);
    }
    element.append(...children);
    return element;
  }

  // --- one number at a time ---
  const steps = [];
  data.bays.forEach((bay, index) => {
    const at = bay.number - 1;
    PLACES.forEach((place, i) => {
      steps.push({
        key: "measured.between_stems_mm[" + at + "]." + place, kind: "stems", bay: bay, index: index,
        drawn: bay.between_stems_mm[i],
        ask: "Bay " + bay.number + ", at the " + place, hint: "Stem to stem, square across.",
      });
    });
    steps.push({
      key: "measured.slope_lengths_mm[" + at + "]", kind: "slope", bay: bay, index: index, drawn: bay.slope_length_mm,
      ask: "Bay " + bay.number + ", down the slope",
      hint: "Wall face (free-standing: outside of the head beam) to beam face, on the tops of rafters or bars.",
    });
  });
  if (data.diagonals_mm !== null) {
    ["left head to right foot", "right head to left foot"].forEach((corners, i) => {
      steps.push({
        key: "measured.diagonals_mm[" + i + "]", kind: "diagonal", bay: null, drawn: data.diagonals_mm,
        ask: "Diagonal, " + corners, hint: "Level, between the outer corners.",
      });
    });
  }

  data.sides.forEach((side) => {
    const at = side.number - 1;
    const name = "Side sheet " + side.number + ": ", where = "; " + side.side + " side of the roof seen from outside.";
    [["width", "width", "Least of three readings"],
      ["left", "left", "Clear height at that end"],
      ["right", "right", "Clear height at that end"]].forEach(([place, what, hint], i) => {
      steps.push({
        key: "measured.side_openings_mm[" + at + "]." + place, kind: "side", bay: null, side: side,
        drawn: side.opening_mm[i], ask: name + what, hint: hint + where,
      });
    });
  });

  function stemsOf(bay) {
    return PLACES.map((place) => valueOf("measured.between_stems_mm[" + (bay.number - 1) + "]." + place));
  }

  function fits(bay, read) {
    const serves = bay.serves_mm;
    return !serves || read.every((value) => value >= serves[0] - 0.001 && value <= serves[1] + 0.001);
  }

  function misfits() {
    return data.bays.filter((bay) => !fits(bay, stemsOf(bay).filter((value) => value !== null)));
  }

  function diagonals() {
    return [0, 1].map((i) => valueOf("measured.diagonals_mm[" + i + "]"));
  }

  /** What the readings mean, worst first: [class, sentence]. */
  function verdicts(step, value) {
    if (value === null) return [];
    const off = value - step.drawn;
    const found = [];
    if (Math.abs(off) > 0.2 * step.drawn) {
      return [["care-mark", shown(value) + " is far from " + shown(step.drawn) + ". Read the tape once more."]];
    }
    if (step.kind === "stems") found.push(...stemVerdicts(step, value));
    if (step.kind === "diagonal") found.push(...diagonalVerdicts(step, value));
    if (step.kind === "side" && off < -0.05) {
      found.push(["care-mark", "Less than side sheet " + step.side.number + " is drawn for: do not cut it to the drawing. Save and send the readings."]);
    }
    const words = Math.abs(off) < 0.05 ? "As drawn." :
      shown(Math.abs(off)) + (off < 0 ? " less" : " more") + " than drawn.";
    const limit = step.kind === "stems" || step.kind === "side" ? 2 : 5;
    if (Math.abs(off) <= limit) found.push(["holds-good", words]);
    else found.push(["care-mark", words + (step.kind === "stems" && off < 0 ? " Look for a screw not home." : "")]);
    return found;
  }

  function stemVerdicts(step, value) {
    const place = PLACES.findIndex((name) => step.key.endsWith(name));
    const all = stemsOf(step.bay);
    all[place] = value;
    const read = all.filter((one) => one !== null);
    const least = Math.min(...read), most = Math.max(...read), serves = step.bay.serves_mm, found = [];
    if (!fits(step.bay, read)) {
      found.push(["stop-mark", "Sheet " + step.bay.number + " no longer fits. It needs " + shown(serves[0]) + " to " +
        shown(serves[1]) + "."]);
    }
    if (read.length > 1 && most - least > 2) {
      found.push(["care-mark", "The bars run " + shown(most - least) + " apart, 2 is allowed. Screw one anew."]);
    }
    return found;
  }

  function diagonalVerdicts(step, value) {
    const both = diagonals();
    both[step.key.endsWith("[0]") ? 0 : 1] = value;
    if (both[0] === null || both[1] === null) return [];
    const apart = Math.abs(both[0] - both[1]), allowed = Math.max(...both) / 1000;
    return apart > allowed ?
      [["care-mark", "They differ by " + shown(apart) + ", " + shown(allowed) + " is allowed. Rack the frame square."]] :
      [["holds-good", "They differ by " + shown(apart) + ", " + shown(allowed) + " is allowed."]];
  }

  let step = null, isFresh = true;

  function drawMeasure(number) {
    const at = Math.min(Math.max(number - 1, 0), steps.length - 1);
    step = Object.assign({ at: at }, steps[at]);
    $("ask").textContent = step.ask;
    $("hint").textContent = step.hint;
    $("drawn").textContent = "drawn " + shown(step.drawn);
    const value = valueOf(step.key);
    $("number").value = value === null ? "" : String(value);
    $("number").placeholder = "";
    isFresh = true;
    $("previous").setAttribute("href", at > 0 ? "#measure-" + at : "#home");
    drawNumber();
    $("number").focus();
    $("number").select();
    $("count").textContent = (at + 1) + " of " + steps.length;
    return step.bay;
  }

  function drawNumber() {
    // The one number is as large as it fits.
    $("number").dataset.long = String(Math.max($("number").value.length, 4));
    const value = numberIn($("number").value);
    const isGood = value !== null && value > 0;
    $("keep").textContent = isGood ? "Keep " + shown(value) :
      valueOf(step.key) === null || $("number").value ? "Type a size" : "Take it out";
    $("keep").setAttribute("aria-disabled", $("keep").textContent === "Type a size" ? "true" : "false");
    const said = isGood ? verdicts(step, value).slice(0, 2) : [];
    $("says").replaceChildren(...said.map(([kind, text]) => make("p", { class: kind }, text)));
  }

  function press(digit) {
    const box = $("number");
    if (digit === "back") box.value = isFresh ? "" : box.value.slice(0, -1);
    else if (isFresh) box.value = digit === ".5" ? "0.5" : digit;
    else if (digit === ".5") box.value += box.value.includes(".") ? "" : ".5";
    else if (box.value.length < 7) box.value += digit;
    isFresh = false;
    drawNumber();
  }

  function keepNumber() {
    const value = numberIn($("number").value);
    if (value === null || value <= 0) {
      if ($("number").value || valueOf(step.key) === null) return;
      setReading(step.key, null);
    } else {
      setReading(step.key, value, "mm");
    }
    go(step.at + 1 < steps.length ? "#measure-" + (step.at + 2) : "#home");
  }

  /** To another screen at once, so that what is typed next lands there. */
  function go(hash) {
    try {
      history.pushState(null, "", hash);
      show(false);
    } catch (refused) {
      location.hash = hash;
    }
  }

  // --- hold points ---
  const letters = ["A", "B", "C", "D"].filter((letter) => data.holds.some((line) => line.hold === letter));

  /** Pages of one hold: the lines for the whole roof, then those of each bay. */
  function pagesOf(letter) {
    const lines = data.holds.filter((line) => line.hold === letter);
    const pages = [];
    const whole = lines.filter((line) => !line.per_bay), each = lines.filter((line) => line.per_bay);
    if (whole.length) pages.push({ hash: "#hold-" + letter, bay: null, lines: whole });
    if (each.length) {
      for (const bay of data.bays) pages.push({ hash: "#hold-" + letter + "-" + bay.number, bay: bay, lines: each });
    }
    return pages;
  }

  const itemOf = (line, bay) => line.item + (bay ? ", bay " + bay.number : "");
  const answerTo = (line, bay) => state.holds[line.hold + "|" + itemOf(line, bay)] || null;

  function cardOf(bay) {
    return data.cards.find((card) => card.bays.includes(bay.number)) || null;
  }

  /** Gaps at the sheet's temperature: on the straight line between two rows, nothing beyond them. */
  function gapsAt(card, degrees) {
    const rows = card.rows;
    for (let i = 0; i + 1 < rows.length; i += 1) {
      const low = rows[i], high = rows[i + 1];
      if (degrees >= low.temperature_c && degrees <= high.temperature_c) {
        const share = (degrees - low.temperature_c) / (high.temperature_c - low.temperature_c);
        const between = (name) => low[name] + share * (high[name] - low[name]);
        return { side: between("side_gap_mm"), head: between("head_gap_mm") };
      }
    }
    return null;
  }

  /** Limits of a line now; null where the sheet's temperature is wanted first. */
  function limitsOf(line, bay) {
    if (!line.gap) return { least: line.least, most: line.most };
    const card = bay && cardOf(bay), degrees = valueOf(DEGREES);
    const gaps = card && degrees !== null ? gapsAt(card, degrees) : null;
    if (gaps === null) return null;
    const end = (share) => (share === null ? null : Math.round((gaps[line.gap] + share) * 10) / 10);
    return { least: end(line.least), most: end(line.most) };
  }

  function holdsGood(limits, value) {
    return (limits.least === null || value >= limits.least - 0.001) && (limits.most === null || value <= limits.most + 0.001);
  }

  function drawHold(letter, number) {
    const pages = pagesOf(letter);
    const at = Math.max(pages.findIndex((page) => (page.bay ? page.bay.number : null) === number), 0);
    const page = pages[at];
    $("hold-title").textContent = letter === "C" && page.bay ? "Before you lift sheet " + page.bay.number :
      "Hold " + letter + (page.bay ? ", bay " + page.bay.number : "");
    $("hold-hint").textContent = "Hold " + letter + ": " + data.hold_names[letter] + ".";
    $("hold-lines").replaceChildren(...page.lines.map((line, i) => drawLine(line, page.bay, i)));
    $("hold-previous").setAttribute("href", at > 0 ? pages[at - 1].hash : "#home");
    const next = pages[at + 1];
    $("hold-next").setAttribute("href", next ? next.hash : "#home");
    $("hold-next").textContent = next ? "Next: bay " + next.bay.number : "Back to the list";
    $("count").textContent = pages.length > 1 ? (at + 1) + " of " + pages.length : "";
    return page.bay;
  }

  function drawLine(line, bay, i) {
    const limits = limitsOf(line, bay);
    const verdict = make("p", { class: "verdict", id: "verdict-" + i, role: "status" });
    const row = make("fieldset", {}, make("legend", {}, line.item), make("p", { class: "passes soft" }, passes(line, limits)));
    row.append(line.unit ? readingOf(line, bay, limits, verdict, i) : answersOf(line, bay, verdict, i), verdict);
    const made = madeOf(line, bay);
    if (made !== null && answerTo(line, bay) === null) {
      const use = make("button", { type: "button", on: { click: () => {
        row.querySelector("input").value = String(made);
        row.querySelector("input").dispatchEvent(new Event("input"));
        use.remove();
      } } }, "Your readings make " + shown(made) + ": use it");
      use.style.gridColumn = "1/-1";
      row.append(use);
    }
    sayVerdict(line, bay, verdict);
    return row;
  }

  function passes(line, limits) {
    if (!line.gap) return line.passes;
    if (limits === null) return line.passes + ". Give the sheet’s temperature on the gap card first.";
    return shown(limits.least) + " to " + shown(limits.most) + " " + line.unit + " at " + shown(valueOf(DEGREES)) + " °C";
  }

  /** What the readings typed already make of a line. */
  function madeOf(line, bay) {
    if (line.made_of === "stems" && bay) {
      const read = stemsOf(bay);
      return read.includes(null) ? null : Math.round((Math.max(...read) - Math.min(...read)) * 10) / 10;
    }
    if (line.made_of === "diagonals") {
      const [one, other] = diagonals();
      return one === null || other === null ? null : Math.round(Math.abs(one - other) * 10) / 10;
    }
    return null;
  }

  function readingOf(line, bay, limits, verdict, i) {
    const old = answerTo(line, bay);
    const box = make("input", {
      inputmode: "decimal", autocomplete: "off", maxlength: "7", "aria-label": line.item + ", " + line.unit,
      "aria-describedby": "verdict-" + i, disabled: limits === null, value: old ? old.reading.split(" ")[0] : "",
    });
    box.addEventListener("input", () => {
      const value = numberIn(box.value);
      setHold(line.hold, itemOf(line, bay), value === null ? null : holdsGood(limits, value),
        value === null ? "" : value + " " + line.unit);
      sayVerdict(line, bay, verdict);
      drawBand();
    });
    return make("div", { class: "reading" }, box, line.unit);
  }

  function answersOf(line, bay, verdict, i) {
    const old = answerTo(line, bay);
    const answer = (word, ok) => make("label", {}, make("input", {
      type: "radio", name: "line-" + i, value: word, checked: old !== null && old.ok === ok, "aria-describedby": "verdict-" + i,
      on: { change: () => {
        setHold(line.hold, itemOf(line, bay), ok, "");
        sayVerdict(line, bay, verdict);
        drawBand();
      } },
    }), make("span", {}, word));
    return make("div", { class: "answers" }, answer("yes", true), answer("no", false));
  }

  function sayVerdict(line, bay, verdict) {
    const answer = answerTo(line, bay);
    verdict.hidden = answer === null;
    if (answer === null) return;
    verdict.className = "verdict " + (answer.ok ? "holds-good" : "stop-mark");
    verdict.textContent = answer.ok ? "Holds." : line.if_not;
  }

  // --- gaps by temperature ---
  function drawGaps() {
    const degrees = valueOf(DEGREES);
    const cards = data.cards.map((card) => {
      const gaps = degrees === null ? null : gapsAt(card, degrees);
      const title = make("p", {}, make("b", {}, card.names));
      if (degrees === null) return make("div", {}, title, "Type the temperature to see the gaps.");
      if (gaps === null) return make("div", {}, title, make("p", { class: "stop-mark" }, " Not on the card: do not fit sheets at " + shown(degrees) + " °C."));
      return make("div", {}, title, make("div", { class: "gap-card" },
        make("div", {}, make("b", {}, gaps.side.toFixed(1)), "mm each side"),
        make("div", {}, make("b", {}, gaps.head.toFixed(1)), "mm at the head")));
    });
    $("gap-now").replaceChildren(...cards);
    document.querySelectorAll('[data-screen="gaps"] table').forEach((table) => markRow(table, degrees));
  }

  function markRow(table, degrees) {
    const rows = [...table.querySelectorAll("tr[data-c]")];
    const on = degrees === null ? [] : rows.map((row) => Math.abs(Number(row.dataset.c) - degrees));
    const least = Math.min(...on);
    rows.forEach((row, i) => {
      const isHere = degrees !== null && on[i] === least && least <= 5;
      row.classList.toggle("here", isHere);
      row.querySelector(".now").textContent = isHere ? "nearest" : "";
    });
  }

  function setDegrees(value) {
    const isGood = value !== null && value >= -20 && value <= 60;
    setReading(DEGREES, isGood ? value : null, "degC");
    drawGaps();
    drawBand();
  }

  // --- the list, the sizes, the file ---
  function task(hash, name, says, isFirst) {
    return make("li", {}, make("a", { href: hash, class: isFirst ? "first" : null }, make("span", {}, name), make("span", {}, says)));
  }

  function drawHome() {
    $("who").value = state.by;
    const read = steps.filter((one) => valueOf(one.key) !== null).length;
    const next = steps.findIndex((one) => valueOf(one.key) === null);
    const asked = data.cautions.filter((caution) => caution.ask && !caution.answered).length;
    const degrees = valueOf(DEGREES);
    const wrong = misfits();
    $("misfits").hidden = wrong.length === 0;
    $("misfits").replaceChildren(...wrong.map((bay) => make("p", {}, make("b", {}, "Sheet " + bay.number + " no longer fits. "),
      "Bay " + bay.number + " reads " + stemsOf(bay).filter((value) => value !== null).map(shown).join(", ") + "; sheet " +
      shown(bay.sheet_width_mm) + " needs " + shown(bay.serves_mm[0]) + " to " + shown(bay.serves_mm[1]) +
      ". Do not cut it. Save and send the readings.")));
    $("tasks").replaceChildren(
      task("#measure-" + (next < 0 ? 1 : next + 1), NAMES.measure, read + " of " + steps.length + " read", true),
      ...letters.map((letter) => {
        const pages = pagesOf(letter);
        const lines = pages.flatMap((page) => page.lines.map((line) => answerTo(line, page.bay)));
        const done = lines.filter((answer) => answer !== null);
        const bad = done.filter((answer) => !answer.ok).length;
        const open = pages.find((page) => page.lines.some((line) => answerTo(line, page.bay) === null)) || pages[0];
        return task(open.hash, "Hold " + letter + ": " + data.hold_names[letter].split(",")[0],
          bad ? make("b", { class: "stop-mark" }, bad + " not right") : (done.length === lines.length ? "✓ holds" : done.length + " of " + lines.length));
      }),
      task("#gaps", "Gap card", degrees === null ? "" : shown(degrees) + " °C"),
      task("#sizes", "All sizes", ""),
      task("#cautions", "Mind this", asked ? "▲ " + asked + " to ask" : ""),
      task("#save", "Save the readings", unsaved() ? unsaved() + " to save" : ""),
    );
  }

  function drawSizes() {
    document.querySelectorAll("td[data-key]").forEach((cell) => {
      const at = steps.findIndex((one) => one.key === cell.dataset.key);
      const value = valueOf(cell.dataset.key), drawn = shown(steps[at].drawn);
      const link = make("a", { href: "#measure-" + (at + 1), "aria-label": steps[at].ask + ": " +
        (value === null ? drawn + " drawn, not read" : shown(value) + " read, " + drawn + " drawn") });
      if (value === null) link.append(drawn);
      else {
        const isOff = Math.abs(value - steps[at].drawn) > (["stems", "side"].includes(steps[at].kind) ? 2 : 5);
        link.append(make("del", {}, drawn), make("b", { class: isOff ? "off" : null }, shown(value)));
      }
      cell.replaceChildren(link);
    });
  }

  function unsaved() {
    return [...Object.values(state.readings), ...Object.values(state.holds)].filter((one) => !one.sent).length;
  }

  function entries() {
    const both = diagonals().every((value) => value !== null);
    const keys = [...steps.map((one) => one.key), DEGREES].filter((key) => valueOf(key) !== null);
    return {
      format: 1, job: data.reference, revision: data.revision, saved_at: now(),
      readings: keys.filter((key) => both || !key.includes("diagonals")).map((key) => {
        const { value, unit, by, on } = state.readings[key];
        return { key: key, value: value, unit: unit, by: by, on: on };
      }),
      holds: letters.flatMap((letter) => pagesOf(letter)).flatMap((page) => page.lines.map((line) => answerTo(line, page.bay)))
        .filter((answer) => answer !== null)
        .map(({ hold, item, ok, reading, by, on }) => ({ hold: hold, item: item, ok: ok, reading: reading, by: by, on: on })),
    };
  }

  let blobUrl = null;

  function drawSave() {
    const saved = entries();
    const text = JSON.stringify(saved, null, 1) + "\n";
    const count = saved.readings.length + saved.holds.length;
    const alone = diagonals().filter((value) => value !== null).length === 1;
    $("save-says").textContent = (count === 0 ? "Nothing is typed yet." :
      saved.readings.length + " sizes and " + saved.holds.length + " hold lines go into one small file.") +
      (alone ? " One diagonal alone says nothing and stays here: measure the other." : "");
    if (blobUrl) URL.revokeObjectURL(blobUrl);
    blobUrl = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    $("save").setAttribute("href", blobUrl);
    $("save").setAttribute("download", (data.reference + "-" + data.revision + "-readings").replace(/[^A-Za-z0-9._-]+/g, "-") + ".json");
    $("text").value = text;
  }

  function markSent() {
    for (const one of [...Object.values(state.readings), ...Object.values(state.holds)]) one.sent = true;
    if (diagonals().filter((value) => value !== null).length === 1) {
      for (const key of Object.keys(state.readings)) if (key.includes("diagonals")) state.readings[key].sent = false;
    }
    keep();
    drawBand();
  }

  function drawBand() {
    const count = unsaved();
    $("band").textContent = !isKept ? "This phone keeps nothing for this page. Save the readings before you close it." :
      (count === 1 ? "1 reading is" : count + " readings are") + " on this phone only.";
    $("band").hidden = isKept && count === 0;
  }

  function drawStrip(bay, isMeasuring) {
    document.querySelectorAll("#strip .bay").forEach((group) => {
      const one = data.bays.find((other) => String(other.number) === group.dataset.bay);
      const read = stemsOf(one).filter((value) => value !== null);
      group.classList.toggle("here", bay !== null && one.number === bay.number);
      group.querySelector(".read").textContent = read.length ? shown(Math.min(...read)) : isMeasuring ? "—" : "";
    });
    const here = document.querySelector("#strip .here");
    if (here) {
      const box = $("strip").getBoundingClientRect(), cell = here.getBoundingClientRect();
      $("strip").scrollLeft += cell.left + cell.width / 2 - box.left - box.width / 2;
    }
  }

  /** What is wider than the phone says that it slides; the words stand right after it. */
  function sayWhatSlides() {
    document.querySelectorAll(".strip,.slides").forEach((part) => {
      part.classList.toggle("runs-on", part.scrollWidth > part.clientWidth + 1);
    });
  }

  // --- one screen at a time ---
  const NAMES = { home: "Site sheet", measure: data.sides.length ? "Bays and sides" : "Measure the bays", hold: "Hold", gaps: "Gap card", sizes: "All sizes", cautions: "Mind this", save: "Save" };

  function show(isFirst) {
    const match = /^#(measure|hold)-(\w+)(?:-(\d+))?$/.exec(location.hash);
    let name = match ? match[1] : location.hash.slice(1);
    if (!(name in NAMES) || (name === "hold" && !letters.includes(match && match[2]))) name = "home";
    document.querySelectorAll("section[data-screen]").forEach((section) => { section.hidden = section.dataset.screen !== name; });
    $("where").textContent = name === "hold" ? "Hold " + match[2] : NAMES[name];
    $("count").textContent = name === "home" ? "" : data.reference + " " + data.revision;
    $("back").hidden = name === "home";
    window.scrollTo(0, 0);
    let bay = null;
    if (name === "home") drawHome();
    if (name === "measure") bay = drawMeasure(Number(match && match[2]) || 1);
    if (name === "hold") bay = drawHold(match[2], match[3] ? Number(match[3]) : null);
    if (name === "gaps") {
      $("degrees").value = valueOf(DEGREES) === null ? "" : shown(valueOf(DEGREES));
      drawGaps();
    }
    if (name === "sizes") drawSizes();
    if (name === "save") drawSave();
    $("strip").hidden = name === "save" || name === "cautions";
    drawStrip(bay, name === "measure");
    sayWhatSlides();
    drawBand();
    const heading = document.querySelector('section[data-screen="' + name + '"] h2');
    if (heading && !isFirst && name !== "measure") heading.focus();
  }

  load();
  // With script each section is a screen of its own, so that its heading is the first one.
  document.querySelectorAll("section[data-screen] h2").forEach((heading) => { heading.setAttribute("aria-level", "1"); });
  window.addEventListener("resize", sayWhatSlides);
  document.querySelectorAll(".live").forEach((part) => { part.hidden = false; });
  for (const digit of ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".5", "0", "back"]) {
    const button = make("button", { type: "button", on: { click: () => press(digit) } }, digit === "back" ? "" : digit);
    if (digit === "back") {
      button.setAttribute("aria-label", "Take the last digit back");
      button.className = "back";
    }
    $("pad").append(button);
  }
  $("number").addEventListener("input", () => { isFresh = false; drawNumber(); });
  $("number").addEventListener("keydown", (event) => { if (event.key === "Enter") keepNumber(); });
  $("keep").addEventListener("click", keepNumber);
  $("who").addEventListener("input", () => { state.by = $("who").value.trim(); keep(); });
  $("degrees").addEventListener("input", () => setDegrees(numberIn($("degrees").value)));
  for (const [id, change] of [["colder", -1], ["warmer", 1]]) {
    $(id).addEventListener("click", () => {
      const old = valueOf(DEGREES);
      setDegrees(Math.min(Math.max(old === null ? 12 : old + change, -20), 60));
      $("degrees").value = shown(valueOf(DEGREES));
    });
  }
  $("save").addEventListener("click", () => setTimeout(markSent, 0));
  $("copy").addEventListener("click", () => {
    $("text").focus();
    $("text").select();
    let isDone = false;
    try {
      isDone = document.execCommand("copy");
    } catch (refused) {
      isDone = false;
    }
    $("copied").textContent = isDone ? "Copied. Paste it into a message or a file." : "Not copied. The text is marked: copy it by hand.";
  });
  window.addEventListener("hashchange", () => show(false));
  window.addEventListener("storage", (event) => { if (event.key === KEY) { load(); show(true); } });
  show(true);
}());
