"""Where the project's own files lie: the library is always used from its checkout."""

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SHARED = ROOT / "shared"
WORKED_EXAMPLES = SHARED / "worked_examples"
CASES = SHARED / "cases"
NOTEBOOKS = ROOT / "notebooks"
