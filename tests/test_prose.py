"""Each figure in the course's prose: worked out again, from a source, or invented on purpose.

`CLAIMS` names a piece of a sentence and, figure by figure, what it must be. `GIVEN` is a figure
that somebody invented for a question, and from which nothing is told. A figure of a page that no
claim covers fails, and so does a claim that no page holds any more. Minutes and clock times are
checked in test_words.py. Lumber: American Softwood Lumber Standard PS 20-20, Table 3. The inch of
25.4 mm, 1959: National Bureau of Standards, Federal Register notice of July 1, 1959 (from memory).
"""

import re
from fractions import Fraction
from itertools import chain
from math import ceil, isqrt
from typing import Final

from hivecalc.as_built.trial import HIVES
from hivecalc.assembly import STRIP_WAY
from hivecalc.components import values
from hivecalc.exercise import EXERCISES
from hivecalc.fit import RULES
from hivecalc.hive import changed, demo_hive
from hivecalc.hive.measurements import DEFAULTS, MEASUREMENTS
from hivecalc.length import MM, length_from_text, written
from hivecalc.measuring import SQUARE_ENOUGH, lean
from hivecalc.warmth.layers import FILM_INSIDE, FILM_OUTSIDE, PLYWOOD, SOFTWOOD
from hivecalc.warmth.layers import FOAM as FOAM_BOARD
from tests.each import each
from tests.test_words import PAGES, text_of

L = length_from_text
INCH, METRIC = DEFAULTS["inch"], DEFAULTS["mm"]
DEMO = values(demo_hive())
TEN_FRAMES = values(changed(demo_hive(), {"frames": "10"}))
PS_20: Final = {
    name: (L(thick), L(wide))
    for name, thick, wide in [
        ("1x4", "3/4", "3 1/2"), ("1x10", "3/4", "9 1/4"), ("1x12", "3/4", "11 1/4"),
        ("2x4", "1 1/2", "3 1/2"),
    ]
}  # fmt: skip
WIRE = L("0.017")  # of eight-mesh hardware cloth: common practice, no published source
SIXTEENTH = Fraction(1, 16)
STUD, SKIN, FOAM = L("1 1/2"), L("1/2"), L("1")
BEE_SPACE = RULES["bottom_board.bee_way_in"].low, RULES["bottom_board.bee_way_in"].high
BEE_SPACE_MM = [int(limit / MM) for limit in BEE_SPACE if limit]
GIVEN: Final = None


def usual(*names: str) -> tuple[Fraction, ...]:
    """Return what a hive has that says nothing else, in inches, and then in whole mm."""
    return tuple(value for n in names for value in (INCH[n], METRIC[n] / MM))


def near(value: Fraction, parts: int) -> Fraction:
    """Return the mark of a tape nearest to a value, an inch having so many marks."""
    return Fraction(round(value * parts), parts)


def changed_by(measurement: str, dimension: str) -> Fraction:
    """Return how much of a sixteenth more of a measurement reaches a dimension."""
    more = written(INCH[measurement] + SIXTEENTH)
    after = values(changed(demo_hive(), {measurement: more}))
    return (after[dimension] - DEMO[dimension]) / SIXTEENTH


def to_a_tenth(resistance: float) -> Fraction:
    """Return a resistance in m²·K/W as R in inches, to one place."""
    return Fraction(round(10 * resistance / 0.1761101838), 10)  # h·ft²·°F/Btu in one m²·K/W


R_INCH = tuple(to_a_tenth(0.0254 / m.conductivity) for m in (FOAM_BOARD, SOFTWOOD, PLYWOOD))
R_10_MM = tuple(Fraction(round(10 / m.conductivity), 1000) for m in (FOAM_BOARD, SOFTWOOD, PLYWOOD))
FILMS = tuple(Fraction(str(film)) for film in (FILM_INSIDE["level"], FILM_OUTSIDE))
R_FILMS = (to_a_tenth(FILM_INSIDE["level"]), to_a_tenth(FILM_OUTSIDE))
WINTER_WAY = [L(f) for units in ("inch", "mm") for f in re.findall(r"[\d/]+", STRIP_WAY[units])]
LEAN = lean(L("23 1/8"), L("17 3/8"), L("29 3/16"), L("28 11/16"))
LEAN_MM = lean(*(L(f"{n} mm") for n in (587, 441, 741, 727))) / MM
IN_LEAD = isqrt(3**2 + 4**2)

CLAIMS: Final[dict[str, list[tuple[str, tuple[object, ...]]]]] = {
    "00": [
        ('sold as "2x4" is not 2 by 4', (GIVEN, GIVEN)),  # its name
        ("start at 17 1/4 and go three", (GIVEN,)),
        ("17 1/4 is 17 4/16. Three sixteenths more make 17 7/16",
         (GIVEN, L("17 1/4"), L("17 1/4") + 3 * SIXTEENTH)),
        ("Try 17 7/16 in, then 443 mm, then 17 9/16 in", (GIVEN, GIVEN, GIVEN)),
        ("why is 6/16 never written", (GIVEN,)),
        ("6/16 and 3/8 are the same mark", (L("3/8"), L("6/16"))),
        ("you read 23, 23 1/8 and 23 1/16", (GIVEN, GIVEN, GIVEN)),
        ("The largest, 23 1/8", (max(L("23"), L("23 1/8"), L("23 1/16")),)),
        ("a hive is 23 1/8 by 17 3/8, its diagonals 29 3/16 and 28 11/16: one is 1/2 in longer",
         (DEMO["hive_length"], DEMO["hive_width"], GIVEN, GIVEN, L("29 3/16") - L("28 11/16"))),
        ("a little over 13/32 in", (Fraction(int(LEAN * 32), 32),)),
        ('A dry "2x4" is about 1 1/2 by 3 1/2 in', PS_20["2x4"]),
        ("foam sold as an inch may be 25 mm", (METRIC["foam_thickness"] / MM,)),
        ("start at the 1 in mark", (GIVEN,)), ("Started at the 1 in mark", (GIVEN,)),
        ("Between 440 and 450 lie nine short ones, each 1 mm further", (GIVEN, GIVEN, 450 - 449)),
        ("the one in the middle, the 5", ((450 - 440) // 2,)),
        ("there 44 means 440 mm", (44, 44 * 10)), ("start at 440 and go seven", (GIVEN,)),
        ("447 mm. On a tape in centimetres it is 44.7, seven marks past 44",
         (440 + 7, Fraction(440 + 7, 10), 440 // 10)),
        ("Try 447 mm, then 44.7 cm, then 17 5/8 in", (GIVEN,) * 3),
        ("give 447 and never 44.7", (GIVEN, Fraction(447, 10))),
        ("you read 586, 589 and 587", (GIVEN,) * 3), ("The largest, 589", (max(586, 589, 587),)),
        ("a hive is 587 by 441 mm, its diagonals 741 and 727: one is 14 mm longer",
         (GIVEN,) * 4 + (741 - 727,)),
        ("by 14 mm, less or more", (741 - 727,)), ("a little under 12 mm", (ceil(LEAN_MM),)),
        ("Dry wood sold as 40 by 90 mm may be 38 by 89",
         (GIVEN, GIVEN, *(METRIC[n] / MM for n in ("stud_thickness", "stud_width")))),
        ("foam sold as 25 mm may be", (METRIC["foam_thickness"] / MM,)),
        ("start at the 100 mm mark, and must take those 100 mm", (GIVEN, 100)),
        ("Started at the 100 mm mark", (GIVEN,)),
    ],
    "01": [
        ("10 mm are 1 cm, 1000 mm are 1 m", (10, 1, 1000, 1)),
        ("which is longer, 44.1 cm or 414 mm", (GIVEN, GIVEN)),
        ("44.1 cm is 441 mm, so it is longer by 27 mm", (GIVEN, Fraction("44.1") * 10, 441 - 414)),
        ("1 and 8 are nine ones", (441 % 10, 38 % 10)),
        ("447 and 38: 7 and 8 are fifteen", (GIVEN, GIVEN, 447 % 10, 38 % 10)),
        ("the piece is 10 mm too short", (10,)),
        ("Try 447 mm and 38 mm. Then 589 mm and 12 mm", (GIVEN,) * 4),
        ("you have 441 mm and must take off 38 mm. But you can't take 8 ones from 1",
         (GIVEN, GIVEN, 38 % 10, 441 % 10)),
        ("441 is 43 tens and 11 ones. Now take off: 11 − 8 is 3, 43 − 3 is 40. That is 403 mm",
         (441, 43, 441 - 430, 11, 8, 11 - 8, 43, 38 // 10, 43 - 3, 441 - 38)),
        ("the 4 tens are not lowered to 3", (441 // 10 % 10, 441 // 10 % 10 - 1)),
        ("Try 441 mm and 76 mm", (GIVEN, GIVEN)),
        ("named after inches, 51 by 102 mm; dry and planed it is about 38 by 89",
         (*(round(n / MM) for n in (2, 4)), *(round(n / MM) for n in PS_20["2x4"]))),
        ("a box needs sides 243 mm high", (round(TEN_FRAMES["box_height"] / MM),)),
        ("says 254 mm, but a dry 1x10 is 235 mm wide. A 1x12 is 286 mm",
         (10 / MM, *(round(PS_20[n][1] / MM) for n in ("1x10", "1x12")))),
        ("25 mm is 0.4 mm thinner than an inch. In", (GIVEN, 1 / MM - 25)),
        ("four of them side by side are 1.6 mm", (4 * (1 / MM - 25),)),
        ("as 5/8 in or 23 1/8 in", (GIVEN, GIVEN)),
        ("1 cm = 10 mm, 1 m = 1000 mm", (1, 10, 1, 1000)),
        ("In 5/8 the bottom number, 8", (GIVEN, L("5/8").denominator)),
        ("which is longer, 5/8 or 9/16", (GIVEN, GIVEN)),
        ("5/8 is 10/16, so 5/8 is longer by one sixteenth",
         (L("9/16") + SIXTEENTH, L("5/8"), L("10/16"))),
        ("3/8 and 1/2 are 3/8 and 4/8", (GIVEN, GIVEN, L("3/8"), L("1/2"))),
        ("5/8 and 1/2 are nine eighths: one inch carried over, and 1/8 left",
         (Fraction(9, 8) - L("1/2"), GIVEN, L("5/8") + L("1/2") - 1)),
        ("Try 5 5/8 in and 2 1/2 in. Then 21 15/16 in and 1/16 in", (GIVEN,) * 4),
        ("you have 23 1/8 and must take off 1 1/2. But you can't take 4/8 from 1/8",
         (GIVEN, GIVEN, L("1 1/2") % 1, L("23 1/8") % 1)),
        ("one inch: 23 1/8 is 22 9/8", (GIVEN, L("23 1/8"))),
        ("22 − 1 is 21, 9/8 − 4/8 is 5/8. That is 21 5/8",
         (23 - 1, L("1 1/2") // 1, 22 - 1, L("23 1/8") - 22, L("1/2"), L("9/8") - L("4/8"),
          L("23 1/8") - L("1 1/2"))),
        ("the 23 is not lowered to 22", (GIVEN, 23 - 1)),
        ("Try 17 1/4 in and 2 5/8 in", (GIVEN, GIVEN)),
        ('A dry "2x4" is 1 1/2 by 3 1/2 in, a "1x4" is 3/4 by 3 1/2',
         (*PS_20["2x4"], *PS_20["1x4"])),
        ("a box needs sides 9 9/16 in high", (TEN_FRAMES["box_height"],)),
        ("A dry 1x10 is 9 1/4 in wide. A 1x12 is 11 1/4", (PS_20["1x10"][1], PS_20["1x12"][1])),
        ("One inch is 25.4 mm, exactly; six countries agreed on it in 1959", (1 / MM, 1959)),
        ("a foam board of 25 mm", (METRIC["foam_thickness"] / MM,)),
        ("25 mm is 0.4 mm thinner than an inch: about 1/64 in",
         (GIVEN, 1 / MM - 25, near(1 - 25 * MM, 64))),
        ("four of them side by side are 1/16 in", (near(4 * (1 - 25 * MM), 16),)),
        ("Type 25 mm above, then 1 in,", (GIVEN, GIVEN)),
        ("1/2 = 8/16, 1/4 = 4/16, 3/4 = 12/16, 1/8 = 2/16, 3/8 = 6/16, 5/8 = 10/16, 7/8 = 14/16",
         (L("8/16"), L("1/2"), L("4/16"), L("1/4"), L("12/16"), L("3/4"), L("2/16"), L("1/8"),
          L("6/16"), L("3/8"), L("10/16"), L("5/8"), L("14/16"), L("7/8"))),
        ("1 in = 25.4 mm", (1, 1 / MM)),
    ],
    "02": [
        ("as 9 5/8, as 9 10/16 or as 244.5 mm",
         (GIVEN, L("9 5/8"), Fraction(round(L("9 5/8") / MM * 2), 2))),
        ("as 245, as 24.5 cm or as 9 5/8 in",
         (GIVEN, Fraction(245, 10), near(245 * MM, 8))),
        ("a bevel of 30 degrees", (30,)),  # common practice, no published source
    ],
    "03": [
        ("what is sold as an inch may be 25 mm", (METRIC["foam_thickness"] / MM,)),
    ],
    "04": [
        ("little more than 5/32 in (4 mm)",
         (RULES["bottom_board.widest_gap_at_screen"].high, round(L("5/32") / MM))),
        ("two crossing wires, about 1/32 in or 1 mm",
         (near(2 * WIRE, 32), round(METRIC["mesh_thickness"] / MM))),
        ("about 1/4 to 3/8 in (6 to 9 mm)", (*BEE_SPACE, *BEE_SPACE_MM)),
        ("a bee space, 1/4 to 3/8 in (6 to 9 mm)", (*BEE_SPACE, *BEE_SPACE_MM)),
    ],
    "05": [("such as 0.1, or as 1 in 10", (GIVEN, 1, 1 / L("1/10")))],
    "06": [
        ("about 1/4 to 3/8 in (6 to 9 mm)", (*BEE_SPACE, *BEE_SPACE_MM)),
        ("A bee space is 1/4 to 3/8 in (6 to 9 mm)", (*BEE_SPACE, *BEE_SPACE_MM)),
        ("or 0 for a closed cover", (MEASUREMENTS["inner_notch"].limits("inch")[0],)),
    ],
    "07": [
        ("more than about 1/2 in (12 mm)",
         (RULES["box.bee_space_between"].widest[1], int(L("1/2") / MM))),
        ("Below 1/4 in (6 mm) of bearing",
         (RULES["sleeve.box_bearing"].low, int(RULES["sleeve.box_bearing"].low / MM))),
    ],
    "instructor/00": [
        ("past 17 1/4", (GIVEN,)), ("17 7/16: the quarter", (L("17 1/4") + 3 * SIXTEENTH,)),
        ("17 3/16: counted from the inch", (17 + 3 * SIXTEENTH,)),
        ("17 5/8: took sixteenths for eighths", (L("17 1/4") + 3 * 2 * SIXTEENTH,)),
        # the shortest marks past 4/16 are 5/16, 7/16 and 9/16
        ("17 9/16: counted only the shortest", (17 + range(5, 16, 2)[2] * SIXTEENTH,)),
        ("You read 23, 23 1/8 and 23 1/16", (GIVEN,) * 3),
        ("| 23 1/8, the largest |", (max(L("23 1/8"), L("23 1/16")),)),
        ('23 1/16, "the middle one"', (sorted([L("23"), L("23 1/8"), L("23 1/16")])[1],)),
        ('23, "to be safe"', (min(L("23"), L("23 1/16")),)),
        ("which is more, 1/8 or 1/16: some take 16", (GIVEN, GIVEN, 16)),
        ("One diagonal is 1/2 in longer", (GIVEN,)),
        ("a little over 13/32 in", (Fraction(int(LEAN * 32), 32),)),
        ("5/8 is written as .58 or .5. Have it written as 5/8", (GIVEN, GIVEN)),
        ("marks of 1/32 in", (GIVEN,)), ("44 is read as 44 mm", (GIVEN, 44)),
        ("from the 1 in mark", (GIVEN,)), ("make one 1/2 in longer", (GIVEN,)),
    ],
    "instructor/01": [
        ("A 2x4 is not 2 by 4", (GIVEN, GIVEN)),
        ("Which is longer, 5/8 or 9/16? | 5/8, since it is 10/16 | 9/16",
         (GIVEN, GIVEN, max(L("5/8"), L("9/16")), L("5/8"), min(L("5/8"), L("9/16")))),
        ('"9 and 16 are more"', (9, 16)),
        ("5 5/8 and 2 1/2, end to end? | 8 1/8 | 7 1/8:",
         (GIVEN, GIVEN, L("5 5/8") + L("2 1/2"), L("5 5/8") + L("2 1/2") - 1)),
        ("7 6/10: tops", (5 + 2 + Fraction(5 + 1, 8 + 2),)),
        ("more or less than 8?", (GIVEN,)),
        ("23 1/8, take off 1 1/2? | 21 5/8 | 22 5/8:",
         (GIVEN, GIVEN, L("23 1/8") - L("1 1/2"), L("23 1/8") - L("1 1/2") + 1)),
        ("22 3/8: took the smaller", (23 - 1 + L("4/8") - L("1/8"),)),
        ("21 7/8: borrowed ten", (22 - 1 + Fraction(1 + 10 - 4, 8),)),
        ("447 and 38, end to end? | 485 | 475:", (GIVEN, GIVEN, 447 + 38, 447 + 38 - 10)),
        ("441, take off 38? | 403 | 413:", (GIVEN, GIVEN, 441 - 38, 441 - 38 + 10)),
        ("417: took the smaller digit", (400 + (4 - 3) * 10 + 8 - 1,)),
        ("A side is to be 9 9/16 high", (TEN_FRAMES["box_height"],)),
        ('it is 9 1/4. Take a 1x12 and rip it | "Yes, 10 is more"', (PS_20["1x10"][1], GIVEN)),
        ("Is 25 mm foam an inch thick? | No, 0.4 mm thinner", (GIVEN, 1 / MM - 25)),
        ("left as 10/16: right, and 5/8 is", (L("5/8"), L("10/16"))),
        ("gives 21.625", (L("23 1/8") - L("1 1/2"),)),
        ("half of 5/8, half of 14 3/8", (GIVEN, GIVEN)),
        ("foam boards of 25 mm are short of 4 in", (GIVEN, 4)),
    ],
    "instructor/02": [("By 2 in: takes the name 2x4", (GIVEN,))],
    "instructor/03": [
        ("25 mm foam typed as 1", (GIVEN, GIVEN)),
        ("a panel gap of 1/16 or one of 3/4", (GIVEN, GIVEN)),
    ],
    "instructor/04": [("Use 1/32 here", (Fraction(1, 32),))],
    "instructor/05": [
        ("The rim is 18 in wide overall and studs are 1 1/2. How long is the front? | 15 in | 18:",
         (GIVEN, STUD, 18 - 2 * STUD, 18)),
        ("16 1/2: one stud only. 14: the name 2x4", (18 - STUD, 18 - 2 * 2)),
        ("The overhang is 2 in. Is the spacer 2 in wide", (INCH["overhang"], INCH["overhang"])),
        ('make the skirt\'s width 2 in "What if"', (GIVEN,)),
    ],
    "instructor/07": [
        ("Ten frames at 1 3/8 and 1 in of play: how wide inside? | 14 3/4 | 13 3/4:",
         (INCH["frame_spacing"], INCH["frame_play"], TEN_FRAMES["box.inside_width"],
          10 * INCH["frame_spacing"])),
        ("11 3/8: took ten inches", (10 + L("3/8") + 1,)),
        ("14 3/4 inside, boards of 3/4: how wide outside? | 16 1/4 | 15 1/2:",
         (TEN_FRAMES["box.inside_width"], INCH["board_thickness"], TEN_FRAMES["box_width"],
          TEN_FRAMES["box.inside_width"] + INCH["board_thickness"])),
        ("13 1/4: took off", (TEN_FRAMES["box.inside_width"] - 2 * INCH["board_thickness"],)),
        ("Foam of 1 in and a skin of 1/2: how much wider is the hive? | 3 in | 1 1/2:",
         (FOAM, SKIN, 2 * (FOAM + SKIN), FOAM + SKIN)),
        ("Foam of 1 in, a skin of 1/2 in, a stud of 1 1/2 in", (FOAM, SKIN, FOAM + SKIN)),
    ],
    "instructor/08": [
        ("A front rail 1/4 in too long and one 1/4 in too short", (GIVEN, GIVEN)),
        ("Gap 1/4; side rail short, front stud thick, panel long, each by 1/16",
         (INCH["panel_gap"], GIVEN)),
        ("The hive was measured 1/16 too long", (GIVEN,)),
        ('"It takes 1/16 off"', (GIVEN,)),
        ("errors of 3 and 4 by chance come to 5, not 7", (GIVEN, GIVEN, IN_LEAD, 3 + 4)),
    ],
    "14": [
        ("a way, 3/8 in high and 3 in wide (9 by 75 mm)", WINTER_WAY),
    ],
    "instructor/14": [
        (("An entrance strip 14 1/4 long, a way of 3 in its middle: how long is each side? | 5 5/8 "
          "in | 11 1/4 in: did not share it. 8 5/8 in: added the way"),
         (GIVEN, GIVEN, (L("14 1/4") - 3) / 2, L("14 1/4") - 3, (L("14 1/4") + 3) / 2)),
    ],
    "12": [("Here the wall has a sleeve with 25 mm of foam", (METRIC["foam_thickness"] / MM,))],
    "exercises": [
        (("[An inch|10 mm] of foam has R [5|0.347], of board R [1.2|0.083], of skin R "
          "[1.1|0.077]"), (10, *chain.from_iterable(zip(R_INCH, R_10_MM, strict=True)))),
        ("[0.7|0.13] inside, [0.2|0.04] outside",
         tuple(chain.from_iterable(zip(R_FILMS, FILMS, strict=True)))),
        ("thickness[|, in steps of 10 mm,] times its R for [an inch|10 mm]", (10, 10)),
        ("is foam of R 5 for", R_INCH[:1]),
        ("a strip of wood stands there, of R 1.", (GIVEN,)),
        ("its [1 in|100 mm] mark, so it says [an inch|100 mm] more", (GIVEN, 100, 100)),
        ("its [1 in|100 mm] mark", (GIVEN, GIVEN)),
        ("at the [1 in|100 mm] mark", (GIVEN, GIVEN)),
        ("100 mm mark, so it says 100 mm more", (GIVEN, 100)),
        ("100 mm mark", (GIVEN,)),
        ("marks are 1 mm apart", (1,)),
        ("More than 1/8 in between readings", (SQUARE_ENOUGH,)),
        ("1/8 in of difference is square enough", (SQUARE_ENOUGH,)),
        ("Up to 1/8 in", (SQUARE_ENOUGH,)), ("An inch is 25.4 mm, not 25", (1 / MM, GIVEN)),
        ("Divide the mm by 25.4", (1 / MM,)), ("take each of them 25.4 times", (1 / MM,)),
        ("Then take it 25.4 times", (1 / MM,)),
        ("less than 1/4 in of rail", (RULES["sleeve.box_bearing"].low,)),
        ("little more than 5/32 in", (RULES["bottom_board.widest_gap_at_screen"].high,)),
    ],
    "glossary": [
        ("about 1/4 to 3/8 in high", BEE_SPACE),
        ("corners that are not 90 degrees", (90,)),
        ("corners of 90 degrees", (90,)),
    ],
}  # fmt: skip

# Figures that stand in words.
IN_WORDS: Final = [
    ("02", "Two screws twice as long as the stud is thick", INCH["frame_screw"] == 2 * STUD),
    ("05", "keep them a hand apart", 2 <= INCH["screw_offset"] <= 4),
    ("04", "a longer one comes out on the other side",
     INCH["long_brad"] > 2 * INCH["strip_narrow"] + INCH["mesh_thickness"]),
    ("06", "goes on into the other sheet and lifts it",
     INCH["sheet_thickness"] + INCH["inner_rim_height"] < L("3/4")),
    ("instructor/05", "the skirt hardly laps the box",
     0 < INCH["roof_lap"] - DEMO["inner_cover.overall_height"] < RULES["roof.skirt_lap"].low),
    ("07", "it takes the usual ten", INCH["frames"] == 10),
    ("08", "the computer makes ten thousand hives", HIVES == 10_000),
    ("instructor/08", "three sixteenths of four", INCH["panel_gap"] == 4 * SIXTEENTH),
    ("instructor/04", "Three times: the upper runner and both layers",
     changed_by("strip_narrow", "bottom_board.stack_height") == 3),
]  # fmt: skip

FIGURE = re.compile(r"(?<![\w.])(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)(?!\w)")
# What is no figure of the prose: links to lessons, headings, numbers of lessons and of points, and
# times, which test_words.py adds up.
NO_FIGURE = re.compile(
    r"\[[^\]]*\]\([^)]*\.ipynb\)|^#+ .*$|lessons? \d\d(?: to \d\d)?(?:, \d\d)*(?: and \d\d)*"
    r"|^\d\. |\b\d+ minutes\b|^\| (?:\d\d:\d\d \| )?\d+ \|",
    re.IGNORECASE | re.MULTILINE,
)
LATER = ("09", "10", "11")  # lessons whose figures are checked with their plans
CHECKED = {"exercises", *(n for n in PAGES if not n.rpartition("/")[2].startswith(LATER))}
IN_EXERCISES = " ".join(
    f"{e.prompt} {e.question} {e.rule} {e.almost} {e.why}"
    for e in EXERCISES.values()
    if e.lesson not in LATER
)


def prose(page: str) -> str:
    """Return what a page says, without marks, times and numbers of lessons, on one line."""
    text = IN_EXERCISES if page == "exercises" else NO_FIGURE.sub(" ", text_of(PAGES[page]))
    text = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text)
    return " ".join(re.sub(r"[*`]", "", text).split())


def short(page: str) -> str:
    """Return a page's key in the table: "03", "instructor/03", "glossary"."""
    return re.sub(r"(\d\d)-.*", r"\1", page)


def told(figure: str) -> Fraction:
    """Return what a figure in a sentence comes to, a top-heavy fraction too."""
    return sum((Fraction(part) for part in figure.split()), Fraction(0))


@each(sorted(CHECKED))
def test_every_figure_of_a_page_is_in_the_table(page):
    text = prose(page)
    for fragment, _ in CLAIMS.get(short(page), []):
        text = text.replace(fragment, " … ")
    left = [text[max(0, f.start() - 60) : f.end() + 30] for f in FIGURE.finditer(text)]
    assert left == [], f'work out each of these figures in CLAIMS["{short(page)}"]'


@each([(page, *claim) for page, claims in CLAIMS.items() for claim in claims])
def test_a_figure_is_what_it_comes_to(claim):
    page, fragment, expected = claim
    (name,) = [n for n in CHECKED if short(n) == page]
    assert fragment in prose(name)
    figures = [told(f) for f in FIGURE.findall(fragment)]
    assert len(figures) == len(expected)
    assert [f for f, e in zip(figures, expected, strict=True) if e is not GIVEN and f != e] == []


@each(IN_WORDS)
def test_a_figure_in_words_is_what_it_comes_to(claim):
    page, fragment, holds = claim
    (name,) = [n for n in CHECKED if short(n) == page]
    assert fragment in prose(name)
    assert holds


def test_a_figure_without_a_claim_would_be_seen():
    assert FIGURE.findall("23 1/8 by 0.034, a 2x4, .58, 7") == ["23 1/8", "0.034", "7"]
    assert prose("glossary").count("90 degrees") == 2
