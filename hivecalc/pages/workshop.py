"""What the lessons of shop and saw say, each of the plan: basket, boards, sheets, settings."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby
from pathlib import Path
from typing import Final

from hivecalc.components import checked, values
from hivecalc.derivation import title
from hivecalc.document import Paragraph
from hivecalc.drawing.saw import fence_and_kerf, stud_section, taper_drawing, tilted_blade
from hivecalc.drawing.workshop import NARROW, bars, boards_page, sheet_picture
from hivecalc.hive import Hive, HiveFaults, changed
from hivecalc.hive.hive import said_with_unit, value_of
from hivecalc.hive.measurements import Measurement, entry
from hivecalc.length import Length, Units, with_unit
from hivecalc.pages.messages import Outcome, echo, folded, message, table, wide_picture
from hivecalc.part import COMMON
from hivecalc.reports.plan import buying_chapter, cut_words, not_planned
from hivecalc.reports.saw import time_text, works_words
from hivecalc.support.faults import sentence, so_many
from hivecalc.workshop import Plan, Yard, plan, yard_beside
from hivecalc.workshop.basket import Fixing, amount, fixings, misfits, on_mark, paid, small_goods
from hivecalc.workshop.boards import Cut, CutBoard
from hivecalc.workshop.cautions import BEVEL, CROSSCUT, FIRST, KINDS
from hivecalc.workshop.needs import batch, needed
from hivecalc.workshop.settings import degrees_text, landing_bevel, taper
from hivecalc.workshop.strips import Rip, cross_section
from hivecalc.workshop.yard import CHOICES, ITEMS, SHEETS, Goods, yard_in

HIVES: Final = entry(
    "number_of_hives", "1", "100", "Number of hives that are built alike.",
    "A basket is for one hive at least, and a larger class makes a plan by hivecalc plan.", "count",
)  # fmt: skip
A_BOARD: Final = entry(
    "length_of_a_board", "24", "288", "Length of the boards that are bought.",
    "No yard sells shorter or longer boards; write feet with their unit, like 8 ft.",
)  # fmt: skip


# ── the learner's yard ────────────────────────────────────────────────────────────────────────


ASKED: Final = {
    "spare_boards": "Boards to spare, in percent",
    "kerf": "Kerf of your saw",
    "cut_margin": "Margin for each cut",
    "least_fence": "Least width at the fence",
    "least_rip": "Shortest piece that is ripped",
}
"""What a page asks for a choice of the yard, by its name."""


def choice_fields(hive_file: Path, units: Units, *names: str) -> dict[str, tuple[str, Measurement]]:
    """Fields for choices of the yard beside a hive file: as they can be typed, what may be typed.

    The text is empty where the file can't be read.
    """
    try:
        yard = yard_in(yard_beside(hive_file, units), units)
    except HiveFaults:
        return {ASKED[name]: ("", CHOICES[name]) for name in names}
    texts = {n: said_with_unit(getattr(yard, n), units, CHOICES[n].kind) for n in names}
    return {ASKED[n]: (text.removeprefix("≈ "), CHOICES[n]) for n, text in texts.items()}


def with_choices(yard: Yard, units: Units, **texts: str) -> Yard:
    """The same yard with choices that were typed; an empty text leaves one as it is.

    Raises RefusedError for what no saw and no hand does.
    """
    found = {n: value_of(CHOICES[n], text, units) for n, text in texts.items() if text.strip()}
    return replace(yard_in(yard, units), **found)  # type: ignore[arg-type]


# ── buying ────────────────────────────────────────────────────────────────────────────────────


def bought(hive: Hive, yard: Yard, many: str, spare: str = "") -> Outcome:
    """The outcome of a number of hives that are alike: what to buy, what it costs, what is left.

    `spare` is how many more boards and sheets are bought, in percent. Raises RefusedError.
    """
    count = int(value_of(HIVES, many, hive.units))
    made = plan([hive] * count, with_choices(yard, hive.units, spare_boards=spare))
    said = [block.text for block in buying_chapter(made).blocks if isinstance(block, Paragraph)]
    rows = []
    for line in made.basket.lines:
        at_hand = ", at hand" if line.at_hand else ""
        spares = f", {line.spare} spare" if line.spare else ""
        price, cost = ("?" if money is None else amount(money) for money in (line.price, line.cost))
        left = "; ".join(line.left_over)
        rows.append([f"{line.name}{at_hand}{spares}", f"{line.count:,}", price, cost, left])
    head = ["what", "how many", "price", "cost", "left over"]
    found = []
    for word, sort in (("Boards", "board"), ("Sheets", "sheet"), ("Small goods", "package")):
        alike = [line for line in made.basket.lines if line.sort == sort]
        costs = sum((line.cost or Fraction(0) for line in alike), Fraction(0))
        more = " and what has no price" if any(line.price is None for line in alike) else ""
        found.append((word, costs, f"{paid(costs, yard.currency)}{more}"))
    drawn = bars("What it costs", found, name=made.name)
    return Outcome(message("note", *said), drawn, table(head, rows))


def joints(hive: Hive) -> str:
    """The screws, brads and glue of a hive, and for each part of it joint by joint, folded away."""
    found = fixings(hive)
    text = message("note", f"In all: {_taking(found, hive.units)}.", *misfits(hive))
    for number, (part, fixed) in enumerate(groupby(found, key=lambda one: one.component)):
        there = list(fixed)
        rows = [[one.joint, one.takes, one.reason] for one in there]
        listed = table(["joint", "what it takes", "why"], rows)
        head = f"{title(part).capitalize()}: {_taking(there, hive.units)}"
        text += folded(head, listed, unfolded=not number)
    return text


def _taking(found: Sequence[Fixing], units: Units) -> str:
    sizes = {one.item: one.size for one in found}
    counted = small_goods(found).items()
    return ", ".join(ITEMS[item].named(n, sizes.get(item, ""), units) for item, n in counted)


def other_ways(hive: Hive, yard: Yard) -> str:
    """What the whole basket costs if one kind of board or sheet is bought in one size only."""
    now, rows = plan([hive], yard), []
    for stock in (cut.stock for cut in now.cuts):
        name = "boards" if stock.sold else "sheets"
        sold = [one for one in stock.goods if not one.at_hand]
        for one in sold if len(sold) > 1 else ():
            kept = tuple(g for g in getattr(now.yard, name) if g not in sold or g == one)
            made = plan([hive], replace(now.yard, **{name: kept}))  # type: ignore[arg-type]
            rows.append([stock.name, f"only {one.name}", _difference(made, now)])
    return table(["for", "instead", "that is"], rows)


def _difference(made: Plan, now: Plan) -> str:
    missing = len(made.unplanned) - len(now.unplanned)
    if missing > 0:
        return f"{missing} of the pieces do not come out of it"
    if made.basket.unpriced or now.basket.unpriced:
        return "a price is not known"
    more = made.basket.total - now.basket.total
    if not more:
        return "the same price"
    return f"{paid(abs(more), now.yard.currency)} {'more' if more > 0 else 'less'}"


# ── boards and strips ─────────────────────────────────────────────────────────────────────────


BOARD: Final = {
    "Length of a board": (lambda hive: "8 ft" if hive.units == "inch" else "2400 mm", A_BOARD)
}
"""A field for a length of board: what most yards sell, and what may be typed."""


def boards_cut(hive: Hive, yard: Yard, kerf: str, margin: str, board: str) -> Outcome:
    """The outcome of a kerf, a margin and a length of board: boards with their pieces, the bound.

    An empty length stands for all that the yard sells. Raises RefusedError.
    """
    here = with_choices(yard, hive.units, kerf=kerf, cut_margin=margin)
    if board.strip():
        length = value_of(A_BOARD, board, hive.units)
        boards = tuple(_of_length(here.boards, length, hive.units))
        here = replace(here, boards=boards, longest_board=max(here.longest_board, length))
    made = plan([hive], here, "boards")
    said = [text for cut in made.lumber for text in _cut_words(cut, made)]
    of_boards = {piece.mark for piece in made.pieces if piece.section}
    said += not_planned(left for left in made.unplanned if left.mark in of_boards)
    said += [*made.warnings, *map(str, yard.left_out)]
    right = all(cut.proved for cut in made.lumber) and not made.unplanned
    drawn = boards_page(made.boards, made.yard, name=hive.name, wide=NARROW, beside=False)
    return Outcome(message("right" if right else "note", *said), wide_picture(drawn))


def _of_length(boards: tuple[Goods, ...], length: Length, units: Units) -> Iterator[Goods]:
    """One board of this length for each kind of lumber that is sold, and all that is at hand."""
    kinds: dict[tuple[str, Length, Length], Goods] = {}
    for board in (b for b in boards if not b.at_hand):
        name = f"{with_unit(units, length)} {board.material}"
        made = replace(board, name=name, length=length, price=None)
        kinds.setdefault((board.material, board.thickness, board.width), made)
    yield from (*kinds.values(), *(board for board in boards if board.at_hand))


def _cut_words(cut: Cut[CutBoard], made: Plan) -> Iterator[str]:
    boards, bound = cut.goods, cut.bound
    if boards:
        left = ", ".join(f"{b.number} {on_mark(b.offcut, made.units)}" for b in boards)
        tight = [b.number for b in boards if b.tight]
        many = so_many(len(boards), "board")
        yield f"{sentence(cut.stock.name)}: {many}. Left over: {left}."
        if tight:
            yield f"Tight, hardly anything to spare: {', '.join(tight)}."
        if cut.proved:
            yield f"The bound is {bound}. Nobody can do with fewer: this is proved."
        else:
            yield f"The bound is {bound}. Whether fewer would do is not proved."


def strips(hive: Hive, yard: Yard, kerf: str, fence: str = "") -> Outcome:
    """The outcome of a kerf and the least width at the fence: a stud's end, its strips, the rests.

    Raises RefusedError.
    """
    here = with_choices(yard, hive.units, kerf=kerf, least_fence=fence)
    found = values(hive)
    stud = found["stud_thickness"], found["stud_width"]
    strip = found["strip_narrow"], found["strip_wide"]
    section = cross_section(*stud, *strip, here.kerf, least_fence=here.least_fence)
    drawn = stud_section(section, units=hive.units, name=hive.name)
    used = f"{float(100 * section.used):.0f} of 100 parts of the stud become strips"
    count = "1 strip comes" if section.count == 1 else f"{section.count} strips come"
    off = found["entrance_height"] - here.kerf
    least, took, thick = (
        said_with_unit(size, hive.units) for size in (here.least_fence, here.kerf, off)
    )
    ripped = (
        f"What is ripped off the front rail is {thick} thick, one kerf of {took} less than the "
        "entrance is high."
    )
    said = (
        f"{count} out of a stud: {used}.",
        f"Nothing narrower than {least} runs between fence and blade; a rest that would is left.",
        ripped if off > 0 else "The kerf takes all that is ripped off the front rail.",
    )
    return Outcome(message("note", *said), drawn)


# ── sheets ────────────────────────────────────────────────────────────────────────────────────


def sheets(hive: Hive, yard: Yard, material: str) -> str:
    """The sheets of one material with their pieces, and the cuts of each, folded away."""
    made = plan([hive], yard)
    kinds = [cut for cut in made.stock if cut.stock.material == SHEETS[material]]
    if not kinds:
        return message("note", f"Your hive has no {material} to cut.")
    numbers = {sheet.number for kind in kinds for sheet in kind.goods}
    cuts = [setting for setting in made.settings if not numbers.isdisjoint(setting.sources)]
    care = dict.fromkeys(caution.cited for cut in cuts for caution in cut.kind.cautions)
    text = message("note", *care)
    for kind in kinds:
        said = []
        if kind.goods:
            names = ", ".join(f"{s.number}, {s.goods.name}" for s in kind.goods)
            cheaper = "Nothing cheaper will do: this is proved."
            if not kind.proved:
                cheaper = "Whether something cheaper would do is not proved."
            said = [f"{sentence(kind.stock.name)}: {names}.", cheaper]
        text += message("note", *said, *not_planned(kind.unplanned))
        for sheet in kind.goods:
            rows = [[cut_words(cut, made).replace("\n", ": ")] for cut in sheet.cuts]
            many = "1 setting" if len(rows) == 1 else f"{len(rows)} settings, in order"
            svg = sheet_picture(sheet, hive.units, name=hive.name)
            text += wide_picture(svg) + folded(many, table(["cut"], rows))
    return text


# ── at the saw ────────────────────────────────────────────────────────────────────────────────


def cautions() -> str:
    """What to take care of before the first cut and with each machine, with its law."""
    rows = [(caution.cited, "before the first cut") for caution in FIRST]
    rows += [(caution.cited, kind.machine) for kind in KINDS for caution in kind.cautions]
    first = f"Where nobody is named in brackets, it is {COMMON}."
    return message("note", first) + table(["take care", "when"], dict.fromkeys(rows))


def settings(hive: Hive, yard: Yard, least_rip: str = "") -> Outcome:
    """Every setting for a hive in order, the crosscuts unfolded, and about how long it takes."""
    here = with_choices(yard, hive.units, least_rip=least_rip)
    made = plan([hive], here)
    said = [time_text(made.settings, made), *made.warnings]
    said += not_planned(made.unplanned)
    text = ""
    lumber = [s for s in made.settings if not s.on_sheets]
    for kind, group in groupby(lumber, key=lambda s: s.kind):
        rows = [[str(s.number), s.sentence(hive.units), works_words(s)] for s in group]
        many = so_many(len(rows), "setting")
        listed = message("note", kind.why) + table(["", "setting", "what is cut"], rows)
        text += folded(f"{kind.heading}: {many}", listed, unfolded=kind == CROSSCUT)
    return Outcome(message("note", *said), "", text)


def fence(hive: Hive, yard: Yard, kerf: str) -> Outcome:
    """The outcome of a kerf: the front rail's rip, with its kerf in the waste."""
    found, takes = values(hive), with_choices(yard, hive.units, kerf=kerf).kerf
    rail = next(piece for piece in needed(batch([hive])) if piece.part == "front_rail")
    stud, stays = found["stud_width"], rail.width
    off = max(stud - stays - takes, stud * 0)
    rip = Rip(stays, stud, off, keeps=False)
    high = found["stud_thickness"]
    drawn = fence_and_kerf(rip, high, takes, units=hive.units, name=hive.name)
    falls = f"{said_with_unit(off, hive.units)} falls off" if off else "Only dust falls off"
    said = (
        f"For the front rail, set the fence to {echo(stays, hive.units)}, whatever the kerf.",
        f"{falls}: what is over, less the kerf of {said_with_unit(takes, hive.units)}.",
    )
    return Outcome(message("note", *said), drawn)


def landing_edge(hive: Hive, yard: Yard) -> str:
    """The bevel of the landing board: how it is set, and the blade that leans."""
    bevel, made = landing_bevel(hive), plan([hive], yard)
    setting = next(
        (s for s in made.settings if s.kind == BEVEL and s.tilt == round(bevel.tilt)), None
    )
    if setting is None:
        return ""
    said = f"For the slanted edge of the landing board: {setting.sentence(hive.units)}."
    drawn = tilted_blade(bevel, setting.distance, made.yard.kerf, units=hive.units, name=hive.name)
    return wide_picture(drawn) + message("note", said)


def tapered(hive: Hive, low: str) -> Outcome:
    """The outcome of another low height at the back of the roof: marks, angle and the picture.

    Raises HiveFaults for a height that does not go.
    """
    cut = taper(checked(changed(hive, {"rim_low_height": low})) if low.strip() else hive)
    drawn = taper_drawing(cut, units=hive.units, name=hive.name)
    high, end, middle = (
        said_with_unit(size, hive.units) for size in (cut.high, cut.low, cut.middle)
    )
    said = f"Mark {high} at the front and {end} at the back. Half-way it must be {middle} high."
    angle = f"The cut leans {degrees_text(cut.angle)}."
    return Outcome(message("note", said, angle), drawn)
