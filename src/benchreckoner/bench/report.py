"""What a sheet's readings say, as lines of text and as rows for other programs."""

from benchreckoner.bench.chain import hidden_joint
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.reasons import mark_words, sentence, sureness, told, won_back
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.units import show, show_exact, write_plain

_LARGE_JOINT = 0.5  # ohm: where a spring is bad (common practice), so that missing it would matter
_NOTHING = ("Nothing to judge yet: enter the supply's volts, the current and the voltage drops along the feed chain, "
            "all under one condition.")


def findings(sheet):
    """What the sheet says, one sentence a line, the latest stage first.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    list of str
    """
    reports = judge_sheet(sheet)
    if not reports:
        return [_NOTHING]
    lines = []
    for report in reports:
        lines += [f"{sentence(report.stage)[:-1]}: {line}" for line in _stage_lines(report)]
    return lines + [one.sentence() for one in comparisons(reports)
                    if one.real and one.condition == _main_condition(reports, one.after_stage)]


def text_report(sheet):
    """The whole judgement as text.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    reports = judge_sheet(sheet)
    lines = [sheet.machine.name, ""] + findings(sheet)
    for report in reports:
        for chain in report.chains:
            lines += ["", f"{report.stage}, {chain.chain.condition}"]
            lines += [f"  {line}" for line in _chain_lines(chain)]
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
        there is none; the uncertainty is expanded, k = 2.
    """
    rows = []
    for report in judge_sheet(sheet):
        found = [one for chain in report.chains for one in chain.findings]
        judged = [one for chain in report.chains for one in chain.judgements]
        order = (BAD, DOUBTFUL, UNTOLD, SOUND)
        judged.sort(key=lambda one: (order.index(one.verdict.word), -one.won_back))
        rows += [_row(one) for one in found + judged]
    return rows


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
    if chain.findings:
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


def _main_condition(reports, stage):
    return next(report.main.chain.condition for report in reports if report.stage == stage)


def _row(one):
    value = uncertainty = limit = ""
    if one.known is not None:
        value, uncertainty = write_plain(one.known.value, one.known.expanded, one.known.unit)
    if one.band is not None:
        edge = one.band.bad_from if one.verdict.word == BAD else one.band.sound_up_to
        limit = f"{edge.m_as('ohm'):.6g} ohm"
    return {"part": one.part, "quantity": one.quantity, "stage": one.stage, "condition": one.condition,
            "value": value, "uncertainty": uncertainty, "limit": limit, "verdict": one.verdict.word,
            "reason": one.reason, "next": one.next}
