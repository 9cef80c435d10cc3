"""The books: what may stand in them, and proof that the gate on their worked examples closes."""

import json
import re
import subprocess
import sys

import pytest

from benchreckoner import project

BOOKS = sorted(project.NOTEBOOKS.glob("*.ipynb"))
WORKED = {"worked-example", "nbval-check-output"}


def cells_of(path):
    return json.loads(path.read_text(encoding="utf-8"))["cells"]


def source_of(cell):
    return "".join(cell["source"])


CODE = [pytest.param(cell, id=f"{path.stem}-{cell['id']}") for path in BOOKS for cell in cells_of(path)
        if cell["cell_type"] == "code"]


def test_there_are_books():
    assert BOOKS and all(re.fullmatch(r"\d\d_[a-z_]+", path.stem) for path in BOOKS)


@pytest.mark.parametrize("cell", CODE)
def test_a_cell_is_small_and_holds_no_logic(cell):
    source = source_of(cell)
    assert len(source.splitlines()) <= 10
    assert not re.search(r"^\s*(def|class|for|while|if|try|with)\b|lambda", source, re.MULTILINE)


@pytest.mark.parametrize("cell", CODE)
def test_outputs_are_kept_by_worked_examples_and_nobody_else(cell):
    tags = set(cell["metadata"].get("tags", []))
    assert tags in (set(), WORKED), "both tags or neither"
    if tags:
        assert cell["outputs"] and cell["execution_count"] == 1, "run tests/tidy_books.py"
        assert all(output["output_type"] == "stream" and output["name"] == "stdout" for output in cell["outputs"])
    else:
        assert not cell["outputs"] and cell["execution_count"] is None


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_a_book_is_clean_and_in_order(path):
    book = json.loads(path.read_text(encoding="utf-8"))
    assert set(book["metadata"]) == {"kernelspec", "language_info"}
    assert book["metadata"]["kernelspec"]["name"] == "python3"
    assert all(set(cell["metadata"]) <= {"tags"} for cell in book["cells"])
    headings = [len(match[1]) for cell in book["cells"] if cell["cell_type"] == "markdown"
                for match in re.finditer(r"^(#+) ", source_of(cell), re.MULTILINE)]
    assert headings[0] == 1 and headings.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(headings, headings[1:], strict=False))


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_a_book_opens_as_every_book_does(path):
    text = "\n".join(source_of(cell) for cell in cells_of(path) if cell["cell_type"] == "markdown")
    for words in ("*The question:*", "**You will**", "**You need**", "**Takes**", "**Take care.**",
                  "## What you've learned", "## Sources"):
        assert words in text, words


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_links_to_parts_of_a_book_arrive(path):
    text = "\n".join(source_of(cell) for cell in cells_of(path) if cell["cell_type"] == "markdown")
    headings = [(len(marks), re.sub(r"\s+", "-", words.strip())) for marks, words in re.findall(r"^(#+) (.+)$", text, re.MULTILINE)]
    for target in re.findall(r"\]\(#([^)]+)\)", text):
        first = next((level for level, name in headings if name == target), None)
        assert first == 2, f"#{target} should lead to a section, and the first heading of that name is its place"


def test_worked_examples_never_read_the_sheet():
    for path in BOOKS:
        for cell in cells_of(path):
            if "worked-example" in cell["metadata"].get("tags", []):
                assert re.fullmatch(r"worked_case\(\"[\w.-]+\"\)", source_of(cell))


class TestTheGateCloses:
    """Each way a book can be wrong makes the run of the books fail."""

    def run(self, tmp_path, spoil):
        book = json.loads((project.NOTEBOOKS / "02_contact_resistance.ipynb").read_text(encoding="utf-8"))
        imports = next(cell for cell in book["cells"] if source_of(cell).startswith("from benchreckoner"))
        worked = next(cell for cell in book["cells"] if "worked-example" in cell["metadata"].get("tags", []))
        book["cells"] = [imports, worked]
        spoil(worked)
        path = tmp_path / "spoiled.ipynb"
        path.write_text(json.dumps(book), encoding="utf-8")
        words = [sys.executable, "-m", "pytest", "-q", "--nbval-lax", "-p", "no:cacheprovider", "-W", "default",
                 "--rootdir", str(tmp_path), str(path)]
        return subprocess.run(words, cwd=tmp_path, capture_output=True, encoding="utf-8", check=False)

    def test_as_it_is_it_passes(self, tmp_path):
        assert self.run(tmp_path, lambda cell: None).returncode == 0

    def test_a_wrong_stored_number_fails(self, tmp_path):
        def spoil(cell):
            text = "".join(cell["outputs"][0]["text"])
            assert "ours 5 V" in text
            cell["outputs"][0]["text"] = text.replace("ours 5 V", "ours 5.1 V")

        ran = self.run(tmp_path, spoil)
        assert ran.returncode == 1 and "mismatch" in ran.stdout

    def test_a_broken_cell_fails(self, tmp_path):
        assert self.run(tmp_path, lambda cell: cell.update(source="worked_case(\"no-such-row\")")).returncode == 1

    def test_a_missing_output_fails(self, monkeypatch):
        """nbval lets a stripped cell pass in silence, so a test of ours must not."""
        cell = next(param.values[0] for param in CODE if param.values[0]["metadata"].get("tags"))
        monkeypatch.setitem(cell, "outputs", [])
        with pytest.raises(AssertionError, match="tidy_books"):
            test_outputs_are_kept_by_worked_examples_and_nobody_else(cell)
