"""Where a dimension comes from: its worked steps as text, as rows and for other programs."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import Kind, RoundingRule, Step, title
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.hive.measurements import OPENINGS
from hivecalc.length import Grid, Rounding, Units, shown
from hivecalc.tables.numbers import (
    exactly,
    kind_named,
    length_in_mm,
    number_json,
    number_text,
    rule_named,
    usual_grid,
)
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, wrapped


@dataclass(frozen=True)
class Explanation:
    """A dimension of one hive: its value, its worked steps, and what it is made from."""

    name: str
    kind: Kind
    value: Fraction
    what: str
    why: str
    rule: RoundingRule
    steps: tuple[Step, ...]
    sources: tuple[str, ...]


def explanation(hive: Hive, name: str) -> Explanation:
    """How a dimension comes out of what was measured; a measurement has no steps.

    >>> from hivecalc.hive import demo_hive
    >>> told = explanation(demo_hive(), "bottom_board.panel_width")
    >>> [step.numbers for step in told.steps]
    ['17 3/8 − 2 × 1 1/2', '14 3/8 − 1/4']
    >>> told.sources
    ('hive_width', 'stud_thickness', 'panel_gap')

    The name is the whole one. Raises KeyError for one that this hive has not.
    """
    found = values(hive)
    value = found[name]
    if name in hive.measurements:
        measured = _as_measured(name)
        what = MEASUREMENTS[measured].meaning
        rule = rule_named(name)
        return Explanation(name, kind_named(name), value, what, what, rule, (), (measured,))
    dimension = DIMENSIONS.dimension(name)
    steps = tuple(DIMENSIONS.steps(name, hive.measurements, units=hive.units))
    sources = tuple(map(_as_measured, DIMENSIONS.rests_on(name, hive.measurements, found)))
    told = (dimension.kind, value, dimension.what, dimension.why, dimension.rule)
    return Explanation(name, *told, steps, sources)


def _as_measured(name: str) -> str:
    """The measurement that gives a value: itself, or the opening that was measured instead."""
    return next((opening for opening, cut in OPENINGS.items() if name in cut), name)


def explain_json(told: Explanation, grid: Grid) -> Json:
    """Worked steps for other programs, deepest first.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> told = explain_json(explanation(demo_hive(), "bottom_board.panel_width"), SIXTEENTH)
    >>> told["value"]["inches"], [step["value"]["inches"] for step in told["steps"]]
    ('14 1/8', ['14 3/8', '14 1/8'])
    """
    return {
        "schema": SCHEMA,
        "dimension": told.name,
        "value": number_json(told.value, told.kind, grid, told.rule.rounding),
        "why": told.why,
        "steps": [_step_json(step, grid) for step in told.steps],
    }


def _step_json(step: Step, grid: Grid) -> Json:
    name = step.dimension
    return {
        "dimension": name,
        "formula": step.formula,
        "numbers": step.numbers,
        "value": number_json(step.value, kind_named(name), grid, rule_named(name).rounding),
        "why": step.why,
    }


def explain_table(told: Explanation, grid: Grid) -> Table:
    """Worked steps as rows for a spreadsheet, deepest first; mm is empty for a ratio.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> explain_table(explanation(demo_hive(), "roof.slope"), SIXTEENTH).rows[1][2:5]
    ['(3 1/2 − 1 1/2) ÷ 23 5/8', '≈ 0.0847', None]
    """
    columns = ("dimension", "formula", "numbers", "value", "mm", "why")
    if not told.steps:
        value = number_text(told.value, told.kind, grid)
        return Table(
            columns, [[told.name, "", "", value, length_in_mm(told.value, told.kind), told.why]]
        )
    return Table(columns, [_step_row(step, grid) for step in told.steps])


def _step_row(step: Step, grid: Grid) -> list[Cell]:
    name = step.dimension
    value = number_text(step.value, kind_named(name), grid, rule_named(name).rounding)
    return [
        name,
        step.formula,
        step.numbers,
        value,
        length_in_mm(step.value, kind_named(name)),
        step.why,
    ]


def explain_text(hive: Hive, told: Explanation, grid: Grid) -> str:
    """Worked steps to read, and under them what they come from and the size to cut.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> told = explanation(demo_hive(), "bottom_board.front_rail_width")
    >>> print(explain_text(demo_hive(), told, SIXTEENTH), end="")
    Front rail width (bottom_board.front_rail_width)
    Height of the front rail when it stands on edge, after ripping.
    <BLANKLINE>
    1. front rail width = stud width − entrance height
       = 3 1/2 − 3/4
       = 2 3/4 in
       The entrance is a strip ripped off the top of the front rail, so the rail is
       lower than the others by the entrance's height.
    <BLANKLINE>
    It comes from
      stud width 3 1/2 in, not measured: the usual size
      entrance height 3/4 in, the usual choice
    <BLANKLINE>
    On the tape: 2 3/4 in (≈ 70 mm), to the nearest 1/16 in. A fit like this is as
    good as a pencil line: take the nearest mark.
    """
    heading = f"{title(told.name).capitalize()} ({told.name})\n{wrapped(told.what)}\n"
    steps = [_step_text(n, step, hive.units) for n, step in enumerate(told.steps, 1)]
    sources = "".join(f"  {line}\n" for line in _source_lines(hive, told))
    last = [_size_to_cut(told, grid)] if steps else []
    return "\n".join((heading, *steps, f"It comes from\n{sources}", *last))


def _step_text(count: int, step: Step, units: Units) -> str:
    unit = f" {'mm' if units == 'mm' else 'in'}" if kind_named(step.dimension) == "length" else ""
    sign = "" if step.shown.startswith("≈") else "= "
    lines = [wrapped(f"{count}. {title(step.dimension)} = {step.formula}", later="     ")]
    lines += [f"   = {step.numbers}"] if step.numbers != step.shown else []
    lines += [f"   {sign}{step.shown}{unit}", wrapped(step.why, "   ")]
    return "".join(f"{line}\n" for line in lines)


def _source_lines(hive: Hive, told: Explanation) -> Iterator[str]:
    for name in told.sources:
        value = exactly(hive.measurements[name], kind_named(name), hive.units)
        yield f"{title(name)} {value}, {_origin(hive, name)}"


def _origin(hive: Hive, name: str) -> str:
    if name in hive.measured:
        return "measured"
    if name in hive.chosen:
        return "chosen"
    if MEASUREMENTS[name].group == "measured":
        return "not measured: the usual size"
    return "the usual choice"


_TOWARDS: Final = {
    Rounding.NEAREST: "to the nearest",
    Rounding.DOWN: "down to a full",
    Rounding.UP: "up to a full",
}


def _size_to_cut(told: Explanation, grid: Grid) -> str:
    if told.kind != "length":
        return f"Value: {number_text(told.value, told.kind, grid)}\n"
    value = shown(told.value, grid=grid, rounding=told.rule.rounding)
    other = usual_grid("inch" if grid.units == "mm" else "mm")
    also = shown(told.value, grid=other, rounding=told.rule.rounding)
    towards = f"{_TOWARDS[told.rule.rounding]} {grid.name}"
    return f"{wrapped(f'On the tape: {value} ({also}), {towards}. {told.rule.reason}')}\n"
