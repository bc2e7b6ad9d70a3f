"""The yard file: read exactly, every fault told at once, a bad offcut at the cost of its row."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.components import checked
from hivecalc.hive import Hive, HiveFaults, changed, demo_hive, hive_text, write_new
from hivecalc.hive.measurements import DEFAULTS
from hivecalc.length import MM, UNITS
from hivecalc.part import NOMINAL, WHOLE_SHEET
from hivecalc.workshop import Yard, demo_yard, plan, yard_from_file, yard_from_text, yard_text
from hivecalc.workshop.yard import ITEMS, Goods, Package
from tests.each import each

ONE_OF_EACH = """
currency = "acorns"
units = "inch"
kerf = "3/32"
end_trim = "3/4"
spare_percent = 5

[[board]]
name = "8 ft stud"
material = "2x4"
length = "8 ft"
price = 3.95
count = 7

[[sheet]]
name = "half sheet"
material = "plywood"
thickness = "1/2"
width = "4 ft"
length = "48"
price = "14"

[[package]]
name = "box of brads"
item = "long_brad"
holds = 200

[[at_hand]]
material = "2x4"
length = "2 ft 7 1/2 in"
count = 2
straight = false
"""
STUD = (Fraction(3, 2), Fraction(7, 2))


def faults(text: str) -> list[str]:
    """Return what a yard file is refused for."""
    with pytest.raises(HiveFaults) as refused:
        yard_from_text(text)
    return str(refused.value).splitlines()


def left_out(text: str) -> list[str]:
    """Return what a yard file is read without."""
    return [str(fault) for fault in yard_from_text(text).left_out]


def stud(entry: str) -> str:
    """Return a file with one row of studs, in which an entry is another one."""
    entries = {"material": '"2x4"', "length": '"8 ft"', "price": "4"}
    name, _, value = entry.partition(" = ")
    rows = (f"{n} = {v}" for n, v in {**entries, name: value}.items())
    return "\n".join(("[[board]]", *rows))


# ── what is read ──────────────────────────────────────────────────────────────────────────────


def test_every_entry_is_read_as_it_is_written():
    yard = yard_from_text(ONE_OF_EACH)
    assert yard.currency == "acorns"
    assert (yard.kerf, yard.end_trim, yard.spare_percent) == (Fraction(3, 32), Fraction(3, 4), 5)
    offcut = Goods(
        "2x4 of 31 1/2 in", "stud", *STUD, Fraction(63, 2), Fraction(0), 2, at_hand=True,
        straight=False,
    )  # fmt: skip
    whole = Goods("8 ft stud", "stud", *STUD, Fraction(96), Fraction(79, 20), 7)
    assert yard.boards == (whole, offcut)
    half = Goods("half sheet", "plywood", Fraction(1, 2), Fraction(48), Fraction(48), Fraction(14))
    assert yard.sheets == (half,)
    assert yard.packages == (Package("box of brads", "long_brad", 200),)
    assert yard.left_out == ()


def test_what_is_not_said_is_what_is_usual():
    assert yard_from_text("# nothing") == Yard("money", (), (), ())


def test_sizes_as_measured_win_over_the_nominal_name():
    (board,) = yard_from_text(stud('thickness = "1 9/16"')).boards
    assert (board.thickness, board.width) == (Fraction(25, 16), Fraction(7, 2))


def test_a_bare_length_is_in_the_units_of_the_file():
    text = 'units = "mm"\n[[board]]\nmaterial = "stud"\nthickness = 38\nwidth = 89\nlength = 2440'
    (board,) = yard_from_text(text).boards
    assert (board.thickness, board.width, board.length) == (38 * MM, 89 * MM, 2440 * MM)
    assert board.name == "stud of 2440 mm"


@pytest.mark.parametrize("name", NOMINAL)
def test_a_nominal_name_stands_for_the_dressed_size(name):
    """PS 20-20, Table 3; see tests/test_stock.py for the printed figures."""
    (board,) = yard_from_text(stud(f'material = "{name}"')).boards
    assert (board.thickness, board.width) == NOMINAL[name]
    assert board.material == ("board" if name.startswith("1") else "stud")


@given(st.integers(0, 10**7 - 1), st.integers(0, 9999), st.sampled_from(["{}", '"{}"']))
def test_a_price_is_read_exactly(whole, parts, quotes):
    price = f"{whole}.{parts:04}"
    (board,) = yard_from_text(stud(f"price = {quotes.format(price)}")).boards
    assert board.price == whole + Fraction(parts, 10_000)


@pytest.mark.parametrize(("price", "is_"), [("0.55/ft", "4.4"), ("1.25 per m", "3.048")])
def test_a_price_for_each_foot_or_metre_is_multiplied_exactly(price, is_):
    """8 ft are 2.4384 m, as an inch is 25.4 mm (the international yard of 1959): by hand."""
    (board,) = yard_from_text(stud(f'price = "{price}"')).boards
    assert board.price == Fraction(is_)


@pytest.mark.parametrize("currency", ["€", "kr", "Taler und Groschen", "=1+1", "₽ or £"])
def test_any_text_is_a_currency(currency):
    assert yard_from_text(f'currency = "{currency}"').currency == currency


# ── the shipped yard ──────────────────────────────────────────────────────────────────────────


def test_the_shipped_yard_sells_what_the_issue_names():
    yard, sold = demo_yard(), {}
    for section, size in NOMINAL.items():
        if lengths := [b.length / 12 for b in yard.boards if (b.thickness, b.width) == size]:
            sold[section] = lengths
    assert sold == {"2x4": [8, 10, 12, 16], "1x4": [8, 12], "1x12": [8, 12]}
    plywood = {(s.thickness, s.width / 12, s.length / 12)
               for s in yard.sheets if s.material == "plywood"}  # fmt: skip
    sizes = ((4, 8), (4, 4), (2, 4))
    assert plywood == {(Fraction(thick), *size) for thick in ("1/2", "1/4") for size in sizes}
    assert {p.item for p in yard.packages} == set(ITEMS)
    assert yard.left_out == ()


def test_the_sheets_that_rules_ask_for_are_sold_and_foam_in_two_smaller_sizes_too():
    sold = {(s.material, s.width, s.length) for s in demo_yard().sheets}
    whole = WHOLE_SHEET["width"], WHOLE_SHEET["length"]
    assert {(material, *whole) for material in ("plywood", "foam", "sheet")} <= sold
    assert {("foam", 24, 96), ("foam", 600 * MM, 1250 * MM)} <= sold


def test_every_fastener_of_a_hive_file_is_sold_under_its_name():
    lengths = {name for name in DEFAULTS["inch"] if name.endswith(("_screw", "_brad", "er_bolt"))}
    assert lengths == {name for name in ITEMS if name not in {"glue", "silicone", "edge_screw"}}


def test_the_shipped_text_says_that_its_prices_are_invented():
    assert "ALL PRICES IN HERE ARE INVENTED" in yard_text()
    assert yard_from_text(yard_text()) == demo_yard()


def test_the_metric_yard_sells_all_that_a_metric_hive_of_usual_sizes_needs():
    """The sizes of a 2x4 in mm are those of PS 20-20, Table 3; all others are common practice."""
    yard, hive = demo_yard("mm"), changed(Hive("Usual", "mm", {}, {}), {"frames": "10"})
    studs = [board for board in yard.boards if board.material == "stud"]
    assert {(stud.thickness / MM, stud.width / MM) for stud in studs} == {(38, 89)}
    bought = plan([checked(hive)], yard)
    assert (bought.unplanned, bought.warnings) == ((), ())
    lengths = [size for g in (*yard.boards, *yard.sheets) for size in (g.width, g.length)]
    assert all((length / MM).denominator == 1 for length in lengths)


def test_both_shipped_yards_have_the_same_rows_at_the_same_prices():
    rows = [
        [(g.price, getattr(g, "item", "")) for g in (*y.boards, *y.sheets, *y.packages)]
        for y in map(demo_yard, UNITS)
    ]
    assert rows[0] == rows[1]
    assert all("|" not in yard_text(units) for units in UNITS)


def test_what_the_shipped_text_shows_as_a_note_is_read_once_the_note_is_taken_away():
    before, _, notes = yard_text().partition("# [[at_hand]]")
    shown = "\n".join(line.removeprefix("# ") for line in f"[[at_hand]]{notes}".splitlines())
    yard = yard_from_text(before + shown)
    assert [b.length for b in yard.boards if b.at_hand] == [Fraction(63, 2)]
    assert [(s.width, s.length) for s in yard.sheets if s.at_hand] == [(18, 26)]
    assert yard.left_out == ()


# ── what is refused ───────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("price", [
    "-0.01", '"-3.95"', '"−3"', '""', '"3,95"', '"4 coins"', "1e3", "nan", "inf", "1_000.5", "true",
    "[4]", "{a = 1}", "1979-05-27", "12345678", "0.00001", '"３"', "9" * 400,
])  # fmt: skip
def test_nothing_else_is_a_price(price):
    (fault,) = faults(stud(f"price = {price}"))
    assert fault.startswith("yard.toml, [[board]] 1 price: ")
    assert fault.endswith(
        "write a number like 3.95, or leave the line out if the price is not known."
    )


ABOVE_ROWS = [
    ("kerf = 0", "yard.toml, kerf: 0 in is too small; give 1/64 in to 1/4 in, "),
    ('kerf = "-1/8"', "yard.toml, kerf: cannot read “-1/8” as a length: "),
    ('kerf = "1"', "yard.toml, kerf: 1 in is too large; give 1/64 in to 1/4 in, "),
    ("kerf = true", "yard.toml, kerf: true or false stands here; write a length like "),
    ("end_trim = 7", "yard.toml, end_trim: 7 in is too large; give 0 in to 6 in, "),
    ("spare_percent = 101", "yard.toml, spare_percent: 101 is too large; give 0 to 100, "),
    ('spare_percent = "1/2"', "yard.toml, spare_percent: “1/2” is not a whole number"),
    ("currency = 3.5", "yard.toml, currency: a number stands here; write 1 to 80 characters"),
    ('currency = ""', "yard.toml, currency: the text is empty; write 1 to 80 characters"),
    ('currency = "a\\nb"', "yard.toml, currency: “a\\nb” has a control character in it; "),
    ('currency = "\\u202eab"', "yard.toml, currency: “\\u202eab” has a control character"),
    ('units = "foot"', 'yard.toml, units: “foot” is not known here; write "inch" or "mm".'),
    ("boards = 3", "yard.toml: “boards” is not a known name; the nearest known name is board."),
    ("board = 3", "yard.toml, [[board]]: a number stands here; write [[board]] above each"),
    ("[board]", "yard.toml, [[board]]: a table stands here; write [[board]] above each row"),
    ("sheet = [1]", "yard.toml, [[sheet]]: a number stands here; write [[sheet]] above each"),
]
IN_A_ROW = [
    ('material = "2x5"', "material: “2x5” is not known here; write one of 1x2, 1x3, "),
    ("material = 2", "material: a number stands here; write one of 1x2, 1x3, "),
    ('length = "ten feet"', "length: cannot read “ten feet” as a length: "),
    ('length = "0"', "length: 0 in is too small; give 1 in to 288 in, because "),
    ('length = "100 ft"', "length: 1200 in is too large; give 1 in to 288 in, because "),
    ("count = -1", "count: “-1” is not a whole number that can be counted; "),
    ("count = 2.5", "count: “2.5” is not a whole number that can be counted; "),
    ('straight = "no"', "straight: a text stands here; write true or false."),
    ("lenght = 8", ": “lenght” is not a known name; the nearest known name is length."),
    ('material = "stud"', "thickness: it is missing; write a line like thickness = "),
]


@each(ABOVE_ROWS + IN_A_ROW)
def test_a_fault_says_where_what_and_what_is_accepted(case):
    entry, found = case
    if case in IN_A_ROW:
        entry, found = stud(entry), f"yard.toml, [[board]] 1 {found}".replace(" :", ":")
    assert faults(entry)[0].startswith(found)
    assert case in IN_A_ROW or len(faults(entry)) == 1


def test_a_hive_file_is_one_fault():
    [told] = faults(hive_text(demo_hive()))
    assert told == (
        "yard.toml: nothing of a yard stands in this file; name a yard file, or write a new one "
        "with `hivecalc new FILE --yard`."
    )


@pytest.mark.parametrize("entry", ['currency = "kr"', 'units = "mm"', "kerf = 3", "end_trim = 0"])
def test_what_a_file_says_once_is_told_to_stand_above_the_rows(entry):
    """Whoever adds a row at the top of the file makes all that follows a part of that row."""
    name = entry.partition(" ")[0]
    place = f"yard.toml, [[board]] 1 {name}: {name} stands in a row"
    assert faults(stud(entry)) == [f"{place}; put it at the top of the file, above all rows."]


@pytest.mark.parametrize("text", ["", "   ", "x" * 81, "tab\\there"])
def test_a_name_and_a_currency_are_one_line_each(text):
    for told in (faults(f'currency = "{text}"'), faults(stud(f'name = "{text}"'))):
        assert len(told) == 1
        assert told[0].endswith("; write 1 to 80 characters on one line.")


@pytest.mark.parametrize("row", [
    stud('material = "oak"'),
    "[[package]]\nitem = 'glew'\ncovers = '300'",
    "[[package]]\nitem = 'brads'\nholds = 100",
])  # fmt: skip
def test_what_is_unknown_is_told_and_nothing_that_follows_from_it(row):
    (told,) = faults(row)
    assert " is not known here; write one of " in told


def test_what_a_package_must_say_depends_on_its_item():
    rows = "[[package]]\nitem = 'glue'\nholds = 3\n[[package]]\nitem = 'long_brad'\ncovers = 3"
    assert faults(rows) == [
        'yard.toml, [[package]] 1 covers: it is missing; write a line like covers = "3 1/2".',
        "yard.toml, [[package]] 2 holds: it is missing; write a line like holds = 10.",
    ]


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("item = 'long_brad'\nholds = 3", " length: 9 in is too large; give 1/2 in to 2 1/2 in, "),
        ("item = 'glue'\ncovers = 3", ": “length” is not a known name; known are name, item, "),
    ],
)
def test_only_fasteners_have_a_length_and_it_is_one_that_a_hive_file_may_ask_for(row, found):
    (told,) = faults(f"[[package]]\n{row}\nlength = 9")
    assert told.startswith(f"yard.toml, [[package]] 1{found}")


def test_all_faults_are_told_at_once_in_the_order_of_the_file():
    broken = ONE_OF_EACH
    for good, bad, _ in (wrong := [
        ('kerf = "3/32"', "kerf = 0", "kerf"),
        ("price = 3.95", 'price = "dear"', "[[board]] 1 price"),
        ('length = "48"', "", "[[sheet]] 1 length"),
        ("holds = 200", "holds = 0", "[[package]] 1 holds"),
    ]):  # fmt: skip
        broken = broken.replace(good, bad)
    places = [fault.partition(": ")[0] for fault in faults(broken)]
    assert places == [f"yard.toml, {place}" for *_, place in wrong]


# ── what costs its own row only ───────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("row", "found"), [
    ('material = "2x4"', "[[at_hand]] 2 length: it is missing"),
    ('material = "2x4"\nlength = "banana"', "[[at_hand]] 2 length: cannot read “banana”"),
    ('material = "2x4"\nlength = -3', "[[at_hand]] 2 length: cannot read “-3” as a length"),
    ('material = "oak"\nlength = 30', "[[at_hand]] 2 material: “oak” is not known here"),
    ("length = 30", "[[at_hand]] 2 material: it is missing"),
    ('material = "2x4"\nlength = 30\nprice = 1', "[[at_hand]] 2: “price” is not a known name"),
    ('material = "foam"\nlength = 30', "[[at_hand]] 2 thickness: it is missing"),
    ('material = "2x4"\nlength = 30\ncount = "few"', "[[at_hand]] 2 count: “few” is not a"),
    ('material = "2x4"\nlength = 30\ncount = 0', "[[at_hand]] 2 count: there are 0 of it"),
    ("nonsense = true", "[[at_hand]] 2: “nonsense” is not a known name"),
    ("", "[[at_hand]] 2 material: it is missing"),
])  # fmt: skip
def test_a_damaged_offcut_is_told_with_its_place_and_the_rest_holds(row, found):
    good = '[[at_hand]]\nmaterial = "2x4"\nlength = 20\n'
    text = f"{ONE_OF_EACH.partition('[[at_hand]]')[0]}{good}[[at_hand]]\n{row}\n{good}"
    told = left_out(text)
    assert told[0].startswith(f"yard.toml, {found}"), told
    yard = yard_from_text(text)
    assert [b.length for b in yard.boards] == [96, 20, 20]
    assert (len(yard.sheets), len(yard.packages)) == (1, 1)


@pytest.mark.parametrize("rubbish", ["at_hand = 3", 'at_hand = ["x", 2]', "[at_hand]\na = 1"])
def test_an_offcut_list_of_rubbish_costs_itself_only(rubbish):
    rows = ONE_OF_EACH.partition("[[at_hand]]")[0]
    text = f"{rows}\n{rubbish}" if rubbish.startswith("[") else f"{rubbish}\n{rows}"
    assert all(told.startswith("yard.toml, [[at_hand]]: ") for told in left_out(text))
    assert left_out(text)
    assert len(yard_from_text(text).boards) == 1


def test_goods_that_are_sold_out_are_left_out_and_told():
    text = f"{stud('count = 0')}\n[[board]]\nmaterial = '2x4'\nlength = '10 ft'"
    (told,) = left_out(text)
    place = "yard.toml, [[board]] 1 count"
    assert told.startswith(f"{place}: there are 0 of it, so “2x4 of 96 in” is left out; ")
    assert [b.length for b in yard_from_text(text).boards] == [120]


# ── files ─────────────────────────────────────────────────────────────────────────────────────


@pytest.fixture
def own(tmp_path):
    return tmp_path / "my-yard.toml"


def test_a_file_is_read_as_its_text_and_a_new_one_reads_back(own):
    own.write_text(ONE_OF_EACH, encoding="utf-8")
    assert yard_from_file(own) == yard_from_text(ONE_OF_EACH)
    own.write_bytes(b"\xef\xbb\xbf" + ONE_OF_EACH.replace("\n", "\r\n").encode())
    assert yard_from_file(own) == yard_from_text(ONE_OF_EACH)
    own.unlink()
    write_new(own, yard_text())
    assert yard_from_file(own) == demo_yard()


@pytest.mark.parametrize(("data", "found"), [
    (b"", "this file is empty; name a yard file, or write a new one with `hivecalc new"),
    (b"\xff\xfe", "this file is not text in UTF-8 (see byte 1); name a yard file"),
    (b"#" * 1_000_001, "this file is bigger than 1 MB; name a yard file, or write a new one"),
    (b"kerf = ", "cannot be read as TOML"),
], ids=["empty", "no text", "too big", "no TOML"])  # fmt: skip
def test_a_file_that_is_no_yard_file_is_told_in_a_sentence(data, found, own):
    own.write_bytes(data)
    with pytest.raises(HiveFaults) as refused:
        yard_from_file(own)
    assert found in str(refused.value)
    assert str(refused.value).startswith(str(own))
