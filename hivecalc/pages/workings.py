"""Worked steps, what changes between two hives, and the figures to carry to the saw."""

from collections.abc import Sequence
from html import escape

from hivecalc.components import COURSE, parts
from hivecalc.derivation import Change, Step, title
from hivecalc.fit import Finding
from hivecalc.hive import Hive
from hivecalc.length import GRIDS, Rounding, Units, shown
from hivecalc.pages.messages import message, table
from hivecalc.part import Piece, Size
from hivecalc.tables.numbers import exactly

ROUNDING_WORDS = {
    Rounding.NEAREST: "to the nearest",
    Rounding.DOWN: "down to",
    Rounding.UP: "up to",
}


def steps(shown_steps: Sequence[Step], units: Units) -> str:
    """Worked steps as a numbered list: the formula, the numbers, the value and the reason."""
    unit = "in" if units == "inch" else "mm"
    items = "".join(
        f"<li><b>{escape(title(s.dimension))}</b> = {escape(s.formula)}<br>"
        f"= {escape(s.numbers)} = <b>{escape(s.shown)}{_unit(s, unit)}</b><br>{escape(s.why)}</li>"
        for s in shown_steps
    )
    return f'<div class="hc"><ol>{items}</ol></div>'


def _unit(step: Step, unit: str) -> str:
    return f" {unit}" if COURSE.dimension(step.dimension).kind == "length" else ""


def worked(hive: Hive, dimension: str) -> str:
    """The worked steps to one dimension of a hive, down to what was measured.

    >>> from hivecalc.hive import demo_hive
    >>> "23 1/8 − 1 1/2" in worked(demo_hive(), "bottom_board.side_rail_length")
    True
    """
    found = COURSE.steps(dimension, hive.measurements, units=hive.units)
    return steps(found, hive.units)


def change_table(changes: Sequence[Change], units: Units) -> str:
    """What changes between two hives: each dimension with its old and new value."""
    rows = [
        [
            _full_title(c.name),
            *(exactly(v, COURSE.dimension(c.name).kind, units) for v in (c.old, c.new)),
        ]
        for c in changes
        if c.name in COURSE.dimensions
    ]
    if not rows:
        return message("note", "No piece changes.")
    return table(["what changes", "old", "new"], rows)


def _full_title(name: str) -> str:
    component = COURSE.dimension(name).component.replace("_", " ")
    return f"{component}: {title(name)}"


def failing(findings: Sequence[Finding]) -> str:
    """The rules that fail now, each with why it matters; a calm line where none does."""
    if not findings:
        return message("right", "Every rule that held still holds.")
    return message("wrong", *(f"{title(f.rule).capitalize()}: {f.why}" for f in findings))


def size_text(size: Size | None, units: Units) -> str:
    """One size of a piece as it goes on a cutting list, or a dash where there is none."""
    return "–" if size is None else shown(size.value, units, None, size.rounding)


def carry(hive: Hive, component: str, names: Sequence[str] = ()) -> str:
    """The figures to carry to the saw: pieces of a component, rounded, with the reason.

    >>> from hivecalc.hive import demo_hive
    >>> "21 5/8 in" in carry(demo_hive(), "bottom_board", ["side_rail"])
    True
    """
    pieces = [p for p in parts(hive, component=component) if not names or p.part in names]
    head = ["piece", "how many", "thickness × width × length", "rounded", "why"]
    return table(head, [_carry_row(p, hive.units) for p in pieces])


def _carry_row(piece: Piece, units: Units) -> list[str]:
    sizes = (piece.thickness, piece.width, piece.length)
    rule = COURSE.dimension(f"{piece.component}.{piece.part}_length").rule
    grid = GRIDS["1/16 in" if units == "inch" else "1 mm"]
    return [
        piece.part.replace("_", " "),
        str(piece.quantity),
        " × ".join(size_text(s, units) for s in sizes),
        f"{ROUNDING_WORDS[rule.rounding]} {grid.name}",
        rule.reason,
    ]
