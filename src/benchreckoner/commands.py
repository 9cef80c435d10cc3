"""What reckon.py does once the environment stands: one function a command, each thin.

Only the standard library is imported at the top: reckon.py reads its words with this
module before anything is installed.
"""

import argparse
import json
import os
import sys
from importlib import resources
from pathlib import Path

from benchreckoner import project

FAULTY = 2
LAB_SETTINGS = Path(__file__).resolve().parent / "lab_settings"  # keeps JupyterLab from asking about news
COMMANDS = {
    "open": "open the books in JupyterLab with a bench sheet (the demo machine without one)",
    "test": "run every test; words after it are handed to pytest",
    "new": "write an empty bench sheet with comments",
    "read": "print what a sheet's readings say, part by part",
    "make": "make something to hand on from a sheet",
    "check": "run the check values of a folder against our laws",
    "benchmark": "measure the speeds that the project promises",
}


def read_words(words):
    """Turn the words after reckon.py into a command and its arguments.

    Parameters
    ----------
    words : list of str

    Returns
    -------
    argparse.Namespace
        `command` and that command's own arguments.

    Raises
    ------
    SystemExit
        With 2 and a message on stderr for words that make no command, with 0 after help.
    """
    if words and not words[0].startswith("-") and words[0] not in COMMANDS:
        print(
            f"reckon.py knows no command {words[0]!r}. It knows: {', '.join(COMMANDS)}.",
            file=sys.stderr,
        )
        raise SystemExit(FAULTY)
    if words[:1] == ["test"] and words[1:] not in (["-h"], ["--help"]):
        return argparse.Namespace(command="test", pytest_words=words[1:])
    return _parser().parse_args(words)


def _parser():
    parser = argparse.ArgumentParser(
        prog="reckon.py",
        description="From the readings of one repair to reasons that others can follow.",
        allow_abbrev=False,
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    own = {
        name: commands.add_parser(name, help=line, description=line, allow_abbrev=False)
        for name, line in COMMANDS.items()
    }
    own["open"].add_argument("sheet", nargs="?", type=Path, metavar="SHEET", help="a bench sheet")
    own["open"].add_argument(
        "--no-browser", dest="browser", action="store_false", help="print the address only"
    )
    own["open"].add_argument("--port", type=int, help="the port to serve on")
    own["test"].usage = "reckon.py test [PYTEST ARGUMENTS]"
    own["new"].add_argument("file", type=Path, metavar="FILE", help="the sheet to write")
    own["read"].add_argument("sheet", type=Path, metavar="SHEET", help="a bench sheet")
    own["read"].add_argument(
        "--json", dest="as_json", action="store_true", help="print a list for other programs"
    )
    own["make"].add_argument(
        "what", choices=MAKERS, metavar="WHAT", help=f"one of: {', '.join(MAKERS)}"
    )
    own["make"].add_argument(
        "--sheet", required=True, type=Path, metavar="SHEET", help="the bench sheet to tell of"
    )
    own["make"].add_argument(
        "--to", dest="folder", required=True, type=Path, metavar="FOLDER", help="where to put it"
    )
    own["make"].add_argument(
        "--serve", action="store_true", help="then hand the folder to a browser on this machine, until Ctrl-C"
    )
    own["make"].add_argument(
        "--network", action="store_true", help="with --serve: to phones on the local network as well"
    )
    own["check"].add_argument(
        "folder", type=Path, metavar="FOLDER", help="a folder of TOML files with check values"
    )
    return parser


def open_books(*, sheet, browser, port):
    """Print the sheet's findings, then start JupyterLab on the first book."""
    from benchreckoner.bench.desk import SHEET_VARIABLE, demo_copy
    from benchreckoner.bench.report import findings

    sheet = sheet.absolute() if sheet else demo_copy()
    for line in findings(_read_sheet(sheet)):
        print(line)
    print(f"The books use the sheet {sheet}", flush=True)
    os.environ[SHEET_VARIABLE] = str(sheet)

    from jupyterlab.labapp import main as jupyterlab

    from benchreckoner import lab

    options = {
        "ServerApp.root_dir": project.ROOT,
        "LabApp.default_url": "/doc/tree/notebooks/00_start_here.ipynb",
        "ServerApp.open_browser": browser,
        "Application.log_level": "ERROR",
        "LabApp.app_settings_dir": LAB_SETTINGS,
        # Tabs left open in other projects would only bring errors here.
        "LabApp.workspaces_dir": Path(sys.prefix) / "share" / "jupyter" / "lab" / "workspaces",
    }
    if port is not None:
        options["ServerApp.port"] = port
    jupyterlab(lab.words(options))
    return 0


def _read_sheet(path):
    """Read a sheet, or end with its error on stderr."""
    from benchreckoner.bench.sheet import SheetError, read_sheet

    try:
        return read_sheet(path)
    except (SheetError, OSError) as error:
        raise SystemExit(_complain(error)) from error


def _complain(message):
    """Print what is wrong on stderr; the exit code for something the reader can mend."""
    print(message, file=sys.stderr)
    return FAULTY


def run_tests(*, pytest_words):
    """Run the tests, the examples in docstrings and the books; the exit code is pytest's."""
    import pytest

    os.chdir(project.ROOT)
    everything = ["-o", "testpaths=tests src notebooks", "--nbval-lax"]
    return int(pytest.main(everything + pytest_words))


def new_sheet(*, file):
    """Write an empty sheet with comments, never over an existing file."""
    text = resources.files("benchreckoner.bench").joinpath("empty_sheet.toml").read_text("utf-8")
    if not file.absolute().parent.is_dir():
        return _complain(f"There is no folder {file.absolute().parent}. Make it first.")
    try:
        with open(file, "x", encoding="utf-8", newline="\n") as sheet:
            sheet.write(text)
    except FileExistsError:
        return _complain(f"{file} exists already and was left as it is. Choose another name.")
    except OSError as error:
        return _complain(f"{file} could not be written: {error}")
    print(f'Wrote {file}. Fill it in, then: python3 reckon.py read "{file}"')
    return 0


def read_readings(*, sheet, as_json):
    """Print the judgements of a sheet as text or JSON."""
    from benchreckoner.bench import report

    content = _read_sheet(sheet)
    if as_json:
        print(json.dumps(report.json_report(content), ensure_ascii=False, indent=2))
    else:
        print(report.text_report(content))
    return 0


def _make_record(sheet, folder):
    from benchreckoner.tell.record import make_record

    return make_record(sheet, folder)


def _make_script(sheet, folder):
    from benchreckoner.tell.script_page import make_script

    told = []
    return "\n".join([str(make_script(sheet, folder, tell=told.append)), *told])


def _make_captions(sheet, folder):
    from benchreckoner.tell.caption_files import make_captions

    return make_captions(sheet, folder, tell=_tell)


def _make_excerpts(sheet, folder):
    from benchreckoner.tell.excerpts import make_excerpts

    return make_excerpts(sheet, folder, tell=_tell)


def _make_pages(sheet, folder):
    from benchreckoner.tell.pages import make_pages

    return make_pages(sheet, folder)


def _make_handouts(sheet, folder):
    from benchreckoner.tell.workshop import SETTINGS_FILE, make_handouts

    return f"{make_handouts(sheet, folder)}. For another room, change {folder / SETTINGS_FILE} and make it again."


def _tell(line):
    """Say on stderr what is no result."""
    print(line, file=sys.stderr, flush=True)


def _make_pictures(sheet, folder):
    from benchreckoner.tell.pictures import CHOICE, make_pictures

    return _chosen(make_pictures(sheet, folder, tell=_tell), CHOICE)


def _make_clips(sheet, folder):
    from benchreckoner.tell.clips import CHOICE, make_clips

    return _chosen(make_clips(sheet, folder, tell=_tell), CHOICE)


def _chosen(folder, name):
    return f"{folder}. For others, name them in {folder / name} and make it again."


MAKERS = {"record": _make_record, "script": _make_script, "captions": _make_captions, "excerpts": _make_excerpts, "pictures": _make_pictures,
          "clips": _make_clips, "handouts": _make_handouts, "pages": _make_pages}


def make(*, what, sheet, folder, serve=False, network=False):
    """Make one thing to hand on, say where it lies, and hand pages to a browser if asked."""
    from benchreckoner.bench.recordings import RecordingError
    from benchreckoner.bench.sheet import SheetError
    from benchreckoner.tell.choice import ChoiceError

    if serve and what != "pages":
        return _complain("--serve hands pages to a phone: write make pages --serve")
    if network and not serve:
        return _complain("--network goes with --serve: write make pages --serve --network")
    try:
        print(f"Wrote {MAKERS[what](sheet, folder)}")
        if serve:
            _hand_out(folder, network)
    except (SheetError, ChoiceError, RecordingError) as error:
        return _complain(error)
    except OSError as error:
        if error.errno is None:  # our own words
            return _complain(error)
        return _complain(f"{folder}: the system refused ({error.strerror}). See that this folder may be written to and the disk has room, "
                         "or name another one with --to.")
    return 0


def _hand_out(folder, network):
    from benchreckoner.tell.serve import serve

    serve(folder, network=network, tell=lambda line: print(line, flush=True))


def check(*, folder):
    """Run the check values of a folder; 1 if a row fails, 2 if one cannot be read."""
    from benchreckoner import published

    try:
        lines, failed = published.check_folder(folder)
    except (published.RowError, OSError) as error:
        return _complain(error)
    print("\n".join(lines))
    return 1 if failed else 0


def benchmark():
    """Print the measured ratios."""
    from benchreckoner import benchmarks

    return benchmarks.run() or 0


FUNCTIONS = {
    "open": open_books,
    "test": run_tests,
    "new": new_sheet,
    "read": read_readings,
    "make": make,
    "check": check,
    "benchmark": benchmark,
}


def main(words):
    """Run one command; the exit code is returned."""
    arguments = vars(read_words(words))
    return FUNCTIONS[arguments.pop("command")](**arguments)


if __name__ == "__main__":
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(encoding="utf-8")
    try:
        code = main(sys.argv[1:])
        sys.stdout.flush()
    except KeyboardInterrupt:
        code = 130
    except BrokenPipeError:
        # Whoever read our lines has seen enough; Python must not complain of it when it ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    sys.exit(code)
