"""The trade's words that stand in a hive book, each with one plain meaning."""

from hivecalc.book.content import Chapter, Column, Paragraph, Table

WORDS = {
    "≈": "About. It stands before a figure that was rounded.",
    "bee space": "The space that bees leave open as a way: about 1/4 to 3/8 in (6 to 10 mm).",
    "bevel": "An edge cut at a slant.",
    "box": "The part of the hive that holds the frames.",
    "brad": "A thin nail with a small head.",
    "cover": "The waterproof sheet on top of the roof.",
    "crosscut": "A cut across the grain, which makes a piece shorter.",
    "deck": "The sheet of plywood that lies on the roof's rim.",
    "diagonal": "The way from one corner to the opposite one.",
    "foam": "Stiff board of plastic foam that keeps warmth in.",
    "frame": "What bees build one comb in; also the four rails of the bottom board.",
    "headroom": "Room left above the screen, up to the top of the rails.",
    "kerf": "The wood that the saw blade turns into dust.",
    "lap": "How far one part reaches down over another.",
    "lip": "What a sheet stands out beyond the one under it.",
    "lug": "The end of a frame's top bar, which lies on the box.",
    "mesh": "Metal cloth with eight wires to the inch: dirt falls through, bees do not.",
    "notch": "The opening in the inner cover's front.",
    "opening": "The clear space inside a frame.",
    "overhang": "How far the deck reaches beyond the hive.",
    "panel": "A sheet of foam cut to fit.",
    "play": "The little room that lets a part move.",
    "rabbet": "A step cut along an edge, for another part to lie in.",
    "rail": "One side of a frame, made of a stud.",
    "rest": "The step in a box that a frame's lugs lie on.",
    "retainer": "A strip that holds the foam up in the roof.",
    "rim": "A frame that goes round: under the roof's deck, or between the inner cover's sheets.",
    "rip": "A cut along the grain, which makes a piece narrower.",
    "runner": "A strip that something slides on.",
    "screen": "The frame with mesh that slides out of the bottom board.",
    "skin": "The thin plywood outside the foam.",
    "skirt": "The plywood band under the deck, which laps the box.",
    "sleeve": "Foam and skin round a box.",
    "slope": "How much the roof falls for each inch of its length.",
    "slot": "The space that a panel slides in.",
    "square": "With corners of 90 degrees: then both diagonals are equal.",
    "stack": "Runners, panel and screen, one above the other in the bottom board.",
    "stop": "The thin strip at the screen's front, over which the bees walk in.",
    "strip": "A thin piece ripped from a stud.",
    "stud": "Lumber sold as 2x4. Dry and planed it is smaller than its name.",
    "taper": "A piece that is higher at one end than at the other.",
    "way in": "The height that is left open for the bees.",
}


def words() -> Chapter:
    """Chapter of words and what they mean, in the order of the alphabet.

    >>> words().blocks[1].rows[1][0]
    'bee space'
    """
    columns = (Column("word", 1, bold=True), Column("what it means", 4))
    first = Paragraph("One name for each thing, in this book and in the lessons.")
    return Chapter("Words", (first, Table(columns, tuple(WORDS.items()))))
