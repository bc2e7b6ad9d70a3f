"""The pages to cut by: every board and sheet drawn with its pieces, in the order to cut them."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from hivecalc.book.content import TICK, Block, Chapter, Column, Paragraph, Section, Table, ticks
from hivecalc.book.harmless import harmless
from hivecalc.book.pictures import picture
from hivecalc.book.strips import strips
from hivecalc.book.to_buy import missing
from hivecalc.cutting.boards import BoardPattern
from hivecalc.cutting.plans import BoardsCut, CutPlans, SheetsCut
from hivecalc.cutting.sheets import Layout, cut_words
from hivecalc.drawing.cutting import boards_cut_up, sheet_cut_up
from hivecalc.hive.texts import sentence
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Units
from hivecalc.stock import Board, SheetGoods, Yard
from hivecalc.tables.cut import counted_goods, in_order
from hivecalc.tables.known import known

CUTS = (Column("done", 1.1), Column("cut, in this order", 12))
TAKE_CARE = (
    "Your saw's manual, local codes and trained people go before these pages. Read the cautions "
    "for each kind of cut before you make it: they stand with the settings of the saw. Cut wire "
    "mesh with snips, and in gloves."
)
HOW_TO_READ = (
    "The pieces of a board stand in the order to cut them, the longest first. Tick a box for each "
    "board and for each cut that is done."
)


def to_cut(plans: CutPlans, yard: Yard, name: str = "") -> Chapter:
    """Chapter of how to cut all boards, strips and sheets, each drawn and told.

    >>> from hivecalc.cutting.plans import cut_plans
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> told = to_cut(cut_plans([demo_hive()], demo_yard()), demo_yard())
    >>> [section.heading for section in told.sections][:2]
    ['Stud of 1 1/2 × 3 1/2 in', 'Ripped from a stud of 1 1/2 × 3 1/2 in']

    `yard` is the one that the plans are for; `name`, in the pictures' titles, is the hive's.
    """
    first = (Paragraph(TAKE_CARE, tone="caution"), Paragraph(f"{HOW_TO_READ} {_saw(plans, yard)}"))
    bench = _Bench(plans.units, yard, name)
    sections = (*_boards(plans, bench), *map(bench.sheets, plans.sheets), *_left(plans))
    return harmless(Chapter("How to cut it", first, tuple(s for s in sections if s.blocks)))


def _saw(plans: CutPlans, yard: Yard) -> str:
    """Return what the saw takes, and what comes off the ends of boards."""
    kerf, trim = (said_with_unit(size, plans.units) for size in (yard.kerf, yard.end_trim))
    trimmed = f" {trim} comes off one end of each new board." if yard.end_trim else ""
    return f"The kerf of the saw is {kerf}.{trimmed}"


def _boards(plans: CutPlans, bench: "_Bench") -> Iterator[Section]:
    for cut in plans.boards:
        yield bench.boards(cut)
        yield strips(cut.need, plans.units, bench.name)


def _left(plans: CutPlans) -> Iterator[Section]:
    if plans.unplanned:
        yield Section("Not planned", (missing(plans.unplanned),))


@dataclass(frozen=True)
class _Bench:
    """Where it is cut: in which units, of which yard's goods, for the hive of which name."""

    units: Units
    yard: Yard
    name: str

    def boards(self, cut: BoardsCut) -> Section:
        """The boards of one kind of lumber: what is known of the plan, then each pattern."""
        patterns = (block for pattern in cut.plan.patterns for block in self._board(pattern))
        return self._section(cut, counted_goods(cut.plan.boards, "board"), tuple(patterns))

    def _board(self, pattern: BoardPattern) -> Iterator[Block]:
        left = f"Left over: {said_with_unit(pattern.offcut, self.units)}."
        told = f"{in_order(pattern.pieces, self.units)}. {left}"
        yield Paragraph(told, f"{ticks(pattern.count)} {_taken(pattern.count, pattern.board)}:")
        svg = boards_cut_up(
            [pattern], self.yard.kerf, self.yard.end_trim, units=self.units, name=self.name
        )
        yield picture(svg, pattern.board.name, "small")

    def sheets(self, cut: SheetsCut) -> Section:
        """The sheets of one material: what is known of the plan, the care, then each layout."""
        layouts = cut.plan.layouts
        care = dict.fromkeys(cut_words(layout, self.units)[0] for layout in layouts)
        blocks = (block for layout in layouts for block in self._sheet(layout))
        cautions = (Paragraph(text, tone="caution") for text in care)
        return self._section(cut, counted_goods(cut.plan.sheets, "sheet"), (*cautions, *blocks))

    def _sheet(self, layout: Layout) -> Iterator[Block]:
        taken = f"{ticks(layout.count)} {_taken(layout.count, layout.sheet)}"
        yield Paragraph(_pieces(layout), f"{taken}:")
        svg = sheet_cut_up(layout, units=self.units, name=self.name)
        yield picture(svg, layout.sheet.name, "small")
        _, *lines = cut_words(layout, self.units)
        if layout.cuts:
            yield Table(CUTS, tuple((TICK, line) for line in lines))

    def _section(self, cut: BoardsCut | SheetsCut, many: str, blocks: tuple[Block, ...]) -> Section:
        if not blocks:
            return Section(cut.need.name, ())
        said = " ".join((f"{many}.", known(cut.plan, self.yard.currency, self.units)))
        return Section(
            sentence(cut.need.name), (Paragraph(" ".join((said, *cut.plan.notes))), *blocks)
        )


def _pieces(layout: Layout) -> str:
    """Return what comes out of a sheet; where no cut is needed it says so."""
    counted = Counter(piece.label for piece in layout.placed)
    listed = ", ".join(f"{f'{many} × ' * (many > 1)}{label}" for label, many in counted.items())
    return f"{listed}." if layout.cuts else f"{listed}, as it comes: no cut."


def _taken(count: int, goods: Board | SheetGoods) -> str:
    return f"{count:,} × {goods.name}{', at hand' * goods.at_hand}"
