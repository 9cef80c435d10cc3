"""Draw the README's picture from the demo sheet: python assets/draw.py."""

from pathlib import Path

from benchreckoner import project
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.staircase import chains_to_show, staircase
from benchreckoner.show.still import svg_text

if __name__ == "__main__":
    before, after = chains_to_show(judge_sheet(read_sheet(project.CASES / "record_player.toml")))
    drawing = svg_text(staircase(chain=before, after=after), large=False)
    Path(__file__).with_name("staircase.svg").write_text(
        drawing.replace("<svg ", '<svg style="background:#fff" ', 1), encoding="utf-8", newline="\n")
