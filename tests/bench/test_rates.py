"""The verdict rule on simulated readings with known truth: how often it is wrong, and how often it sees.

Each rate is printed (run pytest with -s to see them).
"""

from simulate import EDGES, generator, sheet_of, sound_chain

from benchreckoner.bench.chain import remainder
from benchreckoner.bench.judge import CONTRADICTION, UNMEASURED, judge_sheet
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
