"""Small goods that a hive takes: what each is called, how long it is, how it is counted."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from hivecalc.hive.measurements import DEFAULTS
from hivecalc.length import Length, written


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


def _sized(name: str, fastener: str) -> Item:
    length = DEFAULTS["inch"][fastener]
    one, several = (f"{n} of {written(length)} in" for n in (name, f"{name}s"))
    return Item(one, several, length)


_BOLT: Final = _sized("hanger bolt", "hanger_bolt")

ITEMS: Final[Mapping[str, Item]] = {
    "frame_screw": _sized("screw", "frame_screw"),
    "deck_screw": _sized("deck screw", "deck_screw"),
    "cover_screw": _sized("cover screw", "cover_screw"),
    "long_brad": _sized("brad", "long_brad"),
    "short_brad": _sized("brad", "short_brad"),
    "stop_brad": _sized("brad", "stop_brad"),
    "sheet_brad": _sized("brad", "sheet_brad"),
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
