"""Cutting plans as one SVG file: every board and sheet with its pieces, and the cuts in order."""

from collections.abc import Iterator
from typing import Final

from hivecalc.cutting.plans import BoardsCut, CutPlans, SheetsCut
from hivecalc.cutting.sheets import Layout, cut_words
from hivecalc.drawing.cutting import boards_cut_up, sheet_cut_up
from hivecalc.drawing.page import Page
from hivecalc.hive.texts import sentence
from hivecalc.length import Units
from hivecalc.stock import Yard
from hivecalc.tables.cut import CARE, INVENTED, counted_goods
from hivecalc.tables.drawn.words import named, write_missing
from hivecalc.tables.known import known

TITLE: Final = "How to cut it"
TOGETHER: Final = 3
"""So many kinds of boards share a picture with its list of pieces."""

BESIDE: Final = 16
"""So many sentences about cuts stand beside a picture, or beside one another."""

CUTS: Final = "Its cuts, in this order"
NUMBERS: Final = "The numbers of the pieces hold within one picture: its list stands below it."


def plans_drawn(plans: CutPlans, yard: Yard, *, name: str = "", invented: bool = False) -> str:
    """Cutting plans as an SVG file: boards and sheets with their pieces, need by need.

    >>> from hivecalc.cutting.plans import cut_plans
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> svg = plans_drawn(cut_plans([demo_hive()], demo_yard()), demo_yard())
    >>> svg.count("<title"), svg.count('data-name="bottom board side rail"')
    (1, 2)

    `yard` is the one that the plans are for; `name` is the hive's or the class's. `invented` says
    that no yard file was given, and the picture tells so.
    """
    page, title = Page(), named(name, TITLE)
    page.begin(title)
    page.write(CARE, *([INVENTED] if invented else []), NUMBERS)
    for boards in plans.boards:
        _draw_boards(page, boards, yard, plans.units)
    for sheets in plans.sheets:
        _draw_sheets(page, sheets, yard, plans.units)
    write_missing(page, plans.unplanned)
    return page.file(title)


def _draw_boards(page: Page, cut: BoardsCut, yard: Yard, units: Units) -> None:
    patterns = cut.plan.patterns
    if patterns:
        _begin(page, cut, counted_goods(cut.plan.boards, "board"), yard, units)
        shares = (patterns[i : i + TOGETHER] for i in range(0, len(patterns), TOGETHER))
        page.hang(boards_cut_up(some, yard.kerf, yard.end_trim, units=units) for some in shares)


def _draw_sheets(page: Page, cut: SheetsCut, yard: Yard, units: Units) -> None:
    layouts = cut.plan.layouts
    if layouts:
        _begin(page, cut, counted_goods(cut.plan.sheets, "sheet"), yard, units)
        page.write(*dict.fromkeys(cut_words(layout, units)[0] for layout in layouts))
        for layout in layouts:
            page.hang([sheet_cut_up(layout, units=units), *_cuts(layout, units)])


def _begin(page: Page, cut: BoardsCut | SheetsCut, many: str, yard: Yard, units: Units) -> None:
    """Begin with what is needed, how much is taken for it, and what is known of the plan."""
    page.begin(sentence(cut.need.name))
    page.write(" ".join((f"{many}.", known(cut.plan, yard.currency, units), *cut.plan.notes)))


def _cuts(layout: Layout, units: Units) -> Iterator[str]:
    """Return what stands beside the picture of a layout, and below where there is much of it."""
    _, *lines = cut_words(layout, units)
    for i in range(0, len(lines), BESIDE):
        beside = Page(abreast=1)
        beside.begin(CUTS)
        beside.write(*lines[i : i + BESIDE])
        yield beside.picture()
