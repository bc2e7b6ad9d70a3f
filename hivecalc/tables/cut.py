"""Cutting plans as text, as rows and for other programs."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Final

from hivecalc.cutting import BoardPattern
from hivecalc.cutting.plans import BoardsCut, CutPlans, SheetsCut
from hivecalc.cutting.sheets import Layout, Rectangle, cut_words
from hivecalc.hive.texts import seen
from hivecalc.hive.values import said_with_unit
from hivecalc.length import MM, Grid, Length, Units, length_json, shown
from hivecalc.stock import Board, SheetGoods
from hivecalc.tables.numbers import usual_grid
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, wrapped

CARE: Final = (
    "Take care: your saw's manual, local codes and trained people go before this plan. “hivecalc "
    "saw” lists the settings, with the cautions for each. Cut wire mesh with snips, and in gloves."
)
INVENTED: Final = (
    "The yard that comes with the course is taken, and its prices are invented. Name your own yard "
    "file with --yard."
)
COUNTED: Final = {
    "boards": "fewest boards to buy",
    "sheets": "fewest sheets to buy",
    "cost": "least cost",
    "waste": "least length of board to buy",
}
PROVED: Final = "No plan does better: that is proved."
UNPROVED: Final = "Whether another plan does better is not proved."


# ── for other programs ────────────────────────────────────────────────────────────────────────


def cut_json(plans: CutPlans, grid: Grid | None = None) -> Json:
    """Cutting plans for other programs.

    >>> from hivecalc.cutting.plans import cut_plans
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> found = cut_json(cut_plans([demo_hive()], demo_yard()))
    >>> list(found)
    ['schema', 'proved', 'bound', 'stock_used', 'plans', 'aim', 'needs', 'unplanned']
    >>> list(found["plans"][0])
    ['need', 'stock', 'count', 'pieces', 'offcut', 'offcuts', 'cuts']

    `bound` is what no plans can go below, as the aim counts: boards and sheets to buy, money, or
    inches of board to buy. `stock_used` counts boards and sheets, those at hand too. Places and
    sizes on a sheet run from its left edge and its near end.
    """
    marks = grid or usual_grid(plans.units)
    boards = [_board_json(c, pattern, marks) for c in plans.boards for pattern in c.plan.patterns]
    sheets = [_sheet_json(c, layout, marks) for c in plans.sheets for layout in c.plan.layouts]
    return {
        "schema": SCHEMA,
        "proved": plans.proved,
        "bound": float(plans.bound),
        "stock_used": plans.used,
        "plans": boards + sheets,
        "aim": plans.aim,
        "needs": [_need_json(cut) for cut in plans.cuts],
        "unplanned": [
            {"label": left.label, "count": left.count, "why": left.why} for left in plans.unplanned
        ],
    }


def _need_json(cut: BoardsCut | SheetsCut) -> Json:
    return {
        "name": cut.need.name,
        "aim": cut.plan.aim,
        "counted": float(cut.plan.counted),
        "bound": float(cut.plan.bound),
        "proved": cut.plan.proved,
        "notes": list(cut.plan.notes),
    }


def _stock_json(goods: Board | SheetGoods, grid: Grid) -> Json:
    sizes = {"thickness": goods.thickness, "width": goods.width, "length": goods.length}
    return {
        "name": goods.name,
        "material": goods.material,
        **{name: length_json(size, grid) for name, size in sizes.items()},
        "at_hand": goods.at_hand,
    }


def _board_json(cut: BoardsCut, pattern: BoardPattern, grid: Grid) -> Json:
    return {
        "need": cut.need.name,
        "stock": _stock_json(pattern.board, grid),
        "count": pattern.count,
        "pieces": [
            {"label": label, "length": length_json(length, grid)}
            for label, length in pattern.pieces
        ],
        "offcut": length_json(pattern.offcut, grid),
        "offcuts": [],
        "cuts": [],
    }


def _sheet_json(cut: SheetsCut, layout: Layout, grid: Grid) -> Json:
    rests = [_rectangle_json(rest, grid) for rest in layout.offcuts]
    return {
        "need": cut.need.name,
        "stock": _stock_json(layout.sheet, grid),
        "count": layout.count,
        "pieces": [
            {
                "label": placed.label,
                **_rectangle_json(Rectangle(*placed[1:5]), grid),
                "turned": placed.turned,
            }
            for placed in layout.placed
        ],
        "offcut": rests[0] if rests else None,
        "offcuts": rests,
        "cuts": [
            {
                "number": c.number,
                "of": c.part or None,
                "way": c.way,
                "at": length_json(c.at, grid),
                "from": _rectangle_json(c.where, grid),
            }
            for c in layout.cuts
        ],
    }


def _rectangle_json(where: Rectangle, grid: Grid) -> Json:
    return {name: length_json(size, grid) for name, size in where._asdict().items()}


# ── as rows ───────────────────────────────────────────────────────────────────────────────────


def cut_table(plans: CutPlans, grid: Grid | None = None) -> Table:
    """Cutting plans as rows for a spreadsheet: a row for each kind of piece that a stock gives.

    >>> from hivecalc.cutting.plans import cut_plans
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> table = cut_table(cut_plans([demo_hive()], demo_yard()))
    >>> table.rows[0][:4]
    ['stud of 1 1/2 × 3 1/2 in', 1, '8 ft 2x4', 1]

    What could not be planned stands at the end, without a plan and with the reason.
    """
    columns = (
        "need", "plan", "stock", "count", "piece", "pieces_each", "width", "width_mm", "length",
        "length_mm", "offcut", "note",
    )  # fmt: skip
    marks = grid or usual_grid(plans.units)
    rows = [
        row for number, taken in enumerate(_taken(plans), 1) for row in _rows(number, *taken, marks)
    ]
    left: list[list[Cell]] = [
        [None, None, None, None, u.label, u.count, *[None] * 5, u.why] for u in plans.unplanned
    ]
    return Table(columns, rows + left)


def _taken(plans: CutPlans) -> Iterator[tuple[str, BoardPattern | Layout]]:
    """Every pattern and layout, with what it is needed for."""
    for boards in plans.boards:
        yield from ((boards.need.name, pattern) for pattern in boards.plan.patterns)
    for sheets in plans.sheets:
        yield from ((sheets.need.name, layout) for layout in sheets.plan.layouts)


def _rows(number: int, need: str, taken: BoardPattern | Layout, grid: Grid) -> Iterator[list[Cell]]:
    goods = taken.board if isinstance(taken, BoardPattern) else taken.sheet
    for (label, width, length), each in _pieces(taken).items():
        yield [
            *(need, number, goods.name, taken.count, label, each),
            *(*_written(width, grid), *_written(length, grid)),
            *(_offcut(taken, grid), None),
        ]


def _pieces(taken: BoardPattern | Layout) -> Counter[tuple[str, Length | None, Length]]:
    """The kinds of pieces of one board or sheet, each with how many there are of it."""
    if isinstance(taken, BoardPattern):
        return Counter((label, None, length) for label, length in taken.pieces)
    return Counter((placed.label, placed.width, placed.length) for placed in taken.placed)


def _written(size: Length | None, grid: Grid) -> tuple[Cell, Cell]:
    return (None, None) if size is None else (shown(size, grid=grid), float(size / MM))


def _offcut(taken: BoardPattern | Layout, grid: Grid) -> str:
    if isinstance(taken, BoardPattern):
        return shown(taken.offcut, grid=grid)
    sizes = [
        (shown(rest.width, grid=grid), shown(rest.length, grid=grid)) for rest in taken.offcuts
    ]
    return "; ".join(" × ".join(pair) for pair in sizes)


# ── to read ───────────────────────────────────────────────────────────────────────────────────


def cut_text(plans: CutPlans, *, invented: bool = False) -> str:
    r"""Cutting plans to read: boards by the pieces that come off each, sheets cut by cut.

    >>> from hivecalc.cutting.plans import cut_plans
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> text = cut_text(cut_plans([demo_hive()], demo_yard()))
    >>> text.split("\n\n")[1].splitlines()[0]
    'stud of 1 1/2 × 3 1/2 in'

    `invented` says that no yard file was given, and the text tells so.
    """
    first = [wrapped(CARE), *([wrapped(INVENTED)] if invented else [])]
    sections = [
        *("\n".join(_boards_lines(cut, plans.units)) for cut in plans.boards if cut.plan.patterns),
        *("\n".join(_sheets_lines(cut, plans.units)) for cut in plans.sheets if cut.plan.layouts),
        *_left(plans),
    ]
    return "".join(f"{section}\n" for section in ("\n".join(first), *_spaced(sections)))


def _spaced(sections: Iterable[str]) -> Iterator[str]:
    for section in sections:
        yield f"\n{section}"


def _heading(cut: BoardsCut | SheetsCut, what: str) -> Iterator[str]:
    """What it is, how many are taken, for which aim, and whether more could be done."""
    plan = cut.plan
    sure = PROVED if plan.proved else UNPROVED
    yield wrapped(seen(cut.need.name))
    told = f"{what}. Aim: {COUNTED[plan.aim]}. {sure}"
    yield wrapped(" ".join((told, *plan.notes)), "  ")


def _boards_lines(cut: BoardsCut, units: Units) -> Iterator[str]:
    yield from _heading(cut, counted_goods(cut.plan.boards, "board"))
    for pattern in cut.plan.patterns:
        pieces = in_order(pattern.pieces, units)
        left = f"left over: {said_with_unit(pattern.offcut, units)}"
        named = f"{pattern.count} × {pattern.board.name}{', at hand' * pattern.board.at_hand}"
        yield wrapped(seen(f"{named}: {pieces}; {left}."), "  ", "    ")


def in_order(pieces: Iterable[tuple[str, Length]], units: Units) -> str:
    """The pieces that come off one board or strip, in the order to cut them.

    >>> from fractions import Fraction
    >>> in_order([("rail", Fraction(20)), ("rail", Fraction(20)), ("stop", Fraction(9))], "inch")
    '2 × rail (20 in), stop (9 in)'
    """
    return ", ".join(
        f"{f'{many} × ' * (many > 1)}{label} ({said_with_unit(length, units)})"
        for (label, length), many in Counter(pieces).items()
    )


def _sheets_lines(cut: SheetsCut, units: Units) -> Iterator[str]:
    yield from _heading(cut, counted_goods(cut.plan.sheets, "sheet"))
    for layout in cut.plan.layouts:
        named = f"{layout.count} × {layout.sheet.name}{', at hand' * layout.sheet.at_hand}"
        yield wrapped(seen(f"{named}:"), "  ")
        yield from (wrapped(seen(line), "    ", "      ") for line in cut_words(layout, units))


def counted_goods(count: int, what: str) -> str:
    """So many boards or sheets.

    >>> counted_goods(1, "board"), counted_goods(1540, "board")
    ('1 board', '1,540 boards')
    """
    return f"{count:,} {what}{'s' * (count != 1)}"


def _left(plans: CutPlans) -> Iterator[str]:
    lines = [
        wrapped(seen(f"{left.count:,} × {left.label}: {left.why}."), "  ", "    ")
        for left in plans.unplanned
    ]
    if lines:
        yield "\n".join(("Not planned", *lines))
