"""Whatever `make` writes for either demo machine opens in a browser that has no network, and asks for nothing outside."""

import re
import shutil

import pytest

from benchreckoner import commands, project

pytestmark = pytest.mark.browser

DEMOS = ("record_player", "tape_player")
# Clips and pages are drawn step by step and take minutes; test_clips and test_pages hold them.
QUICK = {"record": 1, "script": 1, "captions": 0, "pictures": 0, "handouts": 7}  # how many pages each writes


@pytest.fixture(scope="module", params=DEMOS)
def folder(request, tmp_path_factory):
    """Everything made of one machine, beside its sheet, as a reader would."""
    home = tmp_path_factory.mktemp(request.param)
    sheet = home / f"{request.param}.toml"
    shutil.copy(project.CASES / sheet.name, sheet)
    for what in QUICK:
        assert commands.main(["make", what, "--sheet", str(sheet), "--to", str(home / what)]) == 0
    return home


@pytest.mark.parametrize("what", [what for what, count in QUICK.items() if count])
def test_each_page_opens_whole_and_asks_for_nothing(offline, folder, what):
    pages = sorted((folder / what).glob("*.html"))
    assert len(pages) == QUICK[what]
    for made in pages:
        offline.asked.clear()
        offline.goto(made.as_uri())
        outside = [url for url in offline.asked if not url.startswith(("file:", "data:"))]
        words = offline.locator("body").inner_text()
        assert not outside and not offline.complaints, (made.name, outside, offline.complaints)
        assert offline.get_by_role("heading").count() and len(words) > 200, made.name
        # What a program leaves behind where a value is missing, and marks that no reader knows.
        assert not re.search(r"\b(?:nan|inf|None(?! so far)|True|False)\b|\{\{|\}\}|Quantity\(|\bobject at\b", words), made.name


def test_each_picture_is_drawn(offline, folder):
    shown = sorted((folder / "pictures").glob("*.*g"))
    assert {path.suffix for path in shown} == {".png", ".svg"} and len(shown) >= 16
    size = """async (source) => { const image = new Image(); image.src = source; await image.decode(); return [image.naturalWidth, image.naturalHeight]; }"""
    offline.goto(shown[0].as_uri())
    for path in shown:
        width, height = offline.evaluate(size, path.as_uri())
        assert (height > width) == ("upright" in path.name) and max(width, height) >= 400, path.name
    assert not [url for url in offline.asked if not url.startswith(("file:", "data:"))]


def test_every_file_is_complete_and_lies_alone(folder):
    for what in QUICK:
        for path in (folder / what).iterdir():
            assert path.stat().st_size > 0 and not path.name.endswith((".part", ".tmp")), path
            if path.suffix == ".html":
                assert path.read_text(encoding="utf-8").rstrip().endswith("</html>")
