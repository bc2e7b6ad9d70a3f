"""A verdict: all that a page or a report says about one answer, the slips in it, the next step."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import Dimension, on_hive, title
from hivecalc.fractions_in_words import formula_steps, without_result
from hivecalc.hive import Hive
from hivecalc.judging.answer import TENTH_OF_MM, Entry, in_units
from hivecalc.judging.slips import LINE, SLIPS, Wrong
from hivecalc.length import Units, likely_meant

Judgement: TypeAlias = Literal[
    "right", "right_other_form", "right_carried", "slip", "unexplained", "unreadable"
]


MOST_SLIPS: Final = 3
SLIP_MESSAGE: Final = "This is what you would get if"
_FAMILIES: Final = {"rule": 0, "sums": 1, "tape": 2, "writing": 2}


@dataclass(frozen=True)
class NamedSlip:
    """A slip that gives the answer: its name, the step it would have happened at, what to say."""

    name: str
    family: str
    step: str
    sentence: str
    question: str
    practice: str
    trace: str


@dataclass(frozen=True)
class Verdict:
    """All that a page or a report says about one answer.

    value is the answer as read, in inches (a plain number for a ratio), None where it is
    unreadable. slips are at most three, the likeliest first, and tells_apart says how to know
    which. first_difference is the first step to look at, a dimension's name. carried_from is the
    earlier answer that a carried one rests on.
    """

    dimension: str
    answer: str
    verdict: Judgement
    message: str
    question: str = ""
    value: Fraction | None = None
    slips: tuple[NamedSlip, ...] = ()
    tells_apart: str = ""
    first_difference: str | None = None
    carried_from: str | None = None

    @property
    def right(self) -> bool:
        """Whether the answer counts as right."""
        return self.verdict.startswith("right")

    @property
    def carried(self) -> bool:
        """Whether the answer is right only for an earlier answer of the learner's."""
        return self.verdict == "right_carried"


def verdict_json(judged: Verdict) -> dict[str, object]:
    """Verdict for other programs, its keys in a fixed order.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import verdict
    >>> judged = verdict(demo_hive(), "bottom_board.front_rail_length", "15 7/8")
    >>> verdict_json(judged)["verdict"], verdict_json(judged)["slips"]
    ('slip', ['thickness_once'])
    """
    return {
        "schema": "hivecalc/1",
        "dimension": judged.dimension,
        "answer": judged.answer,
        "verdict": judged.verdict,
        "slips": [slip.name for slip in judged.slips],
        "message": judged.message,
        "first_difference": judged.first_difference,
        "carried": judged.carried,
    }


# ── slips, named ──────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Candidate:
    """A wrong answer to a size: the slip that gives it, what it comes to there, how far back it is.

    steps_back says how many steps before the size that is asked for the slip would stand.
    """

    wrong: Wrong
    value: Fraction
    steps_back: int = 0

    def gives(self, answer: Fraction) -> bool:
        """Whether it is the very answer, and not only something that rounds to it."""
        return abs(answer - self.value) <= TENTH_OF_MM


def named_slips(
    matches: Iterable[Candidate],
    answer: Fraction,
    units: Units = "inch",
    shown: Collection[str] = (),
) -> tuple[NamedSlip, ...]:
    """At most three slips, each name once, and none that nothing tells from a likelier one.

    Those that are shown, by name, stand first. Then slips of the rule that give the very value,
    those of the sum, and those of the tape and of writing; here before a step back, the commoner
    before the rarer. What meets the value by rounding only is told where none gives the value.
    """

    def rank(candidate: Candidate) -> tuple[bool, int, int, int, str]:
        slip, back = candidate.wrong.slip, candidate.steps_back
        return slip.name not in shown, _FAMILIES[slip.family], back, -slip.weight, slip.name

    ranked = sorted(matches, key=rank)
    ranked = [c for c in ranked if c.gives(answer)] or ranked
    best, apart = dict[str, Candidate](), dict[str, Candidate]()
    for candidate in ranked:
        best.setdefault(candidate.wrong.slip.name, candidate)
    for candidate in best.values():
        apart.setdefault(candidate.wrong.trace, candidate)
    return tuple(_named(c, ranked, units) for c in list(apart.values())[:MOST_SLIPS])


def _named(first: Candidate, ranked: Iterable[Candidate], units: Units) -> NamedSlip:
    wrong = first.wrong
    where = f", at the {title(wrong.step)}, " if first.steps_back else " "
    same = (c.wrong for c in ranked if c.wrong.slip is wrong.slip and c.wrong.step == wrong.step)
    gives = list(dict.fromkeys((wrong.gives, *(w.gives for w in same))))
    return named_slip(wrong, units, f"{SLIP_MESSAGE}{where}{', or if '.join(gives)}.")


def named_slip(wrong: Wrong, units: Units = "inch", sentence: str = "") -> NamedSlip:
    """A slip as a verdict names it."""
    slip = wrong.slip
    return NamedSlip(
        slip.name,
        slip.family,
        wrong.step,
        sentence or wrong.sentence,
        wrong.question,
        slip.to_practise(units),
        wrong.trace,
    )


def slip_message(found: Iterable[NamedSlip]) -> str:
    """The sentences of slips that give one answer, as one text."""
    first, *others = (slip.sentence for slip in found)
    return first + "".join(f" Or if{s.removeprefix(SLIP_MESSAGE)}" for s in others)


def tells_apart(found: Iterable[NamedSlip]) -> str:
    """What in a learner's own working tells which of some slips it was; empty where there is one.

    >>> traces = f"{LINE} “9 − 2”", f"{LINE} “9 + 2”", "was it 9"
    >>> tells_apart([NamedSlip(*"abcdef", trace) for trace in traces])
    'Your own working tells which: is there a line like “9 − 2”, or like “9 + 2”, or was it 9?'
    """
    first, *others = dict.fromkeys(slip.trace for slip in found)
    like = [f"like{t.removeprefix(LINE)}" if t.startswith(LINE) else t for t in others]
    told = ", or ".join((first, *(like if first.startswith(LINE) else others)))
    return f"Your own working tells which: {told}?" if others else ""


def slip_verdict(
    name: str, answer: str, value: Fraction | None, found: tuple[NamedSlip, ...]
) -> Verdict:
    """The verdict on an answer that these slips give, the likeliest first."""
    told, first = slip_message(found), found[0]
    return Verdict(
        name, answer, "slip", told, first.question, value, slips=found,
        tells_apart=tells_apart(found), first_difference=first.step,
    )  # fmt: skip


def space_left_out(entry: Entry, expected: Fraction, asked: Dimension) -> Verdict | None:
    """The verdict that asks whether 143/8 was meant to be 14 3/8, where that comes closer.

    >>> rail = DIMENSIONS.dimension("bottom_board.front_rail_length")
    >>> told = space_left_out(Entry("143/8", Fraction(143, 8), "inch"), Fraction(14), rail)
    >>> told.message, told.question
    ('143/8 reads as 17 7/8 in.', 'Did you mean 14 3/8 in?')
    """
    if asked.kind != "length" or expected <= 0:
        return None
    meant = likely_meant(entry.text, expected, entry.units)
    if meant is None:
        return None
    wrong = Wrong(SLIPS["space_forgotten"], asked.name, entry.value)
    asks = f"Did you mean {in_units(meant, entry.units)}?"
    named = replace(named_slip(wrong, entry.units), question=asks)
    read = f"{entry.text.strip()} reads as {in_units(entry.value, entry.units)}."
    return replace(
        slip_verdict(asked.name, entry.text, entry.value, (named,)), message=read, tells_apart=""
    )


# ── the step that helps ───────────────────────────────────────────────────────────────────────


def open_steps(hive: Hive, dimension: str, right: Collection[str] = ()) -> list[str]:
    """The first worked step that is not among the right ones, and its sum, without the result.

    >>> from hivecalc.hive import demo_hive
    >>> for line in open_steps(demo_hive(), "bottom_board.panel_width"):
    ...     print(line)
    opening width = hive width − 2 × stud thickness = 17 3/8 − 2 × 1 1/2 = ?
    First 2 × 1 1/2. Take the inches: 2 × 1 = 2.
    Take the halves as often: 2 × 1/2 = 2/2, which is 1.
    Together: 3 in.
    Then 17 3/8 − 3. Take the inches: 17 − 3 = ?

    No figure in it is still to be found. Empty for a size that was measured. Raises
    UnknownNameError.
    """
    steps = DIMENSIONS.steps(dimension, hive.measurements, units=hive.units)
    first = next((s for s in steps if s.dimension not in right), steps[-1] if steps else None)
    if first is None:
        return []
    found = values(hive)
    step = on_hive(DIMENSIONS.dimension(first.dimension), found)
    sizes = {p: found[n] for p, n in zip(step.parameters, step.inputs, strict=True)}
    head = " = ".join(dict.fromkeys((title(first.dimension), first.formula, first.numbers, "?")))
    return [head, *without_result(formula_steps(step.expression, sizes, hive.units))]
