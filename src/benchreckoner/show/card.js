// Manners that the plain widgets lack: choices move with the arrow keys, answers are spoken,
// and a key pressed in a card does not at the same time work on the notebook's cells.
const OURS = "button, select, summary, a, input[type=radio]";
let groups = 0;

function enter(event) {
  const card = event.target.closest(".reckoner");
  if (!card) return;
  for (const area of card.querySelectorAll(".reckoner-status")) area.setAttribute("role", "status");
  for (const area of card.querySelectorAll(".reckoner-alert")) area.setAttribute("role", "alert");
  for (const box of card.querySelectorAll(".widget-radio-box:not([role])")) {
    groups += 1;
    box.setAttribute("role", "radiogroup");
    box.setAttribute("aria-label", "Choices");
    for (const choice of box.querySelectorAll("input")) choice.name = `reckoner-choices-${groups}`;
  }
}

function press(event) {
  if (!event.target.closest?.(".reckoner") || !event.target.matches(OURS)) return;
  const forNotebook = event.ctrlKey || event.metaKey || event.altKey || event.key === "Escape"
    || (event.shiftKey && event.key === "Enter");
  event.target.toggleAttribute("data-lm-suppress-shortcuts", !forNotebook);
}

if (!window.reckonerManners) {
  window.reckonerManners = true;
  window.addEventListener("focusin", enter, true);
  window.addEventListener("keydown", press, true);
}

export default { render() {} };
