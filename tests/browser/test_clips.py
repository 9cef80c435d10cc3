"""A clip in a browser: it opens from disk and plays, with the network off."""

import numpy as np
import pytest

from benchreckoner.tell.clips import write_clip

pytestmark = pytest.mark.browser
PLAYED = """() => new Promise((done) => {
  const film = document.querySelector("video");
  film.onended = () => done([film.videoWidth, film.videoHeight, film.duration]);
  film.onerror = () => done(film.error.message);
  film.play();
})"""


@pytest.mark.parametrize(("ending", "depth"), [("mp4", 3), ("webm", 4)])
def test_a_clip_plays_to_its_end(page, tmp_path, ending, depth):
    frames = [(np.full((180, 320, depth), shade, np.uint8), 0.2) for shade in (0, 120, 250)]
    write_clip(tmp_path / f"clip.{ending}", frames)
    tmp_path.joinpath("page.html").write_text(f'<video src="clip.{ending}" muted></video>', encoding="utf-8")
    page.context.set_offline(True)
    page.goto(tmp_path.joinpath("page.html").as_uri())
    assert page.evaluate(PLAYED) == [320, 180, pytest.approx(0.6, abs=0.05)]
