"""The speeds the project promises, measured as ratios within one run.

Seconds differ from machine to machine; ratios hardly. Nothing here is a test: a busy
machine may miss a budget without anything being wrong.
"""

import importlib.util
import pkgutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from benchreckoner import headless, physics
from benchreckoner.bench.belt_bag import Belt, rank_bag
from benchreckoner.bench.belt_slowly import belt_by_the_laws, truth_of
from benchreckoner.lessons.belt_example import DRIVE, SHAPE
from benchreckoner.units import Q

_WAYS = {"figure": "a new inline figure", "label": "a bare label", "live": "our live picture"}
_BLOCK, _UNMEASURED = 10, 10
_BOOK = {
    "imports": """%matplotlib inline
from IPython.display import display
from ipywidgets import IntSlider, Label, VBox, interact
from benchreckoner.lessons.contact_resistance import HELD_VOLTS
from benchreckoner.show.live import live
from benchreckoner.show.still import figure""",
    # The same picture, drawn anew by matplotlib at each step.
    "figure": """# way: figure
@interact(position=IntSlider(50, 0, 100))
def draw(position):
    display(figure(HELD_VOLTS.at({**HELD_VOLTS.start, "link": position})))""",
    "label": """# way: label
slider, label = IntSlider(50, 0, 100), Label()
slider.observe(lambda change: setattr(label, "value", HELD_VOLTS.sliders[0].text(change["new"])), "value")
VBox([slider, label])""",
    "live": """# way: live
live(HELD_VOLTS)""",
}


def run():
    """Measure everything and print a line for each promise."""
    import_benchmark()
    belt_benchmark()
    slider_benchmark()


def slider_benchmark(*, steps=100, drags=4):
    """Slider to changed picture in a real browser, ours against two others.

    Parameters
    ----------
    steps : int
        Measured arrow-key steps of each way, after ten unmeasured.
    drags : int
        Drags of 40 steps in about a second, of each way.
    """
    program = headless.find_chromium()
    if program is None or importlib.util.find_spec("playwright") is None:
        missing = "no Chromium found" if program is None else "run the command test once, it installs what is missing"
        print(f"slider to picture: not measured, {missing}")
        return
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        books, own = Path(folder) / "books", Path(folder) / "own"
        books.mkdir()
        _write_book(books / "scratch.ipynb")
        with headless.jupyterlab(folder=books, own=own) as address, headless.chromium(program=program) as browser:
            page = browser.new_page(viewport={"width": 1280, "height": 1000})
            headless.open_book(page, address("scratch.ipynb"))
            headless.run_all(page)
            page.evaluate(Path(__file__).with_name("benchmark_probe.js").read_text(encoding="utf-8"))
            taken = _all_steps(page, steps)
            late = _all_drags(page, drags)
    for way, name in _WAYS.items():
        print(f"{name}: median {statistics.median(taken[way]):.0f} ms, 95th percentile {_high(taken[way]):.0f} ms, "
              f"last picture of a drag {statistics.median(late[way]):.0f} ms late ({len(taken[way])} steps)")
    median = {way: statistics.median(times) for way, times in taken.items()}
    _promise("slider to picture, median, of a new inline figure", median["live"] / median["figure"], 1 / 10)
    _promise("slider to picture, median, of a bare label", median["live"] / median["label"], 1.4)
    _promise("slider to picture, 95th percentile, of a new inline figure", _high(taken["live"]) / _high(taken["figure"]), 1 / 8)
    _promise("last picture of a drag, of a new inline figure",
             statistics.median(late["live"]) / statistics.median(late["figure"]), 0.3)


def import_benchmark(*, repeats=7):
    """Importing the laws in a fresh process, against numpy, pint and one registry.

    Parameters
    ----------
    repeats : int
        How many processes of each kind, taken in turns.
    """
    modules = [module.name for module in pkgutil.iter_modules(physics.__path__, f"{physics.__name__}.")]
    codes = {"ours": f"import {', '.join(modules)}",
             "theirs": "import numpy, pint; pint.UnitRegistry()"}
    taken = {name: [] for name in codes}
    for turn in range(repeats + 1):
        for name, code in codes.items():
            begun = time.perf_counter()
            subprocess.run([sys.executable, "-c", code], check=True)
            if turn:  # the first of each only fills the disk's cache
                taken[name].append(time.perf_counter() - begun)
    _promise("importing the laws, of numpy, pint and one registry",
             statistics.median(taken["ours"]) / statistics.median(taken["theirs"]), 1.3)


def belt_benchmark(*, belts=40, sample=100, repeats=7):
    """A bag of belts ranked with its full scatter, against ten draws a belt by the same laws, one at a time.

    Parameters
    ----------
    belts : int
        In the bag, no two of one size, section and hardness.
    sample : int
        Single draws that are timed, after ten unmeasured.
    repeats : int
        How often the bag is ranked, after one unmeasured time.
    """
    bag = [Belt(f"belt {place}", SHAPE, Q(1.0 + 0.1 * (place % 6), "mm"), Q(63.0 + place // 6, "mm"), "inside diameter",
                hardness=50.0 + 5 * (place % 5)) for place in range(belts)]
    fast, slow = [], []
    for turn in range(repeats + 1):
        begun = time.perf_counter()
        draws = rank_bag(drive=DRIVE, belts=bag).draws
        if turn:
            fast.append(time.perf_counter() - begun)
    for place in range(_UNMEASURED + sample):
        begun = time.perf_counter()
        belt_by_the_laws(DRIVE, bag[place % belts], truth_of(draws, bag[place % belts], place))
        if place >= _UNMEASURED:
            slow.append(time.perf_counter() - begun)
    print(f"a bag of {belts} belts, {len(draws.load)} draws each: median {1e3 * statistics.median(fast):.0f} ms; "
          f"one draw of one belt by the laws: {1e3 * statistics.median(slow):.1f} ms")
    _promise(f"ranking a bag of {belts} belts, of ten draws a belt one at a time", statistics.median(fast) / (10 * belts * statistics.median(slow)), 1 / 4)


def _promise(what, ratio, budget):
    print(f"{what}: {ratio:.3f} (budget {budget:.3f}) {'kept' if ratio <= budget else 'MISSED'}", flush=True)


def _high(times):
    return statistics.quantiles(times, n=20)[-1]


def _write_book(path):
    import nbformat

    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(code) for code in _BOOK.values()])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    nbformat.write(book, path)


def _all_steps(page, steps):
    """Blocks of steps of each way in turns, so that a slow moment falls on all alike."""
    taken = {way: [] for way in _WAYS}
    for way in _WAYS:
        _block(page, way, _UNMEASURED, "ArrowRight")
    blocks = -(-steps // _BLOCK)
    for turn in range(blocks):
        for way in list(_WAYS)[::-1] if turn % 2 else _WAYS:
            taken[way] += _block(page, way, _BLOCK, "ArrowLeft" if turn % 2 else "ArrowRight")
    return taken


def _block(page, way, steps, key):
    page.evaluate("way => window.probe.focus(way)", way)
    taken = []
    for _ in range(steps):
        page.evaluate("way => window.probe.arm(way)", way)
        page.keyboard.press(key)
        taken.append(page.evaluate("() => window.result"))
        page.wait_for_timeout(80)  # let echoes and idle messages pass, so that steps don't queue
    return taken


def _all_drags(page, drags):
    late = {way: [] for way in _WAYS}
    for turn in range(drags):
        for way in list(_WAYS)[::-1] if turn % 2 else _WAYS:
            found = _drag(page, way)
            if not found["agrees"]:
                raise RuntimeError("the live picture's last state is not where its slider stands")
            late[way].append(found["late"])
    return late


def _drag(page, way, moves=40):
    place = page.evaluate("way => window.probe.focus(way)", way)
    begin = place["left"] + place["width"] * place["setting"] / 100
    end = place["left"] + place["width"] * (0.2 if place["setting"] > 50 else 0.8)
    page.mouse.move(begin, place["middle"])
    page.evaluate("way => window.probe.record(way)", way)
    page.mouse.down()
    begun = time.perf_counter()
    for move in range(1, moves + 1):
        page.mouse.move(begin + (end - begin) * move / moves, place["middle"])
        time.sleep(max(0, begun + move / moves - time.perf_counter()))
    page.mouse.up()
    return page.evaluate("quiet => window.finish(quiet)", 2500)
