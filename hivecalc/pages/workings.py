"""Worked steps, rules that fail, and the figures to carry to the saw."""

from collections.abc import Sequence
from html import escape

from hivecalc.components import COURSE, built, parts
from hivecalc.derivation import Dimension, Step, title
from hivecalc.fit import GRID_OF, Finding, marked
from hivecalc.hive import Hive
from hivecalc.length import Rounding, Units, shown
from hivecalc.pages.messages import message, table
from hivecalc.part import Piece, Size

ROUNDING_WORDS = {
    Rounding.NEAREST: "to the nearest",
    Rounding.DOWN: "down to",
    Rounding.UP: "up to",
}


def steps(shown_steps: Sequence[Step], units: Units) -> str:
    """Worked steps as a numbered list: the formula, the numbers, the value and the reason."""
    items = "".join(step_item(step, units) for step in shown_steps)
    return f'<div class="hc"><ol>{items}</ol></div>'


def step_item(step: Step, units: Units, was: str = "") -> str:
    """One worked step as an item of a list, with the value that it was before, if there is one.

    >>> from hivecalc.hive import demo_hive
    >>> (step,) = COURSE.steps("bottom_board.side_rail_length", demo_hive().measurements)
    >>> step_item(step, "inch", was="21").split("<br>")[1]
    '= 23 1/8 − 1 1/2 = <b>21 5/8 in</b> (was 21 in)'
    """
    of = unit(COURSE.dimension(step.dimension), units)
    before = f" (was {escape(was)}{of})" if was else ""
    numbers = "" if step.numbers == step.shown else f"= {escape(step.numbers)} "
    equals = "" if step.shown.startswith("≈") else "= "
    return (
        f"<li><b>{escape(title(step.dimension))}</b> = {escape(step.formula)}<br>"
        f"{numbers}{equals}<b>{escape(step.shown)}{of}</b>{before}<br>"
        f"{escape(step.why)}</li>"
    )


def unit(dimension: Dimension, units: Units) -> str:
    """The unit of a dimension, behind a space; nothing for a ratio or a count.

    >>> unit(COURSE.dimension("roof.lap"), "mm"), unit(COURSE.dimension("roof.slope"), "mm")
    (' mm', '')
    """
    if dimension.kind != "length":
        return ""
    return " in" if units == "inch" else " mm"


def worked(hive: Hive, dimension: str) -> str:
    """The worked steps to one dimension of a hive, down to what was measured.

    >>> from hivecalc.hive import demo_hive
    >>> "23 1/8 − 1 1/2" in worked(demo_hive(), "bottom_board.side_rail_length")
    True
    """
    found = COURSE.steps(dimension, hive.measurements, units=hive.units)
    return steps(found, hive.units)


def how_derived(hive: Hive, dimension: str) -> str:
    """The worked steps to one dimension, folded away until somebody wants to see them.

    >>> from hivecalc.hive import demo_hive
    >>> folded = how_derived(demo_hive(), "bottom_board.side_rail_length")
    >>> folded.partition("</summary>")[0]
    '<details class="hc"><summary>How side rail length is worked out'
    """
    summary = f"How {escape(title(dimension))} is worked out"
    steps_shown = worked(hive, dimension)
    return f'<details class="hc"><summary>{summary}</summary>{steps_shown}</details>'


def failing(findings: Sequence[Finding]) -> str:
    """The rules that fail now, each with why it matters; a line that says so where none does."""
    if not findings:
        return message("note", "No rule fails that held before; lesson 08 lists them all.")
    return message("wrong", *(f"{title(f.rule).capitalize()} fails: {f.why}" for f in findings))


def size_text(size: Size | None, units: Units) -> str:
    """One size of a piece as it goes on a cutting list, or a dash where there is none."""
    return "–" if size is None else shown(size.value, units, None, size.rounding)


def carry(hive: Hive, component: str, names: Sequence[str] = ()) -> str:
    """The figures to carry to the saw: pieces of a component, rounded, with the reason.

    >>> from hivecalc.hive import demo_hive
    >>> "21 5/8 in" in carry(demo_hive(), "bottom_board", ["side_rail"])
    True

    Of a component that isn't built for this hive, only that nothing of it is cut.
    """
    if component not in built(hive):
        told = f"Nothing of the {component.replace('_', ' ')} is cut for this hive."
        return message("note", told)
    pieces = [p for p in parts(hive, component=component) if not names or p.part in names]
    head = ["piece", "how many", "thickness × width × length", "rounded", "why"]
    return table(head, [_carry_row(hive, p) for p in pieces])


def _carry_row(hive: Hive, piece: Piece) -> list[str]:
    listed = marked(hive, piece)
    sizes = (listed.thickness, listed.width, listed.length)
    rule = COURSE.dimension(f"{piece.component}.{piece.part}_length").rule
    grid = GRID_OF[hive.units]
    return [
        piece.part.replace("_", " "),
        str(piece.quantity),
        " × ".join(size_text(s, hive.units) for s in sizes),
        f"{ROUNDING_WORDS[rule.rounding]} {grid.name}",
        rule.reason,
    ]
