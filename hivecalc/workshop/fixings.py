"""Screws, brads and glue of one hive, counted joint by joint, each count with its reason."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from hivecalc.components import built, values
from hivecalc.hive import Hive
from hivecalc.length import Length, Units, with_unit
from hivecalc.space import (
    AXES,
    Held,
    Hold,
    Joint,
    OnTheLine,
    Solid,
    assembled,
    fasteners,
    held,
    is_kind,
    joints,
    run_of,
)
from hivecalc.workshop.yard import ITEMS

LEAST_BITE: Final = Fraction(1, 4)
"""A fastener goes at least so deep into the second piece; common practice, no published source."""

_BOARD_OF: Final = {"box inside": "board_thickness"}


@dataclass(frozen=True)
class Fixing:
    """Joints that are held alike: how many there are, what each takes, and why.

    `glue` is the line of glue for all of them together, in inches; `item` is empty for joints that
    are only glued. `remark` says what is wrong with the fastener, if anything.
    """

    component: str
    joint: str
    joints: int
    item: str
    each: int
    why: str
    glue: Length = Fraction(0)
    remark: str = ""
    size: str = ""

    @property
    def count(self) -> int:
        """How many fasteners all these joints take."""
        return self.joints * self.each

    def takes(self, count: int) -> str:
        """So many of its fasteners in words, or that glue alone holds it.

        >>> Fixing("roof", "rim side to rim front", 2, "frame_screw", 2, "").takes(4)
        '4 screws'
        """
        return ITEMS[self.item].named(count, self.size) if self.item else "glue only"

    @property
    def reason(self) -> str:
        """Where the count comes from, in a sentence.

        >>> Fixing("roof", "rim side to rim front", 2, "frame_screw", 2, "").reason
        '2 joints × 2 screws.'
        """
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

    def thickness(self, label: str, joint: Joint) -> Length:
        """How thick a piece is along a joint's axis, as it was cut."""
        if label in _BOARD_OF:
            return self.sizes[_BOARD_OF[label]]
        return self.pieces[label].cut[AXES.index(joint[2])]


def fixings(hive: Hive) -> list[Fixing]:
    """What holds the joints of a hive, component by component as it is built.

    >>> from hivecalc.hive import demo_hive
    >>> first = fixings(demo_hive())[0]
    >>> first.joint, first.reason, first.glue
    ('side rail to front rail', '2 joints × 2 screws of 3 in.', Fraction(11, 2))
    """
    sizes, units = values(hive), hive.units
    return [f for component in built(hive) for f in _of(_place(component, units, sizes))]


def _place(component: str, units: Units, sizes: Mapping[str, Fraction]) -> _Place:
    pieces = {solid.label: solid for solid in assembled(sizes, component)}
    return _Place(component, units, pieces, sizes)


def _of(place: _Place) -> Iterator[Fixing]:
    """What holds the joints of one component."""
    for way, met in held(joints(place.sizes, place.component), place.component):
        if isinstance(way, Held) or way.glued:
            yield from _fixings(way, met, place)


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
        remark = _remark(way, met[0], place)
        fixing = _fixing(way, place, run, (count, each), remark)
        yield fixing
        if isinstance(way, Held) and way.item == "cover_screw":
            under = ": one under each screw's head"
            yield replace(fixing, item="silicone", why=under, remark="", size="", glue=Fraction(0))


def _each(way: Hold, joint: Joint, run: Length, place: _Place) -> int:
    return fasteners(way, joint, run, place.sizes) if isinstance(way, Held) else 0


def _fixing(way: Hold, place: _Place, run: Length, counts: tuple[int, int], remark: str) -> Fixing:
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
    return Fixing(place.component, joint, count, way.item, each, why, glue, remark, size)


# ── whether a fastener is of the right length ─────────────────────────────────────────────────


def _remark(way: Hold, joint: Joint, place: _Place) -> str:
    length = place.sizes.get(way.item) if isinstance(way, Held) and way.square else None
    if length is None:
        return ""
    first, second, _ = joint
    order = (first, second) if is_kind(first, way.through) else (second, first)
    through, into = (place.thickness(label, joint) for label in order)
    return length_remark(length, through, into, place.units)


def length_remark(length: Length, through: Length, into: Length, units: Units = "inch") -> str:
    """What is wrong with the length of a fastener through one piece into another; empty if nothing.

    >>> length_remark(Fraction(3), Fraction(1), Fraction(3, 2))
    'Its point comes out by 1/2 in: take one of 1 1/4 in to 2 1/2 in.'

    In inches, told in `units`.
    """
    low, high = through + LEAST_BITE, through + into
    right = f"take one of {with_unit(units, low)} to {with_unit(units, high)}"
    if length < low:
        return f"It is too short for what it goes through, {with_unit(units, through)}: {right}."
    out = with_unit(units, length - high)
    return f"Its point comes out by {out}: {right}." if length > high else ""
