"""Heat loss of the whole hive, part by part; where the first drop forms; a learner's own sum.

Inside, all air is taken to have one temperature, which no real hive has: see `LEFT_OUT`. SI units,
°C; humidity is a share, and damp air is that of psychrolib.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import import_module
from math import sqrt
from types import ModuleType
from typing import Final, TypeAlias

from hivecalc.components import built, values
from hivecalc.hive import Hive
from hivecalc.length import MM, Units, with_unit
from hivecalc.warmth.layers import (
    ALL,
    FILM_OUTSIDE,
    RESISTANCE,
    Element,
    Inside,
    Surface,
    imperial,
    metres,
    parallel,
    surfaces,
    surfaces_of,
    usual,
)
from hivecalc.warmth.sections import bridges

SPREAD: Final = 0.2
"""How far off a loss may be, as a share: the spread that the Wood Handbook (FPL-GTR-190, chapter 4)
states for the conductivity of wood. Foam's tables part as far."""

CORNER: Final = 0.559
"""What a right-angled edge lets through beyond its two flat walls, in lengths of the edge times the
conductivity of the wall: both faces at one temperature each, as a public validation file prints it.
With films of air it is less, so it is the most that an edge can come to."""

CANDLE: Final = 80.0
"""Watts of a household candle, from memory, no published source; small ones give half of it."""

CLUSTER: Final = (5.0, 15.0)
"""Watts of heat that each kilogram of bees gives off in a winter cluster near 2 °C: the formula of
Southwick (1985), abstract, for clusters of 1 kg and of 100 g. Its abstract prints no unit; here its
figure is taken as ml of oxygen an hour for each gram, and 21.1 J are taken for each ml."""

HONEY: Final = 12.7e6
"""Joules in a kilogram of honey: about 304 kcal in 100 g, food tables, from memory."""

WINTER_DAYS: Final = 120
"""Days of a winter: a round figure of our own."""

LEFT_OUT: Final = (
    "Wind, sun, rain and wet foam; draughts through joints; heat that flows along the hive.",
    "The comb, the honey and the bees: they hold still air of their own, and warmth.",
    "The air inside is warm by the bees and cold in the corners; here it is one temperature.",
    "Damp that gathers or dries inside the walls: vapour figures for glue and joints are missing.",
)
"""What the model does not know."""


@dataclass(frozen=True)
class Range:
    """The least, the likely and the most that something may be."""

    least: float
    likely: float
    most: float

    def times(self, factor: float) -> "Range":
        """Each of the three times a number that isn't negative."""
        return Range(self.least * factor, self.likely * factor, self.most * factor)

    @property
    def words(self) -> str:
        """The range in words: whole numbers from 10 on, else tenths.

        >>> Range(17.2, 21.6, 26.1).words, Range(0, 3.1, 6.24).words
        ('17 to 26', '0 to 6.2')
        """
        low, high = (_short(number) for number in (self.least, self.most))
        return low if low == high else f"{low} to {high}"


def _short(number: float) -> str:
    rounded = f"{number:.0f}" if number >= 10 else f"{number:.1f}"  # noqa: PLR2004 - two figures
    return rounded.removesuffix(".0")


def about(likely: float) -> Range:
    """A range round a likely value, as wide as tables of conductivities part."""
    return Range(likely * (1 - SPREAD), likely, likely * (1 + SPREAD))


@dataclass(frozen=True)
class Losses:
    """What a hive loses at one inside and outside temperature: watts of each part, and in all.

    `air` is what may go out with air through the ways in and out, beside `parts`: from nothing,
    where bees keep it still, to a draught that nothing hinders.
    """

    parts: Mapping[str, Range]
    air: Range

    @property
    def total(self) -> Range:
        """All parts together, without the air."""
        ends = ((w.least, w.likely, w.most) for w in self.parts.values())
        return Range(*map(sum, zip(*ends, strict=True)))

    @property
    def worst(self) -> str:
        """The part that loses most."""
        return max(self.parts, key=lambda name: self.parts[name].likely)


def losses(hive: Hive, inside: float, outside: float) -> Losses:
    """Watts that a hive loses through each of its parts.

    >>> from hivecalc.hive import demo_hive
    >>> found = losses(demo_hive(), 20, -10)
    >>> found.worst, found.total.words
    ('walls', '56 to 85')

    Temperatures in °C. The plain parts are counted as where no wood bridges them; what the wood
    and the shape of the edges add is solved on sections, and kept. The first time takes a second.
    """
    difference = inside - outside
    plain = surfaces(hive)
    parts = {one.name: about(one.clear * difference) for one in plain}
    room = Inside.of(values(hive), built(hive))
    for bridge in bridges(hive):
        edge = bridge.edge
        if bridge.name.startswith("sleeve"):  # the lowest and the highest are in the other two
            edge *= (float(hive.measurements["boxes"]) - 1) / float(hive.measurements["boxes"])
        if edge:
            parts[bridge.name] = about(edge * difference)
    most = CORNER * _as_one(plain[0]) * 4 * room.height * difference
    parts["upright corners"] = Range(0.0, most / 2, most)
    return Losses(parts, draught(hive, inside, outside))


def _as_one(walls: Surface) -> float:
    """Conductivity of a wall of one material that is as thick and as tight as these."""
    thick = sum(one.thickness for one in walls.element.main.layers)
    return thick / (walls.element.resistance - walls.element.film - FILM_OUTSIDE)


GRAVITY: Final = 9.81
DISCHARGE: Final = 0.6
"""Share of an opening that a stream of air fills: sharp-edged openings, from memory, handbooks."""
AIR: Final = 1210.0
"""Joules that warm a cubic metre of air by a kelvin, near 20 °C: 1.2 kg/m³ × 1006 J/(kg·K), from
memory."""
KELVIN: Final = 273.15


def draught(hive: Hive, inside: float, outside: float) -> Range:
    """Watts that may leave with air through the ways in and out, panel and joints being tight.

    At most warm air rises out at the notch and cold air follows through the entrance, hindered by
    nothing (stack effect, from memory, handbooks of ventilation). Bees, comb and still air hinder
    it, so it may be next to nothing. Without a notch, both ways go through the entrance.
    """
    found, components = values(hive), built(hive)
    room = Inside.of(found, components)
    entrance = room.width * metres(found["bee_way"])
    notch = metres(found["inner_notch"]) * metres(found["bee_way"])
    rise = (inside - outside) / (KELVIN + (inside + outside) / 2)
    if "inner_cover" in components and notch:
        opening = entrance * notch / sqrt(entrance**2 + notch**2)
        stream = DISCHARGE * opening * sqrt(2 * GRAVITY * room.height * rise)
    else:
        stream = DISCHARGE / 3 * entrance * sqrt(GRAVITY * metres(found["bee_way"]) * rise)
    most = AIR * stream * (inside - outside)
    return Range(0.0, most / 2, most)


def compared(hive: Hive, inside: float, outside: float) -> dict[str, float]:
    """Watts of the same hive built in other ways, from the most heat lost to the least.

    Through the plain parts only, with both limits' mean; what the edges add is left out.

    >>> from hivecalc.hive import demo_hive
    >>> next(iter(compared(demo_hive(), 20, -10)))
    'bare wood: no foam anywhere, panel out'
    """
    has, thin = usual(hive), Fraction(1) if hive.units == "inch" else 25 * MM
    all_round = "of foam all round, in a sleeve"
    ways: dict[str, tuple[frozenset[str], Fraction | None]] = {
        "this hive": (has, None),
        "bare wood: no foam anywhere, panel out": (frozenset(), None),
        "foam in the roof only, panel out": (frozenset({"roof foam"}), None),
        "panel out": (has - {"panel"}, None),
        "no foam in the roof": (has - {"roof foam"}, None),
        f"{with_unit(hive.units, thin)} {all_round}": (ALL, thin),
        f"{with_unit(hive.units, 2 * thin)} {all_round}": (ALL, 2 * thin),
    }
    if "sleeve" in has:
        ways["single wall, no sleeve"] = (has - {"sleeve"}, None)
    found = {name: _plain(hive, *way) * (inside - outside) for name, way in ways.items()}
    ours = found["this hive"]
    others = {n: w for n, w in found.items() if n == "this hive" or w != ours or inside == outside}
    return dict(sorted(others.items(), key=lambda one: -one[1]))


def foam_saves(hive: Hive, inside: float, outside: float) -> float:
    """What the foam of this hive saves beside the same hive of bare wood, in watts.

    Through the plain parts only, as `compared`; the panel is out where there is no foam.
    """
    bare = _plain(hive, frozenset(), None) - _plain(hive, usual(hive), None)
    return bare * (inside - outside)


def _plain(hive: Hive, there: frozenset[str], foam: Fraction | None) -> float:
    """Watts for each kelvin through the plain parts, with what is there and so much foam."""
    found = values(hive)
    places = ("panel_foam_thickness", "roof_foam_thickness", "sleeve_foam_thickness")
    changed = {} if foam is None else dict.fromkeys(places, foam)
    usual_foam = {"sleeve_foam_thickness": found["foam_thickness"], **found, **changed}
    each = surfaces_of(usual_foam, built(hive), there)
    return sum(one.area / one.element.resistance for one in each)


def honey(watts: Range) -> Range:
    """Kilograms of honey that hold as much heat as is lost in a winter.

    An upper bound for what bees would eat to keep all of the hive that warm, which they don't.
    """
    return watts.times(WINTER_DAYS * 86_400 / HONEY)


# ── damp air ──────────────────────────────────────────────────────────────────────────────────────


CORNER_FILM: Final = 0.25
"""Film resistance in a corner, m²·K/W, where air hardly moves: ISO 13788 for mould, as a public
program for the Spanish code reads it (factor 1 − U × 0.25)."""


@cache
def _psychrolib() -> ModuleType:
    psychrolib = import_module("psychrolib")  # loads slowly
    psychrolib.SetUnitSystem(psychrolib.SI)
    return psychrolib


def saturation_pressure(celsius: float) -> float:
    """Pressure of water vapour in air that can hold no more, in Pa; over ice below 0 °C.

    >>> round(saturation_pressure(20))
    2339

    By psychrolib, after ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6.
    """
    return float(_psychrolib().GetSatVapPres(celsius))


def dew_point(celsius: float, humidity: float) -> float:
    """Temperature in °C at which a drop forms, for air of this temperature and humidity.

    >>> round(dew_point(20, 0.5), 1)
    9.3

    `humidity` is a share. Below 0 °C frost forms there. By psychrolib.
    """
    return float(_psychrolib().GetTDewPointFromRelHum(celsius, humidity))


def first_drop(factor: float, inside: float, humidity: float) -> float | None:
    """Outside temperature in °C at which a drop forms on a face; None where it never does.

    >>> round(first_drop(0.6, 20, 0.6) or 0, 1)
    0.0

    `factor` is the temperature factor of the face (ISO 13788): it is
    factor × inside + (1 − factor) × outside warm, and is set equal to the dew point.
    """
    if factor >= 1:
        return None
    return (dew_point(inside, humidity) - factor * inside) / (1 - factor)


@dataclass(frozen=True)
class Face:
    """A face inside the hive: its name, temperature factor, temperature, and its first drop.

    `drop` is the outside temperature at which a drop forms on it; None where it never does.
    """

    name: str
    factor: float
    temperature: float
    drop: float | None


def faces(hive: Hive, inside: float, outside: float, humidity: float) -> tuple[Face, ...]:
    """The faces inside a hive, that on which the first drop forms foremost.

    >>> from hivecalc.hive import hive_from_text
    >>> found = [f.name for f in faces(hive_from_text("chosen.frames = 10"), 20, 0, 0.6)]
    >>> found[0], found[-1]
    ("bottom board's rail", 'above the bees')

    Walls, bottom board and roof at their plainest; the edges by their sections' coldest place.
    """
    walls, roof, floor = (one.element for one in surfaces(hive))
    factors = {
        "walls": walls.factor,
        "above the bees": roof.factor,
        "bottom board": floor.factor,
        "upright corner": max(1 - CORNER_FILM / (walls.clear - walls.film + CORNER_FILM), 0.0),
        **{b.name: b.field.coldest for b in bridges(hive) if not b.name.startswith("sleeve")},
    }
    found = [
        Face(n, f, outside + f * (inside - outside), first_drop(f, inside, humidity))
        for n, f in factors.items()
    ]
    return tuple(sorted(found, key=lambda one: one.factor))


Links: TypeAlias = tuple[tuple[str, float], ...]
"""Films and layers from inside to outside, each with its R: m²·K/W in mm, else h·ft²·°F/Btu."""

# ── the sum as a learner does it ────────────────────────────────────────────────────────────────

R_PLACES: Final[Mapping[Units, int]] = {"inch": 1, "mm": 2}
"""Decimal places to which an R is shown."""
METRIC: Final = 0.1761
"""m²·K/W in one h·ft²·°F/Btu, to four places."""
IF: Final = "This is what you would get if"


def near(units: Units) -> float:
    """How far off a sum of R may be: half of the last place that is shown."""
    return 0.5 * 10.0 ** -R_PLACES[units]


def links(wall: Element, units: Units = "inch") -> Links:
    """Each film and layer of a wall with its R, rounded as it is shown.

    >>> from hivecalc.warmth.layers import FOAM, Path, layer
    >>> wall = Element((Path(1, (layer(FOAM, 0.0254),)),), "level")
    >>> links(wall)
    (('inside film', 0.7), ('foam', 5.0), ('outside film', 0.2))
    >>> links(wall, "mm")
    (('inside film', 0.13), ('foam', 0.88), ('outside film', 0.04))
    """
    steps = [("inside film", wall.film), *((one.name, one.resistance) for one in wall.main.layers)]
    both = [*steps, ("outside film", FILM_OUTSIDE)]
    return tuple((name, as_shown(r, units)) for name, r in both)


def as_shown(resistance: float, units: Units) -> float:
    """R of m²·K/W as it is shown where one reckons in these units, rounded."""
    r = imperial(resistance, RESISTANCE) if units == "inch" else resistance
    return round(r, R_PLACES[units])


def in_a_row(chain: Links, units: Units = "inch") -> float:
    """R of links that heat goes through one after another: their sum."""
    return round(sum(r for _, r in chain), R_PLACES[units])


def side_by_side(parts: Sequence[tuple[float, float]]) -> float:
    """R of parts that heat goes through side by side, from the share and R of each."""
    return round(parallel(parts), 1)


@dataclass(frozen=True)
class HeatSlip:
    """A known slip about heat: its name, the value it gives, and a sentence for the learner."""

    name: str
    value: float
    sentence: str
    units: Units = "inch"

    def gives(self, answer: float) -> bool:
        """Whether an answer is what it gives, as that may be rounded."""
        return abs(answer - self.value) <= max(near(self.units) * min(self.value, 1.0), 0.0005)


def chain_slips(chain: Links, units: Units = "inch") -> tuple[HeatSlip, ...]:
    """Wrong sums of a chain, none of them right, each with what gives it.

    >>> found = chain_slips((("inside film", 0.7), ("foam", 5.0), ("outside film", 0.2)))
    >>> [(slip.name, slip.value) for slip in found][:2]
    [('film_forgotten', 5.7), ('films_forgotten', 5.0)]
    """
    whole, r = in_a_row(chain, units), [r for _, r in chain]
    times, used, instead = METRIC, "metres", "inches"
    if units == "mm":
        times, used, instead = 1 / METRIC, "inches", "metres"
    found = (
        HeatSlip("film_forgotten", whole - r[-1], f"{IF} the outside film were left out."),
        HeatSlip("films_forgotten", whole - r[0] - r[-1], f"{IF} both films were left out."),
        HeatSlip("film_forgotten", whole - r[0], f"{IF} the inside film were left out."),
        HeatSlip("u_for_r", 1 / whole, f"{IF} U were given: one divided by R."),
        HeatSlip(
            "side_by_side",
            round(parallel([(1.0, each) for each in r]), R_PLACES[units]),
            f"{IF} the layers lay side by side. Heat goes through all of them.",
        ),
        HeatSlip("other_r", whole * times, f"{IF} {used} were used. Here all is in {instead}."),
    )
    rounded = (HeatSlip(s.name, round(s.value, 2), s.sentence, units) for s in found)
    return tuple(s for s in rounded if abs(s.value - whole) > near(units))


def beside_slips(parts: Sequence[tuple[float, float]]) -> tuple[HeatSlip, ...]:
    """Wrong values for parts side by side: added, or their plain mean taken."""
    added = sum(r for _, r in parts)
    shared = sum(share * r for share, r in parts)
    best = max(r for _, r in parts)
    return (
        HeatSlip("parallel_added", round(added, 1),
                 f"{IF} both were added. Heat takes one way or the other, not both."),
        HeatSlip("mean_of_r", round(shared, 1),
                 f"{IF} R were shared out. It is the flow that is: much goes the easy way."),
        HeatSlip("bridge_forgotten", round(best, 1), f"{IF} the wood were forgotten."),
        HeatSlip("u_for_r", round(1 / side_by_side(parts), 2), f"{IF} U were given for R."),
    )  # fmt: skip
