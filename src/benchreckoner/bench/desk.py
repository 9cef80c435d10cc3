"""Which sheet lies on the desk: the reader's own, or a copy of the demo machine's."""

import os
from pathlib import Path

from benchreckoner import project
from benchreckoner.files import save_whole

SHEET_VARIABLE = "BENCH_RECKONER_SHEET"


def sheet_path():
    """Path of the sheet the books work on.

    Returns
    -------
    Path
        What the environment names, else the reader's own copy of the demo sheet.
    """
    named = os.environ.get(SHEET_VARIABLE, "").strip()
    return Path(named) if named else demo_copy()


def demo_copy():
    """The reader's own copy of the demo sheet, made once and never overwritten."""
    copy = project.ROOT / "my_bench" / "record_player.toml"
    if not copy.exists():
        copy.parent.mkdir(exist_ok=True)
        save_whole(copy, (project.CASES / copy.name).read_text(encoding="utf-8"))
    return copy


def guesses_path(sheet):
    """Where the guesses of this sheet's reader are kept: ``NAME.guesses.toml`` beside it."""
    return Path(sheet).with_suffix(".guesses.toml")
