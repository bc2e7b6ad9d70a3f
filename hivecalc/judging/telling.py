"""What is said of an answer: slips ranked and named, what tells them apart, where to begin."""

from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from hivecalc.derivation import Dimension, title
from hivecalc.judging.sheet import STEPS_BACK, Candidate
from hivecalc.judging.verdicts import NamedSlip

MOST_SLIPS: Final = 3
EXACTLY: Final = 8
"""How much more a slip counts that gives the very answer, not only its rounding.

Enough for the rarest of them to stand before the commonest of the others.
"""
NO_SLIP: Final = "Not yet: this is not the value, and no known slip gives it."
SLIP_MESSAGE: Final = "This is what you would get if"
_TRACES: Final = {
    "tape": "did you read it off a tape",
    "writing": "did you write it in another way first",
}


def named_slips(matches: Iterable[Candidate], answer: Fraction) -> tuple[NamedSlip, ...]:
    """At most three slips, each name once: those of most weight, the likeliest way first."""
    by_name: dict[str, list[Candidate]] = {}
    for candidate in matches:
        by_name.setdefault(candidate.wrong.slip.name, []).append(candidate)
    weights = {n: [_likelihood(c, answer) for c in same] for n, same in by_name.items()}
    chosen = sorted(by_name, key=lambda n: (-sum(weights[n]), n))[:MOST_SLIPS]
    chosen.sort(key=lambda n: -max(weights[n]))
    return tuple(_named(by_name[n]) for n in chosen)


def _likelihood(candidate: Candidate, answer: Fraction) -> int:
    """How a slip ranks: the commoner before the rarer, here before a step back, exact first."""
    nearness = 1 << (STEPS_BACK - candidate.steps_back)
    exactness = EXACTLY if answer == candidate.value else 1
    return candidate.wrong.slip.weight * nearness * exactness


def _named(same: list[Candidate]) -> NamedSlip:
    first = min(same, key=lambda c: c.steps_back)
    wrong = first.wrong
    where = f", at the {title(wrong.step)}, " if first.steps_back else " "
    gives = dict.fromkeys(c.wrong.gives for c in same if c.wrong.step == wrong.step)
    return NamedSlip(
        wrong.slip.name,
        wrong.slip.family,
        wrong.step,
        f"{SLIP_MESSAGE}{where}{', or if '.join(gives)}.",
        wrong.question,
        wrong.slip.practice,
        f"{title(wrong.step)}: {wrong.working}",
    )


def slip_message(found: Iterable[NamedSlip]) -> str:
    """The sentences of slips that give one answer, as one text.

    >>> slip_message([NamedSlip("", "", "", f"{SLIP_MESSAGE} {s}.", "", "", "") for s in "ab"])
    'This is what you would get if a. Or if b.'
    """
    first, *others = (slip.sentence for slip in found)
    return first + "".join(f" Or if{s.removeprefix(SLIP_MESSAGE)}" for s in others)


def tells_apart(found: Iterable[NamedSlip]) -> str:
    """What in a learner's own working tells which of some slips it was; empty where nothing does.

    >>> added = NamedSlip("", "rule", "", "", "", "", "way in: 3 + 1 = 4")
    >>> misread = NamedSlip("", "tape", "", "", "", "", "way in: 3 read as 4")
    >>> tells_apart([added, misread])
    'Your own working tells which: is there a line like “way in: 3 + 1 = 4”, or did you read it \
off a tape?'

    The working of a slip on the tape or in writing is not told, as the right value stands in it.
    """
    lines = [f"“{slip.working}”" for slip in found if slip.family not in _TRACES]
    traces = [_TRACES[slip.family] for slip in found if slip.family in _TRACES]
    like = [f"is there a line like {' or '.join(dict.fromkeys(lines))}"] if lines else []
    ways = [*like, *dict.fromkeys(traces)]
    if len(set(lines)) + len(set(traces)) < 2:  # noqa: PLR2004 - two of a kind, or none to choose
        return ""
    return f"Your own working tells which: {', or '.join(ways)}?"


def first_question(first: Dimension) -> str:
    """The question that sends a learner to the first step to look at."""
    name = title(first.name)
    if len(first.inputs) == 1:
        return f"Begin with the {name}: which one size gives it?"
    return (
        f"Begin with the {name}: which sizes make it, which are added and which taken off, and "
        "does any of them count twice?"
    )
