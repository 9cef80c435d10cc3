// Buttons that count, each with a key of its own, above a picture without sliders.
// Every press goes to the kernel; what comes back is what was saved.

function render({ model, el }) {
  const make = (tag, settings = {}, ...children) => {
    const node = document.createElement(tag);
    for (const [name, value] of Object.entries(settings)) node.setAttribute(name, value);
    node.append(...children);
    return node;
  };
  const keys = model.get("buttons");
  const press = (key) => {
    key.button.focus(); // some browsers leave the focus where it was after a click
    key.button.classList.add("reckoner-waiting"); // felt at once, counted when it is saved
    model.send({ press: key.name });
  };
  const buttons = keys.map(({ letter, name, label }) => {
    const number = make("b");
    const button = make("button", { type: "button", "aria-keyshortcuts": letter },
      make("span", {}, label), number, make("kbd", {}, letter));
    const key = { letter, name, label, number, button };
    button.addEventListener("click", () => press(key));
    return key;
  });
  const said = make("p", { class: "reckoner-said", role: "status" });
  const trouble = make("p", { class: "reckoner-trouble", role: "alert" });
  const picture = make("div");
  const letters = keys.map(({ letter }) => letter).join(", ");
  const box = make("section", { class: "reckoner-live reckoner-counter", "aria-label": model.get("label") },
    make("div", { class: "reckoner-keys" }, ...buttons.map(({ button }) => button)),
    make("p", { class: "reckoner-hint" }, `The keys ${letters} count while one of these buttons has the focus.`),
    trouble, said, picture);

  box.addEventListener("keydown", (event) => {
    // A key held down is one press, not forty.
    if (event.repeat && ["Enter", " "].includes(event.key)) event.preventDefault();
    if (event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
    const key = buttons.find(({ letter }) => letter === event.key.toLowerCase());
    if (!key) return;
    event.preventDefault();
    press(key);
  });

  let controls = null;
  const frame = () => { controls = panel(picture, model.get("frame"), {}); };
  const show = () => {
    const state = model.get("state");
    for (const { name, label, number, button } of buttons) {
      const text = state.numbers[name] ?? "";
      number.textContent = text;
      button.classList.remove("reckoner-waiting");
      button.setAttribute("aria-label", text ? `${label}: ${text}` : label);
    }
    said.textContent = state.said;
    trouble.textContent = state.trouble;
    controls.show({ ...state, numbers: numbersFrom(state.marks) });
  };
  model.on("change:frame", frame);
  model.on("change:state", show);
  frame();
  show();
  el.append(box);
  return () => {
    model.off("change:frame", frame);
    model.off("change:state", show);
  };
}

export default { render };
