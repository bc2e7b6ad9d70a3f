"""The slips about the rule: what would give their value, where to look again, how to practise."""

from hivecalc.judging.slip import Slip

SLIPS = (
    Slip(
        "thickness_once", "rule",
        "the {what} were counted once instead of twice",
        "Go through the drawing along the {step}, from outside to outside: how many pieces of that "
        "thickness do you meet?",
        "A case is 30 in wide outside. Its two sides are 3/4 in thick. A shelf stands between "
        "them: how long is it?",
        10,
    ),
    Slip(
        "thickness_twice", "rule",
        "the {what} were counted twice instead of once",
        "At which end of the {piece} does another piece take up room, and is there one at the "
        "other end as well?",
        "A drawer is 18 in long outside. Its front, 3/4 in thick, covers the ends of both sides; "
        "at the back the sides run through. How long is a side?",
        6,
    ),
    Slip(
        "thickness_forgotten", "rule",
        "the {what} were left out",
        "Which pieces share the room with the {piece}, and where does their thickness stand in "
        "your sum?",
        "A box is 12 in long inside. Its two ends are 1/2 in thick. How long is it outside?",
        7,
    ),
    Slip(
        "thickness_added", "rule",
        "the {what} were added instead of taken off",
        "Does the {piece} stand between those pieces or reach over them? Should it come out longer "
        "or shorter than the size you began with?",
        "A rail stands between two posts, 1 1/2 in thick each. Over the posts the frame is 40 in "
        "wide. How long is the rail?",
        5,
    ),
    Slip(
        "gap_forgotten", "rule",
        "the {what} were left out",
        "What must move or breathe there, and where in your sum is the room for it?",
        "A drawer runs in an opening 15 in wide with a gap of 1/8 in in all. How wide is it?",
        8,
    ),
    Slip(
        "gap_each_side", "rule",
        "the {what} were counted at each side instead of once in all",
        "Is the {what} meant at each side, or for both sides together?",
        "A panel has a gap of 1/4 in in all in an opening of 20 in. How long is it, and how much "
        "of the gap is at each end?",
        8,
    ),
    Slip(
        "gap_added", "rule",
        "the {what} were added instead of taken off",
        "Must the {step} be bigger or smaller than the room that it goes into?",
        "A tray goes into an opening of 16 in with a gap of 3/16 in in all. Is it longer or "
        "shorter than 16 in, and how long?",
        5,
    ),
    Slip(
        "clearance_forgotten", "rule",
        "the {what} were left out",
        "What has to go over or into what, and where in your sum is the room for it?",
        "A lid goes over a tin 9 1/2 in wide with a clearance of 1/8 in in all. How wide is the "
        "lid inside?",
        7,
    ),
    Slip(
        "clearance_doubled", "rule",
        "the {what} were counted at each side instead of once in all",
        "Is the {what} meant at each side, or for both sides together?",
        "A lid is 3/8 in wider than its tin, in all. How much room is there on one side?",
        7,
    ),
    Slip(
        "one_side_only", "rule",
        "the {what} were counted on one side only",
        "Look at one side and then at the other: on how many sides does the {what} come into the "
        "{step}?",
        "A table top reaches 2 in beyond its frame on every side. The frame is 30 in long. How "
        "long is the top?",
        10,
    ),
    Slip(
        "half_forgotten", "rule",
        "the whole {what} were taken instead of half of it",
        "Where on that piece should the {step} end: at its far side or in its middle?",
        "A nail goes into the middle of a batten 1 3/4 in wide. How far is it from the edge?",
        7,
    ),
    Slip(
        "size_left_out", "rule",
        "the {what} were left out",
        "Go through all that makes the {step}: is each size of it in your sum?",
        "A stack of three boards, 3/4 in, 1/2 in and 5/8 in: how high is it?",
        6,
    ),
    Slip(
        "size_added", "rule",
        "the {what} were added instead of taken off",
        "Does the {what} make the {step} bigger or smaller?",
        "A strip of 3/4 in is ripped off a board 5 1/2 in wide. How wide is the board then?",
        4,
    ),
    Slip(
        "size_taken_off", "rule",
        "the {what} were taken off instead of added",
        "Does the {what} make the {step} bigger or smaller?",
        "A frame of 20 in gets an edge of 1/2 in on both sides. How wide is it then?",
        4,
        carries=False,  # a rim smaller than its hive is seen before the next step
    ),
    Slip(
        "nominal_size", "rule",
        "the {what} were {other}, as its name says, instead of what the tape says",
        "What does the tape say across that piece of wood, whatever its name is?",
        "Two 2x4 stand side by side, each measured 1 1/2 in thick. How thick are both together?",
        8,
    ),
    Slip(
        "other_side", "rule",
        "the {other} were taken instead of the {what}",
        "Which way round does that piece lie there: on its wide side or on its narrow side?",
        "A strip is 1/2 in by 3/4 in. It lies flat. How high does it reach, and how high if you "
        "turn it on edge?",
        7,
    ),
    Slip(
        "length_for_width", "rule",
        "the {other} were taken instead of the {what}",
        "Does the {step} run from front to back or from side to side?",
        "A tray is 18 in long and 12 in wide. One strip runs across it: how long is the strip?",
        7,
    ),
    Slip(
        "overall_size", "rule",
        "the {what}, which is the size over everything, were given for the piece",
        "Does the {piece} reach from outside to outside, or does it stand between other pieces?",
        "A picture frame is 20 in wide over all and its sides are 2 in wide. How long is the "
        "piece that stands between them?",
        6,
    ),
    Slip(
        "step_skipped", "rule",
        "the {what} were given, one step before the end",
        "Is that the {step} already, or is there one more step to do?",
        "An opening is 14 in wide; a door needs 1/4 in less; its rail is 4 in shorter than the "
        "door. How long is the rail? Write down every step.",
        5,
    ),
    Slip(
        "wrong_one_of_two", "rule",
        "the other one of {what} decided",
        "Two things are in the way there. Which of them decides, and why?",
        "Two sills lie one behind the other, 2 in and 2 3/8 in high. How much is left below a bar "
        "at 3 in?",
        6,
    ),
    Slip(
        "upside_down", "rule",
        "the two numbers of the division stood the other way round",
        "Which comes first in “the fall for each inch of length”: the fall or the length?",
        "A path falls 3 in over 60 in. How much does it fall for each inch?",
        6,
    ),
    Slip(
        "other_thickness", "rule",
        "the {other} were taken where the {what} belongs",
        "Is each of the two pieces there as thick as the other?",
        "A tray is 14 in long outside. Its front is 3/4 in thick, its back 1/2 in. How long is it "
        "inside?",
        6,
    ),
    Slip(
        "another_gap", "rule",
        "the {other} were taken instead of the {what}",
        "Which piece moves there, and how much room does that piece have?",
        "A drawer has 1/8 in of room in all and a shelf 1/4 in. The opening is 12 in wide. How "
        "wide is each of them?",
        7,
    ),
    Slip(
        "notch_twice", "rule",
        "the {what} were taken off twice",
        "How many openings are there in that side: one for each piece, or one between both?",
        "A fence 10 ft long has one gate of 3 ft. How much fence is left, both parts together?",
        6,
    ),
    Slip(
        "both_given", "rule",
        "both pieces together were given, and one of them is asked for",
        "Is it one piece or both that the {step} stands for?",
        "A fence 10 ft long has a gate of 3 ft in its middle. How long is one part of the fence?",
        7,
    ),
    Slip(
        "from_the_rim", "rule",
        "it were counted from the {other} instead of the {what}",
        "From where does it stand out: from the hive or from the rim, which is bigger?",
        "A tin 9 in wide has a lid 9 1/4 in wide. A label stands out 1 in beyond the tin on both "
        "sides. How wide is the label?",
        7,
    ),
    Slip(
        "other_one_doubled", "rule",
        "the {other} were counted twice instead of the {what}",
        "Count the layers with a finger: which of them is there twice?",
        "A sandwich of one slice of cheese, 1/4 in, between two slices of bread, 1/2 in each: how "
        "high is it?",
        6,
    ),
    Slip(
        "neighbours_rule", "rule",
        "the rule for the {what} were used",
        "What stands at the two ends of the {piece}? Is it the same as for the {what}?",
        "A crate is 20 in long and 14 in wide. Its sides, 3/4 in thick, run right through, and its "
        "ends stand between them. How long is an end?",
        8,
    ),
    Slip(
        "wrong_one_covers", "rule",
        "the corner were made the other way round, as for the {what}",
        "Look at the corner: which piece covers the end of the other one?",
        "Four boards 3/4 in thick make a box 12 in square. Two of them cover the ends of the "
        "others. How long are they, and how long are the others?",
        8,
    ),
    Slip(
        "nothing_comes_off", "rule",
        "the {what} were taken off",
        "Does any other piece stand at the ends of the {piece}?",
        "A lid lies on a crate and is just as wide. The crate is 12 in wide, its sides are 3/4 in "
        "thick. How wide is the lid?",
        5,
    ),
    Slip(
        "as_for_the_roof", "rule",
        "the {what} were added, as for the roof",
        "Does the {piece} go over the hive, or does it lie on it?",
        "A lid that slips over a tin is 1/4 in wider than the tin. A lid that lies on the tin is "
        "just as wide. The tin is 9 in wide: how wide is each lid?",
        5,
    ),
    Slip(
        "one_fewer", "rule",
        "the {what} were taken once less than there are {other}",
        "Does each of the {other} take its own room, or only the gaps between them?",
        "Six books, each 1 1/4 in thick, stand in a row. How long is the row?",
        6,
    ),
    Slip(
        "not_divided", "rule",
        "the whole fall were given, and not the fall for each inch",
        "Over how many inches does it fall by that much? How much is it for one inch?",
        "A path falls 3 in over 60 in. How much does it fall for each inch?",
        6,
    ),
    Slip(
        "in_degrees", "rule",
        "the angle were given in degrees",
        "No angle is needed: how many inches does it fall for one inch of its length?",
        "A board 20 in long is 2 in lower at one end. How much does it fall for each inch?",
        4,
    ),
    Slip(
        "size_as_25_mm", "rule",
        "an inch of the {what} were taken for 25 mm; it is 25.4 mm",
        "How many mm are there in an inch, to the tenth?",
        "Four boards of foam, each 25 mm thick, lie on one another. How much are they short of "
        "4 in?",
        6,
    ),
)  # fmt: skip
NAMED = {slip.name: slip for slip in SLIPS}
