"""Screws, brads and glue of one hive, counted joint by joint, each count with its reason."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from hivecalc.components import STACKED, built, values
from hivecalc.derivation import title
from hivecalc.fit import FIT, findings
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import Length, Units, with_unit
from hivecalc.space import (
    Held,
    Hold,
    Joint,
    OnTheLine,
    Solid,
    assembled,
    fasteners,
    held,
    joints,
    run_of,
)
from hivecalc.workshop.yard import ITEMS

FASTENERS: Final = ITEMS.keys() & MEASUREMENTS.keys()
"""The small goods whose length is a choice in the hive file."""


@dataclass(frozen=True)
class Fixing:
    """Joints that are held alike: how many there are, what each takes, and why.

    `glue` is the line of glue for all of them together, in inches; `item` is empty for joints that
    are only glued.
    """

    component: str
    joint: str
    joints: int
    item: str
    each: int
    why: str
    glue: Length = Fraction(0)
    size: str = ""

    @property
    def count(self) -> int:
        """How many fasteners all these joints take."""
        return self.joints * self.each

    def takes(self, count: int) -> str:
        """So many of its fasteners in words, or that glue alone holds it."""
        return ITEMS[self.item].named(count, self.size) if self.item else "glue only"

    @property
    def reason(self) -> str:
        """Where the count comes from, in a sentence."""
        if not self.item:
            return f"{_joints(self.joints)}, only glued."
        return f"{_joints(self.joints)} × {ITEMS[self.item].named(self.each, self.size)}{self.why}."


def _joints(count: int) -> str:
    return f"{count} joint{'s' * (count != 1)}"


@dataclass(frozen=True)
class _Place:
    """A component in which joints are held: its pieces by label, and the sizes of the hive."""

    component: str
    units: Units
    pieces: Mapping[str, Solid]
    sizes: Mapping[str, Fraction]


def fixings(hive: Hive) -> list[Fixing]:
    """What holds the joints of a hive, component by component as it is built."""
    return [
        fixing
        for component in built(hive)
        for fixing in fixings_of(hive, component, joints(values(hive), component))
    ]


def fixings_of(hive: Hive, component: str, met: Sequence[Joint]) -> list[Fixing]:
    """What holds some joints of a component, in every box where it is one that is stacked.

    >>> from hivecalc.hive import demo_hive
    >>> bolted = [("side rail, left", "back rail", "y")]
    >>> [fixing.takes(fixing.count) for fixing in fixings_of(demo_hive(), "bottom_board", bolted)]
    ['1 hanger bolt of 3 in with washer and wing nut']
    """
    sizes = values(hive)
    pieces = {solid.label: solid for solid in assembled(sizes, component)}
    place = _Place(component, hive.units, pieces, sizes)
    boxes = int(sizes["boxes"]) if component in STACKED else 1
    return [
        replace(fixing, joints=boxes * fixing.joints, glue=boxes * fixing.glue)
        for way, joined in held(met, component)
        if isinstance(way, Held) or way.glued
        for fixing in _fixings(way, joined, place)
    ]


def small_goods(listed: Iterable[Fixing]) -> Counter[str]:
    """How many of each item some joints take; of glue, the inches of joint, rounded up.

    >>> from hivecalc.hive import demo_hive
    >>> small_goods(fixings(demo_hive()))["hanger_bolt"]
    2
    """
    counted, glue = Counter[str](), Fraction(0)
    for fixing in listed:
        glue += fixing.glue
        if fixing.item:
            counted[fixing.item] += fixing.count
    counted["glue"] = -(-glue // 1)
    return counted


def _fixings(way: Hold, met: Sequence[Joint], place: _Place) -> Iterator[Fixing]:
    """The joints that are held in one way, one fixing for those that take equally much."""
    runs = ((joint, run_of(way, joint, place.pieces)) for joint in met)
    alike = Counter((run, _each(way, joint, run, place)) for joint, run in runs)
    for (run, each), count in alike.items():
        fixing = _fixing(way, place, run, (count, each))
        yield fixing
        if isinstance(way, Held) and way.item == "cover_screw":
            under = ": one under each screw's head"
            yield replace(fixing, item="silicone", why=under, size="", glue=Fraction(0))


def _each(way: Hold, joint: Joint, run: Length, place: _Place) -> int:
    return fasteners(way, joint, run, place.sizes) if isinstance(way, Held) else 0


def _fixing(way: Hold, place: _Place, run: Length, counts: tuple[int, int]) -> Fixing:
    count, each = counts
    joint, glue = f"{way.through} to {way.into}", count * run if way.glued else Fraction(0)
    if not isinstance(way, Held):
        return Fixing(place.component, joint, count, "", 0, way.why, glue)
    if isinstance(way.count, OnTheLine):
        apart = with_unit(place.units, place.sizes["screw_spacing"])
        why = f": on the screw line, none more than {apart} apart"
    else:
        why = way.count.told(run, place.units)
    size = with_unit(place.units, place.sizes[way.item])
    return Fixing(place.component, joint, count, way.item, each, why, glue, size)


def misfits(hive: Hive) -> list[str]:
    """What the rules find wrong with the lengths of this hive's fasteners, a sentence each."""
    return [
        f"{title(found.rule).capitalize()}: {found.why} {found.mend}"
        for found in findings(hive)
        if not found.holds and FASTENERS.intersection(FIT.dimension(found.rule).inputs)
    ]
