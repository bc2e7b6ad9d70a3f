"""The pages of a plan: what to buy, how to cut it, how to set the saw, what to write on the wood.

Each is told once, as a chapter; the commands, the book and the lessons show it in their own form.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Final

from hivecalc.book.content import (
    TICK,
    Block,
    Book,
    Chapter,
    Column,
    Paragraph,
    Section,
    Table,
)
from hivecalc.book.harmless import harmless
from hivecalc.book.pdf import pdf
from hivecalc.book.pictures import picture
from hivecalc.book.text import chapter_text
from hivecalc.derivation import title
from hivecalc.drawing import Picture as Drawn
from hivecalc.drawing.canvas import Page
from hivecalc.drawing.saw import fence_and_kerf, stud_section, taper_drawing
from hivecalc.drawing.workshop import (
    NARROW,
    ON_A_PAGE,
    WIDE,
    bars,
    boards_page,
    sheet_picture,
)
from hivecalc.length import MM, Length, shown, with_unit
from hivecalc.paper import Paper
from hivecalc.support.faults import escaped, sentence
from hivecalc.tables.texts import Cell, filled
from hivecalc.tables.texts import Table as Rows
from hivecalc.workshop.basket import Line, amount, on_mark, paid
from hivecalc.workshop.boards import CutBoard
from hivecalc.workshop.cautions import AFTER, FIRST, MANUAL, Caution
from hivecalc.workshop.fixings import Fixing, fixings, misfits
from hivecalc.workshop.needs import Piece
from hivecalc.workshop.plan import Boards, Plan, Sheets
from hivecalc.workshop.settings import Group, Setting, only, strips
from hivecalc.workshop.shapes import taper
from hivecalc.workshop.sheets import Sheet, SheetCut
from hivecalc.workshop.strips import Blanks, Strip
from hivecalc.workshop.yard_file import demo_yard

CARE: Final = "Read the label of glue, silicone and paint before you buy: solvent glue eats foam."
INVENTED: Final = (
    "All prices are invented. Name your own yard file with --yard, or keep my-yard.toml."
)
PROVED: Final = "No plan does better: that is proved."
FEW_BOARDS: Final = 8
"""So many share a page with what else is told; more of them have a lying page to themselves."""

SHEETS: Final = frozenset({"saw_sheet", "knife", "snips"})
"""Kinds of settings that are made on sheets, and told beside their pictures."""

GOODS = (
    Column("got", 0.8),
    Column("how many", 1.5, bold=True),
    Column("what", 6),
    Column("price", 1.4),
    Column("cost", 1.5, bold=True),
    Column("left over", 4.6),
)
SETTINGS = (Column("no.", 1.3, bold=True), Column("set, and what is cut", 7.8), Column("", 0.7))


# ── buying ────────────────────────────────────────────────────────────────────────────────────


def to_buy(plan: Plan) -> Chapter:
    """Chapter of what to buy, what it costs, each hive's share, and the joints it is for.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard, plan
    >>> [section.heading for section in to_buy(plan([demo_hive()], demo_yard())).sections]
    ['Boards', 'Sheets', 'Small goods', 'Joint by joint']
    """
    told = plan.basket.told
    if len(plan.hives) > 1 and plan.basket.total:
        each = plan.basket.total / len(plan.hives)
        told += f" That is {paid(Fraction(round(each * 100), 100), plan.yard.currency)} a hive."
    first = [
        *_warnings(plan),
        Paragraph(told, "What it costs."),
        *([Paragraph(INVENTED)] if _invented(plan) else []),
        *(Paragraph(f"{text}.", "Not to be had.", "wrong") for text in plan.basket.missing),
        *_foam(plan),
        Paragraph(CARE, tone="caution"),
    ]
    headings = {"board": "Boards", "sheet": "Sheets", "package": "Small goods"}
    goods = (
        Section(headings[sort], (Table(GOODS, tuple(map(_line, lines))),))
        for sort, lines in groupby(plan.basket.lines, key=lambda line: line.sort)
    )
    return harmless(Chapter("What to buy", tuple(first), (*goods, *_shares(plan), *_joints(plan))))


def _foam(plan: Plan) -> Iterator[Paragraph]:
    """What the foam costs, and what it saves in the first hive of the plan."""
    foam = [line for line in plan.basket.lines if "foam" in line.name and line.cost]
    if not foam:
        return
    from hivecalc.book.warmth import INSIDE, OUTSIDE  # noqa: PLC0415 - slow to load
    from hivecalc.warmth import foam_saves  # noqa: PLC0415 - slow to load

    saved = foam_saves(plan.hives[0].hive, INSIDE, OUTSIDE)
    cost = paid(sum((line.cost or Fraction(0) for line in foam), Fraction(0)), plan.yard.currency)
    yield Paragraph(
        f"It costs {cost}. With 68 °F (20 °C) inside and 14 °F (−10 °C) outside, a hive of bare "
        f"wood loses about {round(saved, -1):.0f} W more through walls, roof and bottom board.",
        "What the foam saves.",
    )


def _invented(plan: Plan) -> bool:
    asked, known = ([(g.name, g.price) for g in y.goods] for y in (plan.yard, demo_yard()))
    return asked == known


def _warnings(plan: Plan) -> Iterator[Paragraph]:
    yield from (Paragraph(text, "Another wood.", "wrong") for text in plan.warnings)
    for why, found in groupby(sorted(plan.unplanned, key=lambda u: u.why), key=lambda u: u.why):
        marks = ", ".join(left.mark for left in found)
        yield Paragraph(f"{marks}: {why}.", "Not planned.", "wrong")
    yield from (Paragraph(str(fault), "Left out of your yard.") for fault in plan.yard.left_out)


def _line(line: Line) -> tuple[str, ...]:
    spare = f", {line.spare} to spare" * bool(line.spare)
    why = f"\n{line.why}" if line.why else ""
    name = f"{line.name}{', at hand' * line.at_hand}{spare}{why}"
    price, cost = ("?" if money is None else amount(money) for money in (line.price, line.cost))
    return TICK, f"{line.count:,}", name, price, cost, "; ".join(line.left_over)


def _shares(plan: Plan) -> Iterator[Section]:
    if len(plan.hives) > 1 and plan.basket.total:
        rows = tuple(
            (one.tag, one.hive.name, amount(plan.basket.shares[one.tag])) for one in plan.hives
        )
        columns = (Column("tag", 1, bold=True), Column("hive", 5), Column("share", 2, bold=True))
        why = (
            "Boards and sheets by the wood in each hive, small goods alike; rounded to a hundredth."
        )
        yield Section("Who pays what", (Paragraph(why), Table(columns, rows)))


def _joints(plan: Plan) -> Iterator[Section]:
    """The joints of the first hive: the others have the same, and may take a few more or fewer."""
    first = plan.hives[0].hive
    columns = (Column("joint", 4), Column("what it takes", 3.6, bold=True), Column("why", 5))
    found = fixings(first)
    wrong = (Paragraph(sentence, tone="wrong") for sentence in misfits(first))
    whose = f", for {first.name}" if len(plan.hives) > 1 else ""
    table = Table(columns, tuple(map(_joint, found)))
    yield Section(f"Joint by joint{whose}", (table, *wrong))


def _joint(fixing: Fixing) -> tuple[str, ...]:
    return f"{fixing.joint}\n{title(fixing.component)}", fixing.takes(fixing.count), fixing.reason


# ── cutting ───────────────────────────────────────────────────────────────────────────────────


def to_cut(plan: Plan, component: str | None = None) -> Chapter:
    """Chapter of boards to hang at the saw, the strips that are ripped, and each sheet.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard, plan
    >>> [section.heading for section in to_cut(plan([demo_hive()], demo_yard())).sections][:2]
    ['Boards', 'Strips']
    """
    told = (
        *_warnings(plan),
        Paragraph(MANUAL, tone="caution"),
        Paragraph(_key(plan), "Marks."),
        *(Paragraph(_known(kind, plan), f"{sentence(kind.kind.name)}.") for kind in plan.kinds),
    )
    sheets = [s for s in plan.sheets if component in {None, *(p.piece.component for p in s.placed)}]
    sections = (*_boards(plan), *_strips(plan), *_sheets(sheets, plan))
    return harmless(Chapter("How to cut it", told, sections))


def _key(plan: Plan) -> str:
    """What the marks on the wood stand for."""
    kinds = {piece.code: piece.kind for piece in plan.pieces}
    tags = [f"{one.tag} {one.hive.name}" for one in plan.hives if one.tag]
    return "; ".join((*tags, *(f"{code} {kind}" for code, kind in kinds.items()))) + "."


def _known(kind: Boards | Sheets, plan: Plan) -> str:
    """How many are cut, and how near that is to the best."""
    cut, money = kind.cut, kind.cut.aim == "cost"
    goods = cut.boards if isinstance(kind, Boards) else cut.sheets  # type: ignore[union-attr]
    what = "board" if isinstance(kind, Boards) else "sheet"
    many = f"{len(goods):,} {what}{'s' * (len(goods) != 1)}"
    if cut.proved:
        return f"{many}. {PROVED}"
    counted, bound = (
        paid(n, plan.yard.currency) if money else f"{int(n)} {what}s"
        for n in (cut.counted, cut.bound)
    )
    return f"{many}, {counted}. No plan goes below {bound}; whether one does better is not proved."


def _boards(plan: Plan) -> Iterator[Section]:
    boards = plan.boards
    pages = [boards[at : at + ON_A_PAGE] for at in range(0, len(boards), ON_A_PAGE)]
    alone = len(boards) > FEW_BOARDS
    blocks = tuple(picture(_drawn(some, plan), "", "page" if alone else "large") for some in pages)
    if blocks:
        heading = "Boards: hang the next page at the saw" if alone else "Boards"
        first = [Paragraph("Each has its number, and each piece its mark and length.")] * alone
        yield Section(heading, (*first, *blocks))


def _drawn(boards: Sequence[CutBoard], plan: Plan) -> Drawn:
    wide = WIDE if len(plan.hives) > 1 else NARROW
    return boards_page(boards, plan.yard, name=plan.name, wide=wide)


def _strips(plan: Plan) -> Iterator[Section]:
    made = (Column("blanks", 1.4, bold=True), Column("crosscut to", 2), Column("ripped into", 6))
    cut = (Column("strip", 1.2, bold=True), Column("cut into", 8), Column("", 0.8))
    if plan.blanks:
        blanks = tuple(_blank(blank, plan) for blank in plan.blanks)
        rows = tuple(
            (strip.number, f"\n{_pieces(strip, plan)}", TICK)
            for blank in plan.blanks
            for strip in blank.strips
        )
        first = Paragraph(
            "Blanks are crosscut from the boards, ripped, and cut to length last. Write its number "
            "on each strip as it falls."
        )
        yield Section("Strips", (first, Table(made, blanks), Table(cut, rows, abreast=2)))


def _blank(blank: Blanks, plan: Plan) -> tuple[str, ...]:
    tilt = f", one edge tilted {blank.tilt}°" if blank.tilt else ""
    length, sides = with_unit(plan.units, blank.length), with_unit(plan.units, *blank.sides)
    return (
        f"{blank.count} × {blank.number}",
        length,
        f"{strips(len(blank.strips))} of {sides}{tilt}",
    )


def _pieces(strip: Strip, plan: Plan) -> str:
    return ", ".join(f"{p.mark} {with_unit(plan.units, size)}" for p, size in strip.pieces)


def _sheets(sheets: Iterable[Sheet], plan: Plan) -> Iterator[Section]:
    """A section for each sheet; the cautions of a tool stand with the first that takes it."""
    known = set[str]()
    for sheet in sheets:
        found = [s for s in plan.settings if s.kind in SHEETS and sheet.number in s.sources]
        blocks: list[Block] = [
            picture(sheet_picture(sheet, plan.units, name=plan.name), "", "small")
        ]
        if found and found[0].kind not in known:
            known.add(found[0].kind)
            care = " ".join(map(told, found[0].cautions))
            blocks.append(Paragraph(care, f"{sentence(found[0].machine)}.", "caution"))
        rows = tuple(
            (str(setting.number), cut_told(cut, plan), TICK)
            for setting, cut in zip(found, sheet.cuts, strict=True)
        )
        as_it_comes = Paragraph("It is the piece as it comes: no cut.")
        blocks.append(Table(SETTINGS, rows, abreast=3) if rows else as_it_comes)
        yield Section(f"{sheet.number}: {sheet.goods.name}", tuple(blocks))


def cut_told(cut: SheetCut, plan: Plan) -> str:
    """One setting on a sheet in a sentence, with the pieces that come of it."""
    at, marks = with_unit(plan.units, cut.at), ", ".join(cut.marks)
    way = cut.way.capitalize()
    match cut.stage:
        case 1:
            return f"{way} the whole sheet at {at}: {strips(cut.times)}\n{marks}"
        case 2:
            return f"{way}, each strip at {at}\n{marks}"
        case _:
            return f"{way}, trim to {at}\n{marks}"


# ── the saw ───────────────────────────────────────────────────────────────────────────────────


def at_the_saw(plan: Plan, component: str | None = None, group: Group | None = None) -> Chapter:
    """Chapter of the settings in their order, each with its boards, its machine's cautions on top.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard, plan
    >>> told = at_the_saw(plan([demo_hive()], demo_yard()), group="day one")
    >>> [section.heading for section in told.sections][1]
    'Crosscut the boards'
    """
    found = only(plan.settings, component, group)
    lumber = [s for s in found if s.kind not in SHEETS]
    rest = [s for s in found if s.kind in SHEETS]
    first = (*_warnings(plan), Paragraph(MANUAL, tone="caution"), Paragraph(time_told(found, plan)))
    sections = (
        Section("Before the first cut", _cautions(FIRST)),
        *(
            Section(HEADINGS[kind], _settings(list(some), plan))
            for kind, some in groupby(lumber, key=_kind)
        ),
        *([Section("Sheets", (Paragraph(_on_sheets(rest)),))] if rest else []),
        Section("When the sawing is done", _cautions(AFTER)),
    )
    return harmless(Chapter("Settings of the saw", first, sections))


HEADINGS: Final = {
    "crosscut": "Crosscut the boards",
    "rip whole": "Rip the blanks",
    "rip slice": "Rip the slices, laid flat",
    "bevel": "Rip with the blade tilted",
    "to_length": "Cut the strips to length",
    "by_hand": "Saw by hand: too short for a machine",
    "taper": "Taper the rim's sides",
    "plane": "Plane",
}
WHY: Final = {
    "crosscut": "Longest first, so that what is left of a board still serves for a shorter piece.",
    "rip whole": "The wide part runs between blade and fence; the strip falls off beyond it.",
    "bevel": "Rip it on the whole blank, which is long enough to hold; cut to length after.",
    "to_length": "Strips are ripped long and cut to length last: a long piece is held more safely.",
    "taper": "The taper comes last, as a tapered piece has one straight edge less.",
}


def _kind(setting: Setting) -> str:
    return f"rip {setting.note}" if setting.kind == "rip" else setting.kind


def _settings(found: Sequence[Setting], plan: Plan) -> tuple[Block, ...]:
    rows = tuple(_setting(setting, plan) for setting in found)
    kind = _kind(found[0])
    why = [Paragraph(WHY[kind])] if kind in WHY else []
    machine = Paragraph("", f"{sentence(found[0].machine)}.")
    care = _cautions(found[0].cautions) if kind != "rip slice" else ()
    return (machine, *why, *care, Table(SETTINGS, rows, abreast=2), *_pictures(found, plan))


def _setting(setting: Setting, plan: Plan) -> tuple[str, ...]:
    works = []
    alike = groupby(setting.works, key=lambda work: (work.source, work.how))
    for (source, how), group in alike:
        marks = ", ".join(f"{w.times} × {w.mark}" if w.times > 1 else w.mark for w in group)
        place = f" from {source}" if source and source != marks.rpartition("× ")[2] else ""
        works.append(f"{marks}{place}{f': {how}' if how else ''}")
    return str(setting.number), f"{setting.told(plan.units)}\n{'; '.join(works)}", TICK


def _on_sheets(found: Sequence[Setting]) -> str:
    sheets = ", ".join(dict.fromkeys(source for s in found for source in s.sources))
    numbers = f"{found[0].number} to {found[-1].number}"
    return f"Settings {numbers} are cuts of the sheets {sheets}: they stand beside their pictures."


def time_told(found: Sequence[Setting], plan: Plan) -> str:
    """How many settings there are, and about how long they take with one saw."""
    cuts = sum(setting.cuts for setting in found)
    minutes = sum((setting.minutes(plan.yard) for setting in found), Fraction(0))
    hours, left = divmod(round(minutes), 60)
    long = f"{hours} h {left} min" if hours else f"{left} min"
    each = amount(plan.yard.minutes_a_setting)
    return (
        f"{len(found)} settings, {cuts} cuts: about {long} with one saw, at {each} min a "
        "setting and half a minute a cut."
    )


def _cautions(found: Iterable[Caution]) -> tuple[Paragraph, ...]:
    return tuple(Paragraph(told(caution), tone="caution") for caution in found)


def told(caution: Caution) -> str:
    """A caution with its source, where that is a law."""
    return f"{caution.text} ({caution.source})" if "OSHA" in caution.source else caution.text


def _pictures(found: Sequence[Setting], plan: Plan) -> Iterator[Block]:
    """One picture that each kind of setting is understood by, of the first that it is good for."""
    kind = _kind(found[0])
    ripped = [blank for blank in plan.blanks if blank.section.rips]
    if kind == "rip whole" and ripped:
        blank = ripped[0]
        svg = stud_section(blank.section, units=plan.units, name=plan.name)
        yield picture(svg, f"{blank.number}, seen from the end", "small")
        svg = fence_and_kerf(
            blank.section.rips[0],
            blank.section.thickness,
            plan.yard.kerf,
            units=plan.units,
            name=plan.name,
        )
        yield picture(svg, f"{blank.number}: the first rip", "small")
    if kind == "taper":
        side = taper(plan.hives[0].hive)
        yield picture(taper_drawing(side, units=plan.units, name=plan.name), "The taper", "small")


# ── one page a student ────────────────────────────────────────────────────────────────────────


def labels(plan: Plan) -> tuple[Chapter, ...]:
    """A page for each hive: its pieces with marks to cut out and stick on, sizes, where from.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.workshop import demo_yard, plan
    >>> labels(plan([demo_hive()], demo_yard()))[0].blocks[0].columns[0].head
    'label'
    """
    sources = {w.mark: w.source for s in plan.settings for w in s.works if w.source}
    pages = []
    for one in plan.hives:
        own = [piece for piece in plan.pieces if piece.hive == one.tag]
        half = -(-len(own) // 2)
        rows = tuple(
            (
                *_label(own[n], sources, plan),
                *(_label(own[n + half], sources, plan) if n + half < len(own) else ("", "")),
            )
            for n in range(half)
        )
        columns = (Column("label", 1.6, bold=True), Column("piece", 4)) * 2
        name = f"{one.tag} · {one.hive.name}" if one.tag else one.hive.name
        pages.append(harmless(Chapter(name, (Table(columns, rows),))))
    return tuple(pages)


def _label(piece: Piece, sources: dict[str, str], plan: Plan) -> tuple[str, str]:
    size = with_unit(plan.units, piece.width, piece.length)
    source = f" from {sources[piece.mark]}" if piece.mark in sources else ""
    return piece.mark, f"{sentence(piece.kind)}\n{size}{source}"


# ── as rows ───────────────────────────────────────────────────────────────────────────────────


def rows_to_buy(plan: Plan) -> Rows:
    """What to buy as rows for a spreadsheet."""
    columns = ("sort", "what", "count", "spare", "price", "cost", "left_over", "why")
    return Rows(columns, [_bought(line) for line in plan.basket.lines])


def _bought(line: Line) -> list[Cell]:
    price, cost = (
        None if m is None else amount(m).replace(",", "") for m in (line.price, line.cost)
    )
    return [
        line.sort,
        line.name,
        line.count,
        line.spare,
        price,
        cost,
        "; ".join(line.left_over),
        line.why,
    ]


def rows_to_cut(plan: Plan) -> Rows:
    """How to cut boards, strips and sheets as rows: one for each piece or blank, in order."""
    columns = ("from", "stock", "piece", "width", "width_mm", "length", "length_mm", "left_over")
    rows: list[list[Cell]] = []
    for cut in plan.boards:
        left = on_mark(cut.offcut, plan.units)
        rows += [
            [cut.number, cut.board.name, i.mark, *_size(None, plan), *_size(i.length, plan), left]
            for i in cut.items
        ]
    for blank in plan.blanks:
        for strip in blank.strips:
            rows += [
                [strip.number, blank.number, p.mark, *_size(None, plan), *_size(size, plan), None]
                for p, size in strip.pieces
            ]
    for sheet in plan.sheets:
        rows += [
            [
                sheet.number,
                sheet.goods.name,
                p.piece.mark,
                *_size(p.width, plan),
                *_size(p.length, plan),
                None,
            ]
            for p in sheet.placed
        ]
    rows += [[None, None, left.mark, *[None] * 4, left.why] for left in plan.unplanned]
    return Rows(columns, rows)


def _size(length: Length | None, plan: Plan) -> list[Cell]:
    return [None, None] if length is None else [shown(length, plan.units), float(length / MM)]


def rows_at_the_saw(found: Sequence[Setting], plan: Plan) -> Rows:
    """The settings as rows: one for each piece that is cut at each."""
    columns = (
        "setting",
        "kind",
        "machine",
        "set",
        "distance",
        "distance_mm",
        "tilt",
        "piece",
        "from",
        "count",
        "group",
    )
    rows: list[list[Cell]] = [
        [
            s.number,
            s.kind,
            s.machine,
            s.told(plan.units),
            *_size(s.distance, plan),
            s.tilt,
            w.mark,
            w.source,
            w.times,
            w.group,
        ]
        for s in found
        for w in s.works
    ]
    return Rows(columns, rows)


# ── forms of the commands ─────────────────────────────────────────────────────────────────────


def text(chapters: Iterable[Chapter], plan: Plan, *, boards: bool = False) -> str:
    """Chapters as text, with the boards as a list where they are drawn elsewhere."""
    head = f"{plan.name} · plan {plan.number}\n\n"
    found = "\n".join(chapter_text(chapter) for chapter in chapters)
    if not boards:
        return f"{head}{found}"
    first, _, rest = found.partition("\nStrips\n")
    listed = "\n".join(line for cut in plan.boards for line in _board_lines(cut, plan))
    return f"{head}{first}\nBoards\n------\n{listed}\n\nStrips\n{rest}"


def _board_lines(cut: CutBoard, plan: Plan) -> list[str]:
    setting = {w.mark: s.number for s in plan.settings for w in s.works if s.kind == "crosscut"}
    pieces = ", ".join(
        f"{item.mark} {with_unit(plan.units, item.length)} (setting {setting[item.mark]})"
        for item in cut.items
    )
    left = (
        "tight, hardly anything to spare"
        if cut.tight
        else f"left {on_mark(cut.offcut, plan.units)}"
    )
    at_hand = ", at hand" * cut.board.at_hand
    line = escaped(f"{cut.number}  {cut.board.name}{at_hand}: {pieces}; {left}.")
    return filled(line, 80, "  ", "      ")


def pages_pdf(plan: Plan, chapters: Sequence[Chapter], paper: Paper = "a4") -> bytes:
    """Chapters as a PDF without a title page; the plan's name and number head each page."""
    return pdf(Book(f"{escaped(plan.name)} · plan {plan.number}", "", (), tuple(chapters)), paper)


def boards_svg(plan: Plan) -> str:
    """All boards as one SVG file, full width."""
    return _file(boards_page(plan.boards, plan.yard, name=plan.name), WIDE)


def basket_svg(plan: Plan) -> str:
    """What to buy as one SVG file: a bar for each line."""
    found = [
        (f"{line.count:,} × {line.name}", line.cost, paid(line.cost, plan.yard.currency))
        for line in plan.basket.lines
        if line.cost is not None
    ]
    return _file(bars(plan.basket.told, found, name=plan.name), 360)


def settings_svg(chapter: Chapter, plan: Plan) -> str:
    """The settings as one SVG file, as a list."""
    page = Page()
    page.begin(f"{plan.name}: {chapter.heading}")
    page.write(*chapter_text(chapter, 100).splitlines()[3:])
    return page.file(f"{plan.name}: {chapter.heading}")


def _file(svg: str, width: float) -> str:
    """A picture as a file that is opened by itself, at its own size."""
    alone = re.sub(r"\bdrawing\d+-", "drawing-", svg)
    return re.sub(r' style="[^"]*"', f' width="{width:g}"', alone, count=1)
