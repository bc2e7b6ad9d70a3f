"""Exercises of lesson 05: rim, deck, cover, foam, skirt and screw line of the roof.

All numbers are invented.
"""

from typing import Final

from hivecalc.exercise.record import Exercise

TITLE: Final = "The roof"

RIM_LENGTH, RIM_WIDTH, SIDE, FRONT = (
    f"roof.{n}" for n in ("rim_length", "rim_width", "rim_side_length", "rim_front_length")
)
DECK_LENGTH, DECK_WIDTH, COVER_LENGTH, COVER_WIDTH = (
    f"roof.{n}" for n in ("deck_length", "deck_width", "cover_length", "cover_width")
)
FOAM, SKIRT_SIDE, LAP = (f"roof.{n}" for n in ("roof_panel_length", "skirt_side_length", "lap"))
STANDS_OUT, LINE, BACK_LINE = (
    f"roof.{n}" for n in ("deck_overhang", "deck_screw_line", "deck_back_screw_line")
)
UNDER_ROOF = "inner_rim_height 3/8, sheet_thickness 1/4"

EXERCISES: Final = (
    Exercise(
        "05-01", "derive", RIM_LENGTH,
        "The rim of Ines's roof goes over her hive with room to spare. How long is it over all?",
        "hive_length 23 1/8, hive_width 17 3/8, cap_clearance 3/8",
        "hive_length 21 3/4, hive_width 16 1/8, cap_clearance 7/16",
        "clearance_doubled clearance_forgotten size_taken_off length_for_width",
        stage="worked", picture="roof",
        own=True,
    ),
    Exercise(
        "05-02", "derive", FRONT,
        "The front of the rim stands between its two sides. How long does Tomas cut it?",
        "hive_width 17 3/8, cap_clearance 1/2, stud_thickness 1 1/2",
        "hive_width 15 3/4, cap_clearance 3/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten thickness_added", stage="last step", own=True,
    ),
    Exercise(
        "05-03", "derive", COVER_LENGTH,
        "The waterproof cover stands out beyond the deck. How long is it on Mira's roof?",
        "hive_length 22 5/8, overhang 2, cover_lip 3/8",
        "hive_length 20 1/4, overhang 2 1/2, cover_lip 5/8",
        "one_side_only size_left_out size_taken_off", stage="hard step", own=True,
    ),
    Exercise(
        "05-04", "derive", DECK_WIDTH,
        "The deck stands out beyond Jonas's hive on both sides. How wide is it?",
        "hive_length 22 7/8, hive_width 16 3/8, overhang 2 1/4",
        "hive_length 20 1/8, hive_width 18 5/8, overhang 1 3/4",
        "one_side_only size_left_out length_for_width", own=True,
    ),
    Exercise(
        "05-05", "derive", FOAM,
        "The foam in the roof lies between the front, one stud thick, and the back, which is "
        "ripped thinner. How long is it?",
        "hive_length 23 1/8, cap_clearance 1/2, stud_thickness 1 1/2, rim_back_thickness 1",
        "hive_length 21 1/2, cap_clearance 3/8, stud_thickness 1 9/16, rim_back_thickness 7/8",
        "overall_size thickness_added nominal_size", own=True,
        question="How thick is the rim in front, how thick at the back, and what is left between?",
    ),
    Exercise(
        "05-06", "derive", SKIRT_SIDE,
        "The sides of the skirt cover the edges of its ends. How long is one side?",
        "hive_length 23 1/8, cap_clearance 1/2, skirt_thickness 3/8",
        "hive_length 20 7/8, cap_clearance 1/2, skirt_thickness 7/16",
        "thickness_once thickness_forgotten size_taken_off", own=True,
    ),
    Exercise(
        "05-07", "derive", LAP,
        "The rim stands on the inner cover, and the skirt hangs from the rim's low end past both. "
        "How far does it hang down over Lena's box?",
        f"skirt_width 3 1/4, rim_low_height 1 3/8, {UNDER_ROOF}",
        f"skirt_width 3 5/8, rim_low_height 1 1/4, {UNDER_ROOF}",
        "size_left_out size_added", own=True,
        question="What does the skirt hang past, from its top down, before it reaches the box?",
    ),
    Exercise(
        "05-08", "derive", STANDS_OUT,
        "To set the deck evenly on the rim, Pavel needs a spacer as wide as the deck stands out "
        "beyond the rim. How wide is that?",
        "overhang 2 1/8, cap_clearance 3/8", "overhang 2 5/8, cap_clearance 1/2",
        "clearance_forgotten clearance_doubled size_added", own=True,
    ),
    Exercise(
        "05-09", "derive", LINE,
        "The screws should land in the middle of the rail below. How far from the deck's edge is "
        "the line for them?",
        "overhang 2, cap_clearance 1/2, stud_thickness 1 1/2, stud_width 3 1/2",
        "overhang 2 1/4, cap_clearance 1/2, stud_thickness 1 5/8, stud_width 3 1/2",
        "half_forgotten nominal_size thickness_forgotten", own=True,
    ),
    Exercise(
        "05-10", "derive", "roof.slope",
        "How much does the roof fall for each inch of its length? Give it as a decimal.",
        "hive_length 23 1/2, cap_clearance 1/2, stud_width 3 1/2, rim_low_height 1 1/2",
        "hive_length 19 3/4, cap_clearance 1/4, stud_width 3 1/2, rim_low_height 1",
        "upside_down size_left_out", own=True,
    ),
    Exercise(
        "05-11", "find", FRONT,
        "Noor cut the front as long as the rim is wide, less one stud: “{wrong}”. How long must it "
        "be?",
        "hive_width 16 7/8, cap_clearance 1/2, stud_thickness 1 1/2",
        "hive_width 18 1/4, cap_clearance 3/8, stud_thickness 1 9/16",
        "thickness_once thickness_forgotten",
    ),
    Exercise(
        "05-12", "find", DECK_LENGTH,
        "Rosa's deck has an overhang at one end only: “{wrong}”. How long should it be?",
        "hive_length 23 3/8, overhang 2", "hive_length 21 1/8, overhang 2 3/8",
        "one_side_only size_left_out",
    ),
    Exercise(
        "05-13", "find", STANDS_OUT,
        "Emil made his spacer like this: “{wrong}”. It falls in between. How wide should it be?",
        "overhang 2 3/8, cap_clearance 1/2", "overhang 1 7/8, cap_clearance 3/8",
        "clearance_doubled clearance_forgotten",
        question="How much of the clearance is on one side of the hive?",
    ),
    Exercise(
        "05-14", "choose", COVER_WIDTH,
        "The roll of waterproof sheet is marked at four places. Where does Ines cut, so that the "
        "cover stands out on both sides?",
        "hive_width 17 3/8, overhang 2, cover_lip 1/2",
        "hive_width 15 7/8, overhang 1 3/4, cover_lip 5/8",
        "one_side_only size_left_out size_taken_off", own=True,
    ),
    Exercise(
        "05-15", "predict", DECK_WIDTH,
        "Tomas wants an overhang of {change} instead of {overhang}. What happens to the deck's "
        "width?",
        "hive_width 17 3/8, overhang 2", "hive_width 16 1/8, overhang 2 1/4",
        "one_side_only", by="overhang 2 1/2",
    ),
    Exercise(
        "05-16", "predict", f"{DECK_LENGTH} {RIM_LENGTH} {LAP}",
        "The cap clearance grows from {cap_clearance} to {change}. Which of these changes?",
        "cap_clearance 1/2", "cap_clearance 3/8",
        by="most cap_clearance 5/8",
        question="Which of these is counted from the hive, and which goes over it?",
        rule="The clearance is room between the hive and what goes over it.",
        almost="Two of the three know nothing of the room round the hive.",
        why="Only the rim goes over the hive. The deck's overhang is counted from the hive itself.",
    ),
    Exercise(
        "05-17", "order", f"{DECK_LENGTH} {COVER_LENGTH} {SIDE}",
        "Three pieces of this roof, each from its own stock. Which is longest, which next?",
        "hive_length 23 1/8, cap_clearance 1/2, overhang 2, cover_lip 1/2",
        "hive_length 20 3/8, cap_clearance 3/8, overhang 1 1/2, cover_lip 3/8",
        by="longest first",
        question="Which of them stands out beyond which?",
        rule="Each layer of a roof stands out beyond the one below it.",
        why="Rain drips from the cover, clear of the deck, and from the deck clear of the rim.",
    ),
    Exercise(
        "05-18", "find", "skirt_width",
        "Mira's skirt would end level with the top of the box: “{wrong}”. How wide must it be?",
        f"rim_low_height 1 1/2, roof_lap 3/4, {UNDER_ROOF}",
        "rim_low_height 1 1/4, roof_lap 1 1/8, inner_rim_height 5/16, sheet_thickness 1/4",
        "size_left_out",
        question="What does the skirt hang past, and how far down over the box is it to reach?",
    ),
    Exercise(
        "05-19", "derive", BACK_LINE,
        "At the back the rim is ripped thin. How far from the deck's back edge is the line for the "
        "screws there?",
        "overhang 2, cap_clearance 1/2, rim_back_thickness 1, stud_thickness 1 1/2",
        "overhang 2 1/4, cap_clearance 1/2, rim_back_thickness 7/8, stud_thickness 1 1/2",
        "half_forgotten thickness_forgotten", own=True,
        question="What does the line go past first, and in the middle of which rail does it lie?",
    ),
    Exercise(
        "05-20", "derive", DECK_WIDTH,
        "Emil works in mm. How wide is the deck of his roof, in mm?",
        "hive_length 530, hive_width 430, overhang 50",
        "hive_length 515, hive_width 405, overhang 45",
        "one_side_only size_left_out length_for_width", units="mm",
    ),
)  # fmt: skip
