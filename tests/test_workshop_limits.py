"""The limits, thresholds and cautions of the workshop: each fails here when it moves.

They are common practice, no published source, but for plywood (PS 1: 1/32 in either way) and the
cautions that name a section of OSHA. A machine's manual goes before all of them.
"""

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from hivecalc.components import values
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive
from hivecalc.length import MM
from hivecalc.pages.workshop import HIVES
from hivecalc.workshop import Yard, cautions, demo_yard, plan, yard_from_text
from hivecalc.workshop.basket import on_mark
from hivecalc.workshop.boards import CutItem, boards_cut, room
from hivecalc.workshop.cautions import AFTER, CROSSCUT, FIRST, KINDS, RIP
from hivecalc.workshop.needs import (
    NOT_CRITICAL,
    RUN_ALONG,
    Section,
    Stock,
    batch,
    goods_for,
    needed,
    stocks,
)
from hivecalc.workshop.plan import boards_planned
from hivecalc.workshop.settings import Setting, Work
from hivecalc.workshop.sheets import sheets_cut
from hivecalc.workshop.strips import cross_section, ripped, section_words
from hivecalc.workshop.yard import CHOICES

HAIR = Fraction(1, 1000)
ROOT = Path(__file__).parent.parent

# What a yard file may say: name, least, most. Beyond either the file is refused.
RANGES = [
    ("kerf", "1/64", "1/4"), ("cut_margin", "0", "1/2"), ("end_trim", "0", "6"),
    ("least_rip", "6", "48"), ("least_fence", "1/2", "6"), ("least_stop", "2", "24"),
    ("longest_board", "24", "288"), ("spare_percent", "0", "100"), ("spare_boards", "0", "100"),
    ("minutes_a_setting", "0", "60"),
]  # fmt: skip


# The same of its rows, by what stands in such a row beside it.
BOARD = {"material": "stud", "thickness": "1", "width": "3", "length": "96"}
SHEET = {"material": "foam", "thickness": "1", "width": "24", "length": "48"}
IN_ROWS = [
    ("board", BOARD, "thickness", "1/100", "4"), ("board", BOARD, "width", "1/2", "72"),
    ("board", BOARD, "length", "1", "288"), ("sheet", SHEET, "length", "1", "1200"),
    ("board", BOARD, "count", "0", "100000"),
    ("package", {"item": "long_brad"}, "holds", "1", "100000"),
    ("package", {"item": "glue"}, "covers", "1", "100000"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("sort", "row", "name", "least", "most"), [*(("", {}, *known) for known in RANGES), *IN_ROWS]
)
def test_a_yard_file_takes_its_ranges_and_nothing_beyond(sort, row, name, least, most):
    def read(value):
        entries = "\n".join(f'{n} = "{v}"' for n, v in {**row, name: value}.items())
        return yard_from_text(f"[[{sort}]]\n{entries}" if sort else entries)

    for edge in (least, most):
        assert sort or getattr(read(edge), name) == Fraction(edge)
        assert read(edge)
    step = 1 if name.startswith(("spare", "minutes", "count", "holds")) else Fraction(1, 1000)
    with pytest.raises(HiveFaults, match="too large"):
        read(Fraction(most) + step)
    if least != "0":
        with pytest.raises(HiveFaults, match="too small"):
            read(Fraction(least) - step)


@pytest.mark.parametrize("known", [*CHOICES.values(), HIVES], ids=lambda known: known.name)
def test_who_is_told_why_is_told_it_of_both_ends(known):
    """60 in is not too long to be ripped “because a shorter one turns”; 0 is no end to explain."""
    low, _high = known.limits("inch")
    assert not low or ", and " in known.reason


def test_what_saw_and_hand_can_do_is_what_the_readme_says():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    said = re.search(
        r"Nothing shorter than (\d+) in is ripped, nothing narrower than (\S+) in runs between "
        r"fence and blade, nothing shorter than (\d+) in is cut against a stop",
        text,
    )
    usual = Yard("coins", (), (), ())
    least = (usual.least_rip, usual.least_fence, usual.least_stop)
    assert least == tuple(map(Fraction, said.groups()))
    others = (usual.kerf, usual.cut_margin, usual.end_trim, usual.longest_board)
    assert others == (Fraction(1, 8), Fraction(1, 32), Fraction(1, 2), 144)
    assert (usual.spare_percent, usual.spare_boards, usual.minutes_a_setting) == (10, 5, 3)


RAIL = needed(batch([demo_hive()]))[0]
STUD = Section("stud", Fraction(3, 2), Fraction(7, 2))


@pytest.mark.parametrize("side", ["thickness", "width"])
def test_a_board_serves_for_lumber_within_an_eighth_and_another_wood_is_told_from_a_64th(side):
    for off, serves in ((Fraction(1, 8), True), (Fraction(1, 8) + HAIR, False)):
        other = STUD._replace(**{side: getattr(STUD, side) + off})
        assert bool(goods_for(replace(RAIL, section=other), demo_yard())) == serves
    for off, told in ((Fraction(1, 64), True), (Fraction(1, 65), False)):
        hive = changed(demo_hive(), {f"stud_{side}": getattr(STUD, side) + off})
        assert bool(plan([hive], demo_yard()).warnings) == told


def test_a_landing_board_that_no_yard_sells_is_ripped_from_a_wider_board():
    """A metric one of 95 mm is wider than a dry 1x4 of 3 1/2 in; a box side of 243 mm is sawn, too.

    Both are as thick as the yard's board, 3/4 in, since it is within 1/8 in of their 20 mm.
    """
    metric = changed(Hive("metric", "mm", {}, {}), {"frames": "10"})
    found = plan([metric], demo_yard())
    assert not found.unplanned
    parts = {p.piece.part: blank.sides for blank in found.blanks for p in blank.pieces}
    assert parts["landing_board"] == (Fraction(3, 4), 95 * MM)
    assert parts["side"] == (Fraction(3, 4), values(metric)["box.side_width"])


@pytest.mark.parametrize(
    ("material", "near"),
    [("plywood", "1/32"), ("foam", "1/64"), ("sheet", "1/32"), ("mesh", "1/64")],
)
def test_a_sheet_serves_for_a_thickness_within_its_tolerance(material, near):
    goods = next(g for g in demo_yard().sheets if g.material == material)
    for off, serves in ((Fraction(near), True), (Fraction(near) + HAIR, False)):
        for thickness in (goods.thickness + off, goods.thickness - off):
            piece = replace(RAIL, section=None, material=material, thickness=thickness)
            assert (goods in goods_for(piece, demo_yard())) == serves


def test_foam_of_25_mm_is_bought_as_such_for_every_part_that_takes_after_it():
    """25 mm are 0.4 mm less than an inch, 25 of 25.4: by the definition of the inch."""
    sleeved = {"box_length": "20 in", "box_width": "16 in", "box_height": "9 5/8 in"}
    hive = changed(demo_hive(), {**sleeved, "foam_thickness": "25 mm"})
    foam = [piece for piece in needed(batch([hive])) if piece.material == "foam"]
    assert {piece.component for piece in foam} == {"bottom_board", "roof", "sleeve"}
    assert {g.thickness for p in foam for g in goods_for(p, demo_yard())} == {Fraction(250, 254)}


STUDS = stocks(needed(batch([demo_hive()])), demo_yard())[0]


def of_length(part: str, length: Fraction, many: int = 1) -> Stock:
    """The stock of studs for some pieces of a part, all of this length."""
    piece = next(piece for piece in STUDS.pieces if piece.part == part)
    return replace(STUDS, pieces=(replace(piece, length=length, least=length),) * many)


@pytest.mark.parametrize(
    ("part", "length", "comes"),
    [("back_rail", 18, True), ("back_rail", 18 + HAIR, False), ("front_rail", 12, False)],
)
def test_what_is_long_or_ripped_comes_from_straight_boards_only(part, length, comes):
    """What is only crosscut may come from a crooked one up to 18 in; a front rail is ripped."""
    crooked = tuple(replace(board, straight=False) for board in STUDS.goods)
    stock = replace(of_length(part, Fraction(length)), goods=crooked)
    cut, *_, left = boards_planned(stock, {"": demo_hive()}, demo_yard(), "cost")
    assert (bool(cut.goods), not left) == (comes, comes)


def test_grain_and_flutes_run_along_deck_cover_skin_and_skirt():
    along = {"deck", "cover", "skin_side", "skin_end", "skirt_side", "skirt_end"}
    assert along == RUN_ALONG
    found = plan([demo_hive()] * 5, demo_yard())
    placed = [piece for sheet in found.sheets for piece in sheet.placed]
    assert not any(piece.turned for piece in placed if piece.piece.part in along)
    assert any(piece.turned for piece in placed)


def test_no_cut_on_a_sheet_takes_off_less_than_its_kerf_and_a_quarter():
    for many in (1, 5):
        for sheet in plan([demo_hive()] * many, demo_yard()).sheets:
            least = sheet.kerf + Fraction(1, 4) if sheet.kerf else 0
            firsts = [cut for cut in sheet.cuts if cut.stage == 1]
            assert all(cut.off >= least for cut in firsts), sheet.number


def test_where_a_cut_would_take_off_less_than_a_quarter_it_is_a_trim():
    """Beside the deck alone on a sheet, 27 1/8 by 21 3/8 in, is left what the cut takes off."""
    yard, deck = demo_yard(), (Fraction(217, 8), Fraction(171, 8))
    half = next(g for g in yard.sheets if (g.material, g.thickness) == ("plywood", Fraction(1, 2)))
    for off, trims in ((Fraction(1, 4), False), (Fraction(1, 4) - HAIR, True)):
        length, width = (size + yard.kerf + off for size in deck)
        own = replace(half, length=length, width=width)
        found = plan([demo_hive()], replace(yard, sheets=(own,)))
        (sheet,) = (s for s in found.sheets if any(p.piece.part == "deck" for p in s.placed))
        assert {cut.stage == 3 for cut in sheet.cuts if cut.at == deck[0]} == {trims}


@pytest.mark.parametrize(("narrower", "shorter", "sheets"), [(0, 0, 1), (HAIR, 0, 2), (0, HAIR, 2)])
def test_what_just_fits_on_a_sheet_with_its_cuts_comes_from_one(narrower, shorter, sheets):
    """Four decks, two by two, with a cut between them: a kerf of 1/8 in and 1/32 in to spare."""
    decks = tuple(p for p in needed(batch([demo_hive()] * 4)) if p.part == "deck")
    width, length = (2 * size + Fraction(5, 32) for size in (decks[0].width, decks[0].length))
    goods = replace(demo_yard().sheets[0], width=width - narrower, length=length - shorter)
    stock = Stock("plywood", decks, (goods,), None)
    assert len(sheets_cut(stock, demo_yard(), "boards").goods) == sheets


def test_a_board_with_less_than_a_quarter_to_spare_is_tight():
    yard = demo_yard()
    shop, board = replace(yard, cut_margin=Fraction(0)), yard.boards[0]
    for spare, tight in ((Fraction(1, 4), False), (Fraction(1, 4) - HAIR, True)):
        item = CutItem("a", room(board, shop) - shop.cut - spare)
        (cut,) = boards_cut([item], Stock("", (), (board,), None), shop, "cost").goods
        assert cut.tight == tight


def test_plywood_alone_is_sawn_and_loses_a_kerf():
    kerfs = {s.goods.material: s.kerf for s in plan([demo_hive()], demo_yard()).sheets}
    assert kerfs == {"plywood": Fraction(1, 8), "foam": 0, "sheet": 0, "mesh": 0}


def test_a_piece_just_as_long_as_the_least_stop_goes_to_the_machine():
    """The inner cover's rim fronts are 6 3/16 in long: by hand."""
    at = Fraction(99, 16)
    for least, kind in ((at, "to_length"), (at + Fraction(1, 16), "by_hand")):
        found = plan([demo_hive()], replace(demo_yard(), least_stop=least))
        assert {s.kind.name for s in found.settings if s.distance == at} == {kind}


def test_only_runners_and_the_roofs_retainers_may_stop_short():
    runners = {
        f"{where}_{side}_runner" for where in ("lower", "upper") for side in ("side", "front")
    }
    assert runners | {"roof_retainer"} == NOT_CRITICAL


def test_no_blank_is_longer_than_54_in_and_no_cut_deeper_than_3_in():
    """Two pieces of 26 27/32 in with a cut of 5/32 each come out of 54 in; a bit longer, one."""
    for length, blank in ((Fraction(859, 32), 54), (Fraction(860, 32), Fraction(433, 16))):
        stock = of_length("front_rail", length, 4)
        (found,), *_ = ripped(stock, {"": demo_hive()}, demo_yard(), 1)
        assert found.length == blank
    strip = (Fraction(1, 2), Fraction(3, 4), Fraction(1, 8))
    assert cross_section(Fraction(3), Fraction(7, 2), *strip).count
    assert not cross_section(Fraction(3) + HAIR, Fraction(7, 2), *strip).count


# A strip, what is told of a stud's end cut into it, and whether a rest is left under 3/4 in wide.
TOLD = [
    ("1/2", "3/4", "Lay each of 3 slices of 1/2 in flat", True),
    ("1/2", "3/2", "Left: 1 in", False),
    ("1/2", "11/4", "Lay the slice of 2 3/4 in flat", True),
]


@pytest.mark.parametrize(("thin", "wide", "told", "narrow"), TOLD)
def test_a_rest_under_three_quarters_of_an_inch_is_never_cut_on_the_saw(thin, wide, told, narrow):
    section = cross_section(
        STUD.thickness, STUD.width, Fraction(thin), Fraction(wide), Fraction(1, 8)
    )
    said = " ".join(section_words(section))
    assert told in said
    assert ("Never cut a rest on the saw that is less than 3/4 in wide" in said) == narrow


def test_what_is_left_over_is_told_from_3_in_on():
    found = plan([demo_hive()] * 3, demo_yard())
    left = [b.offcut for b in found.boards if b.offcut >= 3]
    told = [text for line in found.basket.lines if line.sort == "board" for text in line.left_over]
    assert sum(int(re.match(r"(?:(\d+) × )?", text)[1] or 1) for text in told) == len(left)
    assert all(any(on_mark(size, "inch") in text for text in told) for size in left)


def test_a_setting_takes_three_minutes_and_a_cut_half_a_minute():
    works = (Work("a", "B1", 4, "roof", "day two"),)
    assert Setting(1, CROSSCUT, Fraction(9), works).minutes(demo_yard()) == 3 + 2


def test_a_batch_has_at_most_2000_hives():
    assert len(batch([demo_hive()] * 2000)) == 2000
    with pytest.raises(HiveFaults, match="1 to 2,000"):
        batch([demo_hive()] * 2001)


# What must be said at each kind of setting, one word or two of each caution, in its order.
SAID = {
    "crosscut": ["Miter saw"],
    "rip": ["Guard over the blade", "Lock the fence", "Nothing freehand", "Push stick",
            "Never rip a piece shorter"],
    "bevel": ["Tilt the blade away", "Push stick"],
    "to_length": ["Miter saw", "Clamp the stop block"],
    "by_hand": ["Clamp the piece before"],
    "taper": ["Clamp the piece to a jig", "Or do without"],
    "plane": ["Clamp the piece before"],
    "saw_sheet": ["Circular saw", "Guard over the blade"],
    "knife": ["Knife: away from your hand"],
    "snips": ["Cut wire is sharp"],
}  # fmt: skip


def test_each_kind_of_setting_has_its_cautions():
    for kind in KINDS:
        for caution, begins in zip(kind.cautions, SAID[kind.name], strict=True):
            assert caution.text.startswith(begins), kind.name
    assert {kind.name for kind in KINDS} == SAID.keys()
    first = ["switch", "Unplug", "safety glasses", "dust", "twisted", "Stand beside"]
    assert all(word in c.text for word, c in zip(first, FIRST, strict=True))
    assert all(word in c.text for word, c in zip(("Glue", "nail gun"), AFTER, strict=True))


# What each of the others must say. A sting: as first aid has it everywhere. A load: two people lift
# what is heavier than 51 lb (NIOSH, revised lifting equation, 1994; from memory).
MUST_SAY = {
    "GLUE": ["air", "gloves", "polystyrene"], "NAILS": ["line of a nail gun", "glasses"],
    "FOAM": ["away from your hand", "mask", "no flame"], "MESH": ["gloves", "glasses"],
    "DRILL": ["clamp the piece", "no gloves", "loose hair", "battery or plug out"],
    "CLAMP": ["can spring", "face and fingers", "never force"],
    "LIFT": ["heavier than it looks", "two people", "frames out first"],
    "BEES": ["somebody who knows bees", "veil", "ask a doctor", "breathing", "an emergency"],
    "HELD": ["clamp the piece", "away from you"], "SMALL": ["manual allows", "hand saw"],
}  # fmt: skip


@pytest.mark.parametrize("name", MUST_SAY)
def test_no_caution_leaves_out_what_hurts_and_what_to_do(name):
    text = getattr(cautions, name).text.lower()
    assert [words for words in MUST_SAY[name] if words not in text] == []


def test_cautions_that_a_law_gives_name_it():
    laws = {c.text.split()[0]: c.source for c in (*FIRST, *RIP.cautions) if "OSHA" in c.source}
    assert laws == {
        "Have": "OSHA 29 CFR 1910.213(b)(1) and (b)(3)",
        "Wood": "OSHA, page on wood dust",
        "Guard": "OSHA 29 CFR 1910.213(c)(1) to (3)",
        "Lock": "OSHA 29 CFR 1910.213(a)(1) and (a)(6)",
    }
