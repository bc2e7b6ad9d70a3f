"""What is made and put together: rules, pieces as cut, many hives by chance, step by step."""

from collections.abc import Callable, Collection, Mapping, Sequence
from fractions import Fraction
from functools import partial
from html import escape
from math import sqrt
from typing import Final

from hivecalc.answers import Answers
from hivecalc.as_built import (
    HABIT_NAMES,
    HABITS,
    KINDS,
    OFF_BY,
    PIECE_SIZE,
    SPREAD_NOTE,
    Care,
    Frame,
    Habit,
    check,
    check_frame,
    usual_care,
)
from hivecalc.assembly import WHOLE, Step
from hivecalc.built import PieceSize, pieces_of
from hivecalc.components import BOXES, DIMENSIONS, before_openings, built, parts, values
from hivecalc.derivation import title
from hivecalc.drawing.frame import frame_from_above, out_of_square
from hivecalc.drawing.in_space import in_space
from hivecalc.fit import FIT, RULES, Finding, findings, mark, rules_of
from hivecalc.hive import HIVE_SIZES, Hive
from hivecalc.hive.hive import value_of
from hivecalc.hive.measurements import Measurement
from hivecalc.judging import Verdict
from hivecalc.length import (
    MM,
    Length,
    Units,
    by_the_tape,
    in_units,
    length_from_text,
    shown,
    with_unit,
)
from hivecalc.measuring import squareness
from hivecalc.pages.contents import DONE, last_text
from hivecalc.pages.messages import Outcome, Tone, folded, message, table
from hivecalc.pages.outcomes import DIAGONALS
from hivecalc.part import SIZES
from hivecalc.reports.fit import SIGNS, accepted, figures, outcome_text, result_text, share_text
from hivecalc.reports.sizes import exactly
from hivecalc.support.faults import sentence

MOST_RULES: Final = 6  # rules of a trial that are listed


TIGHTEST: Final = 8
"""So many rules are shown at once, and all that fail; the others are folded away."""


def rule_table(hive: Hive) -> str:
    """Every rule of what is built for this hive, the tightest first, as tables."""
    found = sorted(findings(hive), key=_to_spare)
    head = ["rule", "", "value", "allowed", "by how much", "why it matters, and what helps"]
    rows = [
        [
            _named(f.rule),
            SIGNS[outcome_text(f)],
            *figures(f, hive.units),
            f"{f.why} {f.mend}".strip(),
        ]
        for f in found
    ]
    first = max(TIGHTEST, sum(not f.holds and f.level != "note" for f in found))
    others = folded(f"The other {len(rows) - first} rules", table(head, rows[first:]))
    return message("note", sentence(result_text(found))) + table(head, rows[:first]) + others


def _named(rule: str) -> str:
    return f"{title(rule.partition('.')[0])}: {title(rule)}"


def _to_spare(found: Finding) -> tuple[bool, float]:
    """How near a value is to its limits; what says nothing of limits comes last."""
    limits = ((found.low, 1), (found.high, -1))
    room = [sign * (found.value - limit) for limit, sign in limits if limit is not None]
    return (found.level == "note" or not room, float(min(room, default=0)))


# ── pieces as they were cut ───────────────────────────────────────────────────────────────────


def cut_parts(hive: Hive) -> dict[str, list[PieceSize]]:
    """The parts of this hive that somebody cuts, in words, each with the sizes of its pieces."""
    found: dict[str, list[PieceSize]] = {}
    for size in pieces_of(hive):
        planned = DIMENSIONS.dimension(size.planned)
        if not planned.as_measured or planned.inputs[0] in HIVE_SIZES:  # not taken from stock
            name = f"{title(size.component)}: {title(size.part.name)}"
            found.setdefault(name, []).append(size)
    return found


def pieces_as_cut(hive: Hive, readings: Mapping[str, Length]) -> Outcome:
    """The outcome of pieces as they were cut: what comes together, what fails, what can be saved.

    `readings` are lengths in inches, by the name of one piece's size.
    """
    if not readings:
        said = "Choose a part, and type what you measured on each of its pieces."
        return Outcome(message("note", said), "")
    found = check(hive, {n: [v] for n, v in readings.items()})
    failing = [f"{title(f.rule).capitalize()}: {f.why}" for f in found.broken]
    whole = message("wrong", *failing) or message("right", "All this goes together.")
    advice = "".join(message("right" if p.allowed else "wrong", p.advice) for p in found.pieces)
    cautions = message("note", *dict.fromkeys(p.caution for p in found.pieces))
    measured = {p.name.partition(".")[0] for p in found.pieces}
    rows = [
        [title(name), shown(value, hive.units)]
        for name, value in found.came.items()
        if name.partition(".")[0] in measured
    ]
    together = folded("What comes together", table(["", "comes to"], rows))
    return Outcome(whole, "", advice + cautions + together)


# ── a frame ───────────────────────────────────────────────────────────────────────────────────


FRAME: Final = dict.fromkeys(
    (
        "Width in front", "Width in the middle", "Width at the back",
        "Length of the left side", "Length of the right side", *DIAGONALS,
    ),
    ("", PIECE_SIZE),
)  # fmt: skip
"""A field for each size of a frame that somebody measured, and what may be typed there."""


def frame_as_made(hive: Hive, *texts: str) -> Outcome:
    """The outcome of a frame's three widths, two lengths and two diagonals: its shape, and why.

    Nothing is drawn where a reading is wrong, for then nobody knows its shape.
    """
    if not all(t.strip() for t in texts):
        said = "Type three widths, both lengths and both diagonals of your frame."
        return Outcome(message("note", said), "")
    read = [length_from_text(t, hive.units) for t in texts]
    widths, lengths = read[:3], read[3:5]
    found = check_frame(hive, Frame(widths, lengths, read[5:]))
    square = found.squareness
    fine = {found.sentences[0]: found.shapes == ("straight",), square.sentence: square.square}
    text = "".join(message("right" if fine.get(s) else "wrong", s) for s in found.sentences)
    if square.misread:
        return Outcome(text, "")
    drawn = frame_from_above(lengths, widths, square.lean, units=hive.units, name=hive.name)
    return Outcome(text, drawn)


# ── many hives ────────────────────────────────────────────────────────────────────────────────


def care_and_habit(hive: Hive, habit: Habit, rule: str, *texts: str) -> Outcome:
    """The outcome of some care and a habit: how many hives fail, and one rule in three ways.

    An empty text leaves what is usual for that kind of work. Raises RefusedError.
    """
    typed = dict(zip(KINDS, texts, strict=True))
    read: dict[str, Fraction] = {
        kind: value_of(OFF_BY, t, hive.units) for kind, t in typed.items() if t.strip()
    }
    care = usual_care(hive).with_amounts(read)
    said, failing = _many_hives(hive, care, habit)
    return Outcome(said, "", failing + _three_ways(hive, rule, care, habit))


def _many_hives(hive: Hive, care: Care, habit: Habit) -> tuple[str, str]:
    """How many of many hives fail that are built with this care, and a table of the rules."""
    from hivecalc.as_built.trial import trial  # noqa: PLC0415 - needs numpy

    found = trial(hive, care, habit)
    rows = [
        [_named(n), f"{count:,} of {found.hives:,}", in_units(FIT.dimension(n).why, hive.units)]
        for n, count in [*found.rules.items()][:MOST_RULES]
    ]
    said = f"{found.hives:,} hives built with this care (seed {found.seed}): "
    fail = f"{found.failing:,} fail a rule, {share_text(found)}."
    tone: Tone = "right" if found.share <= 1 / 20 else "wrong"
    text = message(tone, f"{said}{fail}", f"{sentence(HABITS[habit])}. {SPREAD_NOTE}")
    return text, table(["rule that fails", "hives", "why it matters"], rows)


def _three_ways(hive: Hive, rule: str, care: Care, habit: Habit) -> str:
    """One rule with this care: worst case, by chance, and tried on many hives."""
    from hivecalc.as_built.trial import spread  # noqa: PLC0415 - needs numpy

    found = spread(hive, rule, care, habit)

    def said(ends: tuple[float, float]) -> str:
        texts = (
            f"{end:.3f}" if found.kind == "ratio" else shown(Fraction(end), hive.units)
            for end in ends
        )
        held = "holds" if found.holds_within(ends) else "fails"
        return f"{' to '.join(texts)}, and the rule {held}"

    limits = accepted(found.low, found.high, found.kind, hive.units)
    tried = f"{found.hives:,} hives built by chance (seed {found.seed})"
    lines = (
        f"{title(rule).capitalize()}: {limits} holds.",
        f"All off the worst way at once: {said(found.worst)}.",
        f"By chance, partly cancelling (root-sum-square): {said(found.chance)}.",
        f"{tried}: {said(found.tried)}; {found.failing:,} fail.",
    )
    rows = [
        [title(c.name), KINDS[c.kind], f"± {exactly(c.tolerance, 'length', hive.units)}",
         f"{100 * c.share:.0f} in 100"]
        for c in found.contributors
        if c.share >= 1 / 200
    ]  # fmt: skip
    tone: Tone = "right" if found.holds_within(found.worst) else "note"
    return message(tone, *lines) + table(
        ["what can be off", "as", "by", "share of the spread"], rows
    )


def kinds_of_work() -> dict[str, tuple[Callable[[Hive], str], Measurement]]:
    """A field for each kind of work: its name, how far off it usually is, what may be typed."""

    def usual(kind: str, hive: Hive) -> str:
        return with_unit(hive.units, usual_care(hive).amounts[kind])

    return {f"Off by, {kind}": (partial(usual, kind), OFF_BY) for kind in KINDS}


def habits_and_rules(hive: Hive) -> dict[str, dict[str, str]]:
    """What to choose from: habits, by a short name each, and rules, the panel's play first."""
    names = [n for n in rules_of(hive) if RULES[n].level != "note"]
    ordered = sorted(names, key=lambda n: n != "bottom_board.panel_play_along")
    return {
        "Habit": {name: habit for habit, name in HABIT_NAMES.items()},
        "One rule, three ways": {_named(n): n for n in ordered},
    }


# ── putting together ──────────────────────────────────────────────────────────────────────────

FINE: Final = 4096
"""Parts of an inch to which a diagonal is worked out."""
YES, NO = "yes", "no"


def step_outcome(hive: Hive, work: Sequence[Step], number: int, turn: int = 30) -> Outcome:
    """One step of putting together, counted from 1: its picture, and what is done in it."""
    step = work[number - 1]
    components = looked_at(hive, step)
    shown, new = shown_and_new(work[:number], components)
    drawn = in_space(
        values(hive), components, turn=turn, shown=shown, new=new, units=hive.units, name=hive.name
    )
    head = f"Step {number} of {len(work)}: {step.title}"
    blocks = (
        _listed("Do", "ol", step.do),
        _listed("What holds", "ul", step.holds),
        f"<p><b>Why now.</b> {escape(step.why)}</p>",
        f"<p><b>Check.</b> {escape(step.check)}</p>",
        _listed("Take care", "ul", [caution.text for caution in step.cautions]),
    )
    return Outcome(
        f'<div class="hc" role="status"><p><b>{head}</b></p></div>',
        drawn,
        f'<div class="hc">{"".join(blocks)}</div>',
    )


def looked_at(hive: Hive, step: Step) -> tuple[str, ...]:
    """The components that the picture of a step shows: a sleeve with its box, in the end all."""
    if step.component == WHOLE:
        return built(hive)
    own = BOXES if step.component in BOXES else (step.component,)
    return tuple(c for c in own if c in built(hive))


def shown_and_new(
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


def _listed(lead: str, tag: str, texts: Sequence[str]) -> str:
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f"<p><b>{lead}</b></p><{tag}>{items}</{tag}>" if texts else ""


def ticked(answers: Answers, work: Sequence[Step]) -> set[str]:
    """The keys of the steps that were ticked, and not taken back since."""
    keys = (step.key for step in work)
    return {key for key in keys if last_text(answers, f"assembly.{key}{DONE}") == YES}


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
    text = message("note", stands if lean else "", first, second)
    judged = message("right" if square.square else "wrong", what)
    return Outcome(text + judged, out_of_square(length, width, lean, units=units))


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
    plan = before_openings(hive)
    if plan == hive:
        said = "No opening is typed yet, so all pieces are still as planned."
        return message("note", said)
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
    listed = table(["piece", "by the plan", "by your opening"], differ)
    return listed or message("right", "Your openings are as planned: nothing is cut otherwise.")
