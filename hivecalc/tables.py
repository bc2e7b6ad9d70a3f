"""What a command tells: rows as a text table, CSV or JSON, and worked steps as text.

Whatever a builder wrote is shown so that it can do no harm: a character that steers a terminal is
written as an escape, and no CSV cell is taken for a formula.
"""

import csv
import io
import json
import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.components import COURSE, values
from hivecalc.derivation import Kind, RoundingRule, Step, kind_of, title
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import (
    MILLIMETRE,
    MM,
    SIXTEENTH,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    length_json,
    shown,
    written,
)
from hivecalc.part import SIZES, Piece, Size

if TYPE_CHECKING:  # the rules take a while to load, and parts need none of them
    from hivecalc.fit import Finding

SCHEMA: Final = "hivecalc/1"
ACROSS: Final = 80
"""Characters across in text that is made to be read."""

Cell: TypeAlias = str | int | float | None
Json: TypeAlias = dict[str, object]


@dataclass(frozen=True)
class Table:
    """Rows of cells under named columns."""

    columns: tuple[str, ...]
    rows: Sequence[Sequence[Cell]]


# ── the three forms ───────────────────────────────────────────────────────────────────────────


def harmless(text: str) -> str:
    r"""Text with what cannot be seen, or could steer a terminal, written as an escape.

    >>> print(harmless("a hive of \x1b[31m wood"))
    a hive of \x1b[31m wood
    """
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)


def json_text(document: Mapping[str, object]) -> str:
    r"""JSON object as text that ends a line, in which what cannot be seen is an escape.

    >>> print(json_text({"name": "Bär \x9b"}), end="")
    {
     "name": "Bär \u009b"
    }
    """
    text = json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False)
    seen = (c if c.isprintable() or c == "\n" else json.dumps(c)[1:-1] for c in text)
    return "".join(seen) + "\n"


def csv_text(table: Table) -> str:
    """Table as CSV with its columns in the first row, in which no text is a formula.

    >>> print(csv_text(Table(("name", "mm"), [["=1+1", -2.5], ["deck", None]])), end="")
    name,mm
    '=1+1,-2.5
    deck,
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(table.columns)
    writer.writerows([_csv_cell(cell) for cell in row] for row in table.rows)
    return text.getvalue()


def _csv_cell(cell: Cell) -> Cell:
    if not isinstance(cell, str):
        return cell
    return harmless(f"'{cell}" if cell.startswith(("=", "+", "-", "@", "\t", "\r")) else cell)


def text_table(table: Table, across: int | None = None) -> str:
    """Table as text; without `across` it is plain and as wide as it needs, else for a terminal.

    >>> print(text_table(Table(("qty", "part"), [[2, "side rail"], [1, "deck"]])), end="")
    qty  part
      2  side rail
      1  deck
    """
    from rich.box import SIMPLE_HEAD  # noqa: PLC0415 - slow to load, and only text needs it
    from rich.console import Console  # noqa: PLC0415
    from rich.table import Table as Lines  # noqa: PLC0415
    from rich.text import Text  # noqa: PLC0415

    lines = Lines(box=SIMPLE_HEAD if across else None, pad_edge=False, padding=(0, 2, 0, 0))
    for column, cell in zip(table.columns, table.rows[0], strict=True):
        lines.add_column(Text(column), justify="left" if isinstance(cell, str) else "right")
    for row in table.rows:
        lines.add_row(*(Text("" if cell is None else harmless(str(cell))) for cell in row))
    paper = Console(
        file=io.StringIO(),
        force_terminal=across is not None,
        legacy_windows=False,
        width=across or PLAIN,
    )
    with paper.capture() as capture:
        paper.print(lines)
    return "".join(f"{line.rstrip()}\n" for line in capture.get().splitlines())


PLAIN: Final = 1000  # characters across where no terminal cuts lines


def _wrapped(text: str, indent: str = "", later: str | None = None) -> str:
    rest = indent if later is None else later
    return textwrap.fill(text, ACROSS, initial_indent=indent, subsequent_indent=rest)


# ── one number ────────────────────────────────────────────────────────────────────────────────


def usual_grid(units: Units) -> Grid:
    """Grid that a hive's lengths are shown on, unless told otherwise.

    >>> usual_grid("mm").name
    '1 mm'
    """
    return MILLIMETRE if units == "mm" else SIXTEENTH


def number_json(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> object:
    """Value for other programs: a length as `length_json` has it, a ratio as a number.

    >>> number_json(Fraction(2, 25), "ratio", SIXTEENTH)
    0.08
    """
    if kind == "length":
        return length_json(value, grid, rounding)
    return int(value) if kind == "count" else float(value)


def number_text(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> str:
    """Value as people read it, on the grid if it is a length.

    >>> [number_text(Fraction(1, 3), kind, SIXTEENTH) for kind in ("length", "ratio")]
    ['≈ 5/16 in', '≈ 0.3333']
    """
    if kind == "length":
        return shown(value, grid=grid, rounding=rounding)
    return decimal_inches(value, places=4)


def _exactly(value: Fraction, kind: Kind, units: Units) -> str:
    """Return a value with its unit, as exactly as it can be written: a hair may decide a fit."""
    if kind != "length":
        return decimal_inches(value, places=4)
    return f"{written(value, units)} {'mm' if units == 'mm' else 'in'}"


def _kind(name: str) -> Kind:
    return kind_of(name, COURSE.dimensions)


def _rule(name: str) -> RoundingRule:
    found = COURSE.dimensions.get(name)
    return found.rule if found else RoundingRule()


# ── parts ─────────────────────────────────────────────────────────────────────────────────────


def parts_json(hive: Hive, pieces: Iterable[Piece], grid: Grid) -> Json:
    """Pieces of a hive for other programs, with every dimension of their components.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> found = parts_json(demo_hive(), parts(demo_hive()), SIXTEENTH)
    >>> list(found), found["dimensions"]["roof.rim_length"]["inches"]
    (['schema', 'hive', 'parts', 'dimensions'], '23 5/8')
    """
    listed = list(pieces)
    return {
        "schema": SCHEMA,
        "hive": _hive_json(hive, grid),
        "parts": [_piece_json(piece, grid) for piece in listed],
        "dimensions": _dimensions_json(hive, {piece.component for piece in listed}, grid),
    }


def _hive_json(hive: Hive, grid: Grid) -> Json:
    measured, chosen = (
        {name: number_json(value, _kind(name), grid) for name, value in given.items()}
        for given in (hive.measured, hive.chosen)
    )
    return {"name": hive.name, "units": hive.units, "measured": measured, "chosen": chosen}


def _piece_json(piece: Piece, grid: Grid) -> Json:
    sizes = (getattr(piece, size) for size in SIZES)
    return {
        "component": piece.component,
        "part": piece.part,
        "quantity": piece.quantity,
        "material": piece.material,
        **{
            n: s and length_json(s.value, grid, s.rounding)
            for n, s in zip(SIZES, sizes, strict=True)
        },
        "note": piece.note,
    }


def _dimensions_json(hive: Hive, components: set[str], grid: Grid) -> Json:
    """Return what is derived for these components, by name; measurements stand in the hive."""
    found = values(hive)
    names = (n for n in COURSE.dimensions if n in found and n not in hive.measurements)
    return {
        n: number_json(found[n], _kind(n), grid, _rule(n).rounding)
        for n in names
        if n.rpartition(".")[0] in {"", *components}
    }


def parts_table(hive: Hive, pieces: Iterable[Piece], grid: Grid) -> Table:
    """Pieces of a hive as rows for a spreadsheet: sizes on the grid, then exact in mm.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> parts_table(demo_hive(), parts(demo_hive()), SIXTEENTH).rows[0][2:8]
    ['side_rail', 2, 'stud', '1 1/2 in', '3 1/2 in', '21 5/8 in']

    The sizes carry their unit, or a spreadsheet would take 1/2 for a day in February.
    """
    in_mm = (f"{size}_mm" for size in SIZES)
    columns = ("hive", "component", "part", "quantity", "material", *SIZES, *in_mm, "note")
    return Table(columns, [_piece_row(hive, piece, grid) for piece in pieces])


def _piece_row(hive: Hive, piece: Piece, grid: Grid) -> list[Cell]:
    sizes = [getattr(piece, size) for size in SIZES]
    return [
        *(hive.name, piece.component, piece.part, piece.quantity, piece.material),
        *(_size_text(size, grid) for size in sizes),
        *(size and float(size.value / MM) for size in sizes),
        piece.note,
    ]


def _size_text(size: Size | None, grid: Grid) -> str | None:
    return shown(size.value, grid=grid, rounding=size.rounding) if size else None


def parts_text(hive: Hive, pieces: Iterable[Piece], grid: Grid, across: int | None = None) -> str:
    """Pieces of a hive to read: for each component a table, and what each piece is for.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> pieces = parts(demo_hive(), component="inner_cover")
    >>> print(parts_text(demo_hive(), pieces, SIXTEENTH))  # doctest: +ELLIPSIS
    Orchard hive: pieces to cut, on a grid of 1/16 in; ≈ stands before a rounded
    size
    <BLANKLINE>
    Inner cover
    qty  part       material  thickness  width      length
      2  rim side   stud      1/2 in     1 1/2 in   23 1/8 in
    ...
    """
    what = f"pieces to cut, on a grid of {grid.name}; ≈ stands before a rounded size"
    by_component = groupby(pieces, lambda piece: piece.component)
    sections = (_component_text(name, list(group), grid, across) for name, group in by_component)
    return "\n".join((f"{_wrapped(f'{harmless(hive.name)}: {what}')}\n", *sections))


def _component_text(name: str, pieces: list[Piece], grid: Grid, across: int | None) -> str:
    columns = ("qty", "part", "material", *SIZES)
    rows = [_text_row(piece, grid) for piece in pieces]
    notes = (_wrapped(f"{title(p.part)}: {p.note}", "  ") for p in pieces)
    table = text_table(Table(columns, rows), across)
    return f"{title(name).capitalize()}\n{table}" + "".join(f"{note}\n" for note in notes)


def _text_row(piece: Piece, grid: Grid) -> list[Cell]:
    sizes = (_size_text(getattr(piece, size), grid) or "" for size in SIZES)
    return [piece.quantity, title(piece.part), piece.material, *sizes]


# ── explain ───────────────────────────────────────────────────────────────────────────────────


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
    value = values(hive)[name]
    if name in hive.measurements:
        what = MEASUREMENTS[name].meaning
        return Explanation(name, _kind(name), value, what, what, RoundingRule(), (), (name,))
    dimension = COURSE.dimension(name)
    steps = COURSE.steps(name, hive.measurements, units=hive.units)
    sources = COURSE.rests_on(name, hive.measurements)
    return Explanation(
        *(name, dimension.kind, value, dimension.what, dimension.why, dimension.rule),
        *(tuple(steps), sources),
    )


def explain_json(told: Explanation, grid: Grid) -> Json:
    """Worked steps for other programs, deepest first.

    >>> from hivecalc.hive import demo_hive
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
        "value": number_json(step.value, _kind(name), grid, _rule(name).rounding),
        "why": step.why,
    }


def explain_table(told: Explanation, grid: Grid) -> Table:
    """Worked steps as rows for a spreadsheet, deepest first; mm is empty for a ratio.

    >>> from hivecalc.hive import demo_hive
    >>> explain_table(explanation(demo_hive(), "roof.slope"), SIXTEENTH).rows[1][2:5]
    ['(3 1/2 − 1 1/2) ÷ 23 5/8', '≈ 0.0847', None]
    """
    columns = ("dimension", "formula", "numbers", "value", "mm", "why")
    if not told.steps:
        value = number_text(told.value, told.kind, grid)
        return Table(columns, [[told.name, "", "", value, _mm(told.value, told.kind), told.why]])
    return Table(columns, [_step_row(step, grid) for step in told.steps])


def _step_row(step: Step, grid: Grid) -> list[Cell]:
    name = step.dimension
    value = number_text(step.value, _kind(name), grid, _rule(name).rounding)
    return [name, step.formula, step.numbers, value, _mm(step.value, _kind(name)), step.why]


def _mm(value: Fraction, kind: Kind) -> float | None:
    return float(value / MM) if kind == "length" else None


def explain_text(hive: Hive, told: Explanation, grid: Grid) -> str:
    """Worked steps to read, and under them what they come from and the size to cut.

    >>> from hivecalc.hive import demo_hive
    >>> told = explanation(demo_hive(), "bottom_board.slot_height")
    >>> print(explain_text(demo_hive(), told, SIXTEENTH), end="")
    Slot height (bottom_board.slot_height)
    Height of the slot that the foam panel slides in.
    <BLANKLINE>
    1. slot height = foam thickness + slot ease
       = 1 + 1/8
       = 1 1/8 in
       The slot is a little higher than the foam is thick, or the panel would bind.
    <BLANKLINE>
    It comes from
      foam thickness 1 in, not measured: the usual size
      slot ease 1/8 in, the usual choice
    <BLANKLINE>
    On the tape: 1 1/8 in (≈ 29 mm), to the nearest 1/16 in. A fit like this is as
    good as a pencil line: take the nearest mark.
    """
    heading = f"{title(told.name).capitalize()} ({told.name})\n{_wrapped(told.what)}\n"
    steps = [_step_text(n, step, hive.units) for n, step in enumerate(told.steps, 1)]
    sources = "".join(f"  {line}\n" for line in _source_lines(hive, told))
    last = [_size_to_cut(told, grid)] if steps else []
    return "\n".join((heading, *steps, f"It comes from\n{sources}", *last))


def _step_text(count: int, step: Step, units: Units) -> str:
    unit = f" {'mm' if units == 'mm' else 'in'}" if _kind(step.dimension) == "length" else ""
    sign = "" if step.shown.startswith("≈") else "= "
    lines = [_wrapped(f"{count}. {title(step.dimension)} = {step.formula}", later="     ")]
    lines += [f"   = {step.numbers}"] if step.numbers != step.shown else []
    lines += [f"   {sign}{step.shown}{unit}", _wrapped(step.why, "   ")]
    return "".join(f"{line}\n" for line in lines)


def _source_lines(hive: Hive, told: Explanation) -> Iterator[str]:
    for name in told.sources:
        value = _exactly(hive.measurements[name], _kind(name), hive.units)
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
    return f"{_wrapped(f'On the tape: {value} ({also}), {towards}. {told.rule.reason}')}\n"


# ── fit ───────────────────────────────────────────────────────────────────────────────────────


def fit_table(hive: Hive, found: Iterable["Finding"]) -> Table:
    """Findings of the fit rules as rows for a spreadsheet.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> fit_table(demo_hive(), findings(demo_hive())).rows[0][1:6]
    ['bottom_board.room_above_stack', 'blocks', 'yes', '0.091 in', '0 in']
    """
    limits = ("value", "low", "high")
    in_mm = (f"{limit}_mm" for limit in limits)
    columns = ("hive", "rule", "level", "holds", *limits, *in_mm, "why", "source")
    return Table(columns, [_finding_row(hive, finding) for finding in found])


def _finding_row(hive: Hive, finding: "Finding") -> list[Cell]:
    limits = (finding.value, finding.low, finding.high)
    return [
        *(hive.name, finding.rule, finding.level, "yes" if finding.holds else "no"),
        *(None if limit is None else _exactly(limit, finding.kind, hive.units) for limit in limits),
        *(None if limit is None else _mm(limit, finding.kind) for limit in limits),
        *(finding.why, finding.source),
    ]


def fit_text(hive: Hive, found: Sequence["Finding"], across: int | None = None) -> str:
    """Findings of the fit rules to read: a table for each component, and why each rule matters.

    >>> from hivecalc.fit import findings
    >>> from hivecalc.hive import demo_hive
    >>> fit_text(demo_hive(), findings(demo_hive())).splitlines()[0]
    'Orchard hive: every rule holds that matters.'
    """
    failing = sum(not finding.holds and finding.level != "note" for finding in found)
    rules = "rule does" if failing == 1 else "rules do"
    result = f"{failing} {rules} not hold." if failing else "every rule holds that matters."
    by_component = groupby(found, lambda finding: finding.rule.partition(".")[0])
    sections = (_rules_text(hive, name, list(group), across) for name, group in by_component)
    return "\n".join((f"{_wrapped(f'{harmless(hive.name)}: {result}')}\n", *sections))


def _rules_text(hive: Hive, name: str, found: list["Finding"], across: int | None) -> str:
    rows = [_rule_row(finding, hive.units) for finding in found]
    table = text_table(Table(("", "rule", "value", "accepted", "by how much"), rows), across)
    notes = (f"{title(f.rule)} ({f.level}): {f.why} Source: {f.source}." for f in found)
    return f"{title(name).capitalize()}\n{table}" + "".join(f"{_wrapped(n, '  ')}\n" for n in notes)


def _rule_row(finding: "Finding", units: Units) -> list[Cell]:
    said = "note" if finding.level == "note" else "FAILS"
    return [
        "holds" if finding.holds else said,
        title(finding.rule),
        _exactly(finding.value, finding.kind, units),
        _accepted(finding, units),
        _margin(finding, units),
    ]


def _accepted(finding: "Finding", units: Units) -> str:
    low, high = (
        None if limit is None else _exactly(limit, finding.kind, units)
        for limit in (finding.low, finding.high)
    )
    if low and high:
        return f"{low} to {high}" if low != high else f"exactly {low}"
    return f"{low} or more" if low else f"{high} or less" if high else "anything"


def _margin(finding: "Finding", units: Units) -> str:
    """Return how far a value is from the limit that it is nearest to, or that it passes."""
    room = []
    if finding.low is not None:
        room.append((finding.value - finding.low, "too small"))
    if finding.high is not None:
        room.append((finding.high - finding.value, "too big"))
    if not room:
        return ""
    least, fault = min(room)
    return f"{_exactly(abs(least), finding.kind, units)} {'to spare' if least >= 0 else fault}"
