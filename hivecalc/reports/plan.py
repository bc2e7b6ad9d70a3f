"""The reports on a plan: what to buy, how to cut it, what to write on the wood.

The settings of the saw, which are of the same plan, stand in `reports.saw`.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Final

from hivecalc.derivation import title
from hivecalc.document import (
    TICK,
    Block,
    Cell,
    Chapter,
    Column,
    Document,
    Paragraph,
    Picture,
    PictureSize,
    Report,
    Rows,
    Section,
    Table,
)
from hivecalc.drawing.svg import Picture as Drawn
from hivecalc.drawing.svg import unnumbered
from hivecalc.drawing.workshop import NARROW, ON_A_PAGE, WIDE, bars, boards_page, sheet_picture
from hivecalc.length import MM, UNITS, Length, in_either_unit, shown
from hivecalc.support.faults import sentence, so_many
from hivecalc.workshop.basket import Purchase, amount, fixings, misfits, on_mark, paid
from hivecalc.workshop.boards import Cut, CutBoard, Unplanned
from hivecalc.workshop.cautions import CROSSCUT, IN_BOOK, MANUAL, Caution
from hivecalc.workshop.needs import Piece
from hivecalc.workshop.plan import Plan, cut_json, plan_json
from hivecalc.workshop.sheets import Sheet, SheetCut
from hivecalc.workshop.yard import Yard, demo_yard

CARE: Final = "Read the label of glue, silicone and paint before you buy: solvent glue eats foam."
INVENTED: Final = (
    "All prices are invented. Put your own into a file my-yard.toml beside your hive file."
)
MOST_MARKS: Final = 12  # named of the pieces that one thing is lacking for
MOST_LABELS: Final = 54
"""So many go on a page of A4 or letter; of more, each page has as many as the others."""
FEW_BOARDS: Final = 8
"""So many share a page with other things; more of them have a lying page to themselves."""

GOODS: Final = (
    Column("got", 0.8), Column("how many", 1.5, bold=True), Column("what", 6), Column("price", 1.4),
    Column("cost", 1.5, bold=True), Column("left over", 4.6),
)  # fmt: skip
SETTINGS: Final = (
    Column("no.", 1.3, bold=True), Column("set, and what is cut", 7.8), Column("", 0.7),
)  # fmt: skip


def shop_report(plan: Plan) -> Report:
    """The report on what to buy."""
    return Report(
        lambda: plan_document(plan, buying_chapter(plan)),
        lambda: _bought(plan),
        lambda: plan_json(plan),
        lambda: _basket_svg(plan),
        holds=plan.is_whole,
    )


def cut_report(plan: Plan, component: str | None = None) -> Report:
    """The report on how boards, strips and sheets are cut."""
    return Report(
        lambda: plan_document(plan, cutting_chapter(plan, component)),
        lambda: _cut_rows(plan),
        lambda: cut_json(plan),
        lambda: boards_page(plan.boards, plan.yard, name=plan.name).file(WIDE),
        holds=plan.is_whole,
    )


def plan_document(plan: Plan, *chapters: Chapter) -> Document:
    """Chapters of a plan under its name and number."""
    return Document(f"{plan.name} · plan {plan.number}", chapters)


# ── buying ────────────────────────────────────────────────────────────────────────────────────


def buying_chapter(plan: Plan, *, in_book: bool = False) -> Chapter:
    """Chapter of what to buy, what it costs, each hive's share, and the joints it is for.

    A book tells the joints where they are made, and here only what is wrong with their fasteners.
    """
    words = plan.basket.summary
    if len(plan.hives) > 1 and plan.basket.total:
        each = plan.basket.total / len(plan.hives)
        words += f" That is {paid(Fraction(round(each * 100), 100), plan.yard.currency)} a hive."
    first = [
        *warnings(plan),
        Paragraph(words, "What it costs."),
        *([Paragraph(INVENTED)] if _invented(plan) else []),
        *(Paragraph(f"{text}.", "Not to be had.", "wrong") for text in plan.basket.missing),
        *([Paragraph(plan.basket.instead, "Another length.")] if plan.basket.instead else []),
        *_foam(plan),
        Paragraph(CARE, tone="caution"),
    ]
    headings = {"board": "Boards", "sheet": "Sheets", "package": "Small goods"}
    goods = (
        Section(headings[sort], (Table(GOODS, tuple(map(_line, lines))),))
        for sort, lines in groupby(plan.basket.lines, key=lambda line: line.sort)
    )
    return Chapter(
        "What to buy", tuple(first), (*goods, *_shares(plan), *_joints(plan, in_book=in_book))
    )


def _foam(plan: Plan) -> Iterator[Paragraph]:
    """What the foam costs, and what it saves in the first hive of the plan."""
    foam = [line.cost for line in plan.basket.lines if "foam" in line.name and line.cost]
    if foam:
        from hivecalc.reports.warmth import USUAL  # noqa: PLC0415 - slow to load
        from hivecalc.warmth.losses import foam_saves  # noqa: PLC0415 - as above

        hive = plan.hives[0].hive
        saved = foam_saves(hive, USUAL.inside, USUAL.outside)
        yield Paragraph(
            f"The foam costs {paid(sum(foam, Fraction(0)), plan.yard.currency)}. With "
            f"{USUAL.words(hive.units)}, a hive of bare wood loses about "
            f"{round(saved, -1):.0f} W more through walls, roof and bottom board.",
            "What the foam saves.",
        )


def _invented(plan: Plan) -> bool:
    def sold(yard: Yard) -> list[tuple[str, Fraction | None]]:
        return [(goods.name, goods.price) for goods in (*yard.boards, *yard.sheets)]

    return sold(plan.yard) in [sold(demo_yard(units)) for units in UNITS]


def not_planned(unplanned: Iterable[Unplanned]) -> Iterator[str]:
    """What is not planned, a sentence for each reason: "B-P: your yard has no foam of 30 mm."."""
    for why, found in groupby(sorted(unplanned, key=lambda u: u.why), key=lambda u: u.why):
        marks = [left.mark for left in found]
        more = f" and {len(marks) - MOST_MARKS} more" if len(marks) > MOST_MARKS else ""
        yield f"{', '.join(marks[:MOST_MARKS])}{more}: {why}."


def lacks(plan: Plan) -> Iterator[str]:
    """What the yard does not give of a plan, a sentence each."""
    yield from not_planned(plan.unplanned)
    yield from (f"{text}." for text in plan.basket.missing)


def warnings(plan: Plan) -> Iterator[Paragraph]:
    """What comes first wherever a plan is shown: another wood, what is not planned or left out."""
    yield from (Paragraph(text, "Another wood.", "wrong") for text in plan.warnings)
    yield from (Paragraph(text, "Not planned.", "wrong") for text in not_planned(plan.unplanned))
    yield from (Paragraph(str(fault), "Left out of your yard.") for fault in plan.yard.left_out)


def _line(line: Purchase) -> tuple[str, ...]:
    at_hand = ", at hand" if line.at_hand else ""
    spare = f", {line.spare} to spare" if line.spare else ""
    why = f"\n{line.why}" if line.why else ""
    name = f"{line.name}{at_hand}{spare}{why}"
    price, cost = ("?" if money is None else amount(money) for money in (line.price, line.cost))
    return TICK, f"{line.count:,}", name, price, cost, "; ".join(line.left_over)


def _shares(plan: Plan) -> Iterator[Section]:
    if len(plan.hives) > 1 and plan.basket.total:
        shares = plan.basket.shares
        rows = tuple((one.tag, one.hive.name, amount(shares[one.tag])) for one in plan.hives)
        columns = (Column("tag", 1, bold=True), Column("hive", 5), Column("share", 2, bold=True))
        how = (
            "Boards and sheets by the wood in each hive, small goods alike; rounded to a hundredth."
        )
        yield Section("Who pays what", (Paragraph(how), Table(columns, rows)))


def _joints(plan: Plan, *, in_book: bool) -> Iterator[Section]:
    """The joints of the first hive: the others have the same, and may take a few more or fewer."""
    first = plan.hives[0].hive
    columns = (Column("joint", 4), Column("what it takes", 3.6, bold=True), Column("why", 5))
    rows = tuple(
        (f"{one.joint}\n{title(one.component)}", one.takes, one.reason) for one in fixings(first)
    )
    table = [] if in_book else [Table(columns, rows)]
    wrong = [Paragraph(sentence, tone="wrong") for sentence in misfits(first)]
    whose = f", for {first.name}" if len(plan.hives) > 1 else ""
    if table or wrong:
        yield Section(f"Joint by joint{whose}", (*table, *wrong))


def _bought(plan: Plan) -> Rows:
    columns = ("sort", "what", "count", "spare", "price", "cost", "left_over", "why")
    rows: list[list[Cell]] = []
    for line in plan.basket.lines:
        price, cost = (
            None if money is None else amount(money).replace(",", "")
            for money in (line.price, line.cost)
        )
        left = "; ".join(line.left_over)
        rows.append([line.sort, line.name, line.count, line.spare, price, cost, left, line.why])
    return Rows(columns, rows)


def _basket_svg(plan: Plan) -> str:
    found = [
        (f"{line.count:,} × {line.name}", line.cost, paid(line.cost, plan.yard.currency))
        for line in plan.basket.lines
        if line.cost is not None
    ]
    return bars(plan.basket.summary, found, name=plan.name).file()


def captioned(drawn: Drawn, caption: str, size: PictureSize, listed: Sequence[str] = ()) -> Picture:
    """A drawing with its caption, described by its own name and words."""
    words = f"{drawn.name}. {drawn.words}"
    return Picture(unnumbered(drawn), caption, words, size, tuple(listed))


# ── cutting ───────────────────────────────────────────────────────────────────────────────────


def cutting_chapter(plan: Plan, component: str | None = None, *, in_book: bool = False) -> Chapter:
    """Chapter of boards to hang at the saw, the strips that are ripped, and each sheet.

    A book has said before what comes first here.
    """
    marks = [f"{one.tag} {one.hive.name}" for one in plan.hives if one.tag]
    marks += dict.fromkeys(f"{piece.code} {piece.kind}" for piece in plan.pieces)
    key = Paragraph(f"{'; '.join(marks)}.", "Marks.")
    paragraphs = (
        *(() if in_book else (*warnings(plan), Paragraph(MANUAL, tone="caution"), key)),
        *(Paragraph(_known(cut, plan), f"{sentence(cut.stock.name)}.") for cut in plan.cuts),
    )
    sheets = [s for s in plan.sheets if component in {None, *(p.piece.component for p in s.placed)}]
    sections = (
        *_boards(plan),
        *_strips(plan),
        *_sheets(sheets, plan, set(IN_BOOK if in_book else ())),
    )
    return Chapter("How to cut it", paragraphs, sections)


def _known(cut: Cut[CutBoard] | Cut[Sheet], plan: Plan) -> str:
    """How many are cut, and how near that is to the best."""
    what = "board" if cut.stock.sold else "sheet"
    many = so_many(len(cut.goods), what)
    if not cut.goods:
        return f"{many}."
    if cut.proved:
        return f"{many}. No plan does better: that is proved."
    ours, bound = (
        paid(n, plan.yard.currency) if cut.aim == "cost" else f"{int(n)} {what}s"
        for n in (cut.counted, cut.bound)
    )
    return f"{many}, {ours}. No plan goes below {bound}; whether one does better is not proved."


def _boards(plan: Plan) -> Iterator[Section]:
    boards, alone = plan.boards, len(plan.boards) > FEW_BOARDS
    wide = WIDE if len(plan.hives) > 1 else NARROW
    setting = {w.mark: s.number for s in plan.settings for w in s.works if s.kind == CROSSCUT}
    first = "Hang it at the saw. Each board has its number, each piece its mark and length."
    blocks: list[Block] = [Paragraph(first)] if alone else []
    for at in range(0, len(boards), ON_A_PAGE):
        some = boards[at : at + ON_A_PAGE]
        drawn = boards_page(some, plan.yard, name=plan.name, wide=wide)
        listed = [_listed(board, plan, setting) for board in some]
        blocks.append(captioned(drawn, "", "page" if alone else "large", listed))
    if blocks:
        yield Section("Boards", tuple(blocks))


def _listed(cut: CutBoard, plan: Plan, setting: Mapping[str, int]) -> str:
    """A board in a line, where it is not drawn."""
    pieces = ", ".join(
        f"{item.mark} {in_either_unit(plan.units, item.length)} (setting {setting[item.mark]})"
        for item in cut.items
    )
    tight = "tight, hardly anything to spare"
    left = tight if cut.tight else f"left {on_mark(cut.offcut, plan.units)}"
    at_hand = ", at hand" if cut.board.at_hand else ""
    return f"{cut.number}  {cut.board.name}{at_hand}: {pieces}; {left}."


def _strips(plan: Plan) -> Iterator[Section]:
    made = (Column("blanks", 1.4, bold=True), Column("crosscut to", 2), Column("ripped into", 6))
    cut = (Column("strip", 1.8, bold=True), Column("cut into", 7), Column("", 0.8))
    if plan.blanks:
        units = plan.units
        blanks = []
        for blank in plan.blanks:
            tilt = f", one edge tilted {blank.tilt}°" if blank.tilt else ""
            into = f"{strips(len(blank.strips))} of {in_either_unit(units, *blank.sides)}{tilt}"
            number = f"{blank.count} × {blank.number}"
            blanks.append((number, in_either_unit(units, blank.length), into))
        rows = []
        for number, pieces in (strip for blank in plan.blanks for strip in blank.strips):
            said = (
                f"{cut.piece.mark} {in_either_unit(units, cut.length)}"
                + (f" ({cut.short_by(units)})" if cut.short_by(units) else "")
                for cut in pieces
            )
            rows.append((number, f"\n{', '.join(said)}", TICK))
        how = (
            "Blanks are crosscut from the boards, ripped, and cut to length last. Write its number "
            "on each strip as it falls."
        )
        if any(one.short_by(units) for blank in plan.blanks for one in blank.pieces):
            how += (
                " A runner or retainer may stop short of the list: nothing is held by its ends, "
                "and with others of one length the saw is set once."
            )
        tables = Table(made, tuple(blanks)), Table(cut, tuple(rows), abreast=3)
        yield Section("Strips", (Paragraph(how), *tables))


def _sheets(sheets: Iterable[Sheet], plan: Plan, known: set[Caution]) -> Iterator[Section]:
    """A section for each sheet; a caution stands in the row of the first cut that it is for."""
    tool = ""
    for sheet in sheets:
        svg = sheet_picture(sheet, plan.units, name=plan.name, titled=False)
        drawn = captioned(svg, "", "small")
        found = [s for s in plan.settings if s.on_sheets and sheet.number in s.sources]
        rows = tuple(
            (str(s.number), with_care(cut_words(cut, plan), s.kind.cautions, known), TICK)
            for s, cut in zip(found, sheet.cuts, strict=True)
        )
        own = found[0].kind.machine if found else tool
        machine = [Paragraph("", f"{sentence(own)}.")] if own != tool else []
        tool = own
        as_it_comes = Paragraph("It is the piece as it comes: no cut.")
        table: Block = Table(SETTINGS, rows, abreast=3) if rows else as_it_comes
        yield Section(f"{sheet.number}: {sheet.goods.name}", (drawn, *machine, table))


def strips(count: int) -> str:
    """So many strips, in words."""
    return "one strip" if count == 1 else f"{count} strips"


def cut_words(cut: SheetCut, plan: Plan) -> str:
    """One setting on a sheet in a sentence, with the pieces that come of it."""
    at, marks = in_either_unit(plan.units, cut.at), ", ".join(cut.marks)
    way = cut.way.capitalize()
    match cut.stage:
        case 1:
            return f"{way} the whole sheet at {at}: {strips(cut.times)}\n{marks}"
        case 2:
            return f"{way}, each strip at {at}\n{marks}"
        case _:
            return f"{way}, trim to {at}\n{marks}"


def with_care(text: str, cautions: Iterable[Caution], known: set[Caution]) -> str:
    r"""A cell of a table with the cautions below it that were not given before."""
    new = [caution for caution in cautions if caution not in known]
    known.update(new)
    return "\n".join((text, *(f"⚠ {caution.cited}" for caution in new)))


def _cut_rows(plan: Plan) -> Rows:
    columns = ("from", "stock", "piece", "width", "width_mm", "length", "length_mm", "left_over")
    rows: list[list[Cell]] = []
    none: list[Cell] = [None, None]
    for cut in plan.boards:
        left = on_mark(cut.offcut, plan.units)
        rows += [
            [cut.number, cut.board.name, i.mark, *none, *in_both(i.length, plan), left]
            for i in cut.items
        ]
    rows += [
        [strip.number, blank.number, p.mark, *none, *in_both(size, plan), None]
        for blank in plan.blanks
        for strip in blank.strips
        for p, size in strip.pieces
    ]
    rows += [
        [s.number, s.goods.name, p.piece.mark, *in_both(p.width, plan), *in_both(p.length, plan),
         None]
        for s in plan.sheets
        for p in s.placed
    ]  # fmt: skip
    rows += [[*none, left.mark, *none, *none, left.why] for left in plan.unplanned]
    return Rows(columns, rows)


def in_both(length: Length, plan: Plan) -> list[Cell]:
    """A length for a spreadsheet: in the plan's unit, and as a number in mm."""
    return [shown(length, plan.units), float(length / MM)]


# ── pages for each student ────────────────────────────────────────────────────────────────────────


def labels(plan: Plan) -> Document:
    """Pages for each hive: its pieces with marks to cut out and stick on, sizes, where from."""
    sources = {w.mark: w.source for s in plan.settings for w in s.works if w.source}
    short = {
        cut.piece.mark: cut.short_by(plan.units) for blank in plan.blanks for cut in blank.pieces
    }

    def label(piece: Piece) -> tuple[str, str]:
        size = in_either_unit(plan.units, piece.width, piece.length)
        size += f", cut {short[piece.mark]}" if short.get(piece.mark) else ""
        source = f" from {sources[piece.mark]}" if piece.mark in sources else ""
        return piece.mark, f"{sentence(piece.kind)}\n{size}{source}"

    columns = (Column("label", 2, bold=True), Column("piece", 3.6)) * 2
    pages = []
    for one in plan.hives:
        own = [label(piece) for piece in plan.pieces if piece.hive == one.tag]
        name = f"{one.tag} · {one.hive.name}" if one.tag else one.hive.name
        on_each = -(-len(own) // -(-len(own) // MOST_LABELS))
        for first in range(0, len(own), on_each):
            some = own[first : first + on_each]
            half = -(-len(some) // 2)
            right = (*some[half:], ("", ""))
            rows = tuple((*a, *b) for a, b in zip(some[:half], right, strict=False))
            pages.append(Chapter(name, (Table(columns, rows),)))
    return plan_document(plan, *pages)
