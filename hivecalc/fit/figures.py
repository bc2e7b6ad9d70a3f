"""Sizes that nobody measures on the hive: whole sheets, the lug of a frame."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.stock import COMMON, SHEETS, Figure

FRAME_LUG: Final = Figure(
    Fraction(11, 16),
    "Length of a frame's lug, from its side bar to the end of its top bar.",
    "frame 17 5/8 in long: USDA Farmers' Bulletin 447 (1911); top bar 19 in: common practice",
)
_IN_WORDS: Final = {
    "plywood_sheet": "sheet of plywood",
    "foam_board": "foam board",
    "plastic_sheet": "sheet of corrugated plastic",
}


def _sides() -> Iterator[tuple[str, Figure]]:
    """The two sides of each whole sheet that a piece must come out of."""
    for name, what in _IN_WORDS.items():
        sheet = SHEETS[name]
        for side, value in (("width", sheet.width), ("length", sheet.length)):
            yield f"{name}_{side}", Figure(value, f"The {side} of a {what}.", COMMON)


FIGURES: Final[Mapping[str, Figure]] = {**dict(_sides()), "frame_lug": FRAME_LUG}
"""Every figure by the name that a rule has for it."""
