"""The reports on a hive's warmth and on its wood: watts, bridges, drops; gaps through a year."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.document import (
    SCHEMA,
    Cell,
    Chapter,
    Column,
    Document,
    Json,
    Paragraph,
    Report,
    Rows,
    Section,
    Table,
    notes,
    unheaded,
)
from hivecalc.hive import Hive
from hivecalc.length import MM, SIXTY_FOURTH, TENTH_MM, THIRTY_SECOND, Grid, Units, shown
from hivecalc.warmth.layers import (
    COLDEST,
    CONDUCTANCE,
    MASS,
    MATERIALS,
    RESISTANCE,
    Surface,
    fahrenheit,
    imperial,
    in_both,
    in_both_degrees,
    surfaces,
)
from hivecalc.warmth.losses import (
    CANDLE,
    CLUSTER,
    LEFT_OUT,
    WINTER_DAYS,
    Face,
    Losses,
    Range,
    compared,
    dew_point,
    faces,
    honey,
    losses,
    saturation_pressure,
)
from hivecalc.warmth.sections import Bridge, bridges
from hivecalc.wood import CLIMATES, KILN_DRIED, MONTHS, Gap, Species, gaps


@dataclass(frozen=True)
class Weather:
    """Temperatures in °C inside and outside of a hive, and the humidity of its air as a share."""

    inside: float
    outside: float
    humidity: float

    def typed(self, units: Units) -> tuple[str, str]:
        """The temperatures inside and outside as one types them.

        >>> USUAL.typed("inch"), USUAL.typed("mm")
        (('68 F', '14 F'), ('20 C', '-10 C'))
        """
        if units == "mm":
            return f"{self.inside:.0f} C", f"{self.outside:.0f} C"
        return f"{fahrenheit(self.inside):.0f} F", f"{fahrenheit(self.outside):.0f} F"

    def words(self, units: Units) -> str:
        """How warm it is on both sides."""
        inside, outside = (in_both_degrees(c, units) for c in (self.inside, self.outside))
        return f"{inside} inside and {outside} outside"


USUAL: Final = Weather(20.0, -10.0, 0.6)
"""The weather that a lesson begins with and a book is made for: chosen, no forecast."""


@dataclass(frozen=True)
class Warmth:
    """The report on a hive's warmth in one weather."""

    hive: Hive
    weather: Weather

    @property
    def report(self) -> Report:
        """All of it, in the forms that can be asked for."""
        return Report(self.document, self.table, self.data)

    @property
    def difference(self) -> float:
        """How much warmer it is inside, in kelvin."""
        return self.weather.inside - self.weather.outside

    @cached_property
    def losses(self) -> Losses:
        """Watts through each part."""
        return losses(self.hive, self.weather.inside, self.weather.outside)

    @cached_property
    def bridges(self) -> tuple[Bridge, ...]:
        """Where wood goes through the foam."""
        return bridges(self.hive)

    @cached_property
    def compared(self) -> dict[str, float]:
        """The hive built in other ways."""
        return compared(self.hive, self.weather.inside, self.weather.outside)

    @cached_property
    def faces(self) -> tuple[Face, ...]:
        """The faces inside, that with the first drop foremost."""
        at = self.weather
        return faces(self.hive, at.inside, at.outside, at.humidity)

    # to read

    def document(self) -> Document:
        """A hive's warmth to read."""
        layers = "Layers, with both limits where wood bridges them"
        columns = ("part", "resistance", "limits of R", "transmittance", "from inside")
        wood = "Wood in place of foam, by sections through the hive"
        other = "Built in another way: walls, roof and bottom board without their edges"
        error = 100 * max(b.error for b in self.bridges)
        air = (
            f"Air that goes in and out takes {self.losses.air.words} W more: little where bees "
            "and comb hinder it, most in an empty hive."
        )
        blocks = (
            self._loss_said, self.loss_table, air,
            layers, Rows(columns, [_layers(surface) for surface in surfaces(self.hive)]),
            wood, self.bridge_table, f"The last finer grid changed the flow by {error:.1f} %.",
            self.face_table, self._order_said,
            other, self.compared_table, self._honey_said,
        )  # fmt: skip
        return Document("", (*unheaded(*blocks), notes("Left out", LEFT_OUT)))

    @property
    def _loss_said(self) -> str:
        """Loss and weather in a sentence, beside a candle, and where most of it goes."""
        found = self.losses
        loss = (
            f"{self.hive.name}: it loses {found.total.words} W with "
            f"{self.weather.words(self.hive.units)}."
        )
        if not found.total.most:
            return loss
        candles = found.total.likely / CANDLE
        like = f"A candle gives about {CANDLE:.0f} W (from memory), so that is {candles:.1f} "
        return f"{loss} {like}candles. Most goes through: {found.worst}."

    @property
    def loss_table(self) -> Rows:
        """Watts of each part, and of all of them, to read."""
        rows = [[name, watts.words] for name, watts in self.losses.parts.items()]
        return Rows(("part", "watts"), [*rows, ["all", self.losses.total.words]])

    @property
    def bridge_table(self) -> Rows:
        """What wood costs against foam in its place, in watts and in inches of foam."""
        rows = [
            [b.name, f"{b.conductance * self.difference:.1f}", self.foam_missing(b.inches)]
            for b in self.bridges
        ]
        return Rows(("wood", "watts more", "as if so much foam were missing"), rows)

    def foam_missing(self, inches: float) -> str:
        """So much foam in the units of the hive, as wood through it costs."""
        metric = self.hive.units == "mm"
        return f"{inches / float(MM):.0f} mm" if metric else f"{inches:.1f} in"

    def _degrees(self, celsius: float) -> str:
        return in_both_degrees(celsius, self.hive.units)

    @property
    def face_table(self) -> Rows:
        """Faces inside, how warm they are, and where outside a drop forms on them."""
        rows = []
        for f in self.faces:
            drop = _weather(f.drop)
            first = "no winter is so cold" if drop is None else self._degrees(drop)
            rows.append([f.name, self._degrees(f.temperature), first])
        return Rows(("face", "now", "first drop with outside at"), rows)

    @property
    def _order_said(self) -> str:
        """Where water comes first, and whether it stays off the bees."""
        at, names = self.weather, [f.name for f in self.faces]
        dew = self._degrees(dew_point(at.inside, at.humidity))
        order = (
            "Above the bees it stays warmest, so water runs down the walls and does not drip on "
            "them."
            if names[-1] == "above the bees"
            else f"It is warmer at: {', '.join(names[names.index('above the bees') + 1 :])}. "
            "So water may drip on the bees first: put more foam in the roof."
        )
        humid = f"Air of {100 * at.humidity:.0f} % humidity"
        return f"{humid} drops its water at {dew}. First: {names[0]}. {order}"

    @property
    def compared_table(self) -> Rows:
        """The hive built in other ways, from the most heat lost to the least."""
        rows = [[built, f"{watts:.0f}"] for built, watts in self.compared.items()]
        return Rows(("built", "watts"), rows)

    @property
    def _honey_said(self) -> str:
        """What honey would hold this heat, and what a cluster gives."""
        kilos = honey(self.losses.total)
        pounds = kilos.times(imperial(1, MASS))
        return (
            f"Honey that holds so much heat for {WINTER_DAYS} days: {kilos.words} kg "
            f"({pounds.words} lb). Bees do not heat the whole hive, so they eat less. A cluster "
            f"gives about {CLUSTER[0]:.0f} W for each kg of bees, a very small one "
            f"{CLUSTER[1]:.0f} W (Southwick 1985, abstract; unit assumed)."
        )

    # as rows: what, of which part, least, likely, most, unit

    def table(self) -> Rows:
        """A hive's warmth as rows for a spreadsheet."""
        return Rows(("what", "part", "least", "likely", "most", "unit"), list(self._rows()))

    def _rows(self) -> Iterator[list[Cell]]:
        found = self.losses
        total = {"all parts": found.total, "air through the ways": found.air}
        for name, watts in {**found.parts, **total}.items():
            yield ["loss", name, *(round(v, 1) for v in vars(watts).values()), "W"]
        for s in surfaces(self.hive):
            limits = (s.element.lower, s.element.resistance, s.element.upper)
            yield ["resistance", s.name, *(round(r, 3) for r in limits), "m²·K/W"]
        for b in self.bridges:
            watts_more = round(b.conductance * self.difference, 1)
            yield ["wood costs", b.name, None, watts_more, None, "W"]
        for f in self.faces:
            yield ["face", f.name, None, round(f.temperature, 1), None, "°C"]
        for built, plain in self.compared.items():
            yield ["plain parts", built, None, round(plain, 1), None, "W"]

    # for other programs, in SI units

    def data(self) -> Json:
        """A hive's warmth for other programs."""
        at, total = self.weather, self.losses.total
        return {
            "schema": SCHEMA,
            "inside_c": at.inside,
            "outside_c": at.outside,
            "humidity": at.humidity,
            "dew_point_c": round(dew_point(at.inside, at.humidity), 1),
            "vapour_pressure_pa": round(at.humidity * saturation_pressure(at.inside)),
            "watts": _range(total),
            "watts_with_air": _range(self.losses.air),
            "parts": [{"name": n, "watts": _range(w)} for n, w in self.losses.parts.items()],
            "leaks_most": self.losses.worst,
            "honey_kg_at_most": _range(honey(total)),
            "surfaces": list(map(_surface, surfaces(self.hive))),
            "bridges": [
                {"name": b.name, "watts": round(b.conductance * self.difference, 1),
                 "inches_of_foam": round(b.inches, 1), "grid_error": round(b.error, 4)}
                for b in self.bridges
            ],
            "faces": [
                {"name": f.name, "factor": round(f.factor, 2), "c": round(f.temperature, 1),
                 "first_drop_c": _weather(f.drop)} for f in self.faces
            ],
            "compared": [{"words": n, "watts": round(w, 1)} for n, w in self.compared.items()],
            "materials": [vars(m) for m in MATERIALS],
            "left_out": list(LEFT_OUT),
        }  # fmt: skip


def _layers(surface: Surface) -> list[Cell]:
    e = surface.element
    limits = " to ".join(f"{imperial(r, RESISTANCE):.1f}" for r in (e.lower, e.upper))
    through = ", ".join(one.name for one in e.main.layers if one.thickness)
    resists, passes = in_both(e.resistance, RESISTANCE), in_both(e.transmittance, CONDUCTANCE)
    return [surface.name, resists, limits, passes, through]


def _weather(celsius: float | None) -> float | None:
    return None if celsius is None or celsius < COLDEST else round(celsius, 1)


def _range(found: Range) -> Json:
    return {n: round(v, 1) for n, v in vars(found).items()}


def _surface(surface: Surface) -> Json:
    e = surface.element
    layers = [
        {"name": one.name, "mm": round(one.thickness * 1000, 1), "r": round(one.resistance, 3)}
        for one in e.main.layers
    ]
    limits = {"r": e.resistance, "r_upper": e.upper, "r_lower": e.lower, "r_clear": e.clear}
    found = {n: round(v, 3) for n, v in limits.items()}
    return {"name": surface.name, "m2": round(surface.area, 3), **found, "layers": layers}


# ── wood ──────────────────────────────────────────────────────────────────────────────────────

IN_MM: Final = 25.4


@dataclass(frozen=True)
class Year:
    """A hive's gaps through a year, for a species and a climate, cut at one moisture in percent."""

    hive: Hive
    species: Species
    climate: str
    made: float

    @property
    def report(self) -> Report:
        """All of it, in the forms that can be asked for."""
        return Report(self.document, self.table, self.data)

    @property
    def moistures(self) -> tuple[float, ...]:
        """What the wood comes to, month by month."""
        return CLIMATES[self.climate]

    @cached_property
    def gaps(self) -> tuple[Gap, ...]:
        """Every gap that wood may move."""
        return gaps(self.hive, self.species, self.moistures, self.made)

    @property
    def grid(self) -> Grid:
        """The marks that a gap is shown on."""
        return TENTH_MM if self.hive.units == "mm" else THIRTY_SECOND

    def data(self) -> Json:
        """The gaps for other programs, in mm."""
        return {
            "schema": SCHEMA,
            "species": self.species.name,
            "source": self.species.source,
            "climate": self.climate,
            "made_percent": round(self.made, 1),
            "moisture_percent": dict(zip(MONTHS, self.moistures, strict=True)),
            "gaps": [
                {"name": gap.name, "planned_mm": round(float(gap.planned) * IN_MM, 2),
                 "least_mm": round(gap.least * IN_MM, 1), "most_mm": round(gap.most * IN_MM, 1),
                 "meant_for": gap.meant_for,
                 "months_mm": [[round(end * IN_MM, 1) for end in month] for month in gap.months]}
                for gap in self.gaps
            ],
        }  # fmt: skip

    def table(self) -> Rows:
        """The gaps month by month as rows for a spreadsheet, in mm."""
        columns = ("gap", "month", "moisture", "planned_mm", "least_mm", "most_mm")
        rows: list[list[Cell]] = [
            [gap.name, month, moisture, round(float(gap.planned) * IN_MM, 2),
             *(round(end * IN_MM, 1) for end in ends)]
            for gap in self.gaps
            for month, moisture, ends in zip(MONTHS, self.moistures, gap.months, strict=True)
        ]  # fmt: skip
        return Rows(columns, rows)

    def document(self) -> Document:
        """The gaps to read: as planned, at their least and most, and what each is for."""
        low, high = min(self.moistures), max(self.moistures)
        said = (
            f"{self.hive.name}, in {self.species.name}: measured and cut at {self.made:.0f} % "
            f"moisture. In {self.climate.capitalize()} it goes from {low:.0f} to {high:.0f} % "
            "through the year."
        )
        more = (
            f"A stud sold as dry may still hold {KILN_DRIED:.0f} %: --made 19 shows what it does.",
            "Least and most are for boards sawn either way, a fifth more or less. "  # noqa: ISC004
            "Foam stays as it is.",
            "Plywood and the length of a board hardly move.",
            f"Shrinkage: {self.species.source}. Climate: Wood Handbook, Table 13-1, from memory.",
        )
        last = Section("", tuple(map(Paragraph, more)))
        return Document("", (*unheaded(said, self.gap_table), last))

    @property
    def gap_table(self) -> Rows:
        """The gaps to read, on marks that a tape has."""
        columns = ("gap", "planned", "at least", "at most", "moves by", "there for")
        fine = TENTH_MM if self.hive.units == "mm" else SIXTY_FOURTH  # less than a tape shows
        rows: list[list[Cell]] = [
            [gap.name, self.words(gap.planned), self.words(gap.least), self.words(gap.most),
             shown(Fraction(gap.moves).limit_denominator(10_000), grid=fine), gap.meant_for]
            for gap in self.gaps
        ]  # fmt: skip
        return Rows(columns, rows)

    def words(self, inches: float | Fraction) -> str:
        """A gap on the marks of a tape; one that is shut is shown as less than nothing."""
        if inches < -self.grid.step / 2:
            return "less than nothing"
        return shown(max(Fraction(inches).limit_denominator(10_000), Fraction(0)), grid=self.grid)


# ── in the book ───────────────────────────────────────────────────────────────────────────────

FOAM_CARE: Final = (
    "Foam burns with thick smoke: cover it, and keep flames and hot tools away. Mask on where it "
    "is cut. Glue made for polystyrene only."
)


def warmth_chapter(hive: Hive) -> Chapter:
    """Chapter of what this hive loses beside others built of the same pieces."""
    watts = compared(hive, USUAL.inside, USUAL.outside)
    saves = max(watts.values()) - watts["this hive"]
    saved = f"The foam of this hive saves about {round(saves, -1):.0f} W."
    if saves >= CANDLE:
        saved += f" A candle gives {CANDLE:.0f}."
    table = Table(
        (Column("built", 6), Column("watts", 1.5, bold=True)),
        tuple((name, f"{lost:.0f}") for name, lost in watts.items()),
    )
    left = Paragraph(" ".join(LEFT_OUT), "What this sum leaves out.")
    plain = (
        f"Heat through walls, roof and bottom board, with {USUAL.words(hive.units)}. Edges come on "
        "top: hivecalc warmth tells them, and where drops form."
    )
    first = Paragraph(plain, saved)
    return Chapter("How warm it is", (first, table, Paragraph(FOAM_CARE, tone="caution"), left))
