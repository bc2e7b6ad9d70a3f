"""What a learner's entry leads to, decided in one place: worked steps, what changes, outcomes.

A panel hands over what was typed and shows the three parts of the outcome. Raises LengthError or
HiveFaults for an entry that can't be used.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from fractions import Fraction
from html import escape
from math import ceil, floor, isqrt
from typing import Final, TypeAlias

from hivecalc.as_built import PIECE_SIZE
from hivecalc.components import (
    DIMENSIONS,
    before_openings,
    built,
    checked,
    in_use,
    parts,
    sides_in_hand,
    values,
)
from hivecalc.derivation import (
    Change,
    Dimension,
    RoundingRule,
    Step,
    changes,
    kind_of,
    line,
    number,
    on_hive,
    title,
)
from hivecalc.drawing import Subject
from hivecalc.drawing.frame import bowed_rails, gap_left, out_of_square
from hivecalc.fit import Finding, broken, findings, mark, marked
from hivecalc.fractions_in_words import in_words, taught_steps
from hivecalc.hive import MEASUREMENTS, Hive, changed
from hivecalc.hive.hive import value_of
from hivecalc.hive.measurements import Measurement
from hivecalc.judging import Verdict, is_sane, plain, question
from hivecalc.length import (
    MARKS,
    SIXTY_FOURTH,
    TENTH_MM,
    Length,
    Units,
    length_from_text,
    shown,
)
from hivecalc.measuring import reading_to_use, squareness
from hivecalc.pages.messages import Outcome, echo, echo_of, folded, message, table, wide_picture
from hivecalc.pages.views import VIEWS
from hivecalc.part import SIZES
from hivecalc.reports.sizes import WAYS, exactly, working
from hivecalc.space import NoPieceError, assembled, consequences, only_these
from hivecalc.support.faults import sentence

# ── worked steps ──────────────────────────────────────────────────────────────────────────────


def steps(shown_steps: Sequence[Step], units: Units) -> str:
    """Worked steps as a numbered list: the formula, the numbers, the value and the reason.

    >>> from hivecalc.hive import demo_hive
    >>> found = DIMENSIONS.steps("bottom_board.side_rail_length", demo_hive().measurements)
    >>> steps(found, "inch").split("<br>")[1]
    '= 23 1/8 − 1 1/2 = <b>21 5/8 in</b>'
    """
    items = ""
    for step in (working(each, units) for each in shown_steps):
        numbers = f"= {escape(step.numbers)} " if step.numbers else ""
        equals = "" if step.value.startswith("≈") else "= "
        items += (
            f"<li><b>{escape(step.size)}</b> = {escape(step.formula)}<br>"
            f"{numbers}{equals}<b>{escape(step.value)}</b><br>{escape(step.why)}</li>"
        )
    return f'<div class="hc"><ol>{items}</ol></div>'


def worked(hive: Hive, dimension: str) -> str:
    """The worked steps to one dimension of a hive, as judging has them."""
    return steps(question(hive, dimension).steps(), hive.units)


def failing(findings: Sequence[Finding]) -> str:
    """The rules that fail now, each with why it matters; a line that says so where none does."""
    if not findings:
        return message("note", "No rule fails that held before; lesson 08 lists them all.")
    return message("wrong", *(f"{title(f.rule).capitalize()} fails: {f.why}" for f in findings))


def carry(hive: Hive, component: str, *names: str) -> str:
    """The figures to carry to the saw: pieces of a component, and below how they are rounded.

    Of a component that isn't built for this hive, only that nothing of it is cut.
    """
    if component not in built(hive):
        text = f"Nothing of the {title(component)} is cut for this hive."
        return message("note", text)
    pieces = [p for p in parts(hive, component=component) if not names or p.part in names]
    rows, alike = [], dict[RoundingRule, list[str]]()
    for piece in pieces:
        sizes = (getattr(marked(hive, piece), size) for size in SIZES)
        cells = (shown(s.value, hive.units, None, s.rounding) if s else "–" for s in sizes)
        rows.append([title(piece.part), str(piece.quantity), *cells])
        rule = DIMENSIONS.dimension(f"{component}.{piece.part}_length").rule
        alike.setdefault(rule, []).append(title(piece.part))
    said = []
    for rule, listed in alike.items():
        which = "All lengths" if len(alike) == 1 else sentence(", ".join(listed))
        said.append(f"{which}, {WAYS[rule.rounding]} {MARKS[hive.units].name}: {rule.reason}")
    return table(["piece", "how many", "thick", "wide", "long"], rows) + message("note", *said)


# ── what changes between two hives ────────────────────────────────────────────────────────────


def change_table(found: Sequence[Change], now: Hive, first: Collection[str]) -> str:
    """What changes between two hives: each dimension, old and new, and the steps that change it.

    `found` is all that differs, `now` the changed hive, `first` the components that are looked
    at: what changes in others is folded away.
    """
    changed, sizes = {c.name: c for c in found}, values(now)
    worked_out = {
        name: on_hive(dimension, sizes)
        for name, dimension in DIMENSIONS.dimensions.items()
        if name in changed and name not in now.measurements
    }
    if not worked_out:
        return message("note", "No piece changes.")

    def said(name: str, value: Fraction) -> str:
        return number(value, kind_of(name, DIMENSIONS.dimensions), now.units)

    numbers = {i: said(i, sizes[i]) for d in worked_out.values() for i in d.inputs}
    numbers |= {c.name: f"{said(c.name, c.new)} (was {said(c.name, c.old)})" for c in found}
    measured_anew = changed.keys() & now.measurements.keys()
    rows, others = "", []
    for name, dimension in worked_out.items():
        row = _change_row(changed[name], dimension, numbers, measured_anew, now.units)
        if dimension.component in first:
            rows += row
        else:
            others.append(row)
    if rows and others:
        count = f"<span>{len(others)} more in other parts of the hive</span>"
        others = [f'<details class="hc-others"><summary>{count}</summary>', *others, "</details>"]
    rows += "".join(others)
    return f'<div class="hc hc-changes"><p><b>What changes, and why:</b></p>{rows}</div>'


def _change_row(
    change: Change,
    d: Dimension,
    numbers: Mapping[str, str],
    measured_anew: Collection[str],
    units: Units,
) -> str:
    """One dimension: its name, its old and its new value, opening to its own step.

    The step is the formula, its numbers, why it is so, and where a new measurement comes in.
    """
    old, new = (exactly(value, d.kind, units) for value in (change.old, change.new))
    if old == new:
        new += ", a hair more" if change.new > change.old else ", a hair less"
    name = f"{escape(title(d.component))}: {escape(d.title)} <u>why</u>"
    text = f"<span>was {old}</span> <span>now <b>{new}</b></span>"
    formula = line(d.expression, {p: title(i) for p, i in d.full_names.items()})
    summed = line(d.expression, {p: numbers[i] for p, i in d.full_names.items()})
    entering = dict.fromkeys(i for i in d.inputs if i in measured_anew)
    why = " ".join((d.why, *(f"Here the new {title(i)} comes in." for i in entering)))
    step = "<br>".join(map(escape, (f"= {formula}", f"= {summed}", why)))
    summary = f"<summary><span>{name}</span> <span>{text}</span></summary>"
    return f"<details>{summary}<p>{step}</p></details>"


# ── a field's entry, a change, a wrong cut ────────────────────────────────────────────────────


MOST_TOLD = 5  # consequences of one entry: more are only counted
TRIES_BEFORE_AMOUNTS: Final = 2
NOT_SEEN: Final = frozenset({
    "bottom_board.lower_front_runner_length", "bottom_board.upper_front_runner_length",
    "bottom_board.panel_width", "bottom_board.screen_end_strip_length",
    "bottom_board.screen_front_stop_length",
    "roof.rim_front_length", "roof.rim_back_length", "roof.skirt_end_length",
    "roof.roof_panel_width", "roof.deck_width", "roof.cover_width",
})  # fmt: skip
"""What runs from side to side: a section from front to back can't show how long that is."""
STACK_SIZES: Final = ("height", "top", "headroom", "way_in", "front_rail_width")
INSIDE: Final = ("panel", "screen", "runner", "strip")
FINE: Final = Fraction(1, 4)  # what is thinner than this is changed by finer marks
THICK: Final = Fraction(4)  # of what is thinner a tenth of a mm is said, as of boards and foam
AROUND: Final = Fraction(8)  # what is larger than this is changed by half of it at most
LOOK: Final = (
    "Your answer, built in: your piece has the thick blue line. Where does it end, and what does "
    "it meet there?"
)


def on_tape(drawn: Callable[[Length, Units], str], hive: Hive, text: str) -> Outcome:
    """The outcome of a length that is looked at on a tape, which `drawn` draws.

    An inch is 25.4 mm there, since lesson 01 asks how it differs from 25.
    """
    length = length_from_text(text, hive.units)
    said = echo(length, hive.units, tenths=length < THICK)
    return Outcome(_read(said), drawn(length, hive.units))


Reader: TypeAlias = Measurement | Callable[[str], str]
"""What may be typed in a field: a size or a count, or what says in words how a text is read."""


def as_read(hive: Hive, text: str, reader: Reader | None = None) -> str:
    """What to say to what was typed: how it was read; nothing to a count, or to no size at all.

    Raises a ValueError for what can't be read.
    """
    if callable(reader):
        return _read(reader(text))
    if not text.strip():
        return ""
    units = hive.units
    value = value_of(reader, text, units) if reader else length_from_text(text, units)
    return "" if reader and reader.kind != "length" else _read(echo(value, units))


def _read(said: str) -> str:
    return message("note", f"This is {said}.")


def to_begin_with(hive: Hive, name: str) -> Fraction:
    """What a what-if begins with: a measurement as it is, a piece as the cutting list has it."""
    return in_use(hive, name) if name in MEASUREMENTS else mark(hive, name)


def marks_around(hive: Hive, name: str) -> tuple[Fraction, ...]:
    """The values that a slider offers for a size: those of the tape's grid round the one it has.

    >>> from hivecalc.hive import demo_hive
    >>> studs = marks_around(demo_hive(), "stud_thickness")
    >>> [str(mark) for mark in (studs[0], studs[1], studs[-1])], Fraction(3, 2) in studs
    (['1', '17/16', '9/4'], True)

    In inches, but for a count. What it begins with is one of them, whatever that is.
    """
    own, low, high = to_begin_with(hive, name), Fraction(0), Fraction(100)
    kind = "length"
    if name in MEASUREMENTS:
        kind, (low, high) = MEASUREMENTS[name].kind, MEASUREMENTS[name].limits(hive.units)
    if kind == "answer":
        return Fraction(0), Fraction(1)
    if kind == "count":
        return tuple(Fraction(n) for n in range(int(low), int(high) + 1))
    grid = MARKS[hive.units]
    if own < FINE:
        grid = TENTH_MM if hive.units == "mm" else SIXTY_FOURTH
    reach = max(own / 2, 4 * grid.step) if own < AROUND else AROUND / 2
    first, last = max(low, own - reach, grid.step), min(high, own + reach)
    on_grid = range(ceil(first / grid.step), floor(last / grid.step) + 1)
    return tuple(sorted({own, *(n * grid.step for n in on_grid)}))


def typed_for(hive: Hive, name: str, text: str) -> Fraction:
    """What was typed for a size or a count of a hive; raises LengthError or HiveFaults."""
    if name in MEASUREMENTS and MEASUREMENTS[name].kind != "length":
        return changed(hive, {name: text}).measurements[name]
    return length_from_text(text, hive.units)


def unchanged(hive: Hive, view: str) -> Outcome:
    """The outcome where nothing has been changed yet: the hive as it is."""
    said = "Move the slider, or type a new value and press Enter."
    return Outcome(message("note", said), VIEWS[view].of(hive))


def planned_anew(hive: Hive, name: str, text: str, view: str = "plan") -> Outcome:
    """The outcome of a decision that is changed before anything is cut: all pieces follow."""
    plan = before_openings(hive)
    return _changed_to(plan, checked(changed(plan, {name: text})), name, view)


def already_cut(hive: Hive, name: str, text: str, view: str = "plan") -> Outcome:
    """The outcome of a changed measurement: pieces cut for the old one, built into the new hive."""
    plan = before_openings(hive)
    new = checked(changed(plan, {name: text}))
    found = changes(values(plan), values(new))
    cut = {c.name: c.old for c in found if VIEWS[view].cuts(c.name)}
    return _changed_to(plan, new, name, view, cut)


def _changed_to(
    hive: Hive, new: Hive, name: str, view: str, cut: Mapping[str, Fraction] | None = None
) -> Outcome:
    """What changes from one hive to another, all planned anew or with pieces cut before."""
    look = VIEWS[view]
    drawn = look.with_cut(new, cut) if cut else look.after(hive, new)
    was, now = (echo_of(name, values(each)[name], each.units) for each in (hive, new))
    said = f"{plain(name).capitalize()}: was {was}, now {now}."

    def follows() -> str:
        fits = what_no_longer_fits(new, cut, view) if cut else ""
        broken_now = failing(broken(findings(hive), findings(new)))
        found = changes(values(hive), values(new))
        return fits + broken_now + change_table(found, new, look.components)

    return Outcome(message("note", said), drawn, follows)


def wrong_cut(hive: Hive, dimension: str, text: str, view: str = "plan") -> Outcome:
    """The outcome of a piece cut to some size: built in where it belongs."""
    cut = {dimension: value_of(PIECE_SIZE, text, hive.units)}
    right, as_cut = (shown(v[dimension], hive.units) for v in (values(hive), cut))
    said = f"{title(dimension).capitalize()}: {as_cut} as cut, {right} as worked out."

    def follows() -> str:
        broken_now = failing(broken(findings(hive), findings(hive, cut)))
        derived = folded(f"How {title(dimension)} is worked out", worked(hive, dimension))
        return what_no_longer_fits(hive, cut, view) + broken_now + derived

    return Outcome(message("note", said), VIEWS[view].with_cut(hive, cut), follows)


def what_no_longer_fits(hive: Hive, cut: Mapping[str, Fraction], view: str = "plan") -> str:
    """What happens when pieces of these sizes are built into the component that is looked at."""
    component = VIEWS[view].component
    right = values(hive)
    wrong = values(hive, only_these(right, cut))
    true, as_cut = (assembled(v, component) for v in (right, wrong))
    found = list(dict.fromkeys(c.sentence for c in consequences(true, as_cut, hive.units)))
    if not found:
        return message("right", "Everything goes together.")
    more = [f"And {len(found) - MOST_TOLD} more."] if len(found) > MOST_TOLD else []
    return message("wrong", *found[:MOST_TOLD], *more)


def as_answered(hive: Hive, dimension: str, found: Verdict, tries: int) -> str:
    """The piece as it was answered, built in: after the second wrong try with what it does there.

    Nothing for a right answer, for what nobody cuts, or for a size that makes no sense there. The
    picture says neither the right figure nor that of any other piece, which may be asked next.
    """
    view, size = best_view(dimension), found.value
    seen = view in VIEWS and VIEWS[view].cuts(dimension) and dimension not in NOT_SEEN
    if found.right or size is None or not (seen and is_sane(size, values(hive)[dimension])):
        return ""
    try:
        drawn = VIEWS[view].with_cut(hive, {dimension: size}, asked=True)
    except NoPieceError:
        return ""
    early = tries < TRIES_BEFORE_AMOUNTS
    said = message("note", LOOK) if early else what_no_longer_fits(hive, {dimension: size}, view)
    return wide_picture(drawn) + said


def best_view(dimension: str) -> str:
    """The picture in which a piece is best seen.

    >>> best_view("bottom_board.front_rail_length"), best_view("bottom_board.panel_width")
    ('plan', 'section')
    """
    component, _, size = dimension.partition(".")
    if component != "bottom_board":
        return component.replace("_", " ")
    if size.endswith(STACK_SIZES):
        return "stack"
    return "section" if any(word in size for word in INSIDE) else "plan"


DIAGONALS: Final = ("Diagonal from front left", "Diagonal from front right")


def three_places(hive: Hive, *texts: str) -> Outcome:
    """The outcome of one size read at several places: which reading to use, and why."""
    found = [length_from_text(t, hive.units) for t in texts if t.strip()]
    if not found:
        return Outcome(message("note", "Type what your tape reads at each place."), "")
    advice = reading_to_use(found, hive.units)
    return Outcome(message("note" if advice.straight else "wrong", advice.sentence), "")


def two_diagonals(hive: Hive, rising: str, falling: str) -> Outcome:
    """The outcome of two diagonals: how far the box is out of square, drawn larger than it is."""
    length, width = sides_in_hand(hive)
    if not (rising.strip() and falling.strip()):
        diagonal = Fraction(isqrt(int((length**2 + width**2) * 10**12)), 10**6)
        about = shown(diagonal, hive.units).removeprefix("≈ ")
        said = message("note", f"If your box is square, both diagonals are about {about}.")
        return Outcome(said, out_of_square(length, width, Fraction(0), units=hive.units))
    first, second = (length_from_text(t, hive.units) for t in (rising, falling))
    found = squareness(length, width, first, second, hive.units)
    said = message("right" if found.square else "wrong", found.sentence)
    if found.misread:
        return Outcome(said, "")
    return Outcome(said, out_of_square(length, width, found.lean, units=hive.units))


def two_boards(drawn: Callable[..., str], sign: int, hive: Hive, *texts: str) -> Outcome:
    """The outcome of two lengths of board: one added to the other, or by -1 taken off it."""
    first, second = (length_from_text(t, hive.units) for t in texts)
    steps = taught_steps(first, "+" if sign > 0 else "−", second, hive.units)
    return Outcome("", drawn(first, second, units=hive.units), message("note", *in_words(steps)))


def bowed(hive: Hive, text: str) -> Outcome:
    """The outcome of side rails that bow inwards: the gap left to the panel, or that it sticks."""
    bow, found = length_from_text(text, hive.units), values(hive)
    left = gap_left(found, bow)
    drawn = bowed_rails(Subject(found, units=hive.units, name=hive.name), bow)
    if left > 0:
        said = message("right", f"{echo(left, hive.units)} of gap is left: it slides.")
    else:
        said = message("wrong", "The gap is used up: the panel sticks.")
    return Outcome(said, drawn)
