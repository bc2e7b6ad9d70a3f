"""The reports on sizes: one figure, the pieces of a hive, and how a size comes out, by steps."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import groupby
from typing import Final

from hivecalc.components import DIMENSIONS, is_there, of_stock, parts, values
from hivecalc.derivation import Kind, RoundingRule, Step, kind_of, title
from hivecalc.document import (
    SCHEMA,
    Cell,
    Document,
    Json,
    Paper,
    Paragraph,
    Report,
    Rows,
    Section,
    Working,
    Workings,
    notes,
    unheaded,
)
from hivecalc.hive import MEASUREMENTS, Hive, answer_text
from hivecalc.hive.measurements import OPENINGS
from hivecalc.length import (
    MARKS,
    MM,
    SIGN_OF,
    SIXTY_FOURTH,
    TENTH_MM,
    Grid,
    Rounding,
    Units,
    decimal_inches,
    length_json,
    shown,
    with_unit,
)
from hivecalc.part import SIZES, Size, SizedPart
from hivecalc.workshop.yard import SHEETS

WAYS: Final = {Rounding.NEAREST: "to the nearest", Rounding.DOWN: "down to", Rounding.UP: "up to"}

# ── one figure ────────────────────────────────────────────────────────────────────────────────


def usual_paper(units: Units) -> Paper:
    """The paper that goes with the units of a hive: letter with inches, A4 with mm."""
    return "letter" if units == "inch" else "a4"


def kind_named(name: str) -> Kind:
    """What sort of number a dimension or measurement is."""
    return kind_of(name, DIMENSIONS.dimensions)


def rule_named(name: str) -> RoundingRule:
    """How a dimension is rounded; the usual way for a measurement."""
    found = DIMENSIONS.dimensions.get(name)
    return found.rule if found else RoundingRule()


def number_json(
    value: Fraction, kind: Kind, grid: Grid, rounding: Rounding = Rounding.NEAREST
) -> object:
    """Value for other programs: a length as `length_json` has it, a ratio as a number."""
    if kind == "length":
        return length_json(value, grid, rounding)
    if kind == "answer":
        return answer_text(value)
    return int(value) if kind == "count" else float(value)


def exactly(value: Fraction, kind: Kind, units: Units) -> str:
    """Value with its unit, as exactly as it can be written: a hair may decide a fit."""
    if kind == "length":
        return with_unit(units, value)
    return answer_text(value) if kind == "answer" else decimal_inches(value, places=4)


def length_in_mm(value: Fraction, kind: Kind) -> float | None:
    """Value of a length in mm; None for a ratio or a count, which have no unit."""
    return float(value / MM) if kind == "length" else None


def other(units: Units) -> Units:
    """The unit that a hive is not shown in."""
    return "mm" if units == "inch" else "inch"


def in_both_units(length: Fraction, units: Units, rounding: Rounding = Rounding.NEAREST) -> str:
    """A length in the hive's own unit, and on a second line in the other one."""
    return f"{shown(length, units, None, rounding)}\n{shown(length, other(units), None, rounding)}"


def exactly_in_both_units(length: Fraction, units: Units, *, fine: bool = False) -> str:
    """A length as exactly as a tape shows it, and on a second line in the other unit."""
    also = shown(length, grid=TENTH_MM) if units == "inch" else with_unit("inch", length)
    return f"{as_on_tape(length, units, fine=fine)}\n{also}"


def as_on_tape(length: Fraction, units: Units, *, fine: bool = False) -> str:
    """A size of stock that somebody measured, exactly; on the usual marks if no tape has it.

    What is thinner than such a mark, as wire is, is shown in thousandths. What nobody cuts, as the
    thickness of a sheet, is `fine`: foam of 25 mm is never about an inch.

    >>> as_on_tape(25 * MM, "inch"), as_on_tape(25 * MM, "inch", fine=True)
    ('≈ 1 in', '≈ 63/64 in')
    """
    finest = TENTH_MM if units == "mm" else SIXTY_FOURTH
    if (length / finest.step).denominator == 1 or length < MARKS[units].step:
        return with_unit(units, length)
    return shown(length, units, finest if fine else None)


def of_sheet(piece: SizedPart, size: str) -> bool:
    """Whether a size is the thickness of a sheet, which nobody cuts."""
    return size == "thickness" and piece.material in SHEETS.values()


# ── the pieces ────────────────────────────────────────────────────────────────────────────────


def roundings(piece: SizedPart) -> dict[str, tuple[Rounding, str]]:
    """The way each size that somebody cuts is rounded, and why, by the name of the size."""
    names = {s: f"{piece.component}.{piece.part}_{s}" for s in SIZES if getattr(piece, s)}
    rules = {s: DIMENSIONS.dimension(n).rule for s, n in names.items() if not of_stock(n)}
    return {size: (rule.rounding, rule.reason) for size, rule in rules.items()}


def sizes_in_both_units(piece: SizedPart, units: Units) -> Iterator[str]:
    """Thickness, width and length of a piece, each in both units, or a dash where there is none.

    What somebody cuts is rounded its own way; stock that is used as it was measured is not.
    """
    for name, size in zip(SIZES, _sizes(piece), strict=True):
        if size is None:
            yield "–"
        elif name in roundings(piece):
            yield in_both_units(size.value, units, size.rounding)
        else:
            yield exactly_in_both_units(size.value, units, fine=of_sheet(piece, name))


def _sizes(piece: SizedPart) -> list[Size | None]:
    return [getattr(piece, size) for size in SIZES]


def parts_report(hive: Hive, grid: Grid | None = None, component: str | None = None) -> Report:
    """The report on the pieces of a hive, or of one component, with their marks on a grid."""
    from hivecalc.fit import marked  # noqa: PLC0415 - the rules load slowly

    marks = grid or MARKS[hive.units]
    pieces = [marked(hive, piece, marks) for piece in parts(hive, component=component)]
    return Report(
        lambda: _listed(hive, pieces, marks),
        lambda: _piece_rows(hive, pieces, marks),
        lambda: _pieces_json(hive, pieces, marks),
    )


def _on(grid: Grid, piece: SizedPart) -> list[str | None]:
    """The sizes of a piece on a grid; the thickness of a sheet as exactly as a tape shows it."""

    def on_grid(name: str, size: Size) -> str:
        if of_sheet(piece, name):
            return as_on_tape(size.value, grid.units, fine=True)
        return shown(size.value, grid=grid, rounding=size.rounding)

    named = zip(SIZES, _sizes(piece), strict=True)
    return [on_grid(name, size) if size else None for name, size in named]


def _listed(hive: Hive, listed: list[SizedPart], grid: Grid) -> Document:
    what = f"pieces to cut, on a grid of {grid.name}; ≈ stands before a rounded size"
    sections = [*unheaded(f"{hive.name}: {what}")]
    for component, group in groupby(listed, lambda piece: piece.component):
        pieces = list(group)
        rows = [
            [p.quantity, title(p.part), p.material, *(text or "" for text in _on(grid, p))]
            for p in pieces
        ]
        table = Rows(("qty", "part", "material", *SIZES), rows)
        said = (f"{title(p.part)}: {p.note}" for p in pieces)
        sections.append(notes(title(component).capitalize(), said, table))
    return Document("", tuple(sections))


def _piece_rows(hive: Hive, listed: list[SizedPart], grid: Grid) -> Rows:
    """Rows for a spreadsheet: sizes carry their unit, or it would take 1/2 for a day."""
    in_mm = (f"{size}_mm" for size in SIZES)
    columns = ("hive", "component", "part", "quantity", "material", *SIZES, *in_mm, "note")
    rows: list[list[Cell]] = [
        [hive.name, p.component, p.part, p.quantity, p.material, *_on(grid, p),
         *(float(size.value / MM) if size else None for size in _sizes(p)), p.note]
        for p in listed
    ]  # fmt: skip
    return Rows(columns, rows)


def _pieces_json(hive: Hive, listed: list[SizedPart], grid: Grid) -> Json:
    from hivecalc.fit import rounding_to_mark  # noqa: PLC0415 - the rules load slowly

    measured, chosen = (
        {name: number_json(value, kind_named(name), grid) for name, value in given.items()}
        for given in (hive.measured, hive.chosen)
    )
    named: Json = {"name": hive.name, "units": hive.units}
    found, components = values(hive), {piece.component for piece in listed}
    given = MEASUREMENTS.keys() & hive.measurements.keys()
    derived = {
        n: number_json(found[n], kind_named(n), grid, rounding_to_mark(hive, n, found[n], grid))
        for n, dimension in DIMENSIONS.dimensions.items()
        if n in found
        and n not in given
        and dimension.component in components
        and is_there(n, hive.measurements)
    }
    return {
        "schema": SCHEMA,
        "hive": {**named, "measured": measured, "chosen": chosen},
        "parts": [_piece_json(piece, grid) for piece in listed],
        "dimensions": derived,
    }


def _piece_json(piece: SizedPart, grid: Grid) -> Json:
    said = {name: getattr(piece, name) for name in ("component", "part", "quantity", "material")}
    sizes = {
        name: length_json(size.value, grid, size.rounding) if size else None
        for name, size in zip(SIZES, _sizes(piece), strict=True)
    }
    return {**said, **sizes, "note": piece.note}


# ── how a size comes out ──────────────────────────────────────────────────────────────────────


def size_report(hive: Hive, name: str, grid: Grid | None = None) -> Report:
    """The report on a dimension of a hive, by its whole name; a measurement has no steps.

    Raises KeyError for one that this hive has not.
    """
    size = _Size(hive, name, grid or MARKS[hive.units], values(hive)[name])
    return Report(size.document, size.table, size.data)


@dataclass(frozen=True)
class _Size:
    hive: Hive
    name: str
    grid: Grid
    value: Fraction

    @property
    def given(self) -> bool:
        """Whether it is measured or chosen, and not worked out."""
        return self.name in self.hive.measurements

    @property
    def words(self) -> tuple[str, str]:
        """What it is, and why it is so."""
        if self.given:
            meaning = MEASUREMENTS[_as_measured(self.name)].meaning
            return meaning, meaning
        dimension = DIMENSIONS.dimension(self.name)
        return dimension.what, dimension.why

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """Its worked steps, deepest first."""
        if self.given:
            return ()
        return tuple(DIMENSIONS.steps(self.name, self.hive.measurements, units=self.hive.units))

    def document(self) -> Document:
        name, given, units = self.name, self.hive.measurements, self.hive.units
        head = Section(f"{title(name).capitalize()} ({name})", (Paragraph(self.words[0]),))
        sources = [name] if self.given else DIMENSIONS.rests_on(name, given, values(self.hive))
        said = (
            f"{title(n)} {exactly(given[n], kind_named(n), units)}, {origin(self.hive, n)}"
            for n in map(_as_measured, sources)
        )
        comes_from = notes("It comes from", said)
        if not self.steps:
            return Document("", (head, comes_from))
        worked = Workings(tuple(working(step, units) for step in self.steps))
        return Document("", (head, *unheaded(worked), comes_from, *unheaded(self._on_tape())))

    def _on_tape(self) -> str:
        kind, grid = kind_named(self.name), self.grid
        if kind != "length":
            return f"Value: {exactly(self.value, kind, grid.units)}"
        rule = rule_named(self.name)
        value = shown(self.value, grid=grid, rounding=rule.rounding)
        also = shown(self.value, grid=MARKS[other(grid.units)], rounding=rule.rounding)
        full = "" if rule.rounding is Rounding.NEAREST else " a full"
        towards = f"{WAYS[rule.rounding]}{full} {grid.name}"
        return f"On the tape: {value} ({also}), {towards}. {rule.reason}"

    def table(self) -> Rows:
        """Its steps as rows, deepest first; mm is empty for a ratio."""
        columns = ("dimension", "formula", "numbers", "value", "mm", "why")
        steps = [(s.dimension, s.formula, s.numbers, s.value, s.why) for s in self.steps]
        rows: list[list[Cell]] = []
        for name, formula, numbers, size, why in steps or [
            (self.name, "", "", self.value, self.words[1])
        ]:
            kind, value = kind_named(name), exactly(size, kind_named(name), self.grid.units)
            if kind == "length":
                value = shown(size, grid=self.grid, rounding=rule_named(name).rounding)
            rows.append([name, formula, numbers, value, length_in_mm(size, kind), why])
        return Rows(columns, rows)

    def data(self) -> Json:
        return {
            "schema": SCHEMA,
            "dimension": self.name,
            "value": self._number(self.name, self.value),
            "why": self.words[1],
            "steps": [
                {"dimension": s.dimension, "formula": s.formula, "numbers": s.numbers,
                 "value": self._number(s.dimension, s.value), "why": s.why}
                for s in self.steps
            ],
        }  # fmt: skip

    def _number(self, name: str, value: Fraction) -> object:
        return number_json(value, kind_named(name), self.grid, rule_named(name).rounding)


def _as_measured(name: str) -> str:
    """The measurement that gives a value: itself, or the opening that was measured instead."""
    return next((opening for opening, cut in OPENINGS.items() if name in cut), name)


def origin(hive: Hive, name: str) -> str:
    """Where the value of a measurement or choice comes from, in words."""
    if name in hive.measured:
        return "measured"
    if name in hive.chosen:
        return "chosen"
    measured = MEASUREMENTS[name].group == "measured"
    return "not measured: the usual size" if measured else "the usual choice"


def workings(hive: Hive, component: str) -> Workings:
    """Every size of a component that is worked out, those that others need first."""
    workings: dict[str, Working] = {}
    for name in DIMENSIONS.names([component]):
        if name in hive.measurements or DIMENSIONS.dimension(name).as_measured:
            continue
        for step in DIMENSIONS.steps(name, hive.measurements, units=hive.units):
            dimension = DIMENSIONS.dimension(step.dimension)
            own = dimension.component == component and not dimension.as_measured
            if own and step.dimension not in workings:
                workings[step.dimension] = working(step, hive.units)
    return Workings(tuple(workings.values()))


def working(step: Step, units: Units) -> Working:
    """How one size comes out, and what the tape says where that is another value."""
    dimension = DIMENSIONS.dimension(step.dimension)
    numbers = "" if step.numbers == step.shown else step.numbers
    value, on_tape = step.shown, ""
    if dimension.kind == "length":
        value += f" {SIGN_OF[units]}"
        rounding = dimension.rule.rounding
        cut = shown(step.value, units, None, rounding)
        on_tape = "" if cut == value else f"{cut}, {WAYS[rounding]} {MARKS[units].name}"
    return Working(title(step.dimension), step.formula, numbers, value, on_tape, step.why)
