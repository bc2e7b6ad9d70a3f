"""What students answer, as the instructor's notes list it: the judge knows each answer by name.

The notes are read row by row. Every usual wrong answer there stands below too, with a size to judge
or as one that is given in words; an answer without an entry fails, and so does an entry without its
answer. Sizes are those of the demo hive (23 1/8 by 17 3/8 in, studs 1 1/2 by 3 1/2) and sums done
on paper beside the line.
"""

import re
from dataclasses import dataclass
from pathlib import Path

from hivecalc.exercise.record import question_of, sum_of
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.judging import Verdict, verdict
from hivecalc.length import Units, length_from_text
from tests.each import each
from tests.jupyter_rig import ROOT

NOTES = sorted((ROOT / "workbook" / "instructor").glob("[01]*.md"))
ROW = re.compile(r"^\| (?P<asks>[^|]+) \| (?P<right>[^|]+) \| (?P<wrong>[^|]+) \|$", re.MULTILINE)
WRONG = re.compile(r"(?:^|[.?] )((?:[^.:?]|\.(?! ))+): ")
DEMO = demo_hive()
FRAMES = hive_from_text("chosen = {frames = 10}")
"""A box of ten frames in its sleeve: 14 3/4 inside, 16 1/4 by 19 7/8 outside, foam 1, skin 1/2."""
WORDS = ()
"""An answer in words, or one of some to choose from: no length that could be judged."""


@dataclass(frozen=True)
class Answered:
    """An answer to a dimension of a hive, or to a sum, and the slip that gives it."""

    asks: str
    answer: str
    slip: str
    hive: Hive = DEMO
    sizes: str = ""
    on_tape: bool = False

    @property
    def verdict(self) -> Verdict:
        if " = " not in self.asks:
            return verdict(self.hive, self.asks, self.answer)
        asked = sum_of(self.asks)
        given = (size.split(" ", 1) for size in self.sizes.split(", "))
        values = {name: length_from_text(text) for name, text in given}
        values[asked.name] = asked.function(*(values[n] for n in asked.inputs))
        units: Units = "mm" if "mm" in self.sizes else "inch"
        return question_of(asked, values, units, on_tape=self.on_tape).verdict(self.answer)


def on_tape(answer: str, slip: str) -> Answered:
    return Answered("reading = mark", answer, slip, sizes="mark 17 7/16", on_tape=True)


def added(answer: str, slip: str) -> Answered:
    return Answered("both = one + other", answer, slip, sizes="one 5 5/8, other 2 1/2")


def taken_off(answer: str, slip: str) -> Answered:
    return Answered("left = board - off", answer, slip, sizes="board 23 1/8, off 1 1/2")


def in_mm(asks: str, answer: str, slip: str) -> Answered:
    return Answered(f"whole = {asks}", answer, slip, sizes="a 447 mm, b 441 mm, c 38 mm")


def sawn(answer: str, slip: str) -> Answered:
    return Answered("left = entrance - kerf", answer, slip, sizes="entrance 3/4, kerf 1/8")


def beside(answer: str, slip: str) -> Answered:
    return Answered("each_side = (strip - way) / 2", answer, slip, sizes="strip 14 1/4, way 3")


def frame(size: str, answer: str, slip: str, hive: Hive = DEMO) -> Answered:
    return Answered(f"bottom_board.{size}", answer, slip, hive)


def roof(size: str, answer: str, slip: str, hive: Hive = DEMO) -> Answered:
    return Answered(f"roof.{size}", answer, slip, hive)


def cover(size: str, answer: str, slip: str) -> Answered:
    return Answered(f"inner_cover.{size}", answer, slip)


def box(size: str, answer: str, slip: str) -> Answered:
    return Answered(size, answer, slip, FRAMES)


LOOSE = changed(DEMO, {"panel_gap": "9/32"})  # a panel 14 3/32 wide
RIM_OF_18 = changed(DEMO, {"hive_width": "17 1/2"})

KNOWN: dict[str, Answered | tuple[()]] = {
    # 00
    "17 3/16": on_tape("17 3/16", "long_mark_dropped"),
    "17 5/8": on_tape("17 5/8", "eighths_for_sixteenths"),
    "17 9/16": on_tape("17 9/16", "longer_marks_left_out"),
    '23 1/16, "the middle one"': WORDS, '23, "to be safe"': WORDS,
    "Also ask which is more, 1/8 or 1/16": WORDS, '"Half an inch"': WORDS,
    '"A quarter, because it is shared"': WORDS, '"It is broken"': WORDS,
    # 01
    '9/16, "9 and 16 are more"': WORDS, "7 1/8": added("7 1/8", "carry_dropped"),
    "7 6/10": added("7 6/10", "tops_and_bottoms"), "Ask": WORDS,
    "22 5/8": taken_off("22 5/8", "inch_not_lowered"),
    "22 3/8": taken_off("22 3/8", "smaller_from_larger"),
    "21 7/8": taken_off("21 7/8", "borrowed_ten"),
    "475": in_mm("a + c", "475", "ten_not_carried"),
    "413": in_mm("b - c", "413", "ten_not_lowered"),
    "417": in_mm("b - c", "417", "smaller_digit_from_larger"),
    '"Yes, 10 is more"': WORDS, '"The same"': WORDS,
    # 02: side rail 21 5/8, front rail 14 3/8 by 2 3/4
    "By two": frame("side_rail_length", "20 1/8", "thickness_twice"),
    "Not at all": frame("side_rail_length", "23 1/8", "thickness_forgotten"),
    "By 2 in": frame("side_rail_length", "21 1/8", "nominal_size"),
    "One": frame("front_rail_length", "15 7/8", "thickness_once"),
    "Thickness less the entrance": frame("front_rail_width", "3/4", "other_side"),
    "The full width": frame("front_rail_width", "3 1/2", "size_left_out"),
    '"Because it comes off"': WORDS, '"None" or "all"': WORDS,
    # 03: opening 20 1/8 by 14 3/8, upper front runner 12 3/8
    'One, "as with the side rail"': frame("opening_length", "21 5/8", "thickness_once"),
    '"By two"': frame("panel_width", "13 7/8", "gap_each_side"),
    '"Not at all"': WORDS, "All of the gap": WORDS, '"For swelling"': WORDS,
    'To the nearest, "that is more exact"': frame(
        "panel_width", "14 1/8", "rounded_wrong_way", LOOSE
    ),
    '"The gap is larger above"': frame("upper_front_runner_length", "12 3/4", "another_gap"),
    '"It is the narrow side"': frame("upper_front_runner_length", "12 7/8", "other_side"),
    # 04: screen 14 1/4, end strip 12 3/4, stack 3.409, front stop 0.2785
    'Larger, "it moves more often"': WORDS,
    "The narrow side": frame("screen_end_strip_length", "13 1/4", "other_side"),
    "Once": frame("screen_end_strip_length", "13 1/2", "thickness_once"),
    "Twice": frame("stack_height", "2.909", "size_left_out"),
    "Four times": frame("stack_height", "3.159", "other_side"),
    '"Nothing"': frame("stack_height", "3.375", "size_left_out"),  # the mesh; the ease below
    '"As high as a strip"': WORDS,
    "A little too high": Answered("front_stop_height", "5/16", "size_left_out"),
    '"The front rail, that is the entrance"': frame("way_in", "3/4", "wrong_one_of_two"),
    # 05: rim 23 5/8 by 17 7/8, deck 21 3/8, overhang beyond the rim 1 3/4, screw lines 2 1/2 and 3
    "The same": roof("rim_width", "17 3/8", "clearance_forgotten"),
    "Bigger by the clearance at each side": roof("rim_width", "18 3/8", "clearance_doubled"),
    "18": roof("rim_front_length", "18", "thickness_forgotten", RIM_OF_18),
    "16 1/2": roof("rim_front_length", "16 1/2", "thickness_once", RIM_OF_18),
    "14": roof("rim_front_length", "14", "nominal_size", RIM_OF_18),
    "05 Once": roof("deck_width", "19 3/8", "one_side_only"),
    "From the rim instead of the hive": roof("deck_width", "21 7/8", "from_the_rim"),
    "Yes": roof("deck_overhang", "2", "clearance_forgotten"),
    "Half a stud only": roof("deck_screw_line", "3/4", "size_left_out"),
    "From the cover's edge without the lip": roof("cover_screw_line", "2 1/2", "size_left_out"),
    '"The rim"': Answered("skirt_width", "2 1/2", "size_left_out"),
    '"The skirt"': WORDS,
    '05 "By one"': roof("skirt_side_length", "24 1/8", "thickness_once"),
    # 06: sheet 17 3/8, rim back 14 3/8, a front piece 6 3/16, height 7/8
    "A stud smaller": cover("sheet_width", "15 7/8", "nothing_comes_off"),
    "Bigger by the cap clearance": cover("sheet_width", "17 7/8", "as_for_the_roof"),
    "06 One": cover("rim_back_length", "15 7/8", "thickness_once"),
    "The rim height instead": cover("rim_back_length", "16 5/8", "other_side"),
    'Less two notches, "there are two pieces"': cover("rim_front_length", "5 3/16", "notch_twice"),
    "Both together": cover("rim_front_length", "12 3/8", "both_given"),
    '"Through the still air"': WORDS,
    "The rim": cover("overall_height", "1", "other_one_doubled"),
    '"Use it as a way"': WORDS,
    # 07
    "13 3/4": box("box.inside_width", "13 3/4", "gap_forgotten"),
    "11 3/8": box("box.inside_width", "11 3/8", "multiplied_one_part"),
    'Longer, "it must fit in"': WORDS,
    "15 1/2": box("box_width", "15 1/2", "thickness_once"),
    "13 1/4": box("box_width", "13 1/4", "size_taken_off"),
    "1 1/2": box("hive_width", "17 3/4", "thickness_once"),  # 16 1/4 + 1 1/2
    '"The rails"': WORDS,
    '"One bee space"': box("box.space_between", "5/16", "size_left_out"),
    '"By once"': box("sleeve.skin_side_length", "20 7/8", "thickness_once"),
    # 08 to 11: what may be done, bought, planned and set
    '"Both, glue fills it"': WORDS, '"The short one with a shim"': WORDS,
    "The other way round": WORDS, '"Never, it cancels"': WORDS, '"Yes"': WORDS,
    '"Some are more, some less"': WORDS, '"It takes 1/16 off"': WORDS,
    '"A rail is too long"': WORDS, '"Yes, 16 is more than 15"': WORDS,
    '"Exactly twelve times"': WORDS, '"Stronger"': WORDS, '"When an inch of it is cheaper"': WORDS,
    '"Eight"': WORDS, '"Six"': WORDS, '"Somebody clever"': WORDS,
    '"3/4 in"': sawn("3/4", "size_left_out"), '"7/8 in"': sawn("7/8", "size_added"),
    '"Yes, its size is the same"': WORDS, '"Ten"': WORDS,
    '"The foam\'s"': WORDS,  # sums of R: judged in tests/test_warmth_lessons.py
    "A tiny number": WORDS, "A little less": WORDS, '"On the roof, since warm air rises"': WORDS,
    '"Along, since that is longest"': WORDS, '"Larger, since wood shrinks"': WORDS,
    '"2 7/8 in"': WORDS,  # where the fence is set: nothing is worked out
    '"2 5/8 in"': WORDS, '"It is easier"': WORDS,
    "Any number of degrees": roof("slope", "4.84", "in_degrees"),
    # 14: a strip's two sides beside its way
    "11 1/4 in": beside("11 1/4", "both_given"), "8 5/8 in": beside("8 5/8", "size_added"),
    '"It is not, it comes last"': WORDS, '"The other two corners"': WORDS,
    '"When it is dry"': WORDS, '"The plan"': WORDS, '"Everywhere, it lasts longer"': WORDS,
    # the last lesson asks for no size
    '"Lots of wood"': WORDS, '"Now, I change the foam later"': WORDS,
    '"Nothing, it was right"': WORDS, "Reads the figure aloud": WORDS,
}  # fmt: skip


def listed(note: Path) -> list[str]:
    """Return the usual wrong answers that a note lists, each by its first words."""
    text = note.read_text(encoding="utf-8").partition("## Ask")[2].partition("\n## ")[0]
    rows = list(ROW.finditer(text))
    cells = [r["wrong"] for r in rows if not r["asks"].startswith(("ask", "---"))]
    return [found.strip() for cell in cells for found in WRONG.findall(cell)]


def entry(note: Path, said: str) -> str:
    """Return the key of an answer: with its lesson before it where another lesson has the same."""
    apart = f"{note.name[:2]} {said}"
    return apart if apart in KNOWN else said


def test_every_answer_that_the_notes_list_has_an_entry_and_no_entry_is_left_over():
    keys = [entry(note, said) for note in NOTES for said in listed(note)]
    assert len(keys) > 70
    assert sorted(set(keys) - KNOWN.keys()) == [], "give each an entry in KNOWN, WORDS if no size"
    assert sorted(KNOWN.keys() - set(keys)) == [], "no notes list these: take them out of KNOWN"


@each([said for said, known in KNOWN.items() if known])
def test_the_judge_names_the_slip(said):
    known = KNOWN[said]
    assert isinstance(known, Answered)
    found = known.verdict
    assert found.verdict == "slip", found.message
    assert known.slip in [slip.name for slip in found.slips]


def test_both_things_forgotten_in_the_stack_are_known():
    found = verdict(DEMO, "bottom_board.slot_height", "1")  # 1 1/8 without its ease
    assert found.slips[0].name == "gap_forgotten"
