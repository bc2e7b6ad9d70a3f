"""What the lesson on putting together says: each step, a frame pulled square, what is cut anew."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from fractions import Fraction
from html import escape
from math import sqrt
from typing import Final

from hivecalc.answers import Answers
from hivecalc.assembly import WHOLE, Step
from hivecalc.components import built, parts, values
from hivecalc.derivation import title
from hivecalc.drawing.frame import out_of_square
from hivecalc.drawing.in_space import in_space
from hivecalc.fit import mark
from hivecalc.hive import OPENINGS, Hive
from hivecalc.judging import Verdict
from hivecalc.length import MM, Units, by_the_tape, with_unit
from hivecalc.measuring import squareness
from hivecalc.pages.earlier import DONE
from hivecalc.pages.messages import message, table
from hivecalc.pages.outcomes import Outcome
from hivecalc.part import SIZES
from hivecalc.space import BOXES

FINE: Final = 4096
"""Parts of an inch to which a diagonal is worked out."""
YES, NO = "yes", "no"
AS_PLANNED: Final = "Your openings are as planned: nothing is cut otherwise."
NOT_MEASURED: Final = "No opening is typed yet, so all pieces are still as planned."


def step_told(hive: Hive, work: Sequence[Step], number: int, turn: int = 30) -> Outcome:
    """One step of putting together, counted from 1: its picture, and what is done in it."""
    step = work[number - 1]
    components = looked_at(hive, step)
    shown, new = seen(work[:number], components)
    drawn = in_space(
        values(hive),
        components,
        turn=turn,
        shown=shown,
        new=new,
        units=hive.units,
        name=hive.name,
    )
    head = f"Step {number} of {len(work)}: {step.title}"
    return Outcome(f'<div class="hc" role="status"><p><b>{head}</b></p></div>', drawn, _told(step))


def looked_at(hive: Hive, step: Step) -> tuple[str, ...]:
    """The components that the picture of a step shows: a sleeve with its box, in the end all."""
    if step.component == WHOLE:
        return built(hive)
    own = BOXES if step.component in BOXES else (step.component,)
    return tuple(c for c in own if c in built(hive))


def seen(
    work: Sequence[Step], components: Collection[str]
) -> tuple[Collection[str], Collection[str]]:
    """What the picture of the last of some steps shows, and what is new in it.

    The pieces so far, by name. When the hive is set up, the parts of what is set up; all of it
    before that.
    """
    *_, step = work
    pieces = [piece for each in work for piece in each.pieces]
    if step.component != WHOLE:
        there = [p.name for p in pieces if p.component in components and p.name in step.shown]
        return there, [*(p.name for p in step.pieces), *step.puts]
    is_set = [component for each in work for component in each.sets]
    parts_of = {f"{p.component}.{p.part}": p.component for p in pieces} | {"box.wall": "box"}
    there = [part for part, component in parts_of.items() if component in is_set or not is_set]
    return there, [p.name for p in pieces if p.component in step.sets]


def _told(step: Step) -> str:
    """What is done in a step, what holds it, why now, how it is checked, what can hurt."""
    blocks = [
        _listed("Do", "ol", step.do),
        _listed("What holds", "ul", step.holds),
        _paragraph("Why now", step.why),
        _paragraph("Check", step.check),
        _listed("Take care", "ul", [caution.text for caution in step.cautions]),
    ]
    return f'<div class="hc">{"".join(blocks)}</div>'


def _listed(lead: str, tag: str, texts: Sequence[str]) -> str:
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f"<p><b>{lead}</b></p><{tag}>{items}</{tag}>" if texts else ""


def _paragraph(lead: str, text: str) -> str:
    return f"<p><b>{lead}.</b> {escape(text)}</p>"


def is_done(answers: Answers, key: str) -> bool:
    """Whether a step was ticked, and not taken back since."""
    last = answers.last(f"assembly.{key}{DONE}")
    return last is not None and last.answer == YES


def step_kept(key: str, *, done: bool) -> Verdict:
    """What is kept of a step that is done, or no longer."""
    return Verdict(f"assembly.{key}{DONE}", YES if done else NO, "right", "")


def step_to_begin_with(done: Collection[str], work: Sequence[Step]) -> int:
    """The number of the first step that is not done yet; the last one where all are."""
    keys = [step.key for step in work]
    return next((n for n, key in enumerate(keys, 1) if key not in done), len(keys))


# ── square before the glue sets ───────────────────────────────────────────────────────────────


def pulled(hive: Hive, lean: Fraction) -> Outcome:
    """The outcome of a back that stands so far to the right: both diagonals, and what to push.

    By the law of cosines each diagonal² is length² + width² ± 2 · width · lean.
    """
    found, units = values(hive), hive.units
    length, width = found["hive_length"], found["hive_width"]
    rising, falling = (
        Fraction(sqrt(length**2 + width**2 + sign * 2 * width * lean)).limit_denominator(FINE)
        for sign in (1, -1)
    )
    square = squareness(length, width, rising, falling, units)
    first, second = (
        f"From front {near} to back {far}: {by_the_tape(size, units)}."
        for near, far, size in (("left", "right", rising), ("right", "left", falling))
    )
    what = square.sentence if lean else "Both are the same: it is square."
    stands = f"The back stands {with_unit(units, abs(lean))} too far{side(lean)}."
    told = message("note", *([stands] if lean else []), first, second)
    judged = message("right" if square.square else "wrong", what)
    return Outcome(told + judged, out_of_square(length, width, lean, units=units))


def side(lean: Fraction) -> str:
    """To which side a back leans, in words; nothing where it does not."""
    return " to the right" if lean > 0 else " to the left" if lean < 0 else ""


def leans(units: Units) -> tuple[Fraction, ...]:
    """How far a frame may lean on the slider: marks of the tape, to the left and to the right."""
    step = Fraction(1, 16) if units == "inch" else Fraction(2) * MM
    return tuple(n * step for n in range(-10, 11))


# ── cut to what you built ─────────────────────────────────────────────────────────────────────


def cut_anew(hive: Hive) -> str:
    """The pieces that are cut to the openings as measured: by the plan, and now."""
    measured = {n: v for n, v in hive.measured.items() if n not in OPENINGS}
    plan = replace(hive, measured=measured)
    if plan.measured == hive.measured:
        return message("note", NOT_MEASURED)
    names = [
        f"{piece.component}.{piece.part}_{size}"
        for piece in parts(hive)
        for size in SIZES
        if getattr(piece, size)
    ]
    rows = [
        [title(name), *(with_unit(hive.units, mark(each, name)) for each in (plan, hive))]
        for name in names
    ]
    differ = [row for row in rows if row[1] != row[2]]
    if not differ:
        return message("right", AS_PLANNED)
    return table(["piece", "by the plan", "by your opening"], differ)
