// Ties the picture to its kernel. Moves made while the kernel is busy are put together
// by the widget itself, which sends the last position once the kernel is free.

function render({ model, el }) {
  const controls = panel(el, model.get("spec"), {
    move(positions) {
      model.set("positions", positions);
      model.save_changes();
    },
    keep(positions) {
      model.send({ keep: positions });
    },
  });
  const show = () => {
    const scene = model.get("scene");
    controls.show({ ...scene, numbers: numbersFrom(scene.numbers) });
  };
  const moved = () => controls.moveTo(model.get("positions"));
  const told = (message) => {
    if (message.kept) controls.answer(message.kept);
  };
  // A notebook takes arrow keys and letters for its cells, even from a slider inside one: it is told to
  // leave them, before it hears of them, all but those meant for it.
  const press = (event) => {
    if (!el.contains(event.target)) return;
    const forNotebook = event.ctrlKey || event.metaKey || event.altKey || event.key === "Escape"
      || (event.shiftKey && event.key === "Enter");
    event.target.toggleAttribute("data-lm-suppress-shortcuts", !forNotebook);
  };
  window.addEventListener("keydown", press, true);
  model.on("change:scene", show);
  model.on("change:positions", moved);
  model.on("msg:custom", told);
  moved();
  show();
  return () => {
    window.removeEventListener("keydown", press, true);
    model.off("change:scene", show);
    model.off("change:positions", moved);
    model.off("msg:custom", told);
  };
}

export default { render };
