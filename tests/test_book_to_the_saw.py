"""The pages of buying, cutting and the saw: in the hive book, and as PDFs of the commands.

Pieces are counted from the parts table, money from the yard's price list, the saw's stops from the
pages on cutting: never by the code that wrote the page. Paper sizes: ISO 216 (A4) and ANSI/ASME
Y14.1 (letter); a PDF's unit is 1/72 in (ISO 32000-1, 8.3.2.3).
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from textwrap import dedent
from typing import NamedTuple

import pypdfium2
import pytest

from hivecalc.book import Book, book, book_html
from hivecalc.book.commands import cut_pdf, saw_pdf, shop_pdf
from hivecalc.book.content import TICK, Chapter, Paragraph, Picture, Section, Table
from hivecalc.book.from_the_yard import from_the_yard
from hivecalc.book.saw_settings import labels, saw_settings
from hivecalc.book.to_buy import to_buy
from hivecalc.book.to_cut import to_cut
from hivecalc.components import parts
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.plans import cut_plans
from hivecalc.derivation import title
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text, hive_text
from hivecalc.paper import Paper
from hivecalc.saw import CAUTIONS, Kind, saw_plan
from hivecalc.saw.plan import KINDS
from hivecalc.shopping import alternatives, basket
from hivecalc.stock import Board, Package, SheetGoods, Yard, demo_yard, yard_from_text, yard_text
from hivecalc.tables.drawn import hives_named
from hivecalc.widgets.printing import written_book
from tests.hives import HIVES

YARD = demo_yard()
PAPERS = {"a4": (210 * 72 / 25.4, 297 * 72 / 25.4), "letter": (8.5 * 72, 11 * 72)}
BUY, CUT, SAW = "What to buy", "How to cut it", "Settings of the saw"
MARKUP = '#panic(1) *b* $x$ <b> "q" [a]'
SIDES = "[Oo]n the left|[Oo]n the right|[Nn]ear you|[Bb]eyond"


def hive_named(name: str) -> Hive:
    return hive_from_text(dedent(HIVES[name]))


@cache
def book_of(name: str) -> Book:
    return book(hive_named(name))


def chapter(made: Book, heading: str) -> Chapter:
    return next(c for c in made.chapters if c.heading == heading)


def chapters_at(yard: Yard, hive: Hive | None = None) -> tuple[Chapter, ...]:
    found = from_the_yard(hive or demo_hive(), yard)
    return (found.to_buy, *found.to_cut, *found.settings)


def tables(section: Section) -> list[Table]:
    return [block for block in section.blocks if isinstance(block, Table)]


def first_line(cell: str) -> str:
    return cell.partition("\n")[0]


# ── what is read off the pages on cutting ─────────────────────────────────────────────────────


class Sawn(NamedTuple):
    """Pieces that were read off a page: their name, their length as written, how many."""

    name: str
    length: str
    many: int


def in_order(text: str) -> Iterator[Sawn]:
    """Read pieces as they stand one after the other, such as 2 × roof rim side (23 5/8 in)."""
    for piece in text.removesuffix(")").split("), "):
        name, _, length = piece.rpartition(" (")
        many = re.match(r"(\d+) × (?=[^\d])", name)
        yield Sawn(name[many.end() :] if many else name, length, int(many[1]) if many else 1)


def goods(block: object) -> tuple[int, str] | None:
    """Read how many of which board or sheet a paragraph is about."""
    if isinstance(block, Paragraph):
        found = re.fullmatch(rf"(?:[{TICK} ]+|____ of [\d,]+ )([\d,]+) × (.+?):?", block.lead)
        return (int(found[1]), found[2]) if found else None
    return None


def boards(told: Chapter) -> Iterator[Sawn]:
    for section in told.sections:
        for block in section.blocks:
            taken = goods(block)
            if taken and isinstance(block, Paragraph) and ". Left over: " in block.text:
                text, _, _ = block.text.partition(". Left over: ")
                yield from (Sawn(n, length, c * taken[0]) for n, length, c in in_order(text))


def strips(told: Chapter) -> Iterator[Sawn]:
    for section in told.sections:
        for table in tables(section):
            if table.columns[0].head == "strips":
                for count, text, boxes in table.rows:
                    assert boxes.count(TICK) in {int(count), 0}
                    yield from (Sawn(n, le, c * int(count)) for n, le, c in in_order(text))


def from_sheets(told: Chapter) -> Counter[str]:
    """Count what the cuts of each sheet set free, which is what is said to come out of it."""
    found, sheets, said = Counter[str](), 0, Counter[str]()
    for section in told.sections:
        for block in section.blocks:
            taken = goods(block)
            if taken and isinstance(block, Paragraph) and "Left over" not in block.text:
                sheets, said = taken[0], listed(block.text)
                if "no cut" in block.text:
                    found.update({name: sheets * many for name, many in said.items()})
            if isinstance(block, Table) and block.columns[1].head == "cut, in this order":
                freed = set_free(" ".join(line for _, line in block.rows))
                assert freed == said
                found.update({name: sheets * many for name, many in freed.items()})
    return found


def listed(text: str) -> Counter[str]:
    found = Counter[str]()
    for piece in text.removesuffix(", as it comes: no cut.").removesuffix(".").split(", "):
        many = re.match(r"(\d+) × ", piece)
        found[piece[many.end() :] if many else piece] += int(many[1]) if many else 1
    return found


def set_free(cuts: str) -> Counter[str]:
    names = re.findall(rf"(?:{SIDES}): (.*?), [≈\d]", cuts)
    return Counter(n for n in names if n != "an offcut" and not re.fullmatch("part [A-Z]+", n))


def not_planned(told: Chapter) -> Counter[str]:
    left = [s for s in told.sections if s.heading in {"Not planned", "Not to be had"}]
    rows = [row for section in left for table in tables(section) for row in table.rows]
    return Counter({name: int(count) for count, name, _ in rows})


def counted(cuts: Iterator[Sawn]) -> Counter[str]:
    found = Counter[str]()
    for name, _, count in cuts:
        found[name] += count
    return found


def cut_in_all(told: Chapter) -> Counter[str]:
    """Count every piece; what is ripped counts where its strip is cut, not as the blank for it."""
    ripped = counted(strips(told))
    whole = Counter({name: n for name, n in counted(boards(told)).items() if name not in ripped})
    for name in [name for name in whole if name.startswith("blank")]:
        del whole[name]
    return whole + ripped + from_sheets(told) + not_planned(told)


def pieces_of(hive: Hive) -> Counter[str]:
    """Count the parts table; the front of the inner cover's rim is two halves beside its notch."""
    found = Counter[str]()
    for piece in parts(hive):
        if piece.width and piece.length:
            component, part = title(piece.component), title(piece.part)
            name = part if part.startswith(component) else f"{component} {part}"
            halves = (piece.component, piece.part) == ("inner_cover", "rim_front")
            found[f"{name} half" if halves else name] += piece.quantity * (1 + halves)
    return found


@pytest.mark.parametrize("name", HIVES)
def test_every_piece_of_the_hive_is_cut_as_often_as_the_parts_table_says(name: str) -> None:
    assert cut_in_all(chapter(book_of(name), CUT)) == pieces_of(hive_named(name))


def test_twelve_hives_that_are_alike_take_twelve_times_the_pieces() -> None:
    told = to_cut(cut_plans([demo_hive()] * 12, YARD, "boards", Planner("inch", 0.3)), YARD)
    expected = Counter({name: 12 * count for name, count in pieces_of(demo_hive()).items()})
    assert cut_in_all(told) == expected


@pytest.mark.parametrize("name", HIVES)
def test_a_board_or_sheet_is_cut_for_each_that_is_bought(name: str) -> None:
    bought, cut = Counter[str](), Counter[str]()
    for section in chapter(book_of(name), BUY).sections[:2]:
        for row in tables(section)[0].rows:
            bought[first_line(row[2])] += int(row[1])
    for section in chapter(book_of(name), CUT).sections:
        for taken in filter(None, map(goods, section.blocks)):
            cut[taken[1]] += taken[0]
    assert cut == bought
    assert len(cut) > 4


def test_each_kind_of_wood_stands_under_its_own_heading() -> None:
    words = {"Stud": "2x4", "Board": "1x4", "Foam": "foam", "Mesh": "mesh", "Plastic": "plastic"}
    for section in chapter(book_of("orchard"), CUT).sections:
        for _, name in filter(None, map(goods, section.blocks)):
            assert words.get(section.heading.split()[0], "plywood") in name


@pytest.mark.parametrize("name", HIVES)
def test_every_board_and_sheet_is_drawn_and_each_cut_has_a_box_to_tick(name: str) -> None:
    sections = chapter(book_of(name), CUT).sections
    for section in sections:
        leads = [block for block in section.blocks if goods(block)]
        drawn = [block for block in section.blocks if isinstance(block, Picture)]
        assert len(drawn) == len(leads) or section.heading.startswith("Ripped from")
        for block, after in zip(section.blocks, section.blocks[1:], strict=False):
            assert not goods(block) or isinstance(after, Picture)
    cuts = [r for s in sections for t in tables(s) if len(t.columns) == 2 for r in t.rows]
    assert cuts
    assert {row[0] for row in cuts} == {TICK}


@pytest.mark.parametrize("name", HIVES)
def test_offcut_pieces_and_kerfs_make_up_the_board(name: str) -> None:
    """A board of so many feet is its pieces, a kerf of 1/8 in after each, 1/2 in, what is left."""
    metric = hive_named(name).units == "mm"
    unit, kerf, trim = (Fraction(5, 127), 1, 1) if metric else (Fraction(1), 1, 1)
    for section in chapter(book_of(name), CUT).sections:
        for block in section.blocks:
            taken = goods(block)
            if taken and isinstance(block, Paragraph) and ". Left over: " in block.text:
                text, _, left = block.text.partition(". Left over: ")
                feet = re.match(r"(\d+) ft", taken[1])
                assert feet
                sizes = [(number(c.length), c.many) for c in in_order(text)]
                sawn = sum(count for _, count in sizes)
                wood = sum(size * count for size, count in sizes) * unit
                rest = number(left.removesuffix(".")) * unit
                spare = 12 * int(feet[1]) - wood - rest - Fraction(trim, 2)
                slack = Fraction(1, 100) if metric else 0
                assert Fraction(kerf * (sawn - 1), 8) - slack <= spare
                assert spare <= Fraction(kerf * sawn, 8) + slack


def number(text: str) -> Fraction:
    """Read a mixed number or a decimal, whatever its unit."""
    bare = re.sub(r"^≈ | (in|mm)$", "", text)
    return sum((Fraction(part) for part in bare.split()), Fraction(0))


def test_a_plan_that_is_proved_says_so_and_one_that_is_not_tells_its_bound() -> None:
    plans = cut_plans([demo_hive()], YARD)
    cut = plans.boards[0]
    doubtful = replace(cut.plan, bound=cut.plan.bound - 1, proved=False)
    unsure = replace(plans, boards=(replace(cut, plan=doubtful),))
    said = [to_cut(p, YARD).sections[0].blocks[0] for p in (plans, unsure)]
    proved, bound = (block.text for block in said if isinstance(block, Paragraph))
    assert proved.startswith("2 boards. Aim: fewest boards to buy. It takes 2 boards to buy.")
    assert "that is proved" in proved
    assert "no plan can take less than 1 board to buy" in bound
    assert "is not proved" in bound


def test_a_metric_hive_is_cut_in_millimetres() -> None:
    made = book_of("metric")
    lengths = {c.length for c in (*boards(chapter(made, CUT)), *strips(chapter(made, CUT)))}
    assert len(lengths) > 10
    assert all(length.endswith(" mm") for length in lengths)
    rows = [r for s in chapter(made, SAW).sections for t in tables(s) for r in t.rows]
    assert rows
    assert all(" mm" in row[1] and " in " not in row[1].partition(" from")[0] for row in rows)


def test_what_the_yard_lacks_is_told_where_it_is_bought_and_where_it_is_cut() -> None:
    """The sleeve's skin is 3/8 in thick, and the invented yard sells 1/4 and 1/2 in."""
    for heading in (BUY, CUT):
        left = not_planned(chapter(book_of("sleeved"), heading))
        assert left == {"sleeve skin side": 2, "sleeve skin end": 2}
    costs = next(b for b in chapter(book_of("sleeved"), BUY).blocks if isinstance(b, Paragraph))
    assert "does not give is not in it: 4 in all" in costs.text


# ── what is bought ────────────────────────────────────────────────────────────────────────────


def lines_of(told: Chapter) -> list[tuple[str, ...]]:
    return [
        row
        for section in told.sections
        for table in tables(section)
        if "left over" in {column.head for column in table.columns}
        for row in table.rows
    ]


def prices(yard: Yard) -> dict[str, Fraction]:
    sold: list[Board | SheetGoods | Package] = [*yard.boards, *yard.sheets, *yard.packages]
    return {one.name: one.price for one in sold if one.price is not None}


@pytest.mark.parametrize("name", HIVES)
def test_every_line_of_the_basket_stands_in_the_book_with_its_cost(name: str) -> None:
    told = chapter(book_of(name), BUY)
    found, price = lines_of(told), prices(YARD)
    expected = basket([hive_named(name)], YARD).lines
    assert [(row[1], first_line(row[2])) for row in found] == [
        (f"{line.count:,}", line.name) for line in expected
    ]
    total = Fraction(0)
    for box, count, what, one, cost, _ in found:
        assert box == TICK
        assert Fraction(one) == price[first_line(what)]
        assert Fraction(cost) == int(count) * price[first_line(what)]
        total += Fraction(cost)
    [said] = re.findall(r"([\d.]+) coins in all", " ".join(told.texts()))
    assert Fraction(said) == total
    assert "invented" in " ".join(told.texts())


def test_a_yard_of_ones_own_is_not_called_invented_and_its_prices_count() -> None:
    """One price of 4 coins becomes 4.37, and one board of it is bought: 82.50 becomes 82.87."""
    dearer = tuple(
        replace(board, price=Fraction("4.37")) if board.name == "8 ft 2x4" else board
        for board in YARD.boards
    )
    told = " ".join(chapters_at(replace(YARD, boards=dearer))[0].texts())
    assert "82.87 coins in all" in told
    assert "invented" not in told


def test_a_price_that_is_not_known_is_told_and_the_count_stands() -> None:
    without = tuple(replace(sheet, price=None) for sheet in YARD.sheets)
    told = chapters_at(replace(YARD, sheets=without))[0]
    sheets = tables(next(s for s in told.sections if s.heading == "Sheets"))[0].rows
    assert {row[3:5] for row in sheets} == {("?", "?")}
    assert "without what has no price" in " ".join(told.texts())


def test_what_is_at_hand_is_said_to_be() -> None:
    offcut = replace(
        YARD.boards[0],
        name="old 2x4",
        length=Fraction(60),
        price=Fraction(0),
        count=1,
        at_hand=True,
    )
    buy, cut, _ = chapters_at(replace(YARD, boards=(*YARD.boards, offcut)))
    assert "old 2x4, at hand" in {first_line(row[2]) for row in lines_of(buy)}
    assert any("1 × old 2x4, at hand" in text for text in cut.texts())


def test_joints_of_one_hive_stand_with_their_reasons_and_come_to_what_is_bought() -> None:
    """12 screws of 3 in: 4 at the front rail, 4 at the rim's front, 4 at its back."""
    told = chapter(book_of("orchard"), BUY)
    rows = tables(next(s for s in told.sections if s.heading == "Joint by joint"))[0].rows
    screws = [row for row in rows if row[1].endswith(" screws of 3 in")]
    assert [row[1] for row in screws] == ["4 screws of 3 in"] * 3
    assert all("2 joints × 2 screws of 3 in" in row[2] for row in screws)
    bag = next(row[2] for row in lines_of(told) if "screws of 3 in" in row[2])
    assert "12 counted joint by joint" in bag


def test_joints_of_hives_that_differ_are_added_up() -> None:
    """Four screws hold each of four front rails. A runner of 31 - 3 1/2 in takes 5 brads, not 4."""
    other = changed(demo_hive(), {"hive_length": "31"})
    told = to_buy(basket([demo_hive(), demo_hive(), demo_hive(), other], YARD))
    section = next(s for s in told.sections if s.heading == "Joint by joint, for all hives")
    rows = {row[0].split("\n")[0]: row for row in tables(section)[0].rows}
    assert rows["side rail to front rail"][1:] == (
        "16 screws of 3 in",
        "2 joints × 2 screws of 3 in.",
    )
    runner = rows["lower side runner to side rail"]
    assert (runner[1], runner[2]) == ("34 brads of 1 1/4 in", "8 to 10 in a hive")


def test_other_ways_to_buy_stand_with_the_difference() -> None:
    """8 ft at 4 and 10 ft at 5.50 are on the list; three of 8 ft cost 12, which is 2.50 more."""
    told = chapter(book_of("orchard"), BUY)
    section = next(s for s in told.sections if s.heading == "What else you could buy")
    rows = {row[2]: row for row in tables(section)[0].rows}
    assert rows["only 8 ft 2x4"][1] == "1 × 8 ft 2x4, 1 × 10 ft 2x4"
    assert rows["only 8 ft 2x4"][3] == "2.50 coins more"


# ── the saw ───────────────────────────────────────────────────────────────────────────────────


def saw_sections(name: str) -> dict[Kind, Section]:
    found = chapter(book_of(name), SAW).sections[1:-1]
    return dict(zip(KINDS, found, strict=True))


def stops(section: Section) -> list[Fraction]:
    rows = tables(section)[0].rows
    return [number(row[1].removeprefix("stop block ").partition(" from")[0]) for row in rows]


@pytest.mark.parametrize("name", HIVES)
def test_each_kind_of_step_has_its_own_cautions_before_its_settings(name: str) -> None:
    sections = saw_sections(name)
    for kind, section in sections.items():
        place = section.blocks.index(tables(section)[0])
        told = [b.text for b in section.blocks[:place] if isinstance(b, Paragraph)]
        for caution in CAUTIONS[kind]:
            assert any(text.startswith(caution.text) for text in told), caution
    before, *_, after = chapter(book_of(name), SAW).sections
    assert len(before.blocks) == len(CAUTIONS["before"])
    assert len(after.blocks) == len(CAUTIONS["after"])


@pytest.mark.parametrize("name", HIVES)
def test_settings_are_numbered_through_and_each_has_a_box_to_tick(name: str) -> None:
    rows = [row for section in saw_sections(name).values() for row in tables(section)[0].rows]
    assert [int(row[0]) for row in rows] == list(range(1, len(rows) + 1))
    assert {row[3] for row in rows} == {TICK}


@pytest.mark.parametrize("name", HIVES)
def test_the_stop_block_is_set_once_to_each_length_that_is_cut(name: str) -> None:
    sections, told = saw_sections(name), chapter(book_of(name), CUT)
    whole = {number(cut.length) for cut in boards(told)}
    assert stops(sections["crosscut"]) == sorted(whole, reverse=True)
    ripped = {number(cut.length) for cut in strips(told)}
    lengths = stops(sections["to_length"])
    assert lengths == sorted(lengths, reverse=True)
    assert len(lengths) == len(set(lengths))
    assert ripped - whole <= set(lengths) <= ripped


def test_fence_bevel_and_taper_are_drawn_with_their_figures() -> None:
    """The taper falls 2 in over 23 5/8 in; the landing board's 30° is 3 1/16 in at the fence."""
    sections = saw_sections("orchard")
    words = {
        kind: [b.words for b in section.blocks if isinstance(b, Picture)]
        for kind, section in sections.items()
    }
    assert [len(words[kind]) for kind in KINDS] == [0, 2, 0, 2, 1]
    assert all("kerf 1/8 in" in said for said in words["rip"])
    assert "fence ≈ 3 1/16 in" in words["bevel"][1]
    assert "2 in over 23 5/8 in" in words["taper"][0]


def test_what_is_ripped_off_the_front_rail_is_told_once_for_hives_that_are_alike() -> None:
    other = replace(changed(demo_hive(), {"hive_length": "25"}), name="Other")
    for hives, lead in (([demo_hive()], ""), ([demo_hive(), other], "Orchard hive, Other:")):
        told = saw_settings(saw_plan(hives, YARD))
        found = [b for s in told.sections for b in s.blocks if isinstance(b, Paragraph)]
        off = [b for b in found if b.text.startswith("What is ripped off the front rail")]
        assert [b.lead for b in off] == [lead]


def test_labels_say_what_to_write_on_every_piece_of_wood() -> None:
    [table] = [b for b in labels(saw_plan([demo_hive()], YARD)).blocks if isinstance(b, Table)]
    wood = cut_in_all(chapter(book_of("orchard"), CUT)) - from_sheets(
        chapter(book_of("orchard"), CUT)
    )
    assert Counter({name: int(count) for count, name, _ in table.rows}) == wood


# ── a yard that can't be used ─────────────────────────────────────────────────────────────────


def test_a_faulty_yard_file_is_told_in_a_sentence_and_the_book_is_made(tmp_path: Path) -> None:
    file = tmp_path / "my-hive.toml"
    file.write_text(hive_text(demo_hive()), encoding="utf-8")
    faulty = yard_text().replace('kerf = "1/8"', 'kerf = "wide"').replace("price = 4", "price = -4")
    (tmp_path / "my-yard.toml").write_text(faulty, encoding="utf-8")
    page, printed = written_book(demo_hive(), file, "a4")
    said = page.read_text(encoding="utf-8")
    assert said.count("Your yard file can&#x27;t be used.") == 1
    assert "my-yard.toml, kerf: cannot read “wide” as a length" in said
    assert re.search(r"There are 2 more faults like it", said)
    assert "82.50 coins in all" in said
    assert "the yard that comes with the course stands here" in squeezed_text(printed.read_bytes())


def test_the_yard_beside_the_hive_file_is_the_books(tmp_path: Path) -> None:
    file = tmp_path / "my-hive.toml"
    own = yard_text().replace('currency = "coins"', 'currency = "acorns"')
    (tmp_path / "my-yard.toml").write_text(own, encoding="utf-8")
    page, _ = written_book(demo_hive(), file, "letter")
    assert "82.50 acorns in all" in page.read_text(encoding="utf-8")


def test_a_yard_with_which_nothing_can_be_planned_leaves_only_the_reason() -> None:
    found = from_the_yard(demo_hive(), replace(YARD, kerf=Fraction(40)))
    assert (found.to_cut, found.settings) == ((), ())
    [said] = found.to_buy.blocks
    assert isinstance(said, Paragraph)
    assert (said.tone, said.lead) == ("wrong", "Buying and cutting can't be planned.")
    assert said.text.startswith("kerf: 40 in is as much as the shortest piece or more")


def test_a_row_that_was_left_out_of_the_yard_is_told() -> None:
    left = yard_from_text(
        yard_text() + '\n[[at_hand]]\nmaterial = "2x4"\nlength = "rubbish"\ncount = 1\n'
    )
    paragraphs = [b for b in chapters_at(left)[0].blocks if isinstance(b, Paragraph)]
    [told] = [b for b in paragraphs if b.tone == "wrong"]
    assert "rubbish" in told.text


def test_what_others_wrote_is_shown_so_that_it_does_no_harm() -> None:
    nasty = tuple(replace(board, name=f"{board.name}\x1b[31m<b>") for board in YARD.boards)
    made = replace(book_of("orchard"), chapters=chapters_at(replace(YARD, boards=nasty)))
    page = book_html(made)
    assert "\x1b" not in page
    assert "[31m&lt;b&gt;" in page


# ── on paper ──────────────────────────────────────────────────────────────────────────────────


def class_of(count: int) -> list[Hive]:
    """Hives that all differ, invented: 20 to 25 in long and 15 to 19 in wide."""
    sizes = [
        {
            "hive_length": f"{20 + i % 6} {1 + 2 * (i % 4)}/8",
            "hive_width": f"{15 + i % 5} {1 + 2 * (i % 8)}/16",
        }
        for i in range(count)
    ]
    return [replace(changed(demo_hive(), s), name=f"Hive {i}") for i, s in enumerate(sizes, 1)]


class Printed(NamedTuple):
    """A PDF and the chapters that it was made from."""

    pdf: bytes
    chapters: tuple[Chapter, ...]


@cache
def printed(which: str, count: int, paper: Paper) -> Printed:
    hives = class_of(count) if count > 1 else [demo_hive()]
    name, how = hives_named(hives), Planner("inch", 0.3)
    makers: dict[str, Callable[[], Printed]] = {
        "shop": lambda: _shop(hives, name, how, paper),
        "cut": lambda: _cut(hives, name, how, paper),
        "saw": lambda: _saw(hives, name, paper),
    }
    return makers[which]()


def _shop(hives: list[Hive], name: str, how: Planner, paper: Paper) -> Printed:
    found = basket(hives, YARD, how)
    others = alternatives(found, YARD, how)
    return Printed(shop_pdf(found, others, name, paper), (to_buy(found, others),))


def _cut(hives: list[Hive], name: str, how: Planner, paper: Paper) -> Printed:
    plans = cut_plans(hives, YARD, "boards", how)
    return Printed(cut_pdf(plans, YARD, name, paper), (to_cut(plans, YARD, name),))


def _saw(hives: list[Hive], name: str, paper: Paper) -> Printed:
    plan = saw_plan(hives, YARD)
    return Printed(saw_pdf(plan, name, paper), (saw_settings(plan, name), labels(plan)))


def squeezed(text: str) -> str:
    """Return a text without spaces, and without hyphens: PDFium drops those at a line end."""
    return re.sub(r"[-\s\u200b\u2060\ufffe]+", "", text)


def squeezed_text(pdf: bytes) -> str:
    """Return all text of a PDF without spaces; the letters of a page stand in reading order."""
    return " ".join(squeezed_pages(pdf))


def squeezed_pages(pdf: bytes) -> list[str]:
    return [" ".join(page.get_textpage().get_text_range().split()) for page in pages(pdf)]


def pages(pdf: bytes) -> list[pypdfium2.PdfPage]:
    return list(pypdfium2.PdfDocument(pdf))


PRINTED = [
    (which, count, paper)
    for which, count, paper in (
        ("shop", 1, "a4"), ("shop", 12, "letter"), ("cut", 1, "letter"), ("cut", 12, "a4"),
        ("saw", 1, "a4"), ("saw", 12, "letter"),
    )
]  # fmt: skip


@pytest.mark.parametrize(("which", "count", "paper"), PRINTED)
def test_the_pdf_of_a_command_says_all_that_its_chapters_say(
    which: str, count: int, paper: Paper
) -> None:
    made = printed(which, count, paper)
    text = squeezed(re.sub(r"\d+ hivesPage|Page \d+ of \d+", "", squeezed_text(made.pdf)))
    for told in made.chapters:
        for part in (Section(told.heading, told.blocks), *told.sections):
            for block in part.blocks:
                said = [block.caption] if isinstance(block, Picture) else list(block.texts())
                lines = [line for words in said for line in words.split("\n")]
                assert [line for line in lines if squeezed(line) not in text] == []
            assert squeezed(part.heading) in text


@pytest.mark.parametrize(("which", "count", "paper"), PRINTED)
def test_nothing_that_is_read_runs_off_the_page(which: str, count: int, paper: Paper) -> None:
    """All letters, in pictures too, stand 15 mm or more from the sides and 8 mm from the ends."""
    side, end = 15 / 25.4 * 72, 8 / 25.4 * 72
    for page in pages(printed(which, count, paper).pdf):
        width, height = page.get_size()
        assert (width, height) == pytest.approx(PAPERS[paper], abs=0.1)
        text = page.get_textpage()
        for number_ in range(text.count_rects()):
            left, bottom, right, top = text.get_rect(number_)
            assert side <= left <= right <= width - side
            assert end <= bottom <= top <= height - end


@pytest.mark.parametrize(("which", "count", "paper"), PRINTED)
def test_no_page_of_a_command_ends_with_a_heading(which: str, count: int, paper: Paper) -> None:
    made = printed(which, count, paper)
    headings = {s.heading for told in made.chapters for s in told.sections}
    for page in pages(made.pdf):
        lines = [s for s in page.get_textpage().get_text_range().splitlines() if s.strip()]
        body = [line.strip() for line in lines if not line.startswith("Page ")]
        assert body[-1] not in headings


@pytest.mark.parametrize("which", ["shop", "cut", "saw"])
def test_every_page_bears_the_hives_name_and_its_number(which: str) -> None:
    told = squeezed_pages(printed(which, 1, "a4" if which != "cut" else "letter").pdf)
    for number_, text in enumerate(told, 1):
        assert "Orchard hive" in text
        assert f"Page {number_} of {len(told)}" in text
    assert "Hive book" not in told[0]


def test_a_class_is_named_by_how_many_hives_it_has() -> None:
    assert hives_named(class_of(2)) == "Hive 1, Hive 2"
    assert hives_named(class_of(12)) == "12 hives"
    assert hives_named([*class_of(2), *class_of(2)]) == "Hive 1 × 2, Hive 2 × 2"


def test_a_class_finds_every_piece_of_every_hive() -> None:
    expected = Counter[str]()
    for hive in class_of(12):
        expected.update({f"{hive.name}: {n}": c for n, c in pieces_of(hive).items()})
    [told] = printed("cut", 12, "a4").chapters
    assert cut_in_all(told) == expected


def test_names_of_hives_are_text_on_paper() -> None:
    hives = [replace(hive, name=f"{MARKUP} {hive.name}") for hive in class_of(2)]
    text = squeezed(squeezed_text(saw_pdf(saw_plan(hives, YARD), MARKUP)))
    assert text.count(squeezed(f"{MARKUP} Hive 1: roof rim side")) > 1


def test_an_invented_yard_is_told_on_the_pages_of_cutting() -> None:
    plans = cut_plans([demo_hive()], YARD)
    told = [squeezed_text(cut_pdf(plans, YARD, "Hive", invented=i)) for i in (True, False)]
    assert ["prices are invented" in text for text in told] == [True, False]


def test_the_same_plans_give_the_same_bytes() -> None:
    made = printed("cut", 1, "letter")
    plans = cut_plans([demo_hive()], YARD)
    assert cut_pdf(plans, YARD, "Orchard hive", "letter") == made.pdf
