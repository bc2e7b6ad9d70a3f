"""The slips about the rule: what would give their value, where to look again, how to practise."""

from hivecalc.slips.slip import Slip

SLIPS = (
    Slip(
        "thickness_once", "rule",
        "the {what} were counted once instead of twice",
        "Go through the drawing along the {step}, from outside to outside: how many pieces of that "
        "thickness do you meet?",
        "A case is 30 in wide outside. Its two sides are 3/4 in thick. A shelf stands between "
        "them: how long is it?",
        "thickness that counts twice", 10,
    ),
    Slip(
        "thickness_twice", "rule",
        "the {what} were counted twice instead of once",
        "At which end of the {piece} does another piece take up room, and is there one at the "
        "other end as well?",
        "A drawer is 18 in long outside. Its front, 3/4 in thick, covers the ends of both sides; "
        "at the back the sides run through. How long is a side?",
        "thickness that counts once", 6,
    ),
    Slip(
        "thickness_forgotten", "rule",
        "the {what} were left out",
        "Which pieces share the room with the {piece}, and where does their thickness stand in "
        "your sum?",
        "A box is 12 in long inside. Its two ends are 1/2 in thick. How long is it outside?",
        "thickness", 7,
    ),
    Slip(
        "thickness_added", "rule",
        "the {what} were added instead of taken off",
        "Does the {piece} stand between those pieces or reach over them? Should it come out longer "
        "or shorter than the size you began with?",
        "A rail stands between two posts, 1 1/2 in thick each. Over the posts the frame is 40 in "
        "wide. How long is the rail?",
        "thickness that is taken off", 5,
    ),
    Slip(
        "gap_forgotten", "rule",
        "the {what} were left out",
        "What must move or breathe there, and where in your sum is the room for it?",
        "A drawer runs in an opening 15 in wide with a gap of 1/8 in in all. How wide is it?",
        "gap", 8,
    ),
    Slip(
        "gap_each_side", "rule",
        "the {what} were counted at each side instead of once in all",
        "Is the {what} meant at each side, or for both sides together?",
        "A panel has a gap of 1/4 in in all in an opening of 20 in. How long is it, and how much "
        "of the gap is at each end?",
        "gap that is meant in all", 8,
    ),
    Slip(
        "gap_added", "rule",
        "the {what} were added instead of taken off",
        "Must the {step} be bigger or smaller than the room that it goes into?",
        "A tray goes into an opening of 16 in with a gap of 3/16 in in all. Is it longer or "
        "shorter than 16 in, and how long?",
        "gap that is taken off", 5,
    ),
    Slip(
        "clearance_forgotten", "rule",
        "the {what} were left out",
        "What has to go over or into what, and where in your sum is the room for it?",
        "A lid goes over a tin 9 1/2 in wide with a clearance of 1/8 in in all. How wide is the "
        "lid inside?",
        "clearance", 7,
    ),
    Slip(
        "clearance_doubled", "rule",
        "the {what} were counted at each side instead of once in all",
        "Is the {what} meant at each side, or for both sides together?",
        "A lid is 3/8 in wider than its tin, in all. How much room is there on one side?",
        "clearance", 7,
    ),
    Slip(
        "one_side_only", "rule",
        "the {what} were counted on one side only",
        "Look at one side and then at the other: on how many sides does the {what} come into the "
        "{step}?",
        "A table top reaches 2 in beyond its frame on every side. The frame is 30 in long. How "
        "long is the top?",
        "size that counts on both sides", 10,
    ),
    Slip(
        "half_forgotten", "rule",
        "the whole {what} were taken instead of half of it",
        "Where on that piece should the {step} end: at its far side or in its middle?",
        "A nail goes into the middle of a batten 1 3/4 in wide. How far is it from the edge?",
        "half of a size", 7,
    ),
    Slip(
        "size_left_out", "rule",
        "the {what} were left out",
        "Go through all that makes the {step}: is each size of it in your sum?",
        "A stack of three boards, 3/4 in, 1/2 in and 5/8 in: how high is it?",
        "further size", 6,
    ),
    Slip(
        "size_added", "rule",
        "the {what} were added instead of taken off",
        "Does the {what} make the {step} bigger or smaller?",
        "A strip of 3/4 in is ripped off a board 5 1/2 in wide. How wide is the board then?",
        "further size that is taken off", 4,
    ),
    Slip(
        "size_taken_off", "rule",
        "the {what} were taken off instead of added",
        "Does the {what} make the {step} bigger or smaller?",
        "A frame of 20 in gets an edge of 1/2 in on both sides. How wide is it then?",
        "size that is added", 4,
        carries=False,  # a rim smaller than its hive is seen before the next step
    ),
    Slip(
        "nominal_size", "rule",
        "the {what} were {other} in, as its name says, instead of what the tape says",
        "What does the tape say across that piece of wood, whatever its name is?",
        "Two 2x4 stand side by side, each measured 1 1/2 in thick. How thick are both together?",
        "wood with a name like 2x4", 8,
    ),
    Slip(
        "other_side", "rule",
        "the {other} were taken instead of the {what}",
        "Which way round does that piece lie there: on its wide side or on its narrow side?",
        "A strip is 1/2 in by 3/4 in. It lies flat. How high does it reach, and how high if you "
        "turn it on edge?",
        "stud or strip with two sides to choose from", 7,
    ),
    Slip(
        "length_for_width", "rule",
        "the {other} were taken instead of the {what}",
        "Does the {step} run from front to back or from side to side?",
        "A tray is 18 in long and 12 in wide. One strip runs across it: how long is the strip?",
        "length or width to mix up", 7,
    ),
    Slip(
        "overall_size", "rule",
        "the {what}, which is the size over everything, were given for the piece",
        "Does the {piece} reach from outside to outside, or does it stand between other pieces?",
        "A picture frame is 20 in wide over all and its sides are 2 in wide. How long is the "
        "piece that stands between them?",
        "overall size from which more than one thing is taken off", 6,
    ),
    Slip(
        "step_skipped", "rule",
        "the {what} were given, one step before the end",
        "Is that the {step} already, or is there one more step to do?",
        "An opening is 14 in wide; a door needs 1/4 in less; its rail is 4 in shorter than the "
        "door. How long is the rail? Write down every step.",
        "step before it that could be handed in", 5,
    ),
    Slip(
        "wrong_one_of_two", "rule",
        "the other one of {what} decided",
        "Two things are in the way there. Which of them decides, and why?",
        "Two sills lie one behind the other, 2 in and 2 3/8 in high. How much is left below a bar "
        "at 3 in?",
        "choice between two heights", 6,
    ),
    Slip(
        "upside_down", "rule",
        "the two numbers of the division stood the other way round",
        "Which comes first in “the fall for each inch of length”: the fall or the length?",
        "A path falls 3 in over 60 in. How much does it fall for each inch?",
        "division of one length by another", 6,
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}
