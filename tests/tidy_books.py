"""Run the books and keep only the outputs of their worked examples: python tests/tidy_books.py [BOOK ...].

Also numbers the cells' ids, and strips what editors leave behind, so
that a book's diff shows what its author changed and nothing else.
"""

import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

from benchreckoner import project

WORKED = {"worked-example", "nbval-check-output"}
METADATA = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
            "language_info": {"name": "python"}}


def tidy(path):
    """Run one book from a clean start and write it back tidied."""
    book = nbformat.read(path, as_version=4)
    NotebookClient(book, timeout=120, resources={"metadata": {"path": str(path.parent)}}).execute()
    book.metadata = nbformat.from_dict(METADATA)
    for number, cell in enumerate(book.cells):
        cell.id = f"{path.name[:2]}-{number:02}"
        tags = cell.metadata.get("tags", [])
        cell.metadata = nbformat.from_dict({"tags": tags} if tags else {})
        if cell.cell_type == "code":
            keeps = set(tags) >= WORKED
            # nbval takes a cell with outputs and no count for one that was never run.
            cell.execution_count = 1 if keeps else None
            cell.outputs = _in_one_piece(cell.outputs) if keeps else []
    path.write_text(nbformat.writes(book, version=4) + "\n", encoding="utf-8", newline="\n")


def _in_one_piece(outputs):
    """What was printed; a busy kernel hands it over in several."""
    printed = "".join(output.text for output in outputs if output.output_type == "stream")
    return [nbformat.v4.new_output("stream", name="stdout", text=printed)] if printed else []


if __name__ == "__main__":
    for path in map(Path, sys.argv[1:]) if sys.argv[1:] else sorted(project.NOTEBOOKS.glob("*.ipynb")):
        tidy(path)
        print(f"tidied {path.name}")
