// Moves the marks of a drawing and builds the controls beside it. Knows nothing of notebooks:
// a page with a table of scenes worked out beforehand uses it unchanged.

const FULL = 10000; // one side of the axes
const GAP = -32768; // nothing here
const WIDTH = { curve: 2, band: 3, point: 3, limit: 2 }; // numbers for each place of a mark
const NARROW = 420; // pixels; a drawing narrower than this gets the backdrop with larger text
const REST = 600; // milliseconds without a move, after which the sentence is read out

// Put a backdrop into `root`; the answer draws a scene's marks on it.
export function mount(root, backdrop, spec) {
  const prefix = `${spec.key}-${Math.random().toString(36).slice(2, 8)}-`;
  const text = backdrop.svg.replace(/( id="|href="#|url\(#)/g, `$1${prefix}`);
  const svg = document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
  svg.setAttribute("aria-hidden", "true");
  root.setAttribute("role", "img");
  root.replaceChildren(svg);

  const find = (id) => svg.querySelector(`[id="${prefix}${id}"]`);
  const parts = spec.marks.map(({ id, kind, axis }) => {
    const group = find(id);
    return {
      kind, axis, group,
      node: group.querySelector(kind === "point" ? "use" : "path"),
      name: find(`${id}-name`),
      label: backdrop.labels[id],
    };
  });

  const [left, top, width, height] = backdrop.box;
  const tidy = (value) => Math.round(value * 100) / 100;
  const across = (value) => tidy(left + (width * value) / FULL);
  const down = (value) => tidy(top + height * (1 - value / FULL));

  const drawers = {
    curve(part, numbers) {
      let path = "";
      let pen = "M";
      for (let i = 0; i < numbers.length; i += 2) {
        if (numbers[i] === GAP || numbers[i + 1] === GAP) {
          pen = "M";
        } else {
          path += `${pen}${across(numbers[i])} ${down(numbers[i + 1])}`;
          pen = "L";
        }
      }
      part.node.setAttribute("d", path);
      return path !== "";
    },
    band(part, numbers) {
      let path = "";
      let there = [];
      let back = [];
      for (let i = 0; i <= numbers.length; i += 3) {
        const [x, low, high] = numbers.subarray(i, i + 3);
        if (i < numbers.length && x !== GAP && low !== GAP && high !== GAP) {
          there.push(`${across(x)} ${down(low)}`);
          back.unshift(`${across(x)} ${down(high)}`);
        } else if (there.length) {
          path += `M${[...there, ...back].join("L")}Z`;
          [there, back] = [[], []];
        }
      }
      part.node.setAttribute("d", path);
      return path !== "";
    },
    point(part, [x, y, place]) {
      if (x === undefined || x === GAP || y === GAP) return false;
      part.node.setAttribute("x", across(x));
      part.node.setAttribute("y", down(y));
      moveName(part, across(x) - part.label.home[0], down(y) - part.label.home[1], place);
      return true;
    },
    limit(part, [value, place]) {
      if (value === undefined || value === GAP) return false;
      if (part.axis === "x") {
        part.node.setAttribute("d", `M${across(value)} ${down(0)}L${across(value)} ${down(FULL)}`);
        moveName(part, across(value) - part.label.home[0], 0, place); // below: at the foot of the line
      } else {
        part.node.setAttribute("d", `M${across(0)} ${down(value)}L${across(FULL)} ${down(value)}`);
        moveName(part, 0, down(value) - part.label.home[1], place);
      }
      return true;
    },
  };

  // A name is drawn in the first of its places; two sizes of drawing share one number.
  function moveName({ name, label }, right, lower, stored) {
    const [x, y] = label.places[Math.floor(stored / backdrop.times) % label.places.length];
    name.setAttribute("transform", `translate(${tidy(right + x)} ${tidy(lower - y)})`);
  }

  return function draw({ counts, numbers, alt }) {
    let from = 0;
    parts.forEach((part, index) => {
      const to = from + (counts[index] || 0) * WIDTH[part.kind];
      const seen = drawers[part.kind](part, numbers.subarray(from, to));
      for (const node of [part.group, part.name]) {
        if (node) node.style.display = seen ? "" : "none";
      }
      from = to;
    });
    root.setAttribute("aria-label", alt);
  };
}

// The numbers of a scene, from the bytes they travel as.
export function numbersFrom(bytes) {
  const whole = new Int16Array(bytes.byteLength / 2);
  for (let i = 0; i < whole.length; i += 1) whole[i] = bytes.getInt16(2 * i, true);
  return whole;
}

// Build a whole live picture in `root`: drawing, sentence, sliders, buttons, table.
// `actions.move(positions)` hears each step, `actions.keep(positions)` the button.
export function panel(root, spec, actions) {
  const make = (tag, settings = {}, ...children) => {
    const node = document.createElement(tag);
    for (const [name, value] of Object.entries(settings)) node.setAttribute(name, value);
    node.append(...children);
    return node;
  };
  const drawing = make("div", { class: "reckoner-drawing" });
  const sentence = make("p", { class: "reckoner-sentence", "aria-hidden": "true" });
  const status = make("p", { class: "reckoner-unseen", role: "status" });
  const answer = make("span", { class: "reckoner-answer", "aria-live": "polite" });
  const tables = make("div", { class: "reckoner-tables" });
  const large = make("button", { type: "button", "aria-pressed": "false" }, "Large picture");
  const buttons = make("div", { class: "reckoner-buttons" });
  const name = `${spec.key}-${Math.random().toString(36).slice(2, 8)}`;
  const sliders = spec.sliders.map((slider, index) => {
    const id = `${name}-slider-${index}`;
    const input = make("input", { type: "range", id, min: 0, max: slider.texts.length - 1, step: 1 });
    input.value = slider.start;
    return { input, id, label: slider.label, texts: slider.texts, readout: make("span", { "aria-hidden": "true" }) };
  });
  const box = make("section", { class: "reckoner-live", "aria-label": spec.title });
  if (spec.goal) box.append(make("p", { class: "reckoner-goal" }, spec.goal));
  // Room for the longest value of any step, so that none breaks between number and unit and no slider changes its length.
  const widest = Math.max(...sliders.flatMap(({ texts }) => texts.map((text) => text.length)));
  box.append(drawing, sentence, status, make("div", { class: "reckoner-sliders", style: `--reckoner-widest: ${widest}` }, ...sliders.map((slider) =>
    make("div", { class: "reckoner-slider" }, make("label", { for: slider.id }, slider.label),
      slider.input, slider.readout))));
  box.append(buttons, make("details", {}, make("summary", {}, "The picture as a table"), tables));
  root.replaceChildren(box);

  let draw = mount(drawing, spec.sizes.normal, spec);
  let size = "normal";
  let last = null;
  let resting = 0;
  const positions = () => sliders.map(({ input }) => Number(input.value));
  const read = ({ input, texts, readout }) => {
    readout.textContent = texts[input.value];
    input.setAttribute("aria-valuetext", texts[input.value]);
  };
  sliders.forEach((slider) => {
    read(slider);
    slider.input.addEventListener("input", () => {
      read(slider);
      answer.textContent = "";
      actions.move(positions());
    });
  });
  if (spec.keep) {
    const keep = make("button", { type: "button" }, "Keep this setting");
    keep.addEventListener("click", () => actions.keep(positions()));
    buttons.append(keep);
  }
  const fit = () => {
    const narrow = drawing.clientWidth > 0 && drawing.clientWidth < NARROW;
    const wanted = narrow || box.classList.contains("reckoner-large") ? "large" : "normal";
    if (wanted === size) return;
    size = wanted;
    draw = mount(drawing, spec.sizes[size], spec);
    if (last) draw(last);
  };
  new ResizeObserver(fit).observe(drawing);
  large.addEventListener("click", () => {
    large.setAttribute("aria-pressed", String(box.classList.toggle("reckoner-large")));
    fit();
  });
  buttons.append(large, answer);

  function fill(wanted) {
    const shape = JSON.stringify(wanted.map(({ head, rows }) => [head.length, rows.length]));
    if (tables.dataset.shape !== shape) {
      tables.dataset.shape = shape;
      tables.replaceChildren(...wanted.map(({ head, rows }) => make("table", {}, make("caption"),
        make("thead", {}, make("tr", {}, ...head.map(() => make("th", { scope: "col" })))),
        make("tbody", {}, ...rows.map((row) => make("tr", {}, ...row.map((_, column) =>
          (column ? make("td") : make("th", { scope: "row" })))))))));
    }
    const cells = tables.querySelectorAll("caption, th, td");
    wanted.flatMap(({ caption, head, rows }) => [caption, ...head, ...rows.flat()]).forEach((text, index) => {
      if (cells[index].textContent !== text) cells[index].textContent = text;
    });
  }

  return {
    // Show a scene. A screen reader hears its sentence when the slider has come to rest.
    show(scene) {
      draw(scene);
      sentence.textContent = scene.sentence;
      fill(scene.tables);
      clearTimeout(resting);
      if (last) resting = setTimeout(() => { status.textContent = scene.sentence; }, REST);
      else status.textContent = scene.sentence;
      last = scene;
    },
    // Put the sliders where somebody else has moved them.
    moveTo(wanted) {
      sliders.forEach((slider, index) => {
        if (Number(slider.input.value) !== wanted[index]) {
          slider.input.value = wanted[index];
          read(slider);
        }
      });
    },
    // Answer the button that keeps a setting.
    answer(text) {
      answer.textContent = text;
    },
  };
}
