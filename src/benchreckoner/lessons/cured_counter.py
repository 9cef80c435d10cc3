"""Book 02, the live counter: every try goes to the sheet at once, and the picture follows."""

import ipywidgets
import numpy as np

from benchreckoner.bench.counting import Counting
from benchreckoner.bench.desk import sheet_path
from benchreckoner.bench.sheet import SheetError
from benchreckoner.bench.tries import (PLAN, Tally, counted, decide, decision_words, percent, plan_words, still_possible, tallies,
                                      tally_of)
from benchreckoner.lessons.your_bench import my_sheet
from benchreckoner.physics.sequential import FAULTY, clean_tries_to_cured, sequential_boundaries
from benchreckoner.show.counter import Counter, Key
from benchreckoner.show.picture import Axis, Band, Curve, Picture, Point
from benchreckoner.show.words import above, alert_area, card, row, text_box, trouble
from benchreckoner.units import read_percent

CONDITIONS = ("cold", "warm", "tilted", "knocked", "cable moved", "after an hour of playing")
_KEYS = (Key("c", "clean", "Clean try"), Key("f", "fault", "Fault"), Key("u", "back", "Take back"))
# The two rates and the two risks, each with its own box.
_PLAN = {"good_rate": "Cured: fails in at most", "bad_rate": "Not cured: fails in", "alarm_risk": "Risk of blaming a cured one",
         "miss_risk": "Risk of passing a bad one"}
_FIRST_LENGTH, _FIRST_HEIGHT = 80, 5  # room for one fault on the way, with the usual rates and risks
_NOTE = ("Each try counts like every other, and as knowing nothing of the one before: give the part time to cool, settle or be "
         "pressed anew. What holds cold says nothing about warm; each condition has its own tally. The 95 % limit is for a number of "
         "tries settled beforehand: while you watch, go by the decision.")


def path_picture(tally, plan):
    """The way of a tally between Wald's two lines.

    Parameters
    ----------
    tally : Tally
    plan : mapping
        As `sequential_boundaries` takes it.

    Returns
    -------
    Picture
        Its axes climb by doubling, so that they seldom change.
    """
    lines = sequential_boundaries(**plan)
    tries = tally.clean + tally.faults
    ahead = 0 if decide(tally, plan)[0] == FAULTY else clean_tries_to_cured(clean=tally.clean, faults=tally.faults, **plan)
    length = _doubled(_FIRST_LENGTH, max(1.1 * tries, tries + ahead))
    height = _doubled(_FIRST_HEIGHT, max(tally.faults + 0.5, lines.slope * length + lines.faulty))
    along = np.linspace(0, length, 9)
    cured, faulty = (np.clip(lines.slope * along + shift, -1, height) for shift in (-lines.cured, lines.faulty))
    x, y = np.array([*tally.path, tally.path[-1]], dtype=float).T
    says = f"{counted(tally)}; {still_possible(tally)}" if tries else "nothing tried yet"
    decision = decision_words(tally, plan)
    return Picture(
        title="Cured, not cured, or go on?",
        x=Axis("tries", "", 0, length), y=Axis("faults", "", 0, height),
        bands=(Band("cured from here down", along, np.full(9, -1.0), cured, "first"),
               Band("not cured from here up", along, faulty, np.full(9, float(height)), "second")),
        curves=(Curve("your tries", x, y, "heavy"),),
        points=(Point("now", tries, tally.faults),),
        sentence=f"{tally.part}, {tally.condition_tried} ({tally.stage}): {says}. {decision[:1].upper()}{decision[1:]}.",
        alt=("Faults against tries. A band along the foot, rising to the right, means cured; one along the top, rising in "
             "step with it, means not cured; the strip between them means go on. The tries so far run along the foot and "
             f"rise by one with each fault; they stand at {tries} tries and {tally.faults} faults. Decision: {decision}."))


def count_tries():
    """The counter for the sheet on the desk.

    Returns
    -------
    ipywidgets.VBox
    """
    return TryCounter().card


class TryCounter:
    """Which tally is meant, what the test is asked, and the buttons."""

    def __init__(self):
        self.counting = Counting(sheet_path())
        self.sheet, self.plan = my_sheet(), dict(PLAN)
        last = tallies(self.sheet)[-1:]
        part, condition, stage = (last[0].part, last[0].condition_tried, last[0].stage) if last else ("", "", self.sheet.stages[-1])
        known = dict.fromkeys([*(tally.condition_tried for tally in tallies(self.sheet)), *CONDITIONS])
        self.boxes = {
            "part": above(ipywidgets.Dropdown, "Part", options=[("choose", ""), *((name, name) for name in self.sheet.parts)],
                          value=part),
            "condition": above(ipywidgets.Combobox, "Condition tried", options=tuple(known), value=condition,
                               placeholder="such as cold", continuous_update=False),
            "stage": above(ipywidgets.Dropdown, "Stage", options=tuple(reversed(self.sheet.stages)), value=stage),
        }
        self.asked = {name: text_box(label, placeholder=f"such as {percent(PLAN[name])}") for name, label in _PLAN.items()}
        for name, box in self.asked.items():
            box.value = percent(PLAN[name])
            box.observe(self.ask, "value")
        for box in self.boxes.values():
            box.observe(self.turn, "value")
        self.error, self.words = alert_area(), ipywidgets.HTML()
        self.counter = Counter(_KEYS, label="Count the tries", on_press=self.press, numbers=self.numbers, picture=self.picture)
        self.tell_plan()
        self.card = card(row(*self.boxes.values()), self.counter,
                         ipywidgets.HTML("<strong>What the test is asked</strong>"), row(*self.asked.values()), self.error, self.words)

    @property
    def tally(self):
        """The tally that the boxes name, as the sheet had it last."""
        return tally_of(self.sheet, part=self.boxes["part"].value, condition_tried=self.boxes["condition"].value.strip(),
                        stage=self.boxes["stage"].value)

    def press(self, name):
        """Save one try, or take the last one back."""
        if name == "back":
            self.sheet, entry, fault = self.counting.take_back()
            return f"Taken back: one {'fault' if fault else 'clean try'} of {entry['part']}, {entry['condition_tried']}."
        tally = self.tally
        if not tally.part:
            raise ValueError("Part: nothing there yet, choose one")
        if not tally.condition_tried:
            raise ValueError('Condition tried: nothing there yet, write for example "cold"')
        try:
            self.sheet = self.counting.count(part=tally.part, condition_tried=tally.condition_tried, stage=tally.stage,
                                             fault=name == "fault")
        except SheetError as error:
            raise ValueError(error.what if error.entry.startswith("new") else str(error)) from error
        return f"Saved in {self.counting.path.name}: {counted(self.tally)}."

    def numbers(self):
        """What stands on the buttons."""
        tally = self.tally
        return {"clean": str(tally.clean), "fault": str(tally.faults)}

    def picture(self):
        """The picture of the tally that the boxes name."""
        tally = self.tally
        if not tally.part or not tally.condition_tried:
            tally = Tally(tally.part or "no part chosen", tally.condition_tried or "no condition", tally.stage)
        return path_picture(tally, self.plan)

    def turn(self, _):
        """Another tally was chosen: read it afresh."""
        try:
            self.sheet = my_sheet()
        except (ValueError, OSError) as error:
            self.counter.refresh(trouble=f"✗ {error}")
            return
        self.counter.refresh()

    def ask(self, _):
        """The test is asked something else; nonsense changes nothing."""
        try:
            self.plan = read_plan({name: box.value for name, box in self.asked.items()})
        except ValueError as error:
            self.error.value = trouble(f"{error}. The test goes on with what is written below")
            return
        self.error.value = ""
        self.tell_plan()
        self.counter.refresh()

    def tell_plan(self):
        """Say what the test is asked now, and what that takes for granted."""
        words = plan_words(self.plan)
        self.words.value = (f"<p>{words[:1].upper()}{words[1:]}. (About: a test ends a little beyond its line. Together the two risks "
                            f"never exceed their sum.) Settle this <em>before</em> you count, not when you see the tally.</p><p>{_NOTE}</p>")


def read_plan(texts):
    """The two rates and the two risks as typed.

    Parameters
    ----------
    texts : dict of str

    Returns
    -------
    dict of float

    Raises
    ------
    ValueError
        Names the box, says what is wrong and what to write.
    """
    plan = {}
    for name, label in _PLAN.items():
        plan[name] = read_percent(texts[name], label)
        if not 0.0001 <= plan[name] < 1:
            raise ValueError(f'{label}: must lie from 0.01 % to below 100 %, write for example "{percent(PLAN[name])}"')
    if not plan["good_rate"] < plan["bad_rate"]:
        raise ValueError(f'{_PLAN["bad_rate"]}: must be more than what counts as cured, {percent(plan["good_rate"])}; '
                         f'write for example "{percent(min(0.9, 10 * plan["good_rate"]))}"')
    if not plan["alarm_risk"] + plan["miss_risk"] < 1:
        raise ValueError(f'{_PLAN["miss_risk"]}: the two risks must stay below 100 % together; write for example "5 %" for each')
    return plan


def _doubled(first, wanted):
    """The first of first, twice first, and so on that holds what is wanted."""
    while first < wanted:
        first *= 2
    return first
