"""The chapter of one component: its drawings, its parts with numbers, its sizes worked out."""

from collections.abc import Iterator, Mapping, Sequence

from hivecalc.book.content import (
    Block,
    Chapter,
    Column,
    Paragraph,
    Section,
    Table,
    Working,
    Workings,
)
from hivecalc.book.figures import WAYS, grid_name, piece_name, sizes_in_both_units
from hivecalc.components import DIMENSIONS, parts
from hivecalc.derivation import Step, title
from hivecalc.hive import Hive
from hivecalc.length import Units, shown
from hivecalc.part import Piece

COLUMNS = (
    Column("no.", 1.1, bold=True),
    Column("piece", 6),
    Column("how many", 2),
    Column("material", 2),
    Column("thickness", 2.3),
    Column("width", 2.5, bold=True),
    Column("length", 2.5, bold=True),
)
HOW_TO_READ = "Each size once. What stands in its sum is worked out above it or in its own chapter."


def component_chapter(
    hive: Hive, component: str, numbers: Mapping[tuple[str, str], int], drawings: Sequence[Block]
) -> Chapter:
    """Chapter of one component of a hive: drawings, parts table, worked sizes."""
    return Chapter(
        title(component).capitalize(),
        tuple(drawings),
        (
            Section("Parts", (parts_table(hive, component, numbers),)),
            Section("How the sizes come out", (Paragraph(HOW_TO_READ), workings(hive, component))),
        ),
    )


def parts_table(hive: Hive, component: str, numbers: Mapping[tuple[str, str], int]) -> Table:
    r"""The parts of a component with their numbers and their sizes as they are cut.

    >>> from hivecalc.components import built, values
    >>> from hivecalc.drawing.exploded import part_numbers
    >>> from hivecalc.hive import demo_hive
    >>> hive = demo_hive()
    >>> rows = parts_table(hive, "inner_cover", part_numbers(values(hive), built(hive))).rows
    >>> rows[0][1:4]
    ('Rim side\nLies along one side between the two sheets.', '2', 'stud')
    """
    rows = (_row(p, numbers, hive.units) for p in parts(hive, component=component))
    return Table(COLUMNS, tuple(rows))


def _row(piece: Piece, numbers: Mapping[tuple[str, str], int], units: Units) -> tuple[str, ...]:
    return (
        str(numbers[piece.component, piece.part]),
        f"{piece_name(piece)}\n{piece.note}",
        str(piece.quantity),
        piece.material,
        *sizes_in_both_units(piece, units),
    )


def workings(hive: Hive, component: str) -> Workings:
    """Every size of a component that is worked out, those that others need first.

    >>> from hivecalc.hive import demo_hive
    >>> [(s.size, s.value) for s in workings(demo_hive(), "inner_cover").steps][:2]
    [('rim side length', '23 1/8 in'), ('rim front length', '6 3/16 in')]
    """
    return Workings(tuple(_working(step, hive.units) for step in _steps(hive, component)))


def _steps(hive: Hive, component: str) -> Iterator[Step]:
    """Return one step for each size, in an order that needs nothing from below."""
    told = set[str]()
    for name in DIMENSIONS.names([component]):
        if name in hive.measurements or DIMENSIONS.dimension(name).as_measured:
            continue
        for step in DIMENSIONS.steps(name, hive.measurements, units=hive.units):
            if step.dimension not in told and _belongs(step.dimension, component):
                told.add(step.dimension)
                yield step


def _belongs(name: str, component: str) -> bool:
    dimension = DIMENSIONS.dimension(name)
    return dimension.component == component and not dimension.as_measured


def _working(step: Step, units: Units) -> Working:
    numbers = "" if step.numbers == step.shown else step.numbers
    value = f"{step.shown}{_unit(step, units)}"
    return Working(
        size=title(step.dimension),
        formula=step.formula,
        numbers=numbers,
        value=value,
        on_tape=_on_tape(step, value, units),
        why=step.why,
    )


def _unit(step: Step, units: Units) -> str:
    if DIMENSIONS.dimension(step.dimension).kind != "length":
        return ""
    return " in" if units == "inch" else " mm"


def _on_tape(step: Step, value: str, units: Units) -> str:
    """Return a length as it is rounded to be cut, and which way; nothing where it needs none."""
    dimension = DIMENSIONS.dimension(step.dimension)
    if dimension.kind != "length":
        return ""
    rounding = dimension.rule.rounding
    cut = shown(step.value, units, None, rounding)
    return "" if cut == value else f"{cut}, {WAYS[rounding]} {grid_name(units)}"
