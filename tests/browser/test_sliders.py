"""The value beside a slider stands on one line, whatever its unit."""

import json
from importlib.resources import files

import pytest

import benchreckoner.show
from benchreckoner.lessons.series import live_pictures
from benchreckoner.show.live import spec

pytestmark = pytest.mark.browser

# For the longest values of each slider: how many lines it takes, by how much it leaves its place, and how long the slider then is.
MEASURE = """() => [...document.querySelectorAll(".reckoner-slider")].flatMap((row, index) => {
  const [input, readout] = [row.querySelector("input"), row.querySelector("span")];
  return window.texts[index].map((text) => {
    readout.textContent = text;
    const range = document.createRange();
    range.selectNodeContents(readout);
    const words = range.getBoundingClientRect();
    const over = Math.max(words.right, readout.getBoundingClientRect().right) - row.getBoundingClientRect().right;
    const near = input.getBoundingClientRect();
    const meets = near.right > words.left + 0.5 && near.top < words.bottom && near.bottom > words.top;
    return [text, range.getClientRects().length, over, meets, near.width];
  });
})"""


def inline(data):
    return json.dumps(data).replace("</", "<\\/")


@pytest.mark.parametrize("width", [1280, 390])
def test_number_and_unit_stay_together(page, demo, width):
    declaration = demo.declared()
    sliders = [slider for picture in live_pictures() for slider in picture.sliders]
    whole = spec(declaration, declaration.at(declaration.start))
    texts = [[slider.text(position) for position in range(len(slider.steps))] for slider in sliders]
    whole["sliders"] = [{"name": str(number), "label": slider.label, "start": 0, "texts": every}
                        for number, (slider, every) in enumerate(zip(sliders, texts, strict=True))]
    page.set_viewport_size({"width": width, "height": 900})
    style, script = (files(benchreckoner.show).joinpath(name).read_text(encoding="utf-8") for name in ("live.css", "stage.js"))
    page.set_content(f"""<!doctype html><meta charset="utf-8"><style>{style}</style><div id="here"></div><script type="module">{script}
        panel(document.querySelector("#here"), {inline(whole)}, {{ move() {{}} }});
        window.texts = {inline([sorted(every, key=len)[-3:] for every in texts])};</script>""")
    page.wait_for_function("window.texts")
    measured = page.evaluate(MEASURE)
    assert len(measured) > 300
    assert [text for text, lines, *_ in measured if lines != 1] == []
    assert [text for text, _, over, meets, _ in measured if over > 0.5 or meets] == []
    assert len({round(length) for *_, length in measured}) == 1  # no slider changes its length while it moves
