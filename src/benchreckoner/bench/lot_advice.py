"""Advice at the bench: test the next part, replace the rest or leave the rest, from counts, minutes and prices as typed."""

import re
from dataclasses import dataclass, replace

import numpy as np

from benchreckoner.physics.lots import chance_next_is_bad, chances_of_bad, next_step, work_cost
from benchreckoner.units import Q, read_percent, read_quantity, show, tidy

OTHER_OPINIONS = (0.1, 0.9)  # what a hopeful and a gloomy colleague would have expected
_NEARLY = 0.05  # two costs this near are not worth a quarrel
_MOST = 500  # parts: more than any machine of these books holds
_PRICE = re.compile(r"([^\d\s.,+-]{1,3})?\s*(\d+(?:[.,]\d+)?)\s*([^\d\s.,+-]{1,5})?")
_ACTS = {"test": "test the next one", "replace": "replace the rest", "leave": "leave the rest in"}


@dataclass(frozen=True)
class LotPlan:
    """Counts so far, what each act costs in the reader's own time, and the opinion held before the first test."""

    tested: int
    bad: int
    untested: int
    test: Q
    replace: Q
    miss: Q
    expected_share: float
    weight: float

    def after(self, bad):
        """The plan with one more tested, found bad or sound."""
        return replace(self, tested=self.tested + 1, bad=self.bad + bool(bad), untested=self.untested - 1)

    @property
    def opinion(self):
        """What the laws of a lot want to know."""
        return {"tested": self.tested, "bad": self.bad, "expected_share": self.expected_share, "weight": self.weight}

    @property
    def step(self):
        """What to do next, with the three costs."""
        return next_step(**self.opinion, untested=self.untested, test_cost=self.test, replace_cost=self.replace,
                         miss_cost=self.miss)


def read_plan(entries):
    """Read what was typed.

    Parameters
    ----------
    entries : dict of str to str
        ``tested``, ``bad``, ``untested``: counts; ``test_time``, ``replace_time``, ``pad_time``, ``miss_time``: times with
        unit; ``price``, ``hour``: prices in one currency; ``pad_risk``, ``expected``: per cent; ``weight``: a number.

    Returns
    -------
    LotPlan

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.
    """
    tested, bad, untested = (_count(entries[key], name) for key, name in
                             (("tested", "Tested"), ("bad", "Bad"), ("untested", "Untested")))
    if bad > tested:
        raise ValueError(f"Bad: {bad} bad of {tested} tested cannot be; write at most {tested}")
    times = {key: _time(entries[key], name) for key, name in
             (("test_time", "Time to test"), ("replace_time", "Time to replace"), ("pad_time", "Time to mend a pad"),
              ("miss_time", "If one stays in"))}
    (price, currency), (hour, hours_currency) = read_price(entries["price"], "Price"), read_price(entries["hour"], "An hour of yours")
    if currency != hours_currency:
        raise ValueError(f"Price: is in \"{currency}\" and an hour of yours in \"{hours_currency}\"; write both in one currency")
    if hour == 0:
        raise ValueError("An hour of yours: must be worth something, write for example \"12 €\"")
    risk, expected = read_percent(entries["pad_risk"], "Risk to a pad"), read_percent(entries["expected"], "Expected bad")
    if risk > 1:
        raise ValueError("Risk to a pad: must be at most 100 %, write for example \"1 %\"")
    if not 0 < expected < 1:
        raise ValueError("Expected bad: must lie between 0 and 100 %, write for example \"50 %\"")
    pad = {"pad_risk": risk, "pad_time": times["pad_time"]}
    return LotPlan(tested, bad, untested, work_cost(time=times["test_time"], **pad),
                   work_cost(time=times["replace_time"], price_time=Q(60 * price / hour, "min"), **pad), times["miss_time"],
                   expected, _weight(entries["weight"]))


def read_price(text, name):
    """Read a price with its currency, such as ``0.40 €`` or ``£0,40``.

    Parameters
    ----------
    text : str
    name : str
        What to call the entry in an error.

    Returns
    -------
    tuple of (float, str)
        The amount and the currency as typed.

    Raises
    ------
    ValueError
        Names the entry and shows what to write.

    Examples
    --------
    >>> read_price("0,40 €", "Price")
    (0.4, '€')
    """
    found = _PRICE.fullmatch(tidy(text))
    if not found or bool(found[1]) == bool(found[3]):
        raise ValueError(f"{name}: cannot read \"{text.strip()}\" as a price with its currency, write for example \"0.40 €\"")
    return float(found[2].replace(",", ".")), found[1] or found[3]


def likely_span(chances):
    """From how many to how many bad ones hold 90 % of the chances.

    Parameters
    ----------
    chances : array
        Of none, one, and so on.

    Returns
    -------
    tuple of (int, int)

    Examples
    --------
    >>> likely_span([0.02, 0.9, 0.08])
    (1, 2)
    """
    sums = np.cumsum(chances)
    return int(np.argmax(sums >= 0.05)), int(np.argmax(sums >= 0.95 - 1e-12))


def advice(plan):
    """What to do next and why.

    Parameters
    ----------
    plan : LotPlan

    Returns
    -------
    tuple of str
        Plain sentences, the advice first.
    """
    if not plan.untested:
        return ("Nothing is left untested.",)
    rest = "the last one" if plan.untested == 1 else f"the other {plan.untested}"
    step = plan.step
    first = {"test": "Test the next one.", "replace": f"Stop testing. Replace {rest}.", "leave": f"Stop testing. Leave {rest} in."}
    costs = {act: float(getattr(step, act).m_as("min")) for act in _ACTS}
    lines = [first[step.step],
             "To be expected from here, in your own time: " + "; ".join(
                 f"{words} {show(getattr(step, act), 'min', digits=2)}" for act, words in _ACTS.items()) + "."]
    near = [_ACTS[act] for act in _ACTS if act != step.step and costs[act] <= costs[step.step] * (1 + _NEARLY)]
    if near:
        lines.append(f"To {' or to '.join(near)} costs nearly the same: choose by your hands and your parts drawer.")
    low, high = likely_span(chances_of_bad(**plan.opinion, untested=plan.untested))
    lines.append(f"The chance that the next one is bad is {100 * chance_next_is_bad(**plan.opinion):.0f} %."
                 + (f" Of {rest}, {low} to {high} bad ones hold at least 90 %." if plan.untested > 1 else ""))
    if step.step == "test" and plan.untested > 1:
        lines.append(f"If it is bad: {_then(plan.after(True))}. If it is sound: {_then(plan.after(False))}.")
    return (*lines, _others(plan))


def _then(plan):
    return {"test": "test one more", "replace": "replace the rest", "leave": "leave the rest in"}[plan.step.step]


def _others(plan):
    """Whether somebody with another opinion beforehand would do otherwise."""
    mine = plan.step.step
    found = [(share, replace(plan, expected_share=share).step.step) for share in OTHER_OPINIONS]
    differing = [f"a colleague who expected {100 * share:.0f} % bad would {_ACTS[step]}" for share, step in found if step != mine]
    if not differing:
        return "The opinion beforehand hardly matters here: colleagues who expected 10 % bad or 90 % bad would do the same."
    return f"The opinion beforehand matters here: {', '.join(differing)}. Ask how good yours is."


def _count(text, name):
    if not re.fullmatch(r"\d{1,3}", text.strip()) or int(text) > _MOST:
        raise ValueError(f"{name}: write a whole number from 0 to {_MOST}, for example \"5\", not \"{text.strip()}\"")
    return int(text)


def _time(text, name):
    time = read_quantity(text, "min", name).quantity.to("min")
    if time.magnitude < 0:
        raise ValueError(f"{name}: must be zero or more, write for example \"4 min\"")
    return time


def _weight(text):
    if not re.fullmatch(r"\d{1,3}(?:[.,]\d+)?", text.strip()) or not float(text.replace(",", ".")) > 0:
        raise ValueError(f"Worth of that opinion: write how many tested parts it is worth, above 0, for example \"2\", "
                         f"not \"{text.strip()}\"")
    return float(text.replace(",", "."))
