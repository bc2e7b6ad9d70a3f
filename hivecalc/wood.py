"""How wood moves: moisture from the air, change of size by species and grain, gaps in a year.

Temperatures in °C, humidity as a share, moisture in percent of the dry wood's weight, lengths in
inches. Tables teach to a fifth or so, not to a hair: real boards differ as much.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.built import pieces_of, together
from hivecalc.components import built
from hivecalc.derivation import nearest_names
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import Length
from hivecalc.support.faults import quoted

Grain: TypeAlias = Literal["radial", "tangential", "along"]
"""Across the growth rings, along the rings round the tree, along the trunk."""

DRY, DAMP = 6.0, 14.0
"""Moisture between which the handbook's coefficients hold, in percent."""
WETTEST: Final = 25.0
"""The highest moisture that is taken, in percent: beyond some 22 to 30 wood swells no more."""
LEAST: Final = 4.0
"""The least moisture that is taken, in percent: drier wood stands in no yard."""
FREEZING: Final = 0.0
"""The formula's data begin about here, in °C."""
KILN_DRIED: Final = 19.0
"""The most moisture of a stud sold as dry: PS 20, from memory."""
SPREAD: Final = 0.2
"""How far off a change of size may be: four decimals of the coefficients are not justified, says
the handbook's own laboratory; boards of one tree differ as much."""


def equilibrium_moisture(celsius: float, humidity: float) -> float:
    """Moisture, in percent, that wood takes on in air that stays as it is.

    >>> round(equilibrium_moisture(21.1, 0.65), 1)
    12.0

    Wood Handbook, chapter 4, and Simpson, FPL-RN-0268 (1998), the form for °C. The laboratory
    calls its data unreliable for fine work (FPL-GTR-229, 2014): trust it to 1 % of moisture.
    """
    t, h = celsius, humidity
    weight = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    in_layers = k * h / (1 - k * h)
    held = (k1 * k * h + 2 * k1 * k2 * k**2 * h**2) / (1 + k1 * k * h + k1 * k2 * k**2 * h**2)
    return 1800 / weight * (in_layers + held)


@dataclass(frozen=True)
class Species:
    """A kind of wood: how much it shrinks from green to oven-dry, in percent, and its source.

    `saturation` is the moisture in percent below which it shrinks.
    """

    name: str
    radial: float
    tangential: float
    source: str
    saturation: float = 30.0

    def shrinkage(self, grain: Grain) -> float:
        """Its shrinkage along one direction, in percent from green to oven-dry."""
        return {"radial": self.radial, "tangential": self.tangential, "along": LENGTHWAYS}[grain]

    def coefficient(self, grain: Grain) -> float:
        """Change of size for each percent of moisture, as a share, between 6 and 14 %.

        >>> round(SPECIES["white fir"].coefficient("tangential"), 5)
        0.00245

        It follows from the shrinkage, and has the five decimals of Wood Handbook Table 13-5.
        """
        whole, s = self.saturation, self.shrinkage(grain)
        return round((s / whole) / (100 - s * (whole - 10) / whole), 5)


LENGTHWAYS: Final = 0.2
"""Shrinkage along the grain from green to oven-dry, in percent, at most: the handbook's 0.1 to 0.2
for straight-grained wood, from memory. Plywood moves about as little, from memory."""

_READ: Final = "Wood Handbook FPL-GTR-190, Table 4-3"
_MEMORY: Final = "Wood Handbook FPL-GTR-190, Table 4-3, from memory, not checked against print"
SPECIES: Final[Mapping[str, Species]] = {
    species.name: species
    for species in (
        Species("western redcedar", 2.4, 5.0, _READ, 22.0),
        Species("douglas-fir", 4.8, 7.6, _READ),
        Species("white fir", 3.3, 7.0, _READ),
        Species("eastern white pine", 2.1, 6.1, _MEMORY),
        Species("ponderosa pine", 3.9, 6.2, _MEMORY),
        Species("loblolly pine", 4.8, 7.4, _MEMORY),
        Species("red spruce", 3.8, 7.8, _MEMORY),
        Species("engelmann spruce", 3.8, 7.1, _MEMORY),
    )
}
USUAL_SPECIES: Final = "white fir"
"""A stud's species, unless given: much of what is sold as spruce, pine and fir."""

# Moisture of wood outdoors under a roof, month by month from January, in percent.
CLIMATES: Final[Mapping[str, tuple[float, ...]]] = {
    "phoenix": (9.4, 8.4, 7.9, 6.1, 5.1, 4.6, 6.2, 6.9, 6.9, 7.0, 8.2, 9.5),
    "chicago": (14.2, 13.7, 13.4, 12.5, 12.2, 12.4, 12.8, 13.3, 13.3, 12.9, 14.0, 14.9),
    "seattle": (15.6, 14.6, 15.4, 13.7, 13.0, 12.7, 12.2, 12.5, 13.5, 15.3, 16.3, 16.5),
}
"""Three climates: dry, inland, and wet in winter. Wood Handbook FPL-GTR-190, Table 13-1, from
memory, not checked against print."""
MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun",
                 "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")  # fmt: skip


def change(size: float, species: Species, grain: Grain, made: float, now: float) -> float:
    """How much a size grows as wood made at one moisture comes to another; less than 0: shrinks.

    >>> round(change(232, SPECIES["white fir"], "tangential", 8, 11), 3)
    1.705

    In the unit of `size`; moistures in percent. Between 6 and 14 % by the coefficient, else by the
    handbook's longer formula (equation 13-3, from memory), and no further than fibre saturation.
    """
    whole = species.saturation
    start, end = min(made, whole), min(now, whole)
    if all(DRY <= moisture <= DAMP for moisture in (start, end)):
        return size * species.coefficient(grain) * (end - start)
    return size * (end - start) / (whole * 100 / species.shrinkage(grain) - whole + start)


def moisture_in_air(celsius: float, humidity: float) -> float:
    """Moisture, in percent, of wood that lay long in this air, where a hive can be built.

    Raises HiveFaults for air so dry, damp, cold or hot that the formula holds no longer.
    """
    found = equilibrium_moisture(celsius, humidity) if celsius >= FREEZING else 0.0
    if not LEAST <= found <= WETTEST:
        said = f"air of {celsius:.0f} °C and {100 * humidity:.0f} % is not air to build in"
        raise HiveFaults([Fault("made", said, "write 20 to 90 % and above freezing, or --made")])
    return found


def species_named(text: str) -> Species:
    """The species of a name.

    Raises HiveFaults that names the nearest ones.
    """
    return SPECIES[_named(text, SPECIES, "species")]


def climate_named(text: str) -> str:
    """A climate's name as it is known.

    Raises HiveFaults that names the nearest ones.
    """
    return _named(text, CLIMATES, "climate")


def _named(text: str, known: Mapping[str, object], what: str) -> str:
    name = " ".join(text.lower().replace("_", " ").split())
    if name not in known:
        near = nearest_names(name, known)
        hint = f"did you mean {' or '.join(near)}?" if near else f"write {', '.join(known)}"
        raise HiveFaults([Fault(what, f"{quoted(text)} is not one of ours", hint.rstrip("?"))])
    return name


def moisture_given(text: str, field: str = "moisture") -> float:
    """Moisture in percent, from text.

    Raises HiveFaults, in which `field` stands, for anything but a number from 4 to 25.
    """
    accepted = f"write {LEAST:g} to {WETTEST:g}, in percent"
    try:
        found = float(text.strip().removesuffix("%").strip().replace(",", "."))
        round(found)
    except (ValueError, OverflowError):  # no number, nan, infinite
        raise HiveFaults([Fault(field, f"{quoted(text)} is not a number", accepted)]) from None
    if not LEAST <= found <= WETTEST:
        too_dry = found < LEAST
        said = "too dry" if too_dry else "too wet"
        why = "no yard has drier wood" if too_dry else "wetter wood hardly swells any more"
        raise HiveFaults([Fault(field, f"{quoted(text)} is {said}", f"{accepted}: {why}")])
    return found


@dataclass(frozen=True)
class Gap:
    """A gap of the hive through a year: as planned, and the least and the most of each month.

    Lengths in inches. The least and most are those of boards sawn either way, with the spread.
    """

    name: str
    planned: Length
    months: tuple[tuple[float, float], ...]

    @property
    def least(self) -> float:
        """The narrowest that it gets in the year."""
        return min(low for low, _ in self.months)

    @property
    def most(self) -> float:
        """The widest that it gets in the year."""
        return max(high for _, high in self.months)

    @property
    def moves(self) -> float:
        """How far it goes from the plan at most, either way."""
        return max(abs(self.least - float(self.planned)), abs(self.most - float(self.planned)))

    @property
    def meant_for(self) -> str:
        """What the gap is there for: wood that moves, or lean, bow and dirt."""
        if self.planned <= 0:
            return "nothing: it may open or close"
        part = self.moves / float(self.planned)
        if part >= 0.5:  # noqa: PLR2004 - half of it
            return "wood that moves"
        return "lean, bow and dirt" if part < 0.25 else "both"  # noqa: PLR2004 - a quarter of it


_GAPS: Final[Mapping[str, tuple[str, str]]] = {
    "panel, side to side": ("bottom_board.opening_width", "bottom_board.panel_width"),
    "panel, front to back": ("bottom_board.opening_length", "bottom_board.panel_length"),
    "screen, side to side": ("bottom_board.opening_width", "bottom_board.screen_width"),
    "screen, front to back": ("bottom_board.opening_length", "bottom_board.screen_length"),
    "headroom over the screen": ("bottom_board.headroom", ""),
    "way in": ("bottom_board.way_in", ""),
    "roof's rim, side to side": ("roof.clear_width", "stack.outside_width"),
    "roof's rim, front to back": ("roof.clear_length", "stack.outside_length"),
    "inner cover beyond the hive": ("inner_cover.overall_width", "stack.outside_width"),
    "box, under the frames": ("box.space_beneath", ""),
}
"""Each gap: what there is, and what goes into it."""


def gap_names(hive: Hive) -> tuple[str, ...]:
    """The gaps of this hive that wood may move."""
    return tuple(_gaps_of(together(hive)))


def _gaps_of(planned: Mapping[str, Fraction]) -> dict[str, tuple[str, str]]:
    return {name: ends for name, ends in _GAPS.items() if all(e in planned for e in ends if e)}


def gaps(
    hive: Hive, species: Species, moistures: tuple[float, ...], made: float
) -> tuple[Gap, ...]:
    """Every gap that wood may move, through the moistures of a year, from the pieces as built.

    >>> from hivecalc.hive import demo_hive
    >>> found = gaps(demo_hive(), SPECIES["white fir"], CLIMATES["chicago"], 12)
    >>> [g.meant_for for g in found if g.name == "panel, side to side"]
    ['lean, bow and dirt']

    `made` is the moisture at which it was measured and cut. Foam does not move; plywood and lengths
    hardly do. A stud may be sawn either way, so both are tried.
    """
    planned = together(hive)
    ways = _gaps_of(planned)
    each: dict[str, list[tuple[float, float]]] = {name: [] for name in ways}
    for now in moistures:
        along = change(1.0, species, "along", made, now)
        shares = [change(1.0, species, g, made, now) for g in ("radial", "tangential")]
        both = [together(hive, _grown(hive, planned, across, along)) for across in shares]
        for name, ends in ways.items():
            as_planned = _gap(planned, ends)
            moved = [float(_gap(one, ends) - as_planned) for one in both]
            spread = [by * (1 + sign * SPREAD) for by in moved for sign in (-1, 1)]
            each[name].append((float(as_planned) + min(spread), float(as_planned) + max(spread)))
    return tuple(Gap(name, _gap(planned, ends), tuple(each[name])) for name, ends in ways.items())


def _gap(found: Mapping[str, Fraction], ends: tuple[str, str]) -> Fraction:
    return found[ends[0]] - (found[ends[1]] if ends[1] else 0)


def _grown(
    hive: Hive, sizes: Mapping[str, Fraction], across: float, along: float
) -> dict[str, Fraction]:
    grown: dict[str, Fraction] = {}
    for size in pieces_of(hive):
        material = size.part.material
        if material in {"foam", "sheet", "mesh"}:
            continue
        lengthways = size.size == "length" or material == "plywood"
        grown[size.name] = _times(sizes[size.name], along if lengthways else across)
    if not {"box", "sleeve"} & set(built(hive)):  # a box that was measured, and is not cut
        walls = 2 * sizes["board_thickness"]
        for name in ("hive_width", "hive_length"):
            grown[name] = sizes[name] + _times(walls, across) - walls
    return grown


def _times(size: Fraction, share: float) -> Fraction:
    return size * (1 + Fraction(share).limit_denominator(1_000_000))
