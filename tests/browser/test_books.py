"""The books in a real JupyterLab: they run clean, and what a reader does is answered."""

import re
import shutil

import pytest

from benchreckoner import project
from benchreckoner.bench.desk import SHEET_VARIABLE
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.headless import jupyterlab, open_book, run_all
from benchreckoner.show.store import HitRate, hit_rate

pytestmark = pytest.mark.browser
BOOKS = sorted(path.name for path in project.NOTEBOOKS.glob("*.ipynb"))
PATIENCE = 20_000  # ms; a slow machine is no failure


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """Books and sheet in a folder of their own, and a JupyterLab that serves them."""
    folder, own = tmp_path_factory.mktemp("desk"), tmp_path_factory.mktemp("lab")
    for name in BOOKS:
        shutil.copy(project.NOTEBOOKS / name, folder / name)
    sheet = folder / "record_player.toml"
    shutil.copy(project.CASES / sheet.name, sheet)
    with jupyterlab(folder=folder, own=own, environment={SHEET_VARIABLE: str(sheet)}) as address:
        yield sheet, address


@pytest.fixture(autouse=True)
def no_kernel_left(page):
    """Each test begins with a kernel of its own: one that has run a book before brings all of its old widgets back."""
    yield
    page.evaluate("() => window.jupyterapp?.serviceManager.sessions.shutdownAll()")


def opened(page, desk, name):
    """A book, run from the top."""
    _, address = desk
    open_book(page, address(name))
    run_all(page)
    return page


def cell(page, call):
    """The code cell that holds this call."""
    return page.locator(".jp-CodeCell", has=page.locator(".jp-InputArea", has_text=call)).first


@pytest.mark.parametrize("name", BOOKS)
def test_a_book_runs_from_the_top_without_an_error(page, desk, name):
    complaints = []
    page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    opened(page, desk, name)
    assert page.locator("[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
    assert page.locator(".jp-RenderedText[data-mime-type='application/vnd.jupyter.error']").count() == 0
    assert page.get_by_text("Error displaying widget").count() == 0
    ours = [text for text in complaints if "reckoner" in text.lower() or "widget" in text.lower()]
    assert not ours


def test_the_picture_opens_on_a_guess_and_moves_as_one(page, desk):
    sheet, _ = desk
    opened(page, desk, "02_contact_resistance.ipynb")
    number, choice = cell(page, "guess_held_volts"), cell(page, "guess_tired_cells")
    assert choice.locator(".reckoner-drawing").count() == 0

    number.get_by_label("Lowest you believe").fill("4,5 V")
    number.get_by_label("Highest you believe").fill("5.2 V")
    number.get_by_label("Highest you believe").press("Enter")
    number.get_by_text("Inside your range").wait_for(timeout=PATIENCE)
    assert hit_rate(sheet.with_suffix(".guesses.toml")) == HitRate(1, 1, ())

    choice.get_by_role("button", name="Show me").click()
    slider = choice.get_by_role("slider").first
    slider.wait_for(timeout=PATIENCE)

    def state():
        return (choice.locator(".reckoner-drawing").inner_html(),
                choice.locator(".reckoner-sentence").text_content(), choice.locator("table").first.text_content(),
                slider.get_attribute("aria-valuetext"))

    before = state()
    slider.focus()
    slider.press("ArrowRight")
    page.wait_for_function("([node, old]) => node.textContent !== old",
                           arg=[choice.locator(".reckoner-sentence").element_handle(), before[1]], timeout=PATIENCE)
    after = state()
    assert all(new != old for new, old in zip(after, before, strict=True))
    # Sentence and slider name the same ohms, and the table has them too.
    assert f"With {after[3]} in the link" in after[1]
    ohms = float(re.match(r"[\d.]+", after[3])[0]) / 1000
    assert f"{ohms:.4f}".rstrip("0") in after[2]

    for _ in range(12):
        slider.press("ArrowLeft")
    page.wait_for_function("([sentence, slider]) => sentence.textContent.includes(slider.getAttribute('aria-valuetext'))",
                           arg=[choice.locator(".reckoner-sentence").element_handle(), slider.element_handle()],
                           timeout=PATIENCE)


@pytest.mark.parametrize("width", [1280, 390])
def test_the_form_saves_a_reading_and_the_judgement_answers(page, desk, width):
    sheet, _ = desk
    page.set_viewport_size({"width": width, "height": 900})
    before = sheet.read_text(encoding="utf-8")
    opened(page, desk, "02_contact_resistance.ipynb")
    form = cell(page, "readings_form")
    form.get_by_label("Part").select_option("spring 1")
    form.get_by_label("Quantity").select_option("voltage drop")
    form.get_by_label("Stage").select_option("springs cleaned")
    form.get_by_label("Condition").select_option("held")
    value = form.get_by_label("Value, with its unit")
    value.fill("eleven")
    value.press("Enter")
    form.get_by_text("Not yet:").wait_for(timeout=PATIENCE)
    assert value.input_value() == "eleven" and sheet.read_text(encoding="utf-8") == before

    value.fill("0,95 V")
    value.press("Enter")
    form.get_by_text("Saved in record_player.toml").wait_for(timeout=PATIENCE)
    form.get_by_text("repeats of the voltage drop of spring 1").first.wait_for(timeout=PATIENCE)
    assert read_sheet(sheet).readings[-1].text == "0,95 V" and value.input_value() == ""
    box = form.bounding_box()
    assert box["x"] >= 0 and box["x"] + box["width"] <= width + 1 and box["width"] >= 0.7 * width

    form.get_by_role("button", name="Take back").click()
    form.get_by_text("Taken back").wait_for(timeout=PATIENCE)
    assert sheet.read_text(encoding="utf-8") == before


def test_a_readers_own_reading_is_marked(page, desk):
    opened(page, desk, "02_contact_resistance.ipynb")
    own = cell(page, "my_held_volts")
    own.get_by_text("Your reading is marked at").first.wait_for(timeout=PATIENCE)
    own.get_by_role("button", name="Keep this setting").click()
    own.get_by_text("Kept in").wait_for(timeout=PATIENCE)


def test_the_index_leads_from_book_to_book(page, desk):
    opened(page, desk, "00_start_here.ipynb")
    page.get_by_role("link", name="02_contact_resistance").first.click()
    page.wait_for_url("**/02_contact_resistance.ipynb*", timeout=PATIENCE)
    page.get_by_role("heading", name="Find the volts a dirty joint takes").wait_for(timeout=PATIENCE)


def test_what_was_done_opens_a_stage(page, desk):
    sheet, _ = desk
    before = sheet.read_text(encoding="utf-8")
    opened(page, desk, "02_contact_resistance.ipynb")
    form = cell(page, "actions_form")
    form.get_by_label("What you did").fill("lead renewed")
    form.get_by_label("Taken off, to go back").fill("lid, foot")
    form.get_by_role("button", name="Save").click()
    form.get_by_text("Stages so far: as found, springs cleaned, jack and control worked, platter bearing cleaned, lead renewed.").wait_for(timeout=PATIENCE)
    assert read_sheet(sheet).actions[-1].taken_off == ("lid", "foot")
    form.get_by_role("button", name="Take back").click()
    form.get_by_text("Taken back: lead renewed").wait_for(timeout=PATIENCE)
    assert sheet.read_text(encoding="utf-8") == before


def test_a_motors_reading_is_answered_beside_the_form(page, desk):
    sheet, _ = desk
    before = sheet.read_text(encoding="utf-8")
    opened(page, desk, "05_motor_current.ipynb")
    form = cell(page, "motor_form")
    form.get_by_label("Part").select_option("motor")
    form.get_by_label("Quantity").select_option("current")
    form.get_by_label("Stage").select_option("jack and control worked")
    form.get_by_label("Condition").select_option("no load")
    form.get_by_label("Instrument").select_option("second meter")
    value = form.get_by_label("Value, with its unit")
    value.fill("75 mA")
    value.press("Enter")
    form.get_by_text("Saved in record_player.toml").wait_for(timeout=PATIENCE)
    form.get_by_text("motor, current (no load): bad.").first.wait_for(timeout=PATIENCE)
    form.get_by_role("button", name="Take back").click()
    form.get_by_text("Taken back").wait_for(timeout=PATIENCE)
    assert sheet.read_text(encoding="utf-8") == before


def test_guesses_of_two_books_are_weighed_together(page, desk):
    sheet, _ = desk
    store = sheet.with_suffix(".guesses.toml")
    store.unlink(missing_ok=True)
    store.write_text('version = 1\n[[range.start-divider]]\nlowest = "1 ohm"\nhighest = "1.2 ohm"\ntruth = "1.60 Ω"\ninside = false\n', encoding="utf-8")
    opened(page, desk, "07_tell_it.ipynb")
    letters = cell(page, "guess_other_way")
    letters.get_by_label("Lowest you believe").fill("1,5")
    letters.get_by_label("Highest you believe").fill("2")
    letters.get_by_label("Highest you believe").press("Enter")
    letters.get_by_text("Inside your range").wait_for(timeout=PATIENCE)
    letters.get_by_role("slider").first.wait_for(timeout=PATIENCE)
    own = cell(page, "my_guesses_so_far")
    own.locator(".jp-InputArea").click()
    page.keyboard.press("Control+Enter")
    own.get_by_text("1 of your 2 ranges held the true value; 90 % should: that fits, as far as 2 ranges can tell.").wait_for(timeout=PATIENCE)
    first = own.locator("table.reckoner-words td").first
    assert first.evaluate("cell => getComputedStyle(cell).textAlign") == "left"
