"""What a sheet's readings say, as lines of text and as rows for other programs."""

from benchreckoner.bench.chain import hidden_joint
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import BY_CURRENT, WORST_FIRST, judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.reasons import mark_words, sentence, sureness, told, won_back
from benchreckoner.bench.signal_levels import LOSS
from benchreckoner.bench.tries import trial_lines
from benchreckoner.bench.uncertain import Known, propagate
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.physics.levels import voltage_ratio
from benchreckoner.units import Q, show, show_exact, write_plain

_LARGE_JOINT = 0.5  # ohm: where a spring is bad (common practice), so that missing it would matter
_NOTHING = ("Nothing to judge yet: enter the supply's volts, the current and the voltage drops along the feed chain, "
            "all under one condition.")


def findings(sheet, judgements=None):
    """What the sheet says, one sentence a line, the latest stage first.

    Parameters
    ----------
    sheet : Sheet
    judgements : pair of tuples, optional
        What `judge_sheet` and `judge_parts` gave, where that is known already.

    Returns
    -------
    list of str
    """
    reports, parts = judgements or (judge_sheet(sheet), judge_parts(sheet))
    if not reports and not parts:
        return [_NOTHING]
    lines = chain_lines(reports)
    for report in parts:
        lines += [f"{sentence(report.stage)[:-1]}, {report.room}: {line}" for line in _part_lines(report)]
    return lines + [one.sentence() for one in comparisons(reports)
                    if one.real and one.condition == _main_condition(reports, one.after_stage)
                    ] + [one.sentence() for one in comparisons(parts) if one.real]


def chain_lines(reports):
    """What the feed chain says, one sentence a line, the latest stage first.

    Parameters
    ----------
    reports : tuple of StageReport

    Returns
    -------
    list of str
    """
    return [f"{sentence(report.stage)[:-1]}: {line}" for report in reports for line in _stage_lines(report)]


def text_report(sheet):
    """The whole judgement as text.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    reports, parts = judge_sheet(sheet), judge_parts(sheet)
    lines = [sheet.machine.name, ""] + findings(sheet, (reports, parts)) + trial_lines(sheet)
    for report in reports:
        for chain in report.chains:
            lines += ["", f"{report.stage}, {chain.chain.condition}"]
            lines += [f"  {line}" for line in _chain_lines(chain)]
    for report in parts:
        lines += ["", f"{report.stage}, {report.room}"]
        lines += [f"  {part_name(one)}, {one.condition}: {one.verdict.word}. {one.reason} {one.next}".rstrip()
                  for one in (*report.judgements, *report.findings)]
    lines += ["", "± holds about 95 % of what the true value could be (expanded uncertainty, k = 2).", ""]
    return "\n".join(lines)


def json_report(sheet):
    """Every judgement as a row of strings, the latest stage first, the worst first within it.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    list of dict
        With `part, quantity, stage, condition, value, uncertainty, limit,
        verdict, reason, next`; values are strings that pint reads, empty where
        there is none; a change of level stands as the share of the volts that
        it leaves. The uncertainty is expanded, k = 2. What concerns the
        whole chain stands behind its bad and doubtful links.
    """
    reports = {report.stage: report for report in judge_sheet(sheet)}
    parts = judge_parts(sheet)
    rows = []
    for stage in reversed(sheet.stages):
        found = [one for chain in reports[stage].chains for one in chain.findings] if stage in reports else []
        here = [reports[stage]] if stage in reports else []
        here += [report for report in parts if report.stage == stage]
        found += [one for report in parts if report.stage == stage for one in report.findings]
        judged = [one for report in here for one in report.judgements]
        # Sorting keeps what is equal in its order: findings first, then the feed chain, then the other parts.
        rows += [_row(one) for one in sorted([*found, *judged], key=lambda one: (WORST_FIRST.index(one.verdict.word), -one.won_back))]
    return rows


def part_name(one):
    """A part with what was judged of it, where that is not its ohms."""
    return one.part if one.quantity == "resistance" else f"{one.part}, {one.quantity}"


def guilty_sentence(chain):
    """Which link is guilty, how sure, and what mending it would give.

    Parameters
    ----------
    chain : ChainReport

    Returns
    -------
    str
        Empty if no link is bad. Where readings contradict each other, neither
        sureness nor gain is claimed.
    """
    one = chain.guilty
    if one is None:
        return ""
    limits = (f"{told(one.known)}, where a sound one has up to {show_exact(one.band.sound_up_to, 'ohm')} and "
              f"{show_exact(one.band.bad_from, 'ohm')} is bad (limits: {mark_words(one.band.mark)})")
    if chain.contradicted:
        return f"if the readings hold, {one.part} is the guilty link: {limits}; but they contradict each other, see below."
    mended = ""
    if one.gain is not None:
        mended = (f" Mended to {show_exact(one.band.sound_up_to, 'ohm')}, it would give "
                  f"{won_back(one.gain, chain.chain.standing)}.")
    return f"{one.part} is the guilty link: {limits}; {sureness(one.verdict.probability)}.{mended}"


def chain_sentence(chain):
    """One sentence for a chain: guilty, doubtful, untold or sound."""
    if chain.guilty:
        return guilty_sentence(chain)
    words = {word: [one for one in chain.judgements if one.verdict.word == word] for word in (BAD, DOUBTFUL, UNTOLD)}
    untold = [one for one in words[UNTOLD] if not one.no_band]
    parts = []
    if words[BAD]:
        parts.append(f"{words[BAD][0].part} is bad, but not in the motor's own path" if words[BAD][0].kind != "current meter"
                     else f"the current meter in circuit ({words[BAD][0].part}) takes so much that it disturbs the reading: "
                          "use a range with less resistance")
    if words[DOUBTFUL]:
        names = ", ".join(f"{one.part} ({told(one.known)})" for one in words[DOUBTFUL])
        parts.append(f"no link that could be told is bad; doubtful: {names}")
    if untold:
        first = untold[0]
        parts.append(f"can't tell yet: {', '.join(one.part for one in untold)}. {first.next or first.reason}".rstrip(" ."))
    if parts:
        return "; ".join(parts) + "."
    return _all_sound(chain)


def _all_sound(chain):
    """What may be said when every link that was read is sound."""
    if not chain.chain.drops:
        return "no link has a voltage drop read here, so nothing is known of the links."
    if any(one.quantity != BY_CURRENT for one in chain.findings):
        return "every link that was read is sound, but the readings do not close: see the next line."
    hidden = hidden_joint(chain.chain)
    if hidden is None:
        return ("every link that was read is sound. Read the volts across the supply and across the motor too: "
                "only then can a joint that nobody listed show itself.")
    if hidden.m_as("ohm") > _LARGE_JOINT:
        return (f"every link that was read is sound, but a joint of up to {show(hidden, 'ohm', 2)} that nobody listed could "
                "hide in the uncertainty. Read once with the motor held (2 s at most), or on finer ranges.")
    return ("the feed chain is sound: every link is, and the drops account for the volts between supply and motor; "
            f"no joint above {show(hidden, 'ohm', 2)} can hide.")


def _stage_lines(report):
    main = report.main
    lines = [chain_sentence(main)] if main.judgements else []
    for chain in report.chains:
        lines += [f"{one.quantity}, {one.condition}: {one.reason} {one.next}" for one in chain.findings]
    return lines


def _chain_lines(chain):
    volts = chain.chain
    ends = [("supply off load", volts.off_voltage), ("supply", volts.loaded_voltage),
            ("motor", volts.motor_voltage), ("current", volts.current)]
    yield ", ".join(f"{name} {told(known)}" for name, known in ends if known is not None) or "no supply or motor volts read"
    for one in chain.judgements:
        gain = f" Won back: {won_back(one.gain, volts.standing)}." if one.gain else ""
        then = f" {one.next}" if one.next else ""
        yield f"{one.part}: {one.verdict.word}. {one.reason}{gain}{then}"
    for one in chain.findings:
        yield f"{one.quantity}: {one.reason} {one.next}"


def _part_lines(report):
    """What is not sound, a line each, then what is."""
    for one in report.judgements:
        if one.verdict.word != SOUND:
            yield f"{part_name(one)} ({one.condition}): {one.verdict.word}. {one.reason} {one.next}".rstrip()
    yield from (f"{one.quantity} ({one.condition}): {one.reason} {one.next}" for one in report.findings)
    sound = list(dict.fromkeys(part_name(one) for one in report.judgements if one.verdict.word == SOUND))
    if sound:
        yield f"sound by these readings: {'; '.join(sound)}."


def _main_condition(reports, stage):
    return next(report.main.chain.condition for report in reports if report.stage == stage)


def _share_left(one):
    """Decibels as the share of the volts that they leave, since a string of them is nothing that pint reads."""
    sign = -1 if one.quantity == LOSS else 1
    return propagate(lambda change: Q(voltage_ratio(level=Q(sign * change.m_as("dB"), "dB")), ""), "", change=one.known)


def _in_kelvin(known):
    """A temperature as pint reads it from a string: degrees Celsius have a zero of their own, which it refuses there."""
    return Known(known.number + 273.15, "K")


def _row(one):
    value = uncertainty = limit = ""
    if one.known is not None:
        known = _share_left(one) if one.known.unit == "dB" else _in_kelvin(one.known) if one.known.unit == "degC" else one.known
        value, uncertainty = (text.strip() for text in write_plain(known.value, known.expanded, known.unit))
    if one.band is not None and one.known is not None and one.band.unit == one.known.unit:
        edge = one.band.bad_from if one.verdict.word == BAD else one.band.sound_up_to
        limit = f"{edge.m_as(known.unit):.6g} {known.unit}"
    return {"part": one.part, "quantity": one.quantity, "stage": one.stage, "condition": one.condition,
            "value": value, "uncertainty": uncertainty, "limit": limit, "verdict": one.verdict.word,
            "reason": one.reason, "next": one.next}
