"""The pages on strips: how each blank is ripped, drawn from the end, and the pieces of a strip."""

from collections.abc import Iterator, Sequence

from hivecalc.book.content import Block, Column, Paragraph, Section, Table, ticks
from hivecalc.book.pictures import picture
from hivecalc.cutting.needs import BoardNeed
from hivecalc.cutting.strips import Blanks, blanks_told
from hivecalc.drawing.saw import stud_section
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Units
from hivecalc.tables.cut import in_order

STRIPS = (
    Column("strips", 1.8, bold=True),
    Column("cut each to length, in this order", 8),
    Column("cut", 2.4),
)


def strips(need: BoardNeed, units: Units, name: str = "") -> Section:
    """Section on all that is ripped from one kind of lumber: blank by blank, drawn from the end.

    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> studs, boards = board_needs([demo_hive()], demo_yard())
    >>> strips(studs, "inch").blocks[0].lead
    'blank, strip of 1/2 × 3/4 in.'
    >>> strips(boards, "inch").blocks
    ()

    Blanks that are ripped alike stand together. `name`, in the pictures' titles, is the hive's.
    """
    alike: dict[tuple[str, ...], list[Blanks]] = {}
    for blanks in need.blanks:
        alike.setdefault(blanks_told(blanks, units), []).append(blanks)
    blocks = (block for found in alike.values() for block in _alike(found, units, name))
    return Section(f"Ripped from a {need.name}", tuple(blocks))


def _alike(found: Sequence[Blanks], units: Units, name: str) -> Iterator[Block]:
    """Return what some blanks are; how they are ripped stands in the picture."""
    labels = "; ".join(blanks.label for blanks in found)
    told = dict.fromkeys(_told(blanks, units) for blanks in found)
    yield Paragraph(" ".join(told), f"{labels}.")
    if found[0].section.passes:
        svg = stud_section(found[0].section, units=units, name=name)
        yield picture(svg, "The rips, seen from the end", "small")
    yield Table(STRIPS, tuple(row for blanks in found for row in _strips(blanks, units)))


def _told(blanks: Blanks, units: Units) -> str:
    return blanks_told(blanks, units)[0] if blanks.rest_of else _counted(blanks, units)


def _counted(blanks: Blanks, units: Units) -> str:
    """Return how many blanks there are, how long, and how many of their strips are needed."""
    length, needed = said_with_unit(blanks.length, units), blanks.needed
    many = "One blank" if blanks.count == 1 else f"{blanks.count:,} blanks"
    strips = "one strip is" if needed == 1 else f"{needed:,} strips are"
    return f"{many} of {length}: {strips} needed."


def _strips(blanks: Blanks, units: Units) -> Iterator[tuple[str, ...]]:
    for strip in blanks.strips:
        yield f"{strip.count:,}", in_order(strip.pieces, units), ticks(strip.count)
