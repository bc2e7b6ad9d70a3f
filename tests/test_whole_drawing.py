"""The SVG files of cut, shop and saw: all of a plan stands in them, true, clear and in order."""

import re
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from html import unescape
from unicodedata import east_asian_width

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hivecalc.cutting.boards import BoardPattern, BoardPlan
from hivecalc.cutting.needs import board_needs
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.plans import BoardsCut, CutPlans, cut_plans
from hivecalc.cutting.sheets import Layout, cut_words
from hivecalc.drawing.layout import Box
from hivecalc.drawing.page import Page
from hivecalc.drawing.saw import stop_distances
from hivecalc.drawing.svg import PAPER, Sheet
from hivecalc.hive import Hive, changed, demo_hive
from hivecalc.length import MM, Units
from hivecalc.saw import CAUTIONS, SawPlan, Step, saw_plan
from hivecalc.saw.plan import KINDS
from hivecalc.saw.steps import Work
from hivecalc.saw.telling import HEADINGS
from hivecalc.shopping import Basket, Group, Line, alternatives, basket
from hivecalc.stock import Board, demo_yard
from hivecalc.tables.drawn import basket_drawn, hives_named, plans_drawn, saw_drawn
from tests.test_cutting_drawing import ALL
from tests.test_drawing import NS, PX, assert_sound, corners, extent, font, label_box

YARD = demo_yard()
UNITS = st.sampled_from(["inch", "mm"])
NAMES = {"markup": "<b>&\"'</svg> 🐝", "endless": "W" * 80, "bees": "🐝" * 80}
BY_HAND = {"8 ft": Board("8 ft stud", "stud", *map(Fraction, ("1.5", "3.5", "96")))}


def of_all_sizes(count: int) -> list[Hive]:
    sizes = ({"hive_length": f"{19 + n}", "hive_width": f"{14 + n / 2}"} for n in range(count))
    return [replace(changed(demo_hive(), s), name=f"Hive {n}") for n, s in enumerate(sizes, 1)]


CLASSES: dict[str, list[Hive]] = {name: [hive] for name, hive in ALL.items()}
CLASSES |= {"class": of_all_sizes(12), "hundred": [demo_hive()] * 100}
CLASSES |= {
    key: [replace(hive, name=name) for hive in of_all_sizes(2)] for key, name in NAMES.items()
}


@cache
def planned(name: str) -> CutPlans:
    hives = CLASSES[name]
    return cut_plans(hives, YARD, planner=Planner(hives[0].units, seconds=0.4))


@cache
def drawn(name: str) -> str:
    return plans_drawn(planned(name), YARD, name=NAMES.get(name, name), invented=True)


@cache
def at_the_saw(name: str) -> tuple[SawPlan, str]:
    plan = saw_plan(CLASSES[name], YARD)
    return plan, saw_drawn(plan, name=NAMES.get(name, name))


# ── what is read back from a file ──────────────────────────────────────────────────────────────


def moved(element: ET.Element, x: float = 0, y: float = 0) -> Iterator[tuple[ET.Element, Box]]:
    """Each text of a picture with its box, moved as the groups that it stands in are."""
    for child in element:
        at = re.fullmatch(r"translate\((\S+) (\S+)\)", child.get("transform", ""))
        dx, dy = map(float, at.groups()) if at else (0.0, 0.0)
        if child.tag == f"{NS}text":
            left, top, right, bottom = box_of(child)
            yield child, Box(x + left, y + top, x + right, y + bottom)
        yield from moved(child, x + dx, y + dy)


def box_of(text: ET.Element) -> Box:
    """The box of a text; a sign that the font lacks is as wide as it is high, an emoji wider.

    Noto Color Emoji's advance is 2550 of 2048 units, from memory.
    """
    missing = [sign for sign in text.text or "" if not font().get_char_index(ord(sign))]
    known = ET.Element(text.tag, text.attrib)
    known.text = "".join(sign for sign in text.text or "" if sign not in missing)
    more = sum(1.25 if east_asian_width(sign) in "WF" else 1.0 for sign in missing) * 14
    box = label_box(known, 14)
    return box._replace(right=box.right + more)


def assert_clear(root: ET.Element) -> None:
    """No label overlaps another, and none leaves the page."""
    _, _, wide, high = (float(n) for n in root.attrib["viewBox"].split())
    boxes = sorted(moved(root), key=lambda found: found[1].top)
    assert boxes
    for n, (text, box) in enumerate(boxes):
        assert 0 <= box.left <= box.right <= wide, text.text
        assert 0 <= box.top <= box.bottom <= high, text.text
        for other, below in boxes[n + 1 :]:
            if below.top >= box.bottom:
                break
            across = min(box.right, below.right) - max(box.left, below.left)
            down = min(box.bottom, below.bottom) - below.top
            assert min(across, down) <= PX, (text.text, other.text)


def assert_alone(svg: str) -> ET.Element:
    """A file that needs nothing else: its own size, paper, colours; one name and description."""
    root = assert_sound(svg)
    assert (root.attrib["width"], root.attrib["height"]) == tuple(root.attrib["viewBox"].split())[
        2:
    ]
    for tag in ("title", "desc"):
        assert len(list(root.iter(f"{NS}{tag}"))) == 1
    paper = next(root.iter(f"{NS}rect"))
    assert [paper.get(n) for n in ("width", "height", "fill")] == [
        root.get("width"), root.get("height"), PAPER,
    ]  # fmt: skip
    assert float(root.attrib["font-size"]) >= 12
    assert not any("font-size" in e.attrib for e in root.iter() if e is not root)
    assert not {"style", "class"} & {name for e in root.iter() for name in e.attrib}
    assert not re.search(r"var\(|currentColor|href", svg)
    return root


def assert_true(svg: str) -> None:
    """Each length that carries its name is drawn as long as it says, in the scale of its view."""
    found = 0
    for view in ET.fromstring(svg).iter(f"{NS}g"):
        exacts = (
            e for e in view.iter() if "data-scale" in view.attrib and "data-exact" in e.attrib
        )
        for element in exacts:
            long = float(Fraction(element.attrib["data-exact"])) * float(view.attrib["data-scale"])
            assert any(abs(side - long) < PX for side in extent(element)), element.attrib
            found += 1
    assert found


def described(root: ET.Element) -> str:
    return next(root.iter(f"{NS}desc")).text or ""


def said(root: ET.Element) -> str:
    return " ".join(text.text or "" for text in root.iter(f"{NS}text"))


def views(root: ET.Element, name: str) -> list[ET.Element]:
    return [g for g in root.iter(f"{NS}g") if g.get("data-view") == name]


def named_shapes(elements: Iterable[ET.Element]) -> Counter[tuple[str, Fraction]]:
    return Counter(
        (e.attrib["data-name"], Fraction(e.attrib["data-exact"]))
        for view in elements
        for e in view.iter(f"{NS}polygon")
        if "data-exact" in e.attrib
    )


# ── cut ────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", CLASSES)
def test_every_piece_of_the_plans_is_drawn_as_often_as_they_say(name: str) -> None:
    plans, root = planned(name), assert_alone(drawn(name))
    assert_clear(root)
    assert_true(drawn(name))
    patterns = [pattern for cut in plans.boards for pattern in cut.plan.patterns]
    layouts = [layout for cut in plans.sheets for layout in cut.plan.layouts]
    assert named_shapes(views(root, "board")) == Counter(p for x in patterns for p in x.pieces)
    assert named_shapes(views(root, "sheet")) == Counter(
        (p.label, p.length) for layout in layouts for p in layout.placed
    )
    left = Counter(
        Fraction(line.attrib["data-exact"])
        for line in root.iter(f"{NS}line")
        if line.get("data-name") == "offcut"
    )
    assert left == Counter(p.offcut for p in patterns if p.offcut)
    goods = [(p.count, p.board.name) for p in patterns] + [(x.count, x.sheet.name) for x in layouts]
    for count, name_of in goods:
        assert re.search(rf"\b{count} × {re.escape(name_of)}", described(root))


@pytest.mark.parametrize("name", CLASSES)
def test_each_piece_of_a_sheet_lies_where_the_layout_has_it(name: str) -> None:
    layouts = [layout for cut in planned(name).sheets for layout in cut.plan.layouts]
    found = views(assert_alone(drawn(name)), "sheet")
    for layout, view in zip(layouts, found, strict=True):
        whole, *pieces = [e for e in view.iter(f"{NS}polygon") if "data-part" in e.attrib]
        scale, near = float(view.attrib["data-scale"]), lowest(whole)
        spots = [n / scale for e in pieces for n in (*away(e, near), *extent(e))]
        ways = (lying(layout), standing(layout))
        assert any(spots == pytest.approx(way, abs=2 * PX / scale) for way in ways)


def lowest(element: ET.Element) -> tuple[float, float]:
    xs, ys = zip(*corners(element), strict=True)
    return min(xs), min(ys)


def away(element: ET.Element, near: tuple[float, float]) -> tuple[float, float]:
    x, y = lowest(element)
    return x - near[0], y - near[1]


def lying(layout: Layout) -> list[float]:
    """Places and sizes with the sheet's near end at the left, so that its left edge is on top."""
    return [float(n) for p in layout.placed for n in (p.y, p.x, p.length, p.width)]


def standing(layout: Layout) -> list[float]:
    """Places and sizes with the sheet's near end at the foot."""
    long = layout.sheet.length
    places = ((p.x, long - p.y - p.length, p.width, p.length) for p in layout.placed)
    return [float(n) for place in places for n in place]


@pytest.mark.parametrize("name", CLASSES)
def test_every_cut_has_its_number_and_its_sentence_in_order(name: str) -> None:
    root = assert_alone(drawn(name))
    pasted = [g for g in root.iter(f"{NS}g") if "transform" in g.attrib]
    pictures = [g for g in pasted if any(e.get("data-view") == "sheet" for e in g)]
    layouts = [layout for cut in planned(name).sheets for layout in cut.plan.layouts]
    place = 0
    for layout, picture in zip(layouts, pictures, strict=True):
        numbers = Counter(t.text for t in picture.iter(f"{NS}text") if "font-weight" in t.attrib)
        assert all(numbers[f"{cut.number}"] == 1 for cut in layout.cuts)
        for sentence in cut_words(layout, planned(name).units)[1:]:
            place = described(root).index(sentence, place) + 1


def by_hand(*, bound: int, proved: bool) -> CutPlans:
    """Two studs that are cut alike and one more: 3 boards."""
    (need, *_) = board_needs([demo_hive()], YARD)
    stud = BY_HAND["8 ft"]
    two = BoardPattern(stud, (("rail", Fraction(40)), ("stop", Fraction(20))), 2, Fraction(35))
    one = BoardPattern(stud, (("rail", Fraction(40)),), 1, Fraction(441, 8))
    plan = BoardPlan((two, one), "boards", Fraction(bound), proved, notes=("It was late.",))
    return CutPlans("inch", "boards", (BoardsCut(need, plan),), ())


def test_what_is_known_of_a_plan_stands_in_words() -> None:
    open_ended = assert_alone(plans_drawn(by_hand(bound=2, proved=False), YARD))
    for words in (
        "It takes 3 boards to buy, and no plan can take less than 2 boards to buy.",
        "Whether another plan does better is not proved. It was late.",
        "2 × 8 ft stud", "1: rail, 40 in", "2: stop, 20 in", "offcut 35 in",
    ):  # fmt: skip
        assert words in f"{described(open_ended)} {said(open_ended)}", words
    sure = assert_alone(plans_drawn(by_hand(bound=3, proved=True), YARD))
    assert "No plan does better: that is proved." in described(sure)


def test_what_is_at_hand_is_told() -> None:
    boards, sheets = (
        tuple(replace(g, count=9, price=Fraction(0), at_hand=True) for g in goods)
        for goods in (YARD.boards, YARD.sheets)
    )
    plans = cut_plans([demo_hive()], replace(YARD, boards=boards, sheets=sheets))
    root = assert_alone(plans_drawn(plans, YARD))
    taken = [*views(root, "board"), *views(root, "sheet")]
    assert len(taken) == described(root).count(", at hand") > 2
    assert said(root).count(", at hand") == len(taken)


def test_what_the_yard_does_not_give_is_told() -> None:
    plans = cut_plans([demo_hive()], replace(YARD, boards=()))
    assert plans.unplanned
    root = assert_alone(plans_drawn(plans, YARD))
    for left in plans.unplanned:
        assert f"{left.count} × {left.label}: {left.why}." in described(root)


PIECES = st.tuples(st.text(max_size=40), st.integers(1, 20 * 16).map(lambda n: Fraction(n, 16)))
PATTERNS = st.builds(
    BoardPattern,
    st.sampled_from([BY_HAND["8 ft"], replace(BY_HAND["8 ft"], at_hand=True)]),
    st.lists(PIECES, min_size=1, max_size=4).map(tuple),
    st.integers(1, 2000),
    st.fractions(0, 14, max_denominator=16),
)


@given(st.lists(PATTERNS, min_size=1, max_size=9), UNITS, st.text(max_size=80))
@settings(max_examples=15)
def test_any_plan_of_boards_is_well_formed_and_clear(
    patterns: list[BoardPattern], units: Units, name: str
) -> None:
    plans = by_hand(bound=3, proved=True)
    (cut,) = plans.boards
    plan = replace(cut.plan, patterns=tuple(patterns))
    svg = plans_drawn(
        replace(plans, units=units, boards=(replace(cut, plan=plan),)), YARD, name=name
    )
    assert_clear(assert_alone(svg))
    assert_true(svg)
    drawn_pieces = named_shapes(views(ET.fromstring(svg), "board"))
    assert drawn_pieces.total() == sum(len(pattern.pieces) for pattern in patterns)


# ── shop ───────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", ["orchard", "metric", "sleeved", "smallest", "largest", *NAMES])
def test_every_line_of_a_basket_is_a_bar_as_long_as_its_cost(name: str) -> None:
    found = basket(CLASSES[name], YARD, Planner(CLASSES[name][0].units, seconds=0.4))
    svg = basket_drawn(found, alternatives(found, YARD))
    root = assert_alone(svg)
    assert_clear(root)
    assert_true(svg)
    assert named_shapes(views(root, "bars")) == Counter(
        (f"{line.count} × {line.name}", line.cost) for line in found.lines
    )
    assert len({view.attrib["data-scale"] for view in views(root, "bars")}) == 1
    longest = max(extent(e)[0] for v in views(root, "bars") for e in v.iter(f"{NS}polygon"))
    assert longest == pytest.approx(344, abs=PX)
    assert found.total_text in described(root)


def test_what_has_no_price_is_told_and_not_drawn() -> None:
    lines = (
        Line("board", "8 ft stud", 3, Fraction("3.95"), Fraction(1, 2)),
        Line("board", "oak", 2, None, Fraction(1)),
        Line("board", "rest", 1, Fraction(0), Fraction(1), at_hand=True),
    )
    root = assert_alone(basket_drawn(Basket("coins", (Group("stud", lines),), (), ()), name="Us"))
    assert named_shapes(views(root, "bars")) == {
        ("3 × 8 ft stud", Fraction("11.85")): 1,
        ("1 × rest, at hand", Fraction(0)): 1,
    }
    for words in (
        "Us: what to buy.", "11.85 coins in all, without what has no price: 2 × oak.",
        "3 × 8 ft stud: 11.85 coins, 3.95 coins each", "2 × oak: no price, so no bar",
        "A bar as long as a picture is wide stands for 11.85 coins",
    ):  # fmt: skip
        assert words in described(root), words


def test_an_empty_yard_gives_a_basket_that_says_so() -> None:
    found = basket([demo_hive()], replace(YARD, boards=(), sheets=(), packages=()))
    root = assert_alone(basket_drawn(found))
    assert_clear(root)
    assert not views(root, "bars")
    for left in found.unplanned:
        assert f"{left.count:,} × {left.label}: {left.why}." in described(root)


# ── saw ────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", CLASSES)
def test_every_setting_is_drawn_in_its_order_with_its_cautions(name: str) -> None:
    plan, svg = at_the_saw(name)
    root = assert_alone(svg)
    assert_clear(root)
    assert_true(svg)
    told, place = described(root), 0
    for kind in KINDS:
        if plan.of(kind):
            place = told.index(f"{HEADINGS[kind]}.", place)
            for caution in CAUTIONS[kind]:
                place = told.index(caution.text, place)
        for step in plan.of(kind):
            place = told.index(f" {plan.steps.index(step) + 1}. ", place)
    assert told.index(CAUTIONS["before"][0].text) < told.index(HEADINGS["crosscut"])
    assert told.index(CAUTIONS["after"][0].text, place) > place


@pytest.mark.parametrize("name", CLASSES)
def test_stops_are_as_far_from_the_blade_as_the_plan_says(name: str) -> None:
    plan, svg = at_the_saw(name)
    found = views(ET.fromstring(svg), "stops")
    asked = Counter(
        ("stop block", s.setting) for k in ("crosscut", "to_length") for s in plan.of(k)
    )
    assert named_shapes(found) == asked
    for view in found:
        shapes = list(view.iter(f"{NS}polygon"))
        pieces = (e for e in shapes if "data-exact" in e.attrib)
        blocks = (e for e in shapes if e.get("data-part") == "block")
        for piece, block in zip(pieces, blocks, strict=True):
            assert lowest(piece)[0] == pytest.approx(8, abs=PX)  # at the blade
            assert max(corners(piece))[0] == pytest.approx(lowest(block)[0], abs=PX)


@pytest.mark.parametrize("name", CLASSES)
def test_every_rip_has_its_fence_kerf_and_what_falls_off(name: str) -> None:
    plan, svg = at_the_saw(name)
    lines = [
        {
            line.attrib["data-name"]: Fraction(line.attrib["data-exact"])
            for line in view.iter(f"{NS}line")
            if "data-exact" in line.attrib
        }
        for view in views(ET.fromstring(svg), "rip")
    ]
    rips = [w.passing.rip for step in plan.of("rip") for w in step.work if w.passing]
    shown = {(sizes["fence"], sizes["stock"], sizes.get("falls off", 0)) for sizes in lines}
    assert {(rip.fence, rip.before, rip.off) for rip in rips} <= shown
    assert all(sizes.get("kerf", plan.kerf) == plan.kerf for sizes in lines)
    edges = [step.edge for step in plan.of("bevel") if step.edge]
    assert {(e.fence, e.upper, 0) for e in edges} <= shown


def test_a_taper_has_its_two_heights() -> None:
    for name in ("orchard", "metric", "class"):
        plan, svg = at_the_saw(name)
        heights = Counter(
            (line.attrib["data-name"], Fraction(line.attrib["data-exact"]))
            for end in ("front", "back")
            for view in views(ET.fromstring(svg), end)
            for line in view.iter(f"{NS}line")
            if "data-exact" in line.attrib
        )
        tapers = [step.taper for step in plan.of("taper") if step.taper]
        assert heights == Counter(
            size for t in tapers for size in (("stud_width", t.high), ("rim_low_height", t.low))
        )


def test_stock_lies_as_high_on_the_table_as_it_does_for_its_rip() -> None:
    # By hand for studs of 1 1/2 by 3 1/2 and strips of 1/2 by 3/4: a stud lies flat, 1 1/2 high;
    # slices of 3/4 by 1 1/2 lie flat, 3/4 high, and then are 1 1/2, 7/8 and 1/4 wide.
    _, svg = at_the_saw("orchard")
    seen = set()
    for view in views(ET.fromstring(svg), "rip"):
        scale = float(view.attrib["data-scale"])
        (stays,) = (e for e in view.iter(f"{NS}polygon") if e.get("data-part") == "stays")
        sizes = {e.get("data-name"): e.get("data-exact") for e in view.iter(f"{NS}line")}
        if "kerf" in sizes:  # the blade stands upright
            seen.add((Fraction(sizes["stock"]), round(16 * extent(stays)[1] / scale)))
    assert {(Fraction(7, 2), 24), (Fraction(3, 2), 12), (Fraction(7, 8), 12)} <= seen
    assert {high for before, high in seen if before > Fraction(3, 2)} == {24}


LENGTHS = st.one_of(
    st.integers(1, 16 * 100).map(lambda n: Fraction(n, 16)),
    st.integers(3, 2500).map(lambda n: n * MM),
)
WORKS = st.lists(st.builds(Work, st.text(max_size=60), st.integers(1, 2000)), max_size=3)


@given(st.lists(st.tuples(LENGTHS, WORKS), min_size=1, max_size=7), UNITS)
@settings(max_examples=30)
def test_any_distances_of_the_stop_are_drawn_clear_above_a_true_ruler(
    stops: list[tuple[Fraction, list[Work]]], units: Units
) -> None:
    steps = [(n, Step("crosscut", at, tuple(work))) for n, (at, work) in enumerate(stops, 1)]
    svg = stop_distances(steps, units=units)
    root = assert_sound(svg)
    assert_clear(root)
    assert_true(svg)
    (view,) = views(root, "stops")
    scale = float(view.attrib["data-scale"])
    for text in view.iter(f"{NS}text"):
        if text.get("text-anchor") == "middle":
            number, unit = (text.text or "").split()
            inches = int(number) * (MM if unit == "mm" else 1)
            assert float(text.attrib["x"]) == pytest.approx(8 + float(inches) * scale, abs=PX)


# ── the page ───────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("key", NAMES)
def test_a_name_does_no_harm(key: str) -> None:
    name = NAMES[key]
    for svg, title in ((drawn(key), "How to cut it"), (at_the_saw(key)[1], "How to set the saw")):
        root = ET.fromstring(svg)
        assert next(root.iter(f"{NS}title")).text == f"{name}: {title}"
        assert "<b>" not in svg
    label = f"{name}: bottom board side rail"
    assert any(
        piece == label for piece, _ in named_shapes(views(ET.fromstring(drawn(key)), "board"))
    )


def test_the_same_plan_gives_the_same_file() -> None:
    plan, svg = at_the_saw("orchard")
    assert saw_drawn(plan, name="orchard") == svg
    assert plans_drawn(planned("orchard"), YARD, name="orchard", invented=True) == drawn("orchard")


def test_pictures_hang_side_by_side_and_no_other_text_is_pasted() -> None:
    cell = Page(abreast=1)
    cell.write("cell")
    page = Page(abreast=3)
    page.hang([cell.picture()] * 4)
    root = assert_alone(page.file("Four"))
    places = [box[:2] for _, box in moved(root)]
    assert places[0][1] == places[1][1] == places[2][1] < places[3][1]
    assert places[0][0] == places[3][0] < places[1][0] < places[2][0]
    assert described(root) == "cell cell cell cell"
    with pytest.raises(ValueError, match="no picture"):
        Sheet().paste("<svg></svg>", 0, 0)


def test_hives_are_named_with_how_many_there_are_of_each() -> None:
    twice = replace(demo_hive(), name="B & C")
    assert hives_named([demo_hive(), twice, twice]) == "Orchard hive, B & C × 2"
    assert unescape(basket_drawn(basket([twice], YARD))).count("B & C: what to buy") >= 2
