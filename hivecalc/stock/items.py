"""Small goods that a hive takes: what each is called, how long it is, how it is counted."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.length import Length, written
from hivecalc.stock.sizes import FASTENERS

FRAME_SCREW: Final = Fraction(3)
DECK_SCREW: Final = Fraction(13, 8)


@dataclass(frozen=True, slots=True)
class Item:
    """One kind of small goods: its name for one and for several, and its length in inches.

    >>> ITEMS["long_brad"].named(4), ITEMS["glue"].named(90)
    ('4 brads of 1 1/4 in', 'glue for 90 in of joint')

    What is spread has no length and is counted in inches of joint. Of what `gets_lost`, some more
    is bought than is counted.
    """

    one: str
    several: str
    length: Length | None = None
    spread: bool = False
    gets_lost: bool = True

    def named(self, count: int) -> str:
        """So many of it, in words."""
        if self.spread:
            return f"{self.one} for {count:,} in of joint"
        return f"{count:,} {self.one if count == 1 else self.several}"


def _sized(name: str, length: Length) -> Item:
    one, several = (f"{n} of {written(length)} in" for n in (name, f"{name}s"))
    return Item(one, several, length)


_BOLT: Final = _sized("hanger bolt", FASTENERS["hanger_bolt"].value)

ITEMS: Final[Mapping[str, Item]] = {
    "frame_screw": _sized("screw", FRAME_SCREW),
    "deck_screw": _sized("deck screw", DECK_SCREW),
    "cover_screw": _sized("cover screw", FASTENERS["cover_screw"].value),
    "long_brad": _sized("brad", FASTENERS["long_brad"].value),
    "short_brad": _sized("brad", FASTENERS["short_brad"].value),
    "hanger_bolt": Item(
        f"{_BOLT.one} with washer and wing nut",
        f"{_BOLT.several} with washers and wing nuts",
        _BOLT.length,
        gets_lost=False,
    ),
    "silicone": Item("dab of outdoor silicone", "dabs of outdoor silicone"),
    "glue": Item("glue", "glue", spread=True),
}
"""Every kind of small goods, by the name that a yard file has for it.

Screws of 3 in for the frames and of 1 5/8 in for the deck: common practice, no published source.
"""
