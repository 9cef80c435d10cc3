"""The verdict rule on simulated readings with known truth: how often it is wrong, and how often it sees.

Each rate is printed (run pytest with -s to see them).
"""

from copy import deepcopy

from simulate import EDGES, generator, sheet_of, sheet_of_both, sound_chain

from benchreckoner.bench.chain import remainder
from benchreckoner.bench.judge import BY_CURRENT, CONTRADICTION, UNMEASURED, judge_sheet
from benchreckoner.bench.verdict import BAD

CHAINS = 1000


def only_report(sheet):
    (stage,) = judge_sheet(sheet)
    (chain,) = [chain for chain in stage.chains if chain.chain.condition != "off"]
    return chain


def told(chain, quantity):
    return any(one.quantity == quantity for one in chain.findings)


def test_sound_chains_are_left_alone():
    rng = generator(20260)
    accused = closing = 0
    for _ in range(CHAINS):
        chain = only_report(sheet_of(sound_chain(rng), rng))
        accused += any(one.verdict.word == BAD for one in chain.judgements)
        closing += told(chain, UNMEASURED) or told(chain, CONTRADICTION)
    print(f"\n{CHAINS} sound chains: {accused} with a link called bad, {closing} with a false finding")
    assert accused <= 0.01 * CHAINS
    assert closing <= 0.05 * CHAINS


def told_by_current(sheet):
    return [one for stage in judge_sheet(sheet) for chain in stage.chains for one in chain.findings
            if one.quantity == BY_CURRENT or one.quantity == CONTRADICTION and "no current explains" in one.reason]


def test_sound_joints_read_twice_are_left_alone():
    rng = generator(20263)
    wrong = sum(bool(told_by_current(sheet_of_both(sound_chain(rng), rng))) for _ in range(CHAINS // 2))
    print(f"\n{CHAINS // 2} sound chains, held and playing: {wrong} with a joint that is said to differ")
    assert wrong <= 0.05 * CHAINS // 2


def test_a_joint_that_falls_to_half_is_told():
    """A bad contact: so many ohms playing, half of them held."""
    rng = generator(20264)
    seen = 0
    for _ in range(CHAINS // 4):
        truth = sound_chain(rng)
        victim = str(rng.choice([name for name in truth.links if truth.kinds[name] != "lead"] or list(truth.links)))
        playing = deepcopy(truth)
        truth.links[victim], playing.links[victim] = (times * EDGES[truth.kinds[victim]][1] for times in (1, 2))
        seen += any(victim in one.reason for one in told_by_current(sheet_of_both(truth, rng, playing=playing)))
    print(f"\n{CHAINS // 4} chains with a joint at half its ohms held: {seen} told of it")
    assert seen >= 0.95 * CHAINS // 4


def test_a_link_at_three_times_the_edge_of_bad_is_named():
    rng = generator(20261)
    named = 0
    for _ in range(CHAINS):
        truth = sound_chain(rng)
        victim = str(rng.choice(list(truth.links)))
        truth.links[victim] = 3 * EDGES[truth.kinds[victim]][1]
        guilty = only_report(sheet_of(truth, rng)).guilty
        named += guilty is not None and guilty.part == victim
    print(f"\n{CHAINS} chains with one bad link: {named} named it")
    assert named >= 0.95 * CHAINS


def test_a_hidden_joint_is_told():
    """Its drop is ten times the standard uncertainty of what the drops leave over."""
    rng = generator(20262)
    seen = 0
    for _ in range(CHAINS // 2):
        truth = sound_chain(rng)
        spread = remainder(only_report(sheet_of(truth, rng)).chain).number.std_dev
        truth.hidden = 10 * spread / truth.current
        seen += told(only_report(sheet_of(truth, rng)), UNMEASURED)
    print(f"\n{CHAINS // 2} chains with a hidden joint: {seen} told of it")
    assert seen >= 0.95 * CHAINS // 2
