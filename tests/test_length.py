"""Lengths: read, rounded, shown.

Oracles, best first: printed standards; round trips and limits; a second way to compute (sums of
fractions by hand, the decimal module, Python's own reading of a fraction, the Unicode database).
"""

import decimal
import re
import unicodedata
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from hivecalc.length import (
    ACCEPTED,
    EIGHTH,
    GRIDS,
    LONGEST,
    MILLIMETRE,
    MM,
    SIXTEENTH,
    SIXTY_FOURTH,
    TENTH_MM,
    THIRTY_SECOND,
    UNITS,
    LengthError,
    Rounding,
    Units,
    by_the_tape,
    decimal_inches,
    feet_and_inches,
    length_from_text,
    length_json,
    likely_meant,
    millimetres,
    mixed,
    rounded,
    shown,
    written,
)
from tests.each import each

F = Fraction
ORCHARD = F(185, 8)  # 23 1/8 in: the length of the invented orchard hive

every_grid = st.sampled_from(sorted(GRIDS.values(), key=lambda grid: grid.name))
inch_grids = st.sampled_from([EIGHTH, SIXTEENTH, THIRTY_SECOND, SIXTY_FOURTH])
both_units = st.sampled_from(UNITS)
sizes = st.fractions(min_value=0, max_value=2000, max_denominator=100_000)
signed = st.fractions(min_value=-2000, max_value=2000, max_denominator=100_000)
marks = st.integers(min_value=0, max_value=200_000)
small = st.integers(min_value=0, max_value=99_999)


# ── printed sources ───────────────────────────────────────────────────────────────────────────


def test_the_legal_inch():
    # International yard and pound agreement of 1959: 1 yd = 0.9144 m exactly, so 1 in = 25.4 mm
    # exactly; 24 FR 5348 (1 July 1959), reprinted in the addendum to NBS Circular 572.
    assert F("914.4") * MM == 36
    assert F("25.4") * MM == 1
    assert length_from_text("914.4 mm") == length_from_text("3 ft") == 36
    assert length_from_text("25.4 mm") == length_from_text("2.54 cm") == 1
    assert length_from_text("25 mm") != 1


# PS 20-20, American Softwood Lumber Standard, Table 3, dry dressed sizes, as reprinted in a public
# engineering table, which prints both columns. 63.5 mm is a tie: the table goes up.
LUMBER = {
    "3/4": 19, "1 1/2": 38, "2 1/2": 64, "3 1/2": 89, "5 1/2": 140, "7 1/4": 184, "9 1/4": 235,
    "11 1/4": 286,
}  # fmt: skip


def test_actual_sizes_of_lumber_in_whole_millimetres():
    for inches, mm in LUMBER.items():
        assert shown(length_from_text(inches), "mm") == f"≈ {mm} mm"
        assert millimetres(length_from_text(inches), 0) == f"≈ {mm}"


def signs() -> list[str]:
    every = map(chr, range(0x110000))
    return [sign for sign in every if unicodedata.decomposition(sign).startswith("<fraction")]


@each(signs)
def test_every_fraction_sign_of_unicode(sign):
    # The Unicode Character Database gives each sign's number. Two of its signs have no fraction
    # between 0 and 1 (⅟ has no bottom, ↉ is 0/3), and both are refused.
    if sign in "⅟↉":
        with pytest.raises(LengthError):
            length_from_text(sign)
        return
    value = F(unicodedata.numeric(sign)).limit_denominator(10)
    assert length_from_text(sign) == value
    assert length_from_text(f"23{sign}") == length_from_text(f"23 {sign}″") == 23 + value


# ── what is read ──────────────────────────────────────────────────────────────────────────────


WITHOUT_UNIT = [
    "23 1/8", "23-1/8", "  23 1/8  ", "23   1/8", "023 1/8", "23\N{NO-BREAK SPACE}1/8", "185/8",
    "370/16", "23⅛", "23 ⅛", "23-⅛", "23.125", "22 9/8", "21 17/8", "23 and 1/8", "23 1⁄8",
    "185⁄8",
]  # fmt: skip
WITH_UNIT = [
    "23 1/8 in", '23 1/8"', "23 1/8 inch", "23 1/8 inches", "23-1/8in", '23 1/8 "',
    "1' 11 1/8\"", "1'11 1/8\"", "1 ft 11 1/8 in", "1ft11-1/8in", "1 foot 11 1/8 inches",
    "1 feet 11 ⅛ in", "1' 11.125 in", "185/8 in", "23.1250 in", "587.375 mm", "587.375mm",
    "587,375 mm", "58.7375 cm", "58,7375 cm", "23⅛ in", "23 1/8″", "23 1/8”", "1′ 11 1/8″",
    "1’ 11 1/8”", "1′11⅛″", "23 1/8in.", "23 1/8 in.", "23 1/8''", "23 1/8′′", "1'-11 1/8\"",
    "1'-11 1/8''", "1 ft 11 1/8", "1' 11 1/8", "1' 11.125", "1' 10 9/8\"", "23 and 1/8 in",
    "0.587375 m", "0,587375 m", ".587375m", " 23\N{NO-BREAK SPACE}1/8\N{NO-BREAK SPACE}in ",
    "\N{NARROW NO-BREAK SPACE}587.375\N{NARROW NO-BREAK SPACE}mm",
]  # fmt: skip


@each(WITHOUT_UNIT + WITH_UNIT)
def test_one_length_in_many_forms_and_a_unit_in_it_wins_over_that_of_the_hive(text):
    assert length_from_text(text) == ORCHARD
    assert text in WITHOUT_UNIT or length_from_text(text, "mm") == ORCHARD


@pytest.mark.parametrize(("text", "units", "inches"), [
    ("587", "mm", F(587, 1) * 10 / 254), ("587.4", "mm", F(5874, 254)), (".5", "inch", F(1, 2)),
    (".5", "mm", F(5, 254)), ("0", "inch", F(0)), ("0", "mm", F(0)), ("0/8", "inch", F(0)),
    ("0 1/8", "inch", F(1, 8)), ("9/8", "inch", F(9, 8)), ("2 ft", "inch", F(24)),
    ("2'", "mm", F(24)), ("2 feet", "inch", F(24)), ("0' 11\"", "inch", F(11)),
    ("3' 0\"", "inch", F(36)), ("3' 1/2\"", "inch", F(73, 2)), ('12"', "mm", F(12)),
    ("1/3", "inch", F(1, 3)), ("0.034", "inch", F(17, 500)),
    ("12345678901234567890", "inch", F(12345678901234567890)),
])  # fmt: skip
def test_what_else_is_read(text, units, inches):
    assert length_from_text(text, units) == inches


@given(small, small, st.integers(1, 999), both_units)
def test_mixed_fractions_are_sums(whole, top, bottom, units):
    top %= bottom
    by_hand = F(whole) + F(top, bottom)
    for text in (f"{whole} {top}/{bottom} in", f'{whole}-{top}/{bottom}"'):
        assert length_from_text(text, units) == by_hand
    assert length_from_text(f"{whole * bottom + top}/{bottom}″", units) == by_hand


@given(small, st.integers(0, 11), st.integers(0, 63))
def test_feet_are_twelve_inches(feet, inches, ticks):
    by_hand = F(12) * feet + inches + F(ticks, 64)
    assert length_from_text(f"{feet}' {inches} {ticks}/64\"") == by_hand
    assert length_from_text(f"{feet} ft {inches}-{ticks}/64 in", "mm") == by_hand


@given(small, st.text("0123456789", min_size=1, max_size=12))
def test_decimals_agree_with_pythons_own_reading(whole, tail):
    text = f"{whole}.{tail}"
    assert length_from_text(text) == F(text) == F(Decimal(text))
    assert length_from_text(text, "mm") == length_from_text(f"{text} mm") == F(text) / F("25.4")
    assert length_from_text(f"{whole},{tail} cm") == F(text) / F("2.54")


@given(st.fractions(min_value=0, max_value=40, max_denominator=5_000))
def test_by_the_tape_a_length_is_within_a_thirty_second_of_the_mark_named(length):
    told = by_the_tape(length)
    mark = length_from_text(re.sub("^(a little (more|less)|less) than ", "", told))
    assert abs(length - mark) <= F(1, 32)
    assert told.startswith("a little more") == (mark < length)
    assert told.startswith("a little less") == (length < mark and not told.startswith("less"))


# ── what is refused ───────────────────────────────────────────────────────────────────────────

REFUSED = [
    ("23 1/0", "“1/0” has a zero under the line"), ("1/0", "“1/0” has a zero"),
    ("0/0", "“0/0” has a zero"), ("23 and", "“and” is not understood"),
    ("23and 1/8", "“and” is not understood"), ("23 and 0.5", "“and” is not understood"),
    ("1'--11\"", '“--11"” is not understood'), ("1' - 11\"", "“-” is not understood"),
    ("12'''", "“'” is not understood"), ("12 in..", "“.” is not understood"),
    ("-1/8", "“-1/8” is not understood there, as a size has no sign"),
    ("-3", "sign in front"), ("−3", "sign in front"),
    ("+3", "“+3” is not understood there, as a size has no sign"),
    ("1.5 1/2", "“1/2” is not understood there"), ("23.125-1/8", "“-1/8” is not understood"),
    ("1/2 1/2", "“1/2” is not understood"), ("1e3", "“e3” is not understood"),
    ("1_000", "“_000” is not understood"), ("0x17", "“x17” is not understood"),
    ("nan", "must begin with a number, not with “nan”"),
    ("inf", "must begin with a number, not with “inf”"),
    ("about 21", "must begin with a number, not with “about”"),
    ("≈ 21", "not with “≈”"), ("", "nothing is written"), ("   ", "nothing is written"),
    ("\N{NO-BREAK SPACE}", "nothing is written"), ("23 24", "“24” is not understood"),
    ("23 x 17", "“x” is not understood"), ("23 1/8 24", "“24” is not understood"),
    ("23 1/8 in 3", "“3” is not understood"), ("23 - 1/8", "“-” is not understood"),
    ("23 --1/8", "“--1/8” is not understood"), ("23 1 /8", "“1” is not understood"),
    ("23 1/8/2", "“/2” is not understood"), ("23.", "“.” is not understood"), (".", "not with “.”"),
    ("1.2.3", "“.3” is not understood"), ("1,234.5 mm", "“.5” is not understood"),
    ("23½½", "“½” is not understood there;"),
    ("1/2 m", "“1/2” is a fraction, and m takes a whole number or a decimal"),
    ("0.6 metres", "“metres” is not understood"), ("23 IN", "“IN” is not understood"),
    ("23 inx", "“x” is not understood"),
    ("1/2'", "“'” is not understood there, as feet come first and are a whole number"),
    ("1.5 ft", "“ft” is not understood there, as feet"),
    ("1 1/2 feet", "“feet” is not understood there, as feet"),
    ("1' 13\"", '“13"” after feet must be less than 12 inches'),
    ("1' 12\"", '“12"” after feet must be less than 12 inches'),
    ("1' 185/8 in", "“185/8 in” after feet must be less than 12 inches"),
    ("1' 13", "“13” after feet must be less than 12 inches"),
    ("1' 11 9/8", "“11 9/8” after feet must be less than 12 inches"),
    ("1' 5 mm", "“5 mm” after feet must be inches"),
    ("1' 1' 1\"", "“'” is not understood"), ("587,4 in", "“587,4” has a comma"),
    ("23,125 in", "“23,125” has a comma"), ("1' 2,5\"", "“2,5” has a comma"),
    ("1/2 mm", "“1/2” is a fraction, and mm takes a whole number or a decimal"),
    ("23 1/8 cm", "“1/8” is a fraction, and cm takes"),
    ("½ mm", "“½” is a fraction, and mm takes"),
    ("٢٣", "only the digits 0 to 9 are read"),  # Arabic-Indic
    ("２３", "only the digits 0 to 9 are read"),  # full width
    ("23 ¹/8", "only the digits 0 to 9 are read"),
    ("2३", "“३” is not understood there, as only the digits 0 to 9"),  # Devanagari
    ("\u200f23", r"not with “\u200f23”"),  # right-to-left mark
    ("23\u202e1/8", r"“\u202e1/8” is not understood"),  # right-to-left override
    ("2\x003", r"“\x003” is not understood"), ("23 1/8\n", r"“\n” is not understood"),
    ("\n", r"not with “\n”"), ("23\t1/8", r"“\t1/8” is not understood"),
    ("\x1b[31m23", r"not with “\x1b[31m23”"), ("23\u2028", r"“\u2028” is not understood"),
    ("\ud800", r"not with “\ud800”"), ("<b>23</b>", "not with “<b>23</b>”"),
    ("23<script>", "“<script>” is not understood"),
    ("9" * (LONGEST + 1), "it has 61 characters, and 60 are enough"),
    ("9" * 10_000, "it has 10000 characters"), ("1/" * 5_000, "it has 10000 characters"),
    (" " * 10_000, "it has 10000 characters"),
    ("23" + " " * 10_000 + "1/8", "characters, and 60 are enough"),
]  # fmt: skip


def length_or_error(text: str, units: Units) -> Fraction | LengthError:
    try:
        return length_from_text(text, units)
    except LengthError as error:
        return error


def is_one_sentence(error: LengthError, units: Units) -> bool:
    sentence = str(error)
    return (
        sentence.isprintable()
        and sentence.startswith("Cannot read “")
        and sentence.endswith(f"; write it like {ACCEPTED[units]}.")
        and len(sentence) < 320
    )


@each(REFUSED)
def test_everything_else_is_refused_with_a_sentence(row):
    text, said = row
    for units in UNITS:
        error = length_or_error(text, units)
        assert isinstance(error, LengthError)
        assert said in str(error)
        assert is_one_sentence(error, units)


def test_a_bare_comma_is_read_in_mm_and_not_in_inches():
    assert length_from_text("587,4", "mm") == length_from_text("587.4 mm")
    with pytest.raises(LengthError, match="“587,4” has a comma, which is read only in mm, cm or m"):
        length_from_text("587,4")


@given(st.integers(2, 30), st.sampled_from(["1/2", "3/4", "7/8", "3/16", "15/16", "31/32"]))
def test_a_length_without_its_space_is_asked_about(whole, part):
    """The split that comes closest is asked about, and nothing is where the text is as near."""
    said, spaced = f"{whole}{part}", f"{whole} {part}"
    meant, as_written = length_from_text(spaced), length_from_text(said)
    assert likely_meant(said, near=meant) == meant
    assert likely_meant(f"{said} in", near=meant) == meant
    assert likely_meant(said.replace("/", "⁄"), near=meant + F(1, 16)) == meant
    assert likely_meant(said, near=as_written) is None
    assert likely_meant(spaced, near=as_written + 9) is None
    assert likely_meant("13/16", near=F(19, 16)) is None  # less than an inch as it stands


@pytest.mark.parametrize("text", ["143/0", "143/7", "1/8", "403/8", "14", "x", "", "9" * 99])
def test_what_can_not_be_split_is_not_asked_about(text):
    # 40 3/8 would split, but 403/8 is 50 3/8, and 50 is nearer to that
    assert likely_meant(text, near=F(50)) is None


@pytest.mark.parametrize("text", ["1/2", "587 1/2", "½", "185/8"])
def test_a_bare_fraction_is_never_taken_for_mm(text):
    assert length_from_text(text) > 0
    with pytest.raises(LengthError, match="is a fraction without a unit, so in or"):
        length_from_text(text, "mm")
    assert length_from_text(f"{text} in", "mm") == length_from_text(text)


def test_a_long_text_is_cut_where_it_is_shown():
    with pytest.raises(LengthError) as caught:
        length_from_text("x" * 50)
    assert str(caught.value).count("“" + "x" * 40 + "…”") == 2


@pytest.mark.parametrize("units", UNITS)
def test_the_forms_an_error_shows_are_read(units):
    forms = ACCEPTED[units].replace(" or ", ", ").split(", ")
    assert len(forms) > 5
    assert all(22 < length_from_text(form, units) < 24 for form in forms)


@given(
    st.one_of(
        st.text(max_size=80),
        st.text("0123456789 /.,-'\"′″½⅛infchmet\N{NO-BREAK SPACE}\n\x00", max_size=70),
    ),
    both_units,
)
@example("1' 1/0\"", "mm")
@example("0 0/0", "mm")
@example("\U000101fe" * 40, "inch")
def test_any_text_is_a_length_or_one_sentence(text, units):
    answer = length_or_error(text, units)
    if isinstance(answer, LengthError):
        assert is_one_sentence(answer, units)
    else:
        assert answer >= 0


# ── rounding ──────────────────────────────────────────────────────────────────────────────────


def test_the_grids_have_the_steps_that_they_name():
    for name, grid in GRIDS.items():
        assert name == grid.name
        assert grid.step == length_from_text(name)
        assert name.endswith("mm") == (grid.units == "mm")
    assert len(GRIDS) == 6


@given(signed, every_grid)
def test_rounding_goes_to_a_mark_on_the_right_side(length, grid):
    nearest, down, up = (rounded(length, grid, way) for way in Rounding)
    assert all((value / grid.step).denominator == 1 for value in (nearest, down, up))
    assert abs(nearest - length) <= grid.step / 2
    assert 0 <= length - down < grid.step
    assert 0 <= up - length < grid.step


@given(marks, every_grid)
def test_a_mark_stays_and_half_way_goes_up_by_nearest(mark, grid):
    assert {rounded(mark * grid.step, grid, way) for way in Rounding} == {mark * grid.step}
    half_way = (mark + F(1, 2)) * grid.step
    assert rounded(half_way, grid) == (mark + 1) * grid.step
    assert rounded(-half_way, grid) == -mark * grid.step


# Python's decimal module, whose rounding follows the General Decimal Arithmetic Specification.
REFERENCE = {
    Rounding.NEAREST: decimal.ROUND_HALF_UP,
    Rounding.DOWN: decimal.ROUND_FLOOR,
    Rounding.UP: decimal.ROUND_CEILING,
}


@given(st.decimals(0, 5000, places=7), every_grid, st.sampled_from(list(Rounding)))
@example(Decimal("9.53125"), SIXTEENTH, Rounding.NEAREST)
@example(Decimal("63.5"), MILLIMETRE, Rounding.NEAREST)
@example(Decimal("587.35"), TENTH_MM, Rounding.NEAREST)
def test_rounding_agrees_with_decimal(value, grid, way):
    unit = 1 / F("25.4") if grid.units == "mm" else F(1)
    parts = unit / grid.step
    assert parts.denominator == 1
    ticks = (value * int(parts)).quantize(Decimal(1), rounding=REFERENCE[way])
    assert rounded(F(value) * unit, grid, way) == int(ticks) * grid.step


# ── showing ───────────────────────────────────────────────────────────────────────────────────


@given(marks, every_grid)
def test_a_mark_reads_back_in_every_form(mark, grid):
    length = mark * grid.step
    for units in UNITS:  # the unit stands in the text
        assert length_from_text(shown(length, "inch", grid), units) == length
    if grid.units == "mm":
        assert length_from_text(millimetres(length), "mm") == length
        assert length_from_text(written(length, "mm"), "mm") == length
    else:
        assert length_from_text(mixed(length, grid)) == length
        assert length_from_text(feet_and_inches(length, grid)) == length
        assert length_from_text(decimal_inches(length, 6)) == length  # 1/64 has six places


@given(sizes, both_units)
def test_written_reads_back_unless_it_says_about(length, units):
    text = written(length, units)
    value = length_from_text(text.removeprefix("≈ "), units)
    assert text.startswith("≈ ") == (value != length)
    assert abs(value - length) <= (F(1, 128) if units == "inch" else F(1, 20) / F("25.4"))


@given(st.integers(0, 10_000_000), st.integers(0, 4))
def test_written_keeps_decimals_of_four_places(digits, places):
    length = F(digits, 10**places)
    assert length_from_text(written(length)) == length
    if places < 4:
        assert length_from_text(written(length / F("25.4"), "mm"), "mm") == length / F("25.4")


@given(sizes, every_grid, st.sampled_from(list(Rounding)))
def test_about_stands_exactly_where_rounding_changed_it(length, grid, way):
    text = shown(length, "inch", grid, way)
    assert text.startswith("≈ ") == (rounded(length, grid, way) != length)
    assert length_from_text(text.removeprefix("≈ ")) == rounded(length, grid, way)


@given(sizes, st.integers(0, 8))
def test_decimals_agree_with_decimal(length, places):
    # The reference is Python's decimal module; 60 digits leave no tie undecided, as a tie ends.
    with decimal.localcontext(decimal.Context(prec=60)):
        exact = Decimal(length.numerator) / Decimal(length.denominator)
        near = exact.quantize(Decimal(1).scaleb(-places), rounding=decimal.ROUND_HALF_UP)
    assert F(decimal_inches(length, places).removeprefix("≈ ")) == F(near)
    assert F(millimetres(length * MM, places).removeprefix("≈ ")) == F(near)


@given(st.integers(1, 200_000), inch_grids)
def test_below_zero_a_minus_stands_in_front(mark, grid):
    length = mark * grid.step
    for show in (mixed, feet_and_inches):
        assert show(-length, grid) == f"−{show(length, grid)}"
    assert written(-length) == f"−{written(length)}"
    assert decimal_inches(-length, 6) == f"−{decimal_inches(length, 6)}"
    assert shown(-mark * MM, "mm") == f"−{mark} mm"


@pytest.mark.parametrize(("length", "feet", "inches"), [
    (F(383, 32), "≈ 1 ft 0 in", "≈ 12"),  # 11 31/32: rounded first, split afterwards
    (F(767, 32), "≈ 2 ft 0 in", "≈ 24"), (ORCHARD, "1 ft 11 1/8 in", "23 1/8"), (F(0), "0 in", "0"),
    (F(3, 4), "3/4 in", "3/4"), (F(12), "1 ft 0 in", "12"), (F(10, 16), "5/8 in", "5/8"),
    (F(-99, 8), "−1 ft 3/8 in", "−12 3/8"), (F(-1, 32), "≈ 0 in", "≈ 0"),
])  # fmt: skip
def test_feet_and_inches(length, feet, inches):
    assert feet_and_inches(length) == feet
    assert mixed(length) == inches
    assert shown(length) == f"{inches} in"


def test_showing_follows_the_rounding_and_grid_that_is_named():
    third = F(1, 3)
    assert [mixed(third, EIGHTH, way) for way in Rounding] == ["≈ 3/8", "≈ 1/4", "≈ 3/8"]
    assert feet_and_inches(12 + third, THIRTY_SECOND, Rounding.DOWN) == "≈ 1 ft 5/16 in"
    assert shown(ORCHARD, "mm") == "≈ 587 mm"
    assert shown(ORCHARD, "mm", rounding=Rounding.UP) == "≈ 588 mm"
    assert shown(ORCHARD, "inch", TENTH_MM) == "≈ 587.4 mm"
    assert shown(F(23), "mm", TENTH_MM) == "584.2 mm"
    assert decimal_inches(F(23)) == "23"
    assert decimal_inches(F(999_999, 1000_000)) == "≈ 1"
    assert millimetres(F("249.96") * MM) == "≈ 250"


@pytest.mark.parametrize("grid", [MILLIMETRE, TENTH_MM])
def test_a_mixed_fraction_is_never_shown_in_parts_of_a_millimetre(grid):
    for show in (mixed, feet_and_inches):
        with pytest.raises(ValueError, match="needs a grid in inches, and"):
            show(ORCHARD, grid)
    assert length_json(ORCHARD, grid)["inches"] == "23 1/8"


@pytest.mark.parametrize(("length", "inch", "mm"), [
    (ORCHARD, "23 1/8", "587.375"),
    (F(17, 500), "0.034", "≈ 0.9"),  # mesh of two 0.017 in wires: 0.8636 mm
    (F(1, 64), "1/64", "≈ 0.4"), (F(1, 128), "≈ 1/64", "≈ 0.2"), (F(1, 3), "≈ 21/64", "≈ 8.5"),
    (F("0.2"), "0.2", "5.08"),
    (F("0.00625"), "≈ 0", "≈ 0.2"),  # five places are one too many
    (25 * MM, "≈ 63/64", "25"), (F(0), "0", "0"),
])  # fmt: skip
def test_written(length, inch, mm):
    assert (written(length), written(length, "mm")) == (inch, mm)


@given(sizes, inch_grids)
def test_json_says_the_length_exactly(length, grid):
    said = length_json(length, grid)
    assert list(said) == ["exact", "inches", "mm"]
    assert F(str(said["exact"])) == length
    assert said["inches"] == mixed(length, grid)
    assert said["mm"] == float(length * F("25.4"))


def test_json_of_a_length_on_the_grid():
    # The example of the project's own JSON format, 21 3/4 in: 21.75 × 25.4 = 552.45.
    assert length_json(F(87, 4)) == {"exact": "87/4", "inches": "21 3/4", "mm": 552.45}
    assert length_json(F(12))["exact"] == "12"
    assert length_json(F(1, 3), EIGHTH, Rounding.DOWN)["inches"] == "≈ 1/4"
