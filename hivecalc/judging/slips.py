"""The slips: what gives a wrong answer, where to look again, how to practise.

A slip says what would give a value, never what a learner thought. How each one is made from the
right rule, sum or reading stands in `wrong_rules` and `wrong_figures`, under its name.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.derivation import title
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Units, in_units
from hivecalc.part import COMMON

Family: TypeAlias = Literal["rule", "sums", "tape", "writing"]
Form: TypeAlias = Literal["bare", "decimal", "inch", "metric", "feet", "spaceless"]
"""How an answer is written: without a unit, without a fraction, in inches, in mm, cm or m, with
feet, as a fraction without a whole number before it.
"""

LINE: Final = "is there a line like"
SLIP_MESSAGE: Final = "This is what you would get if"
READ: Final = "did you read it off a tape"
COUNTS: Final = frozenset(n for n, known in MEASUREMENTS.items() if known.kind == "count")
"""Measurements that are no lengths: how many there are of something."""
PLAIN: Final = {"strip_narrow": "strip's narrow side", "strip_wide": "strip's wide side"}
_WHICH_SIZE: Final = re.compile(" (length|width|height|thickness)$")


def plain(name: str) -> str:
    """The words for a size: its title, or the trade's way to say it."""
    return PLAIN.get(name) or title(name)


@dataclass(frozen=True)
class Slip:
    """One way to go wrong.

    gives completes the sentence "This is what you would get if …"; {what} and {other} in it are
    filled by the size it happened with and by what came in its place; {step} and {piece} in a
    question by the size that is asked for and by what it is a size of. weight ranks slips of one
    family that give one value: the likelier has the larger; a judgement, no published figure.
    practice is an exercise, its figures as [12 in|300 mm], and task the sum in it that a field can
    ask. carries says whether somebody would work
    on from such a value, so that it shows in later steps. trace is a question that tells it from
    other slips, where no line of working can.
    """

    name: str
    weight: int
    gives: str
    question: str
    practice: str
    family: Family = "rule"
    source: str = COMMON
    carries: bool = True
    trace: str = ""
    task: str = ""

    def to_practise(self, units: Units = "inch") -> str:
        """The exercise for it, with figures in these units."""
        return in_units(self.practice.replace("{task}", self.task), units)


@dataclass(frozen=True)
class Wrong:
    """The wrong answer that a slip gives at one step, and the working that leads to it.

    step is a dimension's full name; value is in inches (a plain number for a ratio). as_it_is names
    the size that was handed in as it is, where nothing was worked out. forms is how an answer has
    to be written for the slip to be possible at all: nobody writes mm for cm in a fraction.
    """

    slip: Slip
    step: str
    value: Fraction
    what: str = ""
    other: str = ""
    as_it_is: str = ""
    forms: frozenset[Form] = frozenset()
    _working: Callable[[], str] = field(default=str, repr=False, compare=False)

    @property
    def working(self) -> str:
        """The line of working with the slip in it, as it may stand on a learner's paper."""
        return self._working()

    @property
    def trace(self) -> str:
        """A question whose answer tells this slip from others that give the same value.

        The working of a slip on the tape or in writing is not shown: the right value stands in it.
        """
        if self.slip.trace:
            return self.slip.trace
        if self.as_it_is:
            return f"did you put down the {self.as_it_is} just as it is"
        return f"{LINE} “{title(self.step)}: {self.working}”"

    @property
    def gives(self) -> str:
        """What would give this value: the end of a sentence that begins "if"."""
        return self._filled(self.slip.gives)

    @property
    def sentence(self) -> str:
        """One sentence for the learner: this is what you would get if …."""
        return f"{SLIP_MESSAGE} {self.gives}."

    @property
    def question(self) -> str:
        """One question that sends the learner to look again."""
        return self._filled(self.slip.question)

    def _filled(self, text: str) -> str:
        step = title(self.step)
        piece = _WHICH_SIZE.sub("", step)
        return text.format(what=self.what, other=self.other, step=step, piece=piece)


# ── where the published ones are from ─────────────────────────────────────────────────────────

BROWN_BURTON: Final = (
    "J. S. Brown, R. R. Burton, Diagnostic models for procedural bugs in basic mathematical "
    "skills, Cognitive Science 2 (1978), 155-192, bug “{}”; from memory, not checked against print"
)
TATSUOKA: Final = (
    "K. K. Tatsuoka, Analysis of errors in fraction addition and subtraction problems, University "
    "of Illinois (1984), borrowing; from memory, not checked against print"
)
COX: Final = (
    "L. S. Cox, Systematic errors in the four vertical algorithms in normal and handicapped "
    "populations, Journal for Research in Mathematics Education 6 (1975), 202-220, carrying; from "
    "memory, not checked against print"
)
CARPENTER: Final = (
    "T. P. Carpenter and others, Results from the Second Mathematics Assessment of the National "
    "Assessment of Educational Progress (1981), adding fractions; from memory, not checked against "
    "print"
)

# ── the slips, by family ──────────────────────────────────────────────────────────────────────

_RULE: Final = (
    Slip("thickness_once", 10, "the {what} were counted once instead of twice",
        "Go through the drawing along the {step}, from outside to outside: how many pieces of that "
        "thickness do you meet?",
        "A case is [30 in|760 mm] wide outside. Its two sides are [3/4 in|18 mm] thick. A shelf "
        "stands between them: how long is it?"),
    Slip("thickness_twice", 6, "the {what} were counted twice instead of once",
        "At which end of the {piece} does another piece take up room, and is there one at the "
        "other end as well?",
        "A drawer is [18 in|450 mm] long outside. Its front, [3/4 in|18 mm] thick, covers the ends "
        "of both sides; at the back the sides run through. How long is a side?"),
    Slip("thickness_forgotten", 7, "the {what} were left out",
        "Which pieces share the room with the {piece}, and where does their thickness stand in "
        "your sum?",
        "A box is [12 in|300 mm] long inside. Its two ends are [1/2 in|12 mm] thick. How long is "
        "it outside?"),
    Slip("thickness_added", 5, "the {what} were added instead of taken off",
        "Does the {piece} stand between those pieces or reach over them? Should it come out longer "
        "or shorter than the size you began with?",
        "A rail stands between two posts, [1 1/2 in|38 mm] thick each. Over the posts the frame is "
        "[40 in|1000 mm] wide. How long is the rail?"),
    Slip("gap_forgotten", 8, "the {what} were left out",
        "What must move or breathe there, and where in your sum is the room for it?",
        "A drawer runs in an opening [15 in|380 mm] wide with a gap of [1/8 in|3 mm] in all. How "
        "wide is it?"),
    Slip("gap_each_side", 8, "the {what} were counted at each side instead of once in all",
        "Is the {what} meant at each side, or for both sides together?",
        "A panel has a gap of [1/4 in|6 mm] in all in an opening of [20 in|500 mm]. How long is "
        "it, and how much of the gap is at each end?"),
    Slip("gap_added", 5, "the {what} were added instead of taken off",
        "Must the {step} be bigger or smaller than the room that it goes into?",
        "A tray goes into an opening of [16 in|400 mm] with a gap of [3/16 in|5 mm] in all. Is it "
        "longer or shorter than [16 in|400 mm], and how long?"),
    Slip("clearance_forgotten", 7, "the {what} were left out",
        "What has to go over or into what, and where in your sum is the room for it?",
        "A lid goes over a tin [9 1/2 in|240 mm] wide with a clearance of [1/8 in|3 mm] in all. "
        "How wide is the lid inside?"),
    Slip("clearance_doubled", 7, "the {what} were counted at each side instead of once in all",
        "Is the {what} meant at each side, or for both sides together?",
        "A lid is [3/8 in|10 mm] wider than its tin, in all. How much room is there on one side?"),
    Slip("one_side_only", 10, "the {what} were counted once only",
        "How often does the {what} come into the {step}: on one side or on both, at one cut or at "
        "two?",
        "A table top reaches [2 in|50 mm] beyond its frame on every side. The frame is [30 in|760 "
        "mm] long. How long is the top?"),
    Slip("half_forgotten", 7, "the whole {what} were taken instead of half of it",
        "Where on that piece should the {step} end: at its far side or in its middle?",
        "A nail goes into the middle of a batten [1 3/4 in|44 mm] wide. How far is it from the "
        "edge?"),
    Slip("size_left_out", 6, "the {what} were left out",
        "Go through all that makes the {step}: is each size of it in your sum?",
        "A stack of three boards, [3/4 in, 1/2 in and 5/8 in|18 mm, 12 mm and 15 mm]: how high is "
        "it?"),
    Slip("size_added", 4, "the {what} were added instead of taken off",
        "Does the {what} make the {step} bigger or smaller?",
        "A strip of [3/4 in|18 mm] is ripped off a board [5 1/2 in|140 mm] wide. How wide is the "
        "board then?"),
    Slip("size_taken_off", 4, "the {what} were taken off instead of added",
        "Does the {what} make the {step} bigger or smaller?",
        "A frame of [20 in|500 mm] gets an edge of [1/2 in|12 mm] on both sides. How wide is it "
        "then?", carries=False),
    Slip("nominal_size", 8,
        "the {what} were {other}, as its name says, instead of what the tape says",
        "What does the tape say across that piece of wood, whatever its name is?",
        "[Two 2x4 stand side by side, each measured 1 1/2 in thick|Two studs sold as 50 mm stand "
        "side by side, each measured 45 mm thick]. How thick are both together?"),
    Slip("other_side", 7, "the {other} were taken instead of the {what}",
        "Which way round does that piece lie there: on its wide side or on its narrow side?",
        "A strip is [1/2 in by 3/4 in|12 mm by 20 mm]. It lies flat. How high does it reach, and "
        "how high if you turn it on edge?"),
    Slip("length_for_width", 7, "the {other} were taken instead of the {what}",
        "Does the {step} run from front to back or from side to side?",
        "A tray is [18 in|450 mm] long and [12 in|300 mm] wide. One strip runs across it: how long "
        "is the strip?"),
    Slip("overall_size", 6,
        "the {what}, which is the size over everything, were given for the piece",
        "Does the {piece} reach from outside to outside, or does it stand between other pieces?",
        "A picture frame is [20 in|500 mm] wide over all and its sides are [2 in|50 mm] wide. How "
        "long is the piece that stands between them?"),
    Slip("step_skipped", 5, "the {what} were given, one step before the end",
        "Is that the {step} already, or is there one more step to do?",
        "An opening is [14 in|360 mm] wide; a door needs [1/4 in|6 mm] less; its rail is [4 in|100 "
        "mm] shorter than the door. How long is the rail? Write down every step."),
    Slip("wrong_one_of_two", 6, "the other one of {what} decided",
        "Two things are in the way there. Which of them decides, and why?",
        "Two sills lie one behind the other, [2 in and 2 3/8 in|50 mm and 60 mm] high. How much is "
        "left below a bar at [3 in|75 mm]?"),
    Slip("upside_down", 6, "the two numbers of the division stood the other way round",
        "Which comes first in “the fall for each inch of length”: the fall or the length?",
        "[A path falls 3 in over 60 in. How much does it fall for each inch?|A path falls 75 mm "
        "over 1500 mm. How much does it fall for each mm?]"),
    Slip("other_thickness", 6, "the {other} were taken where the {what} belongs",
        "Is each of the two pieces there as thick as the other?",
        "A tray is [14 in|360 mm] long outside. Its front is [3/4 in|18 mm] thick, its back [1/2 "
        "in|12 mm]. How long is it inside?"),
    Slip("another_gap", 7, "the {other} were taken instead of the {what}",
        "Which piece moves there, and how much room does that piece have?",
        "A drawer has [1/8 in|3 mm] of room in all and a shelf [1/4 in|6 mm]. The opening is [12 "
        "in|300 mm] wide. How wide is each of them?"),
    Slip("notch_twice", 6, "the {what} were taken off twice",
        "How many openings are there in that side: one for each piece, or one between both?",
        "A fence [10 ft|3 m] long has one gate of [3 ft|1 m]. How much fence is left, both parts "
        "together?"),
    Slip("both_given", 7, "both pieces together were given, and one of them is asked for",
        "Is it one piece or both that the {step} stands for?",
        "A fence [10 ft|3 m] long has a gate of [3 ft|1 m] in its middle. How long is one part of "
        "the fence?"),
    Slip("from_the_rim", 7, "it were counted from the {other} instead of the {what}",
        "From where does it stand out: from the hive or from the rim, which is bigger?",
        "A tin [9 in|230 mm] wide has a lid [9 1/4 in|236 mm] wide. A label stands out [1 in|25 "
        "mm] beyond the tin on both sides. How wide is the label?"),
    Slip("other_one_doubled", 6, "the {other} were counted twice instead of the {what}",
        "Count the layers with a finger: which of them is there twice?",
        "A sandwich of one slice of cheese, [1/4 in|6 mm], between two slices of bread, [1/2 in "
        "each|12 mm each]: how high is it?"),
    Slip("neighbours_rule", 8, "the rule for the {what} were used",
        "What stands at the two ends of the {piece}? Is it the same as for the {what}?",
        "A crate is [20 in|500 mm] long and [14 in|360 mm] wide. Its sides, [3/4 in|18 mm] thick, "
        "run right through, and its ends stand between them. How long is an end?"),
    Slip("wrong_one_covers", 8, "the corner were made the other way round, as for the {what}",
        "Look at the corner: which piece covers the end of the other one?",
        "Four boards [3/4 in|18 mm] thick make a box [12 in|300 mm] square. Two of them cover the "
        "ends of the others. How long are they, and how long are the others?"),
    Slip("nothing_comes_off", 5, "the {what} were taken off",
        "Does any other piece stand at the ends of the {piece}?",
        "A lid lies on a crate and is just as wide. The crate is [12 in|300 mm] wide, its sides "
        "are [3/4 in|18 mm] thick. How wide is the lid?"),
    Slip("as_for_the_roof", 5, "the {what} were added, as for the roof",
        "Does the {piece} go over the hive, or does it lie on it?",
        "A lid that slips over a tin is [1/4 in|6 mm] wider than the tin. A lid that lies on the "
        "tin is just as wide. The tin is [9 in|230 mm] wide: how wide is each lid?"),
    Slip("one_fewer", 6, "the {what} were taken once less than there are {other}",
        "Does each of the {other} take its own room, or only the gaps between them?",
        "Six books, each [1 1/4 in|32 mm] thick, stand in a row. How long is the row?"),
    Slip("not_divided", 6, "the whole fall were given, and not the fall for each inch",
        "Over how many inches does it fall by that much? How much is it for one inch?",
        "[A path falls 3 in over 60 in. How much does it fall for each inch?|A path falls 75 mm "
        "over 1500 mm. How much does it fall for each mm?]"),
    Slip("in_degrees", 4, "the angle were given in degrees",
        "No angle is needed: how many inches does it fall for one inch of its length?",
        "[A board 20 in long is 2 in lower at one end. How much does it fall for each inch?|A "
        "board 500 mm long is 50 mm lower at one end. How much does it fall for each mm?]"),
    Slip("size_as_25_mm", 6, "an inch of the {what} were taken for 25 mm; it is 25.4 mm",
        "How many mm are there in an inch, to the tenth?",
        "Four boards of foam, each 25 mm thick, lie on one another. How much are they short of 4 "
        "in?"),
)  # fmt: skip
_SUMS: Final = (
    Slip("inch_not_lowered", 7,
        "an inch were borrowed for the fraction, and the whole inches were not made one less",
        "You took an inch apart to have enough fraction. How many whole inches are left then?",
        "Work out {task}, and check it by adding 3 5/8 again.",
        source=BROWN_BURTON.format("borrow no decrement"), task="12 1/4 − 3 5/8"),
    Slip("smaller_from_larger", 8,
        "the smaller fraction were taken from the larger one, whichever stood first",
        "Which fraction is to be taken from which? Is there enough of it?",
        "Work out {task}. Count it back on a tape.",
        source=BROWN_BURTON.format("smaller from larger"), task="9 1/8 − 2 3/8"),
    Slip("borrowed_ten", 5,
        "a borrowed inch were taken for ten parts, whatever stands under the line",
        "How many eighths, or how many sixteenths, make a whole inch?",
        "Work out {task}. Write the borrowed inch as sixteenths first.", source=TATSUOKA,
        task="7 1/16 − 4 9/16"),
    Slip("carry_dropped", 6,
        "the two fractions made a whole inch more, and that inch were not carried over",
        "The fractions together make more than an inch: where did that inch go?",
        "Work out {task}. Is it more or less than 7?", source=COX, task="4 5/8 + 2 7/8"),
    Slip("tops_and_bottoms", 5, "the tops were added and the bottoms were added",
        "Half an inch and half an inch: how much is that? Does your way of adding say so?",
        "Work out {task}. Find both marks on a tape.", source=CARPENTER, task="1/4 + 3/8"),
    Slip("halved_bottom", 7,
        "a fraction were halved by halving what stands under the line instead of doubling it",
        "Is half of your fraction smaller than the fraction was?",
        "What is half of 3/4 in? What is half of 5/8 in? Find them on a tape."),
    Slip("multiplied_one_part", 7, "only the whole inches were multiplied, or only the fraction",
        "How much is the fraction, taken that often, and how much are the whole inches?",
        "Work out 2 × 1 1/2, then 10 × 1 3/8. Add it up on the tape."),
    Slip("fraction_dropped", 5, "a fraction were dropped on the way",
        "Is each fraction that you began with in your sum?",
        "Work out {task}. Which fraction is left?", task="12 3/8 − 2 1/4"),
    Slip("ten_not_lowered", 7,
        "a ten were borrowed for the ones, and the tens were not made one less",
        "You took a ten apart to have enough ones. How many tens are left then?",
        "Work out {task}, and check it by adding 38 mm again.",
        source=BROWN_BURTON.format("borrow no decrement"), task="452 mm − 38 mm"),
    Slip("smaller_digit_from_larger", 8,
        "in each column the smaller digit were taken from the larger one, whichever stood first",
        "Which digit is to be taken from which? Are there enough ones?",
        "Work out {task}. Count it back on a tape.",
        source=BROWN_BURTON.format("smaller from larger"), task="531 mm − 76 mm"),
    Slip("ten_not_carried", 6, "a column made ten or more, and that ten were not carried over",
        "The ones together make more than ten: where did that ten go?",
        "Work out {task}, then 2 × 38 mm. Is the first more or less than 400 mm?", source=COX,
        task="387 mm + 45 mm"),
)  # fmt: skip
_TAPE: Final = (
    Slip("one_tick_off", 6, "it were one mark of the tape off, one too far or one too short",
        "Look once more: which mark is it, counted from the nearest long one?",
        "Find [7 5/16 on a tape, then 7 3/8, then 7 7/16|186 mm on a tape, then 187 mm, then 188 "
        "mm]. How far is it from one to the next?", trace=READ),
    Slip("eighths_for_sixteenths", 5,
        "the small marks were counted as eighths, and they are sixteenths",
        "How many of the smallest marks are there in a whole inch of this tape?",
        "Count the smallest marks from 4 to 5 on a tape. What is the third one called?",
        trace=READ),
    Slip("sixteenths_for_eighths", 4,
        "the longer marks were counted as sixteenths, and they are eighths",
        "Are there shorter marks between those that you counted?",
        "Find the fifth eighth after 9 on a tape. How many of the smallest marks is that?",
        trace=READ),
    Slip("long_mark_dropped", 5,
        "the marks were counted from the last long one, and that one were left out of the reading",
        "From which mark did you begin to count? How much is that mark itself?",
        "Find the third sixteenth after 8 1/2 on a tape. What is that mark called?", trace=READ),
    Slip("longer_marks_left_out", 4,
        "only the shortest marks were counted, and the longer ones between them left out",
        "Between two of the shortest marks stands a longer one. Does it count?",
        "Count all marks from 4 to 4 1/2 on a tape, the longer ones as well. How many are there?",
        trace="did you count the shortest marks only"),
    Slip("from_the_other_end", 5, "the fraction were counted back from the next inch",
        "From which number did you count the marks: from the one before or the one behind?",
        "A mark lies 3/8 in before the 15 on a tape. What is it called?",
        trace="did you count back from the next number"),
    Slip("wrong_inch", 4, "the fraction were right and the whole inches were counted one off",
        "Count the whole inches once more: between which two numbers does it lie?",
        "A mark lies a little before the 14 on a tape, at the third eighth after the 13. What is "
        "it called?", trace=READ),
    Slip("first_inch_kept", 5,
        "the tape were laid on at its 1 in mark, and that inch were not taken off again",
        "At which mark did your tape begin: at its hook or at 1 in?",
        "A tape with a bent hook is laid on at 1 in and shows 16 3/4 in at the other end. How long "
        "is the board?", trace=READ),
)  # fmt: skip
_WRITING: Final = (
    Slip("fraction_as_decimal", 7,
        "the figures of the fraction were put behind a point, and no decimal was worked out",
        "Is half an inch .12 or .5? How do you get from a fraction to a decimal?",
        "Write 1/4, 3/8 and 5/8 as decimals: divide the top by the bottom.",
        trace="did you put the figures of a fraction behind a point"),
    Slip("space_forgotten", 9, "the space between the inches and the fraction were left out",
        "Where do the whole inches end, and where does the fraction begin?",
        "Read 93/4 aloud, and then 9 3/4. How many inches is each of them?", carries=False,
        trace="did you leave out a space"),
    Slip("decimal_feet", 5, "feet and inches were mixed up with feet and tenths of a foot",
        "How many inches is a foot and a half? So what does .5 mean behind feet?",
        "Write 1 ft 3 in as feet with a decimal. Write 2.75 ft in feet and inches.",
        trace="did you reckon in feet"),
    Slip("mm_for_cm", 6, "the point stood one place off, as when mm are written for cm",
        "About how long is that, held beside the piece? Is it a hand, an arm or a thumb?",
        "A board is 38 mm thick. How many cm is that? A box is 44.2 cm wide. How many mm?",
        carries=False, trace="did you move the point"),
    Slip("inch_as_25_mm", 5, "an inch were taken for 25 mm; it is 25.4 mm",
        "How many mm are there in an inch, to the tenth?",
        "How many mm are 10 in? How far off is it if you take 25 mm for each inch?",
        trace="did you turn inches into mm or mm into inches"),
    Slip("rounded_wrong_way", 9, "it were rounded to the wrong side",
        "If it comes out a hair wrong, what does less harm here: a hair too much or too little?",
        "A drawer must slide in an opening of [15 5/32 in. To which sixteenth|385.4 mm. To which "
        "millimetre] do you cut it?", trace="did you round it"),
    Slip("rounded_too_far", 6,
        "it were rounded to a whole inch or to a tenth, which is too coarse for a saw",
        "How near can you cut with a saw, and how near is your number?",
        "Round 9.41 in to the nearest sixteenth. How far off are 9 in and 9.4 in?", carries=False,
        trace="did you round it"),
    Slip("unit_left_out", 9, "the number were meant in another unit, and the unit were left out",
        "Which unit is your number in? Write it behind the number: is it in, mm or cm?",
        "A board is 38 mm thick. What does “38” say if somebody reads it as inches?", carries=False,
        trace="did you mean another unit"),
)  # fmt: skip

_FAMILIES: Final[tuple[tuple[Family, tuple[Slip, ...]], ...]] = (
    ("rule", _RULE), ("sums", _SUMS), ("tape", _TAPE), ("writing", _WRITING),
)  # fmt: skip
SLIPS: Final = {s.name: replace(s, family=f) for f, slips in _FAMILIES for s in slips}
"""Every slip by its name."""
