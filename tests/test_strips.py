"""Strips out of a stud: counts, cuts and blanks against counting by hand and by brute force."""

from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import combinations, product

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from hivecalc.cutting.strips import (
    LEAST_HELD,
    LEAST_RIP,
    Blanks,
    CrossSection,
    Rectangle,
    blanks_for,
    blanks_told,
    cross_section,
    rest_for,
    section_told,
)
from hivecalc.cutting.strips.laying import laid, shortest_room, strips_in
from hivecalc.cutting.strips.ripped_off import ripped_off
from hivecalc.cutting.wanted import Wanted
from hivecalc.hive import changed, demo_hive
from hivecalc.length import MM, SIXTEENTH

ANY = Fraction(10**6)


def inches(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


def section(*sizes: str, **limits: Fraction) -> CrossSection:
    return cross_section(*map(inches, sizes), **limits)


# ── how many ───────────────────────────────────────────────────────────────────────────────────

# By hand, stud and strip in inches, then the kerf. 3 1/2 in take four slices of 3/4 with three
# kerfs of 1/8 between them (3 3/8), and 1 1/2 in take two strips of 1/2 with one (1 1/8): 4 x 2.
# Without a kerf seven slices of 1/2 are 3 1/2, each of two strips of 3/4: 14, against 4 x 3. With a
# kerf of 1/4 three slices of 3/4 (2 3/4) of two strips (1 1/4) each, and in what is left a kerf and
# a slice of 1/2 with one strip. With a kerf of 1 in, thicker than a strip, three slices of 1/2 and
# two kerfs are 3 1/2. Five slices of 1/2 with four kerfs are 3 in. A front rail of 2 3/4 and a kerf
# leave 5/8. Three of 1 in and two kerfs are 3 1/4.
BY_HAND = [
    (("1 1/2", "3 1/2", "1/2", "3/4", "1/8"), 8),
    (("1 1/2", "3 1/2", "1/2", "3/4", "0"), 14),
    (("1 1/2", "3 1/2", "1/2", "3/4", "1/4"), 7),
    (("1 1/2", "3 1/2", "1/2", "3/4", "1"), 3),
    (("1 1/2", "3 1/2", "1/2", "1 1/2", "1/8"), 5),
    (("1 1/2", "3 1/2", "1 1/2", "2 3/4", "1/8"), 1),
    (("1 1/2", "3 1/2", "1", "1 1/2", "1/8"), 3),
    (("1 1/2", "3 1/2", "1 1/2", "3 1/2", "1/8"), 1),
    (("1 1/2", "3 1/2", "1 5/8", "2", "1/8"), 0),
]


@pytest.mark.parametrize(("sizes", "count"), BY_HAND)
def test_counts_worked_by_hand(sizes: tuple[str, ...], count: int) -> None:
    assert section(*sizes).count == count


@pytest.mark.parametrize(("kerf", "count"), [("1/8", 7), ("0", 8)])
def test_pieces_of_a_foot_in_eight_feet(kerf: str, count: int) -> None:
    """n = floor((L + kerf) / (p + kerf)), worked out for 96 and 12 in: 7, and 8 without a kerf."""
    assert section("1", "96", "1", "12", kerf).count == count


def one_way(side: int, sizes: dict[int, int], kerf: int) -> int:
    """Most strips from slices cut off one side in turn; sizes say what a slice of each gives."""

    @cache
    def most(left: int) -> int:
        return max(
            (n + most(left - size - kerf) for size, n in sizes.items() if size <= left), default=0
        )

    return most(side)


def along(side: int, size: int, kerf: int) -> int:
    """Pieces cut off a side one after another, counted as they fall."""
    count = 0
    while side >= size:
        count, side = count + 1, side - size - kerf
    return count


@cache
def any_way(wide: int, high: int, piece: tuple[int, int], kerf: int) -> int:
    """Most strips by any cuts from edge to edge, each anywhere on the grid."""
    if min(wide, high) < piece[0] or max(wide, high) < piece[1]:
        return 0
    found = 1
    for at in range(1, wide):
        rest = wide - at - kerf
        off = any_way(at, high, piece, kerf)
        found = max(found, off + (any_way(rest, high, piece, kerf) if rest > 0 else 0))
    for at in range(1, high):
        rest = high - at - kerf
        off = any_way(wide, at, piece, kerf)
        found = max(found, off + (any_way(wide, rest, piece, kerf) if rest > 0 else 0))
    return found


SIDES = st.tuples(st.integers(6, 14), st.integers(6, 28))
PIECES = st.tuples(st.integers(2, 8), st.integers(2, 12)).map(lambda p: (min(p), max(p)))


@given(SIDES, PIECES, st.integers(0, 2))
@example((12, 28), (4, 6), 1)
@example((13, 15), (2, 4), 2)
@settings(max_examples=40)
def test_no_other_slices_give_more_and_no_cuts_at_all_many_more(
    sides: tuple[int, int], piece: tuple[int, int], kerf: int
) -> None:
    """Against brute force on a grid of eighths: slices either way, and any cuts edge to edge."""
    eighths = [Fraction(n, 8) for n in (*sides, *piece, kerf)]
    count = cross_section(*eighths, least_held=Fraction(0), deepest=ANY).count
    thin, wide = piece
    by_slices = max(
        one_way(side, {thin: along(other, wide, kerf), wide: along(other, thin, kerf)}, kerf)
        for side, other in (sides, sides[::-1])
    )
    assert count == by_slices
    assert count <= any_way(*sides, piece, kerf) <= count + 1


def test_slices_are_as_good_as_any_cuts_for_every_strip_of_common_studs() -> None:
    for piece, kerf in product([(4, 6), (4, 12), (8, 12), (6, 6), (4, 4), (8, 6)], (0, 1)):
        sizes = [Fraction(n, 8) for n in (12, 28, *sorted(piece), kerf)]
        found = cross_section(*sizes, least_held=Fraction(0), deepest=ANY).count
        assert found == any_way(12, 28, tuple(sorted(piece)), kerf)


# ── where the cuts lie ─────────────────────────────────────────────────────────────────────────

SIZES = st.one_of(
    st.integers(4, 56).map(lambda n: Fraction(n, 16)), st.integers(6, 90).map(lambda n: n * MM)
)


@st.composite
def sections(draw: st.DrawFn) -> CrossSection:
    thickness, width = sorted((draw(SIZES), draw(SIZES) + Fraction(1, 2)))
    thin, wide = sorted((draw(SIZES), draw(SIZES)))
    kerf = draw(st.sampled_from([Fraction(0), Fraction(1, 8), Fraction(3, 32), 3 * MM]))
    return cross_section(thickness, width, thin, wide, kerf)


def overlap(one: Rectangle, other: Rectangle) -> Fraction:
    across = min(one.x + one.wide, other.x + other.wide) - max(one.x, other.x)
    up = min(one.y + one.high, other.y + other.high) - max(one.y, other.y)
    return max(across, Fraction(0)) * max(up, Fraction(0))


@given(sections())
def test_strips_kerfs_and_rests_fill_the_stud_and_never_overlap(cut: CrossSection) -> None:
    parts = (*cut.strips, *cut.kerfs, *cut.rests)
    assert len(cut.strips) == cut.count
    assert sum(part.area for part in parts) == cut.thickness * cut.width
    assert all(overlap(one, other) == 0 for one, other in combinations(parts, 2))
    for part in parts:
        assert min(part.x, part.y) >= 0
        assert part.x + part.wide <= cut.width
        assert part.y + part.high <= cut.thickness
    sides = {tuple(sorted(strip[2:])) for strip in cut.strips}
    assert sides <= {tuple(sorted((cut.piece_thickness, cut.piece_width)))}


@given(sections())
def test_a_strip_plan_never_takes_more_than_the_stud_has(cut: CrossSection) -> None:
    strips = cut.count * cut.piece_thickness * cut.piece_width
    assert strips <= cut.thickness * cut.width
    assert cut.used == strips / (cut.thickness * cut.width) <= 1


@given(sections())
def test_every_rip_starts_from_what_the_one_before_left_and_can_be_held(cut: CrossSection) -> None:
    sides = {"width": cut.width, "thickness": cut.thickness}
    other = next(side for name, side in sides.items() if name != cut.first)
    runs = [(sides[cut.first], cut.rips), *((other, part.rips) for part in cut.slices)]
    for side, rips in runs:
        left = side
        for rip in rips:
            assert rip.before == left
            assert rip.fence + min(cut.kerf, left - rip.fence) + rip.off == left
            assert rip.fence >= LEAST_HELD
            left = rip.fence
    assert all(rip.keeps for rip in cut.rips[:-1])


@given(sections(), st.integers(1, 9))
def test_fewer_slices_are_ripped_where_fewer_strips_are_needed(
    cut: CrossSection, strips: int
) -> None:
    some = cut.giving(strips)
    assert some.count >= min(strips, cut.count)
    assert some.slices == cut.slices[: len(some.slices)]
    if len(some.slices) < len(cut.slices):
        assert some.count - some.slices[-1].strips < strips
        area = sum(p.area for p in (*some.strips, *some.kerfs, *some.rests))
        assert area == cut.thickness * cut.width


def test_a_narrow_strip_is_only_taken_off_what_can_be_held() -> None:
    # By hand: strips of 1/4 off 1 1/2 with a kerf of 1/8 and 1/2 in left at the fence: after two
    # 3/4 are left, and a third would leave 3/8. Off 3 1/2: after eight 1/2 in is left.
    strips = section("1/4", "1 1/2", "1/4", "1/4", "1/8")
    assert (strips.count, [rip.fence for rip in strips.rips]) == (
        2,
        [Fraction(9, 8), inches("3/4")],
    )
    wider = section("1/4", "3 1/2", "1/4", "1/4", "1/8")
    assert (wider.count, wider.rips[-1].fence) == (8, LEAST_HELD)


def test_no_cut_is_deeper_than_the_blade_reaches() -> None:
    # A stud of 3 1/2 in can't stand on edge under a blade that cuts 3 in deep.
    assert section("1 1/2", "3 1/2", "1/2", "3/4", "1/8").first == "width"
    on_edge = section("2 1/4", "2", "1/2", "3/4", "1/8")
    assert on_edge.first == "thickness"
    assert section("2 1/4", "2", "1/2", "3/4", "1/8", deepest=Fraction(1)).count == 0


# ── blanks ─────────────────────────────────────────────────────────────────────────────────────

STUD = section("1 1/2", "3 1/2", "1/2", "3/4", "1/8")
LENGTHS = st.lists(
    st.tuples(st.integers(3 * 16, 40 * 16), st.integers(1, 9)), min_size=1, max_size=9
)


def wanted(rows: list[tuple[int, int]]) -> list[Wanted]:
    return [Wanted(f"piece {i}", Fraction(n, 16), c) for i, (n, c) in enumerate(rows)]


def assert_all_cut(blanks: Blanks, pieces: list[Wanted]) -> None:
    """Every piece comes out once, each strip holds its pieces and kerfs, no strip is lacking."""
    cut = Counter()
    for strip in blanks.strips:
        for piece in strip.pieces:
            cut[piece] += strip.count
        lengths = [length for _, length in strip.pieces]
        assert sum(lengths) + (len(lengths) - 1) * blanks.section.kerf <= blanks.length
        assert lengths == sorted(lengths, reverse=True)
    assert cut == Counter({(p.label, p.length): p.count for p in pieces})
    assert blanks.needed <= blanks.made


@given(LENGTHS)
def test_every_piece_comes_out_of_the_blanks(rows: list[tuple[int, int]]) -> None:
    pieces = wanted(rows)
    blanks = blanks_for("strips", pieces, STUD, Fraction(54), SIXTEENTH)
    assert_all_cut(blanks, pieces)
    assert LEAST_RIP <= blanks.length <= 54
    assert (blanks.length * 16).denominator == 1
    assert (blanks.count - 1) * STUD.count < blanks.needed or blanks.length < 54


def best_room(sizes: list[int], strips: int) -> int:
    """The shortest room for these pieces in so many strips, by trying every way."""
    best = sum(sizes)

    def lay(i: int, loads: tuple[int, ...]) -> None:
        nonlocal best
        if max(loads) >= best:
            return
        if i == len(sizes):
            best = max(loads)
            return
        for j in range(strips):
            if loads[j] not in loads[:j]:
                lay(i + 1, (*loads[:j], loads[j] + sizes[i], *loads[j + 1 :]))

    lay(0, (0,) * strips)
    return best


@given(st.lists(st.integers(3, 30), min_size=1, max_size=9), st.integers(1, 4))
def test_the_shortest_room_is_near_the_best_there_is(sizes: list[int], strips: int) -> None:
    """Never beyond 13/11 of the best: Yue, Annals of Operations Research 24 (1990), from memory."""
    found = shortest_room(Counter(sizes), strips, sum(sizes))
    best = best_room(sorted(sizes, reverse=True), strips)
    assert best <= found <= best * Fraction(13, 11)
    assert strips_in(laid(Counter(sizes), found)) <= strips


def test_pieces_laid_in_one_go_are_as_laid_one_by_one() -> None:
    """First fit, longest first, written out strip by strip."""
    demand = {21: 7, 20: 4, 13: 9, 6: 3}
    strips: list[list[int]] = []
    for size in sorted(Counter(demand).elements(), reverse=True):
        room = next((s for s in strips if sum(s) + size <= 54), None)
        if room is None:
            strips.append(room := [])
        room.append(size)
    at_once = [
        [size for size, n in pattern for _ in range(n)]
        for pattern, times in laid(demand, 54)
        for _ in range(times)
    ]
    assert sorted(at_once) == sorted(strips)


def test_strips_of_the_demo_hive_come_out_of_one_blank() -> None:
    # By hand: 15 strips, ten of them longer than 19 in. One blank gives 8; two strips must hold two
    # long ones, at least 2 x 19 5/8 and a kerf: 39 3/8. So no single blank can be shorter.
    lengths = {"20 5/8": 2, "20": 4, "19 5/8": 4, "12 7/8": 1, "12 3/4": 3, "12 3/8": 1}
    pieces = [Wanted(text, inches(text), n) for text, n in lengths.items()]
    blanks = blanks_for("strips", pieces, STUD, Fraction(54), SIXTEENTH)
    assert (blanks.count, blanks.length) == (1, inches("39 3/8"))
    assert_all_cut(blanks, pieces)


def test_pieces_that_do_not_come_out_are_refused() -> None:
    with pytest.raises(ValueError, match="do not come out"):
        blanks_for("strips", [Wanted("long", Fraction(60))], STUD, Fraction(54))
    none = section("1 1/2", "3 1/2", "2", "3", "1/8")
    with pytest.raises(ValueError, match="do not come out"):
        blanks_for("strips", [Wanted("thick", Fraction(6))], none, Fraction(54))


@given(LENGTHS, st.integers(0, 6))
def test_rests_serve_only_where_they_are_long_and_many_enough(
    rows: list[tuple[int, int]], rests: int
) -> None:
    made = blanks_for("strips", [Wanted("long", Fraction(30), 16)], STUD, Fraction(54))
    thin = section("1/4", "3/4", "1/4", "3/4", "1/8")
    pieces = wanted(rows)
    found = rest_for(pieces, thin, made, rests)
    if found is None:
        material = sum(p.length * p.count for p in pieces)
        fits = max(p.length for p in pieces) <= made.length
        assert not fits or material > made.length * rests / 2  # first fit fills more than half
    else:
        assert found.count <= rests
        assert_all_cut(found, pieces)


# ── in words ───────────────────────────────────────────────────────────────────────────────────


def test_the_words_say_how_many_which_way_and_what_is_never_cut() -> None:
    told = " ".join(section_told(STUD))
    assert "gives 8 strips of 1/2 in by 3/4 in with a kerf of 1/8 in" in told
    assert "It lies flat. Set the fence to 2 5/8 in, 1 3/4 in, 7/8 in and 3/4 in" in told
    assert "Lay each of 4 slices of 3/4 in flat and set the fence to 7/8 in and 1/2 in" in told
    assert "Left: 4 of 1/4 in by 3/4 in." in told
    assert "Never cut a rest on the saw that is less than 1/2 in wide" in told
    assert "common practice, no published source" in told
    assert "manual" in told
    wide = " ".join(section_told(section("1 1/2", "3 1/2", "1 1/2", "2 3/4", "1/8")))
    assert "Never" not in wide
    assert "gives no strip" in " ".join(section_told(section("1", "2", "3", "4", "1/8")))
    assert "38 mm by 89 mm" in " ".join(
        section_told(cross_section(38 * MM, 89 * MM, 12 * MM, 19 * MM, 3 * MM), "mm")
    )


def test_words_on_a_rest_say_of_what_it_is_and_what_it_becomes() -> None:
    made = blanks_for("strips", [Wanted("runner", Fraction(20), 8)], STUD, Fraction(54))
    thin = section("1/4", "3/4", "1/4", "3/4", "1/8")
    stop = rest_for([Wanted("stop", Fraction(12))], thin, made, 4)
    assert stop is not None
    assert blanks_told(stop) == ("What is left of “strips” becomes stop, as it falls.",)


# By hand: the rip leaves entrance height minus kerf. 3/4 - 1/8 = 5/8 serves as a strip 1/2 thick;
# 1/2 - 1/8 = 3/8 is too thin; 1/4 - 1/4 leaves nothing; 1 7/8 by 1 1/2 takes a slice of 3/4 with
# three strips (1 3/4) and beside it one of 1/2 with two (1 5/8).
RIPPED_OFF = [
    ("3/4", "1/8", "5/8", 1, "it gives one strip of 1/2 in by 3/4 in, as long as the rail"),
    ("1/2", "1/8", "3/8", 0, "too thin for a strip of 1/2 in by 3/4 in"),
    ("1/4", "1/4", "0", 0, "The kerf of 1/4 in takes all"),
    ("5/8", "1/8", "1/2", 1, "one strip"),
    ("2", "1/8", "1 7/8", 5, "5 strips"),
]


@pytest.mark.parametrize(("entrance", "kerf", "left", "strips", "words"), RIPPED_OFF)
def test_what_is_ripped_off_the_front_rail(
    entrance: str, kerf: str, left: str, strips: int, words: str
) -> None:
    piece = ripped_off(changed(demo_hive(), {"entrance_height": entrance}), inches(kerf))
    assert piece.thickness == inches(left)
    assert piece.section.count == strips
    assert words in piece.sentence
    assert piece.length == inches("14 3/8")  # 17 3/8 less two studs, by hand


def test_a_strip_that_could_not_be_held_is_said_to_be_none() -> None:
    # 5/8 thick, strips of 1/4: off 5/8 a strip of 1/4 and a kerf would leave 1/4 at the fence.
    hive = changed(demo_hive(), {"strip_narrow": "1/4", "strip_wide": "3/4"})
    piece = ripped_off(hive, Fraction(1, 8))
    assert piece.section.count == 0
    assert "less than 1/2 in stays to hold" in piece.sentence


@given(st.integers(1, 40), st.integers(0, 6))
def test_the_rest_of_the_front_rail_is_one_kerf_less_than_the_entrance(
    sixteenths: int, kerf: int
) -> None:
    entrance = Fraction(sixteenths, 16)
    assume(Fraction(1, 4) <= entrance <= Fraction(5, 2))
    hive = changed(demo_hive(), {"entrance_height": entrance})
    left = ripped_off(hive, Fraction(kerf, 16)).thickness
    assert left == max(entrance - Fraction(kerf, 16), 0)
