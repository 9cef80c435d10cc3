"""Captions and chapters in the browser's own loader: how many cues, what they say, and when."""

import base64

import pytest

from benchreckoner import project
from benchreckoner.tell.caption_files import make_captions
from benchreckoner.tell.captions import Cue, vtt

pytestmark = pytest.mark.browser

SHEETS = [project.CASES / "record_player.toml", project.CASES / "tape_player.toml"]
LOAD = """async ([source, kind]) => {
  const video = document.createElement("video");
  const track = document.createElement("track");
  track.kind = kind;
  track.src = source;
  video.append(track);
  document.body.append(video);
  track.track.mode = "hidden";
  await new Promise((done, failed) => { track.onload = done; track.onerror = failed; });
  return [...track.track.cues].map((cue) => [cue.startTime, cue.endTime, cue.getCueAsHTML().textContent]);
}"""


def loaded(page, text, kind="captions"):
    coded = base64.b64encode(text.encode("utf-8")).decode("ascii")
    return page.evaluate(LOAD, [f"data:text/vtt;base64,{coded}", kind])


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.stem)
def test_every_caption_and_chapter_loads(page, tmp_path, sheet):
    path = make_captions(sheet, tmp_path)
    for name, kind in (("captions", "captions"), ("captions_upright", "captions"), ("chapters", "chapters")):
        text = path.with_name(f"{name}.vtt").read_text(encoding="utf-8")
        found = loaded(page, text, kind)
        assert len(found) == text.count(" --> ") > 2
        assert all(start < end for start, end, _ in found) and [start for start, _, _ in found] == sorted(start for start, _, _ in found)


def test_markup_arrives_as_text_and_notes_do_not_arrive(page):
    lines = ("<script>window.hurt = 1</script>", "R7 & C4 --> 5 V &lt; <c.x>")
    shown = [Cue(0.5, 2.25, lines), Cue(3661.0, 3662.5, ("NOTE",)), Cue(3662.5, 3664.0, ("ends.",))]
    found = loaded(page, vtt(shown, notes=("1\n00:00.000 --> 00:09.000\nnot a caption", "")))
    assert found == [[0.5, 2.25, "\n".join(lines)], [3661.0, 3662.5, "NOTE"], [3662.5, 3664.0, "ends."]]
    assert page.evaluate("window.hurt") is None
