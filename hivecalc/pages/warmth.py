"""What a lesson says of heat, damp and wood that moves: from an entry to an outcome.

Raises LengthError or HiveFaults for an entry that can't be used.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from hivecalc.components import built, values
from hivecalc.document import Rows
from hivecalc.drawing import charts
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.hive import value_of
from hivecalc.hive.measurements import MEASUREMENTS
from hivecalc.length import MM, SIXTY_FOURTH, TENTH_MM, Units, length_from_text, shown, with_unit
from hivecalc.pages.messages import Outcome, message, table
from hivecalc.reports.warmth import USUAL, Warmth, Weather, Year
from hivecalc.support.faults import quoted
from hivecalc.warmth.layers import (
    ALL,
    FOAM,
    MATERIALS,
    RESISTANCE,
    SOFTWOOD,
    Element,
    fahrenheit,
    humidity,
    in_both,
    in_both_degrees,
    layer,
    metres,
    surfaces_of,
    temperature,
    temperatures,
    warmer_inside,
)
from hivecalc.warmth.losses import (
    CANDLE,
    LEFT_OUT,
    R_PLACES,
    as_shown,
    chain_slips,
    dew_point,
    in_a_row,
    links,
    near,
)
from hivecalc.warmth.sections import RAIL, RIM, STRIPS, Patch
from hivecalc.wood import (
    CLIMATES,
    MONTHS,
    SPECIES,
    USUAL_SPECIES,
    Grain,
    change,
    climate_named,
    gap_names,
    moisture_given,
    species_named,
)

RANGES: Final = "Short lines on the bars: the least and the most that it may be."


def degrees(text: str) -> str:
    """A temperature that was typed, in both scales, that in which it was typed first."""
    units: Units = "mm" if text.strip().upper().endswith("C") else "inch"
    return in_both_degrees(temperature(text, "temperature"), units)


def damp(text: str) -> str:
    """A humidity that was typed."""
    return f"{100 * humidity(text):.0f} %"


def moist(text: str) -> str:
    """A moisture of wood that was typed."""
    return f"{moisture_given(text):g} %"


WEATHER: Final = {
    "Inside": (lambda hive: USUAL.typed(hive.units)[0], degrees),
    "Outside": (lambda hive: USUAL.typed(hive.units)[1], degrees),
}
DAMP_WEATHER: Final = {**WEATHER, "Humidity inside": (f"{100 * USUAL.humidity:.0f} %", damp)}
"""Fields for a weather, and what is read in each."""
PLACES: Final = {"Place": {name.capitalize(): name for name in (RAIL, RIM, STRIPS)}}
MADE_AT: Final = {"Moisture when cut, in percent": ("12", moist)}
BOARD: Final = {
    "Size at first": lambda hive: "9 1/2" if hive.units == "inch" else "240",
    "Moisture at first, in percent": ("12", moist),
    "Moisture later, in percent": ("8", moist),
}


def foams(units: Units) -> tuple[Fraction, ...]:
    """Thicknesses of foam on marks of the tape, from 1/2 to 3 in or from 13 to 76 mm."""
    if units == "mm":
        return tuple(mm * MM for mm in range(13, 77))
    return tuple(Fraction(eighths, 8) for eighths in range(4, 25))


def year_lists(hive: Hive) -> dict[str, dict[str, str]]:
    """What to choose from for a gap through the year."""
    return {
        "Gap": {name.capitalize(): name for name in gap_names(hive)},
        "Wood": {name: name for name in sorted(SPECIES, key=lambda n: n != USUAL_SPECIES)},
        "Climate": {name.capitalize(): name for name in ("chicago", *CLIMATES)},
    }


def _weather(hive: Hive, inside: str, outside: str) -> Weather:
    warm, cold = temperature(inside, "inside"), temperature(outside, "outside")
    warmer_inside(warm, cold, hive.units)
    return Weather(warm, cold, USUAL.humidity)


def _shown(found: Rows) -> str:
    return table(found.columns, [[str(cell) for cell in row] for row in found.rows])


def lost(hive: Hive, inside: str, outside: str) -> Outcome:
    """The outcome of two temperatures: what the hive loses, part by part, beside a candle."""
    report = Warmth(hive, _weather(hive, inside, outside))
    found = report.losses
    rows = [(name, *vars(watts).values()) for name, watts in found.parts.items()]
    rows.append(("all", *vars(found.total).values()))
    drawn = charts.bars("Heat that goes out", rows, "W", ("a candle", CANDLE))
    said = f"It loses {found.total.words} W. A candle gives about {CANDLE:.0f} W."
    air = f"Air through the ways in and out takes {found.air.words} W more."
    return Outcome(
        message("note", said, f"Most goes through: {found.worst}.", air, RANGES),
        drawn,
        _shown(report.loss_table),
    )


def built_otherwise(hive: Hive) -> str:
    """The hive built in other ways, as a table."""
    found = Warmth(hive, USUAL).compared_table
    note = f"Walls, roof and bottom board only, {USUAL.words(hive.units)}. Edges come on top."
    return message("note", note) + _shown(found)


# ── the wall and its foam ─────────────────────────────────────────────────────────────────────


def sleeved_wall(hive: Hive, foam: Fraction) -> Element:
    """A wall of this hive in a sleeve with so much foam: its boards, foam and skin."""
    found = {**values(hive), "sleeve_foam_thickness": foam}
    return surfaces_of(found, built(hive), ALL)[0].element


def wall_with_foam(hive: Hive, text: str) -> Outcome:
    """The outcome of a thickness of foam: the temperature through the wall, in a sleeve."""
    foam = value_of(MEASUREMENTS["sleeve_foam_thickness"], text, hive.units)
    wall = sleeved_wall(hive, foam)
    way = wall.main
    found = temperatures(wall, way, USUAL.inside, USUAL.outside)
    points, scale = _scaled(hive, found)
    layers = [(one.name, _kind(one.name), one.thickness) for one in way.layers]
    title = f"Through a wall with {with_unit(hive.units, foam)} of foam"
    said = (
        f"The inside face is {in_both_degrees(found[1], hive.units)} warm.",
        f"All layers and both films of air: {in_both(wall.clear, RESISTANCE, hive.units)}.",
    )
    names = ["inside air", "inside face", *(f"after the {one.name}" for one in way.layers)]
    warm = [in_both_degrees(celsius, hive.units) for celsius in found]
    rows = zip([*names, "outside air"], warm, strict=True)
    return Outcome(
        message("note", *said),
        charts.through_wall(title, layers, points, scale),
        table(["place", "temperature"], list(rows)),
    )


def _scaled(hive: Hive, celsius: Sequence[float]) -> tuple[list[float], str]:
    """Temperatures on the scale of a hive's units, with the name of the scale."""
    if hive.units == "mm":
        return list(celsius), "°C"
    return [fahrenheit(degrees) for degrees in celsius], "°F"


def _kind(name: str) -> str:
    if "air" in name:
        return "air"
    return "foam" if name in {"foam", "panel"} else "wood"


@dataclass(frozen=True)
class Link:
    """Something that heat may go through: its name, its R as shown, and whether it does here."""

    name: str
    r: float
    on_the_way: bool
    units: Units

    @property
    def said(self) -> str:
        """Its R in words."""
        return f"R {self.r:.{R_PLACES[self.units]}f}"


def wall_of_chain(hive: Hive) -> Element:
    """The wall whose chain a learner builds: in a sleeve with an inch of foam, or with 25 mm."""
    return sleeved_wall(hive, Fraction(1) if hive.units == "inch" else 25 * MM)


def links_offered(hive: Hive) -> list[Link]:
    """What a chain of layers can be built from: the wall's own links, and what lies beside them."""
    units, wall = hive.units, wall_of_chain(hive)
    own = [Link(name, r, on_the_way=True, units=units) for name, r in links(wall, units)]
    foam = next(one for one in wall.main.layers if one.name == "foam")
    beside = {
        "edge strip beside the foam": layer(SOFTWOOD, foam.thickness),
        "panel of the bottom board": layer(FOAM, metres(values(hive)["panel_foam_thickness"])),
    }
    return own + [
        Link(name, as_shown(one.resistance, units), on_the_way=False, units=units)
        for name, one in beside.items()
    ]


def judged_layers(hive: Hive, counts: Mapping[str, int | Fraction]) -> str:
    """The verdict on a chain of layers by what is in it and how often, never by its sum."""
    offered = links_offered(hive)
    missing = [x.name for x in offered if x.on_the_way and counts.get(x.name, 0) < 1]
    often = [x.name for x in offered if x.on_the_way and counts.get(x.name, 0) > 1]
    beside = [x.name for x in offered if not x.on_the_way and counts.get(x.name)]
    asked = {
        "Something is missing: does heat get past the {} without any?": missing,
        "The {} counts more than once: how often does heat go through it?": often,
        "The {} lies beside the way: does the same heat go through it too?": beside,
    }
    faults = [text.format(name) for text, names in asked.items() for name in names]
    if faults:
        return message("wrong", *faults)
    return message("right", "Right: heat goes through all of these, one after another.")


def judged_layers_sum(hive: Hive, counts: Mapping[str, int | Fraction], text: str) -> str:
    """The verdict on the sum of a learner's own chain of layers, right or wrong as that is."""
    offered = links_offered(hive)
    own = sum(link.r * counts.get(link.name, 0) for link in offered)
    whole = all(counts.get(link.name, 0) == link.on_the_way for link in offered)
    typed = text.strip() and any(counts.values())
    if typed and not whole and abs(_resistance(text) - own) <= near(hive.units):
        said = "A right sum of your chain. But the chain is not the wall's yet: check it."
        return message("note", said)
    return judged_resistance(hive, text)


_NUMBER: Final = re.compile(r"(?:R ?)?(\d+(?:[.,]\d+)?)")


def judged_resistance(hive: Hive, text: str) -> str:
    """The verdict on a sum of the wall's resistances."""
    if not text.strip():
        return message("note", "Add up the R of your chain, and press Enter.")
    units, answer, element = hive.units, _resistance(text), wall_of_chain(hive)
    wall = links(element, units)
    at_once = as_shown(element.clear, units)  # as it stands below the next picture
    if min(abs(answer - right) for right in (in_a_row(wall, units), at_once)) <= near(units):
        said = "Right. Layers in a row add up, and both films of air belong to the chain."
        return message("right", said)
    slip = next((s for s in chain_slips(wall, units) if s.gives(answer)), None)
    text = slip.sentence if slip else "Not this. Add one link after the other, films too."
    return message("wrong", text)


def _resistance(text: str) -> float:
    found = _NUMBER.fullmatch(text.strip())
    if not found:
        raise HiveFaults([Fault("R", f"{quoted(text)} is not a number", "write it like 6.2")])
    return float(found[1].replace(",", "."))


# ── wood through foam, and the first drop ─────────────────────────────────────────────────────


def bridged(hive: Hive, name: str) -> Outcome:
    """The lines of equal temperature where wood goes through the foam, and what the wood costs."""
    at, report = USUAL, Warmth(hive, USUAL)
    found = next((b for b in report.bridges if b.name == name), None)
    if found is None:
        return Outcome(message("note", "Only a hive in a sleeve has edge strips."), "")
    field = found.field
    coldest = at.outside + field.coldest * report.difference
    said = (
        f"The coldest place inside is {in_both_degrees(coldest, hive.units)} warm.",
        f"Wood in place of foam costs {found.conductance * report.difference:.1f} W here.",
        f"That is as if {report.foam_missing(found.inches)} of foam were missing.",
        "Along a line it is equally warm. Thicker lines are warmer.",
    )
    pieces = tuple(
        (_kind_of(r), tuple(r.box)) for r in found.section.rectangles if isinstance(r, Patch)
    )
    (low, high), scale = _scaled(hive, (at.outside, at.inside))
    titled = f"{name.capitalize()}, in {scale}"
    drawn = charts.isotherms(titled, " ".join(said), field, (low, high), pieces)
    return Outcome(message("note", *said), drawn, _shown(report.bridge_table))


def _kind_of(patch: Patch) -> str:
    if patch.name == "still air":
        return "air"
    return "foam" if patch.conductivity == FOAM.conductivity else "wood"


def first_drops(hive: Hive, inside: str, outside: str, damp: str) -> Outcome:
    """The outcome of a weather: how warm each face is, and where the first drop forms."""
    at = replace(_weather(hive, inside, outside), humidity=humidity(damp))
    report = Warmth(hive, at)
    dew = dew_point(at.inside, at.humidity)
    wet = [f.name for f in report.faces if f.temperature < dew]
    said = f"A drop forms where a face is colder than {in_both_degrees(dew, hive.units)}."
    order = f"First: {report.faces[0].name}. Last: {report.faces[-1].name}."
    now = f"Wet now: {', '.join(wet)}." if wet else "All faces are dry now."
    return Outcome(message("note", said, order, now), "", _shown(report.face_table))


def left_out() -> str:
    """What the model leaves out, and where its figures come from."""
    sources = [(m.name, m.condition, m.source) for m in MATERIALS]
    return message("note", *LEFT_OUT) + table(["material", "condition", "source"], sources)


# ── wood that moves ───────────────────────────────────────────────────────────────────────────


BOTH: Final = "wood that moves, and for lean, bow and dirt"
"""What a gap is there for that is there for both, in a sentence."""


def gap_through_year(hive: Hive, name: str, species: str, climate: str, made: str) -> Outcome:
    """The outcome of a wood and a climate: one gap through the year, and all of them as a table."""
    year = Year(hive, species_named(species), climate_named(climate), moisture_given(made))
    gap = next((g for g in year.gaps if g.name == name), year.gaps[0])
    scale, unit = (25.4, "mm") if hive.units == "mm" else (1.0, "in")
    ends = [(low * scale, high * scale) for low, high in gap.months]
    title = f"{gap.name.capitalize()}, in {year.climate.capitalize()}"
    drawn = charts.year(title, MONTHS, ends, float(gap.planned) * scale, unit)
    said = (
        f"Planned {year.words(gap.planned)}.",
        f"At least {year.words(gap.least)}, at most {year.words(gap.most)}.",
        f"This gap is there for {BOTH if gap.meant_for == 'both' else gap.meant_for}.",
    )
    return Outcome(message("note", *said), drawn, _shown(year.gap_table))


def swelling(hive: Hive, size: str, first: str, later: str) -> Outcome:
    """The outcome of a size and two moistures: how much it changes, along and across the grain."""
    length = length_from_text(size, hive.units)
    wood, made, now = species_named(USUAL_SPECIES), moisture_given(first), moisture_given(later)
    grains: dict[str, Grain] = {
        "round the rings": "tangential", "across the rings": "radial", "along the grain": "along"
    }  # fmt: skip
    rows = [
        (words, _moved(change(float(length), wood, grain, made, now), hive.units))
        for words, grain in grains.items()
    ]
    way = "dries and shrinks" if now < made else "takes up water and swells"
    said = f"The wood {way}." if now != made else "It stays as damp as it was, and as big."
    return Outcome(message("note", said), "", table(["direction", "change"], rows))


def _moved(by: float, units: Units) -> str:
    """A change of size in words: less than a mark is said so."""
    grid = TENTH_MM if units == "mm" else SIXTY_FOURTH
    size = Fraction(abs(by)).limit_denominator(100_000)
    if size < grid.step / 2:
        return "hardly any"
    return f"{shown(size, grid=grid)} {'less' if by < 0 else 'more'}"
