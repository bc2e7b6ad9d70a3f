"""The still picture at the top of each lesson, of the demo hive: `python -m … .` writes them all.

It is a file beside the lesson, so it is there before anything runs. It holds hardly a figure, and
none that a lesson asks for.
"""

import sys
from collections.abc import Callable, Mapping
from fractions import Fraction
from pathlib import Path
from typing import Final, cast

from hivecalc.components import values
from hivecalc.drawing.boards import cut_off, real_boards
from hivecalc.drawing.canvas import MARGIN, Canvas, Picture
from hivecalc.drawing.frame import out_of_square
from hivecalc.drawing.prisms import faces_seen, not_hidden, paint
from hivecalc.drawing.tape import tape_to_read
from hivecalc.drawing.whole_hive import ACROSS, across, apart, down, eye_on, layers
from hivecalc.hive import Hive, demo_hive, write_whole
from hivecalc.length import MM
from hivecalc.pages import workshop
from hivecalc.pages.outcomes import Outcome
from hivecalc.space import solids
from hivecalc.space.roof import fall
from hivecalc.workshop import demo_yard

HIVE: Final = demo_hive()
BOX: Final = Hive(HIVE.name, "inch", {}, {"frames": Fraction(10)})
WIDE, HIGH, GAP = 480.0, 340.0, 1.5  # of the hive pulled apart, in sheet units; inches


def _apart(hive: Hive, *components: str) -> Picture:
    """Draw some components pulled apart, from the lowest up, without labels."""
    true = values(hive)
    pieces = [layer for name in components for layer in layers(name, solids(true, name))]
    lifted = apart(pieces, GAP, float(fall(true)))
    (left, right), (top, bottom) = across(lifted), down(lifted)
    scale = min(WIDE / (right - left) / ACROSS, HIGH / (bottom - top))
    room = (right - left) * ACROSS * scale
    canvas = Canvas(room + 2 * MARGIN)
    eye = eye_on(lifted, MARGIN, MARGIN + room, MARGIN, scale)
    with canvas.view("exploded", scale):
        paint(canvas, not_hidden(faces_seen([p for layer in lifted for p in layer.lifted], eye)))
    named = ", ".join(name.replace("_", " ") for name in components)
    words = f"From below upwards: {named}. The front is at the lower left."
    return canvas.picture("Pulled apart", words, (bottom - top) * scale + 2 * MARGIN, scale)


def _leaning() -> Picture:
    length, width = HIVE.measured["hive_length"], HIVE.measured["hive_width"]
    return out_of_square(length, width, Fraction(13, 32), name=HIVE.name)


def _shown(outcome: Outcome) -> Picture:
    return cast("Picture", outcome.picture)  # not one by matplotlib


WHOLE: Final = ("bottom_board", "inner_cover", "roof")

FIRST_PICTURES: Final[Mapping[str, Callable[[], Picture]]] = {
    "your-hive-and-your-tape": lambda: tape_to_read(Fraction(173, 8)),
    "inches-fractions-and-real-boards": lambda: tape_to_read(443 * MM, "mm"),
    "the-frame-of-the-bottom-board": lambda: _apart(HIVE, "bottom_board"),
    "runners-slot-and-panel": lambda: _apart(HIVE, "bottom_board"),
    "the-screen-that-pulls-out": lambda: _apart(HIVE, "bottom_board"),
    "the-roof": lambda: _apart(HIVE, "roof"),
    "the-inner-cover": lambda: _apart(HIVE, "inner_cover"),
    "the-box-and-its-sleeve": lambda: _apart(BOX, "box", "sleeve"),
    "will-it-go-together": _leaning,
    "what-to-buy": lambda: _shown(workshop.bought(HIVE, demo_yard(), "1")),
    "cutting-it-out-of-boards-and-sheets": lambda: cut_off(Fraction(96), Fraction(173, 8)),
    "at-the-saw": lambda: _shown(workshop.fence(HIVE, demo_yard(), "1/8 in")),
    "why-insulate": lambda: _apart(BOX, "box", "sleeve"),
    "wood-moves": real_boards,
    "putting-it-together": lambda: _apart(HIVE, *WHOLE),
    "your-hive-book": lambda: _apart(HIVE, *WHOLE),
}
"""What each lesson begins with, by the words in its file's name."""


def first_picture(lesson: Path) -> str:
    """The still picture of the lesson in this notebook, as the text of an SVG file."""
    return FIRST_PICTURES[lesson.stem.partition("-")[2]]().file()


def write_first_pictures(root: Path) -> None:
    """Write the picture of each lesson that is in root/workbook, under the lesson's own name."""
    for lesson in sorted((root / "workbook").glob("*.ipynb")):
        write_whole(lesson.parent / "pictures" / f"{lesson.stem}.svg", first_picture(lesson))


if __name__ == "__main__":
    write_first_pictures(Path(sys.argv[1]))
