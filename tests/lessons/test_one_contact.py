"""Lessons on one contact: pictures, goals, guesses, exercises, and the pairs kept beside the sheet."""

import re

import numpy as np
import pytest
from fair import at, check_fair
from scipy.optimize import brentq

from benchreckoner import project
from benchreckoner.bench.fits import fit_force, read_pressed
from benchreckoner.lessons import one_contact, one_contact_force, one_contact_practice
from benchreckoner.lessons.one_contact_force import force_form, slope_picture, standing
from benchreckoner.show.declare import corners
from benchreckoner.show.live import outline
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PICTURES = [one_contact.SPOT_AND_FILM, one_contact.PRESS_HARDER, one_contact.METER_THAT_MENDS]
GUESSES = [one_contact.guess_spot, one_contact.guess_press, one_contact.guess_two_meters, one_contact.guess_dry_beep,
           one_contact.guess_sulphide]
PROBLEMS = [one_contact_practice._spot, one_contact_practice._two_meters, one_contact_practice._press, one_contact_practice._slope]


def asked(make):
    """A guess, caught on its way into the widget."""
    caught = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(one_contact, "choice_guess", lambda guess, **_: caught.append(guess))
        make()
    return caught[0]


@pytest.mark.parametrize("declared", PICTURES, ids=lambda declared: declared.key)
def test_pictures_at_every_corner(declared):
    first = outline(declared.at(declared.start))
    for _, picture in corners(declared):
        assert outline(picture) == first and picture.points[0].drawn


@pytest.mark.parametrize("declared", PICTURES, ids=lambda declared: declared.key)
def test_every_step_of_each_slider_is_drawn(declared):
    for slider in declared.sliders:
        for step in slider.steps:
            assert at(declared, **{slider.name: step}).points[0].drawn


def test_a_published_spot_and_its_film():
    """P16: a spot of 10 micrometres with a film of 1e-12 ohm square metres has 3.1831 mohm of film."""
    metal, film = one_contact.metal_and_film(radius=Q(10, "um"), patch=Q(1, "ohm"))
    assert film.m_as("mohm") == pytest.approx(3.1831, rel=1e-4)
    assert metal.m_as("mohm") == pytest.approx(0.1149e-6 / (2 * 10e-6) * 1e3)


def test_the_goal_of_the_spot_can_be_met():
    """By hand: rho / 2a = sigma / (pi a^2) at a = 2 sigma / (pi rho) = 5.54 micrometres."""
    steps = np.array(one_contact.SPOT_AND_FILM.sliders[0].steps)
    nearest = float(steps[np.argmin(np.abs(np.log(steps / 5.54e-6)))])
    metal, film = map(float, re.findall(r"([\d.]+) mΩ to (?:squeeze|get)",
                                        at(one_contact.SPOT_AND_FILM, radius=nearest, patch=1).sentence))
    assert metal == pytest.approx(film, rel=0.02)


def test_the_goal_of_the_force_can_be_met():
    """Second route (scipy's root finder, bronze by hand): 0.416 N bring 10 ohm a square micrometre under 50 mohm."""
    def above(force):
        return 11.49e-8 * np.sqrt(np.pi * 1.8e9 / (4 * force)) + 1e-11 * 1.8e9 / force - 0.05

    least = brentq(above, 0.01, 5)
    assert least == pytest.approx(0.416, abs=0.001)
    steps = [step for step in one_contact.PRESS_HARDER.sliders[0].steps
             if at(one_contact.PRESS_HARDER, force=step, patch=10).points[0].y < 0.05]
    assert least < steps[0] < 1.06 * least
    assert at(one_contact.PRESS_HARDER, force=steps[0], patch=10).sentence.startswith("430 mN (44 g)")


def test_published_bronze_stands_on_the_clean_line():
    """P14: 0.5 N on bronze of 11.5e-8 ohm m leaves 6.1150 mohm; ours has 11.49e-8."""
    metal, _ = one_contact.pressed(force=Q(0.5, "N"), patch=Q(1, "ohm"))
    assert metal.m_as("mohm") == pytest.approx(6.1150 * 11.49 / 11.5, rel=1e-4)


def test_the_ball_ends_where_its_metal_gives_way():
    """0.4 of the hardness: (0.4 pi 1.8e9)^3 (3e-3 / (4 x 62.19e9))^2 = 1.68 N by hand."""
    ball = next(curve for curve in at(one_contact.PRESS_HARDER).curves if curve.name.startswith("smooth"))
    drawn = np.isfinite(ball.y)
    assert ball.x[drawn].max() < 1.684 < ball.x[~drawn].min() < 1.8
    slope = np.polyfit(np.log(ball.x[drawn]), np.log(ball.y[drawn]), 1)[0]
    assert slope == pytest.approx(-1 / 3)


def test_the_goal_of_the_meter_can_be_met_and_20_mv_change_nothing():
    """Check value P22."""
    strong, faint = at(one_contact.METER_THAT_MENDS, source=3), at(one_contact.METER_THAT_MENDS, source=0.02)
    assert strong.points[0].y == pytest.approx(111.11, rel=1e-3) and "111 Ω" in strong.sentence
    assert faint.points[0].y == 10_000 and "the film holds" in faint.sentence
    steps = one_contact.METER_THAT_MENDS.sliders[0].steps
    assert ["111 Ω" in at(one_contact.METER_THAT_MENDS, source=step).sentence for step in steps].count(True) == 1


@pytest.mark.parametrize(("series", "breakdown", "place"), [(1000, 1, 1.1), (10000, 1, 2), (100000, 1, np.nan), (100000, 0.3, 3.3)])
def test_where_the_film_breaks(series, breakdown, place):
    """The film's share is 10 kilohm over all: by hand."""
    limit = at(one_contact.METER_THAT_MENDS, series=series, breakdown=breakdown).limits[0].value
    assert limit == pytest.approx(place, nan_ok=True)


def test_numbers_in_the_guesses_hold():
    answers = {make.__name__: next(choice for choice in asked(make).choices if choice.right) for make in GUESSES}
    # By hand: 0.5 N / 1.8e9 Pa over 16 mm2.
    assert f"{100 * 0.5 / 1.8e9 / 16e-6:.1g} %" in answers["guess_spot"].answer
    assert "0.71" in answers["guess_press"].answer and f"{2 ** (-1 / 3):.2f}" in answers["guess_press"].answer
    assert "51 g" in asked(one_contact.guess_spot).question and round(0.5 / 9.80665 * 1000) == 51


@pytest.mark.parametrize("make", GUESSES, ids=lambda make: make.__name__)
def test_a_guess_can_be_asked(make):
    assert make().children


def test_our_sentences_pass_our_own_checks():
    caught = {}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(one_contact, "say_it", lambda *_, **given: caught.update(given))
        one_contact.say_why_no_beep()
    assert isinstance(caught["checks"], SayChecks) and all(met for _, met, _ in look_through(caught["ours"], caught["checks"]))


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(20))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    rng = np.random.default_rng
    spot = one_contact_practice._spot(rng(seed))
    radius, bronze = (float(spot.given[place][1].split()[0]) for place in (0, 2))
    patch = read_quantity(spot.given[1][1], "ohm").quantity.m_as("ohm")
    assert spot.right(bronze / (2 * radius) + patch / (np.pi * radius**2))
    assert float(spot.steps[1].value_text.split()[0]) == pytest.approx(np.pi * radius**2, rel=1e-3)
    volts, series = (read_quantity(text, unit).quantity.m_as(unit) for (_, text), unit in
                     zip(one_contact_practice._two_meters(rng(seed)).given, ("V", "ohm")))
    assert one_contact_practice._two_meters(rng(seed)).right(0.3 * series / (volts - 0.3))
    slope = one_contact_practice._slope(rng(seed))
    (light, first), (heavy, second) = ((float(re.search(r"\d+", name)[0]), read_quantity(text, "ohm").quantity.m_as("ohm"))
                                       for name, text in slope.given)
    assert slope.right(-np.polyfit(np.log([light, heavy]), np.log([first, second]), 1)[0])


@pytest.mark.parametrize("show", [one_contact_practice.spot, one_contact_practice.two_meters, one_contact_practice.mixed])
def test_an_exercise_can_be_shown(show):
    assert show(seed=3).children


def write(form, **texts):
    for name, text in texts.items():
        form.boxes[name].value = text
    form.save()


def press(form, rows, contact="head leaf"):
    for shown, ohms in rows:
        write(form, contact=contact, shown=shown, ohms=ohms)


def test_pairs_make_a_slope_with_its_picture():
    form = force_form()
    assert "No pair yet" in form.answered.value
    press(form, one_contact_force.EXAMPLE[:2])
    assert "3 different forces at least; there are 2 so far" in form.answered.value and "<img" not in form.answered.value
    press(form, one_contact_force.EXAMPLE[2:])
    assert "<img" in form.answered.value and "only 1/2 (metal that gives way) lies inside" in form.answered.value
    assert form.boxes["ohms"].value == "" and form.boxes["contact"].value == "head leaf"


def test_pairs_are_kept_beside_the_sheet_and_can_be_taken_back(desk):
    press(force_form(), one_contact_force.EXAMPLE)
    again = force_form()
    assert "5 pairs" in again.answered.value
    again.undo()
    assert "Taken back: head leaf, 400 g, 7.0 mohm." in again.said.value and "4 pairs" in again.answered.value
    assert "4 pairs" in force_form().answered.value
    for _ in range(4):
        again.undo()
    again.undo()
    assert "nothing to take back" in again.error.value and "No pair yet" in force_form().answered.value
    assert desk.read_text(encoding="utf-8") == (project.CASES / "record_player.toml").read_text(encoding="utf-8")


def test_two_contacts_are_fitted_apart():
    form = force_form()
    press(form, one_contact_force.EXAMPLE)
    press(form, [("50 g", "90 ohm"), ("100 g", "45 ohm"), ("200 g", "22.5 ohm")], contact="mute <b>leaf</b>")
    assert "3 pairs" in form.answered.value and "&lt;b&gt;" in form.answered.value and "<b>leaf" not in form.answered.value


@pytest.mark.parametrize(("box", "text", "told"), [("shown", "much", "Force"), ("ohms", "12", "no unit"), ("contact", "", "Contact"),
                                                   ("meter", "1 apple", "Meter"), ("shown", "0 g", "above zero")])
def test_nonsense_is_told_and_keeps_nothing(box, text, told):
    form = force_form()
    write(form, **{"contact": "head leaf", "shown": "50 g", "ohms": "12 mohm", box: text})
    assert told in form.error.value and form.boxes[box].value == text and "No pair yet" in force_form().answered.value


@pytest.mark.parametrize("entry", ['contact = "leaf"', 'contact = 3\nshown = 5\nohms = "x"', 'taken_back = true',
                                   'contact = "leaf"\nshown = "50 g"\nohms = "nan mohm"', 'odd = [1]'])
def test_a_store_changed_by_hand_is_told_and_can_be_mended(desk, entry):
    store = desk.with_suffix(".guesses.toml")
    store.write_text(f"version = 1\n[[pair.one-contact]]\n{entry}\n", encoding="utf-8")
    form = force_form()
    if "No pair yet" not in form.answered.value:
        assert "Not yet" in form.answered.value
        form.undo()
    press(form, one_contact_force.EXAMPLE)
    assert "5 pairs" in form.answered.value


def test_only_what_stands_counts():
    first, second = {"contact": "leaf", "shown": "1 g", "ohms": "1 ohm"}, {"contact": "leaf", "shown": "2 g", "ohms": "1 ohm"}
    back = {"taken_back": True}
    assert standing([first, second, back]) == [first] and standing([back, first]) == [first]
    assert standing([first, back, second, {"date": "today", **first}]) == [second, first]


@pytest.mark.parametrize("grams", [(1, 2, 3), (10, 10, 100, 1000, 5000), (99.9, 100, 100.1), tuple(range(10, 500, 20))])
@pytest.mark.parametrize("ohms", [1e-3, 1.0, 1e6])
def test_the_own_picture_holds_every_point(grams, ohms):
    pairs = [read_pressed(shown=f"{force} g", ohms=f"{ohms * 10 / force:.3e} ohm") for force in grams]
    picture = slope_picture(fit_force(pairs), "leaf")
    assert len(picture.points) == len(grams) and all(point.drawn for point in picture.points)
    yours = next(curve for curve in picture.curves if curve.name == "your line")
    assert np.interp(np.log(pairs[0].force.plain), np.log(yours.x), np.log(yours.y)) == pytest.approx(np.log(pairs[0].ohms.plain), abs=0.05)
