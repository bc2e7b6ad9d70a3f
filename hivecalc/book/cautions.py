"""What can hurt where a hive is built, and what people do about it: common practice.

Each caution gives way to the machine's manual, local codes and licensed practice.
"""

from hivecalc.book.content import Chapter, Paragraph

FIRST = (
    "Building a hive means saws, dust, glue and, in the end, bees. This page only reminds you. "
    "The machine's manual, local codes and the advice of licensed or trained people come first: "
    "where they say something else, do what they say. If you have never used a machine, let "
    "somebody who is trained on it show you, and stay beside you."
)
CAUTIONS = {
    "Before any cut.": (
        "Wear safety glasses and hearing protection. Take off gloves, rings and loose sleeves, and "
        "tie back long hair, near anything that turns. Unplug the machine before you change a "
        "blade or reach near it. Stop when you are tired."
    ),
    "Table saw.": (
        "Use the guard, the riving knife and a push stick. Stand beside the line of the blade, not "
        "in it. Never rip without the fence, and never let a piece that you crosscut touch the "
        "fence: either can be thrown back at you."
    ),
    "Thin strips.": (
        "Rip them from a long, wide piece so that the strip falls off on the far side of the blade "
        "from the fence, as your saw's manual shows. Cut to length last. Small pieces belong in a "
        "hand saw and a clamp."
    ),
    "The taper.": (
        "The roof's sides are cut at a slant. Hold the piece in a jig that the saw's "
        "manual allows, or clamp it down; never steer it by hand past a turning blade. A hand saw "
        "and a plane do it too."
    ),
    "Knots, nails and wet wood.": (
        "They throw pieces and pinch blades. Look at every board first, and leave a doubtful one."
    ),
    "Wire mesh.": (
        "Cut edges are like needles. Wear gloves for this one, with no machine running, and eye "
        "protection: a cut wire flies. Fold or cover the edge."
    ),
    "Glue, silicone and paint.": (
        "Work where air moves, keep them off your skin, and read the label for what to wear and "
        "how long it must dry. Nothing wet or smelling goes near bees."
    ),
    "Foam and dust.": (
        "Cut foam with a knife or a fine hand saw, outdoors or with the air moving. Do not burn it "
        "and do not cut it with a hot wire without the ventilation that its maker asks for. Wear a "
        "dust mask that fits for foam and wood dust, and sweep up the crumbs: animals eat them."
    ),
    "Knives, brads and screws.": (
        "Cut away from your body and your other hand. Keep fingers out of the line of a nail gun, "
        "and cut off or bend over any point that comes through."
    ),
    "Bees.": (
        "Change parts of a lived-in hive only with somebody who knows bees, in a veil, on a mild "
        "day. If a sting has ever made you ill, leave it to others and ask a doctor first. "
        "Trouble with breathing after a sting is an emergency: call for help at once."
    ),
    "Lifting.": (
        "A full box is heavier than it looks. Lift it with two people, or take frames out first."
    ),
}


def take_care() -> Chapter:
    """Chapter of what can hurt, to be read before the first cut.

    >>> take_care().heading
    'Take care'
    """
    paragraphs = (Paragraph(text, lead, "caution") for lead, text in CAUTIONS.items())
    return Chapter("Take care", (Paragraph(FIRST), *paragraphs))
