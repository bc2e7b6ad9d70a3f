"""What a hive's warmth comes to: watts, layers, bridges, drops and other ways to build it."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from hivecalc.hive import Hive
from hivecalc.length import MM
from hivecalc.support.faults import escaped
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, text_table, wrapped

if TYPE_CHECKING:
    from hivecalc.warmth import Bridge, Compared, Face, Losses, Range, Surface


@dataclass(frozen=True)
class Weather:
    """Temperatures in °C inside and outside of a hive, and the humidity of its air as a share."""

    inside: float
    outside: float
    humidity: float


@dataclass(frozen=True)
class Warmth:
    """All that is told of a hive's warmth in one weather."""

    hive: Hive
    weather: Weather

    @property
    def difference(self) -> float:
        """How much warmer it is inside, in kelvin."""
        return self.weather.inside - self.weather.outside

    @cached_property
    def losses(self) -> "Losses":
        """Watts through each part."""
        from hivecalc.warmth import losses  # noqa: PLC0415 - slow to load

        return losses(self.hive, self.weather.inside, self.weather.outside)

    @cached_property
    def surfaces(self) -> "tuple[Surface, ...]":
        """Walls, roof and bottom board."""
        from hivecalc.warmth import surfaces  # noqa: PLC0415 - as above

        return surfaces(self.hive)

    @cached_property
    def bridges(self) -> "tuple[Bridge, ...]":
        """Where wood goes through the foam."""
        from hivecalc.warmth import bridges  # noqa: PLC0415 - as above

        return bridges(self.hive)

    @cached_property
    def compared(self) -> "tuple[Compared, ...]":
        """The hive built in other ways."""
        from hivecalc.warmth import compared  # noqa: PLC0415 - as above

        return compared(self.hive, self.weather.inside, self.weather.outside)

    @cached_property
    def faces(self) -> "tuple[Face, ...]":
        """The faces inside, that with the first drop foremost."""
        from hivecalc.warmth import faces  # noqa: PLC0415 - as above

        at = self.weather
        return faces(self.hive, at.inside, at.outside, at.humidity)


def warmth_json(told: Warmth) -> Json:
    """A hive's warmth for other programs, in SI units.

    >>> from hivecalc.hive import demo_hive
    >>> told = warmth_json(Warmth(demo_hive(), Weather(20, -10, 0.6)))
    >>> told["dew_point_c"], told["parts"][0]["name"]
    (12.0, 'walls')
    """
    from hivecalc.warmth import (  # noqa: PLC0415 - slow to load
        LEFT_OUT,
        MATERIALS,
        dew_point,
        honey,
        saturation_pressure,
    )

    at, total = told.weather, told.losses.total
    return {
        "schema": SCHEMA,
        "inside_c": at.inside,
        "outside_c": at.outside,
        "humidity": at.humidity,
        "dew_point_c": round(dew_point(at.inside, at.humidity), 1),
        "vapour_pressure_pa": round(at.humidity * saturation_pressure(at.inside)),
        "watts": _range(total),
        "watts_with_air": _range(told.losses.air),
        "parts": [{"name": p.name, "watts": _range(p.watts)} for p in told.losses.parts],
        "leaks_most": told.losses.worst.name,
        "honey_kg_at_most": _range(honey(total)),
        "surfaces": [_surface_json(s) for s in told.surfaces],
        "bridges": [_bridge_json(b, told.difference) for b in told.bridges],
        "faces": [
            {"name": f.name, "factor": round(f.factor, 2), "c": round(f.temperature, 1),
             "first_drop_c": _weather(f.drop)} for f in told.faces
        ],
        "compared": [{"words": c.words, "watts": round(c.watts, 1)} for c in told.compared],
        "materials": [vars(m) for m in MATERIALS],
        "left_out": list(LEFT_OUT),
    }  # fmt: skip


def _range(found: "Range") -> Json:
    return {n: round(v, 1) for n, v in vars(found).items()}


def _surface_json(surface: "Surface") -> Json:
    e = surface.element
    layers = [
        {"name": one.name, "mm": round(one.thickness * 1000, 1), "r": round(one.resistance, 3)}
        for one in e.main.layers
    ]
    limits = {"r": e.resistance, "r_upper": e.upper, "r_lower": e.lower, "r_clear": e.clear}
    found = {n: round(v, 3) for n, v in limits.items()}
    return {"name": surface.name, "m2": round(surface.area, 3), **found, "layers": layers}


def _bridge_json(bridge: "Bridge", difference: float) -> Json:
    return {
        "name": bridge.name,
        "watts": round(bridge.conductance * difference, 1),
        "inches_of_foam": round(bridge.inches, 1),
        "grid_error": round(bridge.error, 4),
    }


def _weather(celsius: float | None) -> float | None:
    """A temperature that can be outside; None for one that no winter has."""
    from hivecalc.warmth import COLDEST  # noqa: PLC0415 - slow to load

    return None if celsius is None or celsius < COLDEST else round(celsius, 1)


def warmth_table(told: Warmth) -> Table:
    """A hive's warmth as rows for a spreadsheet: what, of which part, least, likely, most, unit.

    >>> from hivecalc.hive import demo_hive
    >>> [row[:2] for row in warmth_table(Warmth(demo_hive(), Weather(20, -10, 0.6))).rows][0]
    ['loss', 'walls']
    """
    return Table(("what", "part", "least", "likely", "most", "unit"), list(_rows(told)))


def _rows(told: Warmth) -> Iterator[list[Cell]]:
    everything = [(p.name, p.watts) for p in told.losses.parts]
    everything += [("all parts", told.losses.total), ("air through the ways", told.losses.air)]
    for name, watts in everything:
        yield ["loss", name, *(round(v, 1) for v in vars(watts).values()), "W"]
    for s in told.surfaces:
        limits = (s.element.lower, s.element.resistance, s.element.upper)
        yield ["resistance", s.name, *(round(r, 3) for r in limits), "m²·K/W"]
    for b in told.bridges:
        yield ["wood costs", b.name, None, round(b.conductance * told.difference, 1), None, "W"]
    for f in told.faces:
        yield ["face", f.name, None, round(f.temperature, 1), None, "°C"]
    for c in told.compared:
        yield ["plain parts", c.words, None, round(c.watts, 1), None, "W"]


def warmth_text(told: Warmth, across: int | None = None) -> str:
    """A hive's warmth to read.

    >>> from hivecalc.hive import demo_hive
    >>> print(warmth_text(Warmth(demo_hive(), Weather(20, -10, 0.6))).splitlines()[0])
    Orchard hive: it loses 56 to 85 W with 68 °F (20 °C) inside and 14 °F (−10 °C)
    """
    parts = (
        _said(told), text_table(loss_table(told), across), _and_air(told),
        "Layers, with both limits where wood bridges them\n",
        text_table(layer_table(told), across),
        "Wood in place of foam, by sections through the hive\n",
        text_table(bridge_table(told), across), _grid_said(told),
        text_table(face_table(told), across), _order_said(told),
        "Built in another way: walls, roof and bottom board without their edges\n",
        text_table(compared_table(told), across), _honey_said(told),
    )  # fmt: skip
    return "\n".join(parts)


def _said(told: Warmth) -> str:
    """Loss and weather in a sentence, beside a candle, and where most of it goes."""
    from hivecalc.warmth import CANDLE, in_both_degrees  # noqa: PLC0415 - slow to load

    at, found = told.weather, told.losses
    loss = (
        f"{escaped(told.hive.name)}: it loses {found.total.words} W with "
        f"{in_both_degrees(at.inside)} inside and {in_both_degrees(at.outside)} outside."
    )
    if not found.total.most:
        return wrapped(loss) + "\n"
    candles = found.total.likely / CANDLE
    like = f"A candle gives about {CANDLE:.0f} W (from memory), so that is {candles:.1f} candles."
    return f"{wrapped(f'{loss} {like} Most goes through: {found.worst.name}.')}\n"


def loss_table(told: Warmth) -> Table:
    """Watts of each part, and of all of them, to read.

    >>> from hivecalc.hive import demo_hive
    >>> loss_table(Warmth(demo_hive(), Weather(20, -10, 0.6))).rows[0]
    ['walls', '34 to 51']
    """
    rows = [(p.name, p.watts.words) for p in told.losses.parts]
    return Table(("part", "watts"), [list(r) for r in [*rows, ("all", told.losses.total.words)]])


def _and_air(told: Warmth) -> str:
    air = f"Air that goes in and out takes {told.losses.air.words} W more: little where bees and "
    return f"{wrapped(f'{air}comb hinder it, most in an empty hive.')}\n"


def layer_table(told: Warmth) -> Table:
    """Walls, roof and bottom board with their resistance, in both systems of units.

    >>> from hivecalc.hive import demo_hive
    >>> layer_table(Warmth(demo_hive(), Weather(20, -10, 0.6))).rows[0][:2]
    ['walls', 'R 1.9 (0.33 m²·K/W)']
    """
    from hivecalc.warmth import CONDUCTANCE, RESISTANCE, imperial, in_both  # noqa: PLC0415 - slow

    rows: list[list[Cell]] = []
    for s in told.surfaces:
        e = s.element
        limits = [f"{imperial(r, RESISTANCE):.1f}" for r in (e.lower, e.upper)]
        through = ", ".join(one.name for one in e.main.layers if one.thickness)
        resists, passes = in_both(e.resistance, RESISTANCE), in_both(e.transmittance, CONDUCTANCE)
        rows.append([s.name, resists, " to ".join(limits), passes, through])
    return Table(("part", "resistance", "limits of R", "transmittance", "from inside"), rows)


def foam_missing(hive: Hive, inches: float) -> str:
    """So much foam in the units of a hive, as wood through it costs.

    >>> from hivecalc.hive import demo_hive
    >>> foam_missing(demo_hive(), 0.6)
    '0.6 in'
    """
    return f"{inches:.1f} in" if hive.units == "inch" else f"{inches / float(MM):.0f} mm"


def bridge_table(told: Warmth) -> Table:
    """What wood costs against foam in its place, in watts and in inches of foam.

    >>> from hivecalc.hive import demo_hive
    >>> bridge_table(Warmth(demo_hive(), Weather(20, -10, 0.6))).rows[0]
    ["roof's rim", '1.3', '0.3 in']
    """
    rows: list[list[Cell]] = [
        [b.name, f"{b.conductance * told.difference:.1f}", foam_missing(told.hive, b.inches)]
        for b in told.bridges
    ]
    return Table(("wood", "watts more", "as if so much foam were missing"), rows)


def _grid_said(told: Warmth) -> str:
    error = max(b.error for b in told.bridges)
    return f"The last finer grid changed the flow by {100 * error:.1f} %.\n"


def face_table(told: Warmth) -> Table:
    """Faces inside, how warm they are, and outside temperatures at which a drop forms on them.

    >>> from hivecalc.hive import demo_hive
    >>> face_table(Warmth(demo_hive(), Weather(20, -10, 0.6))).rows[0][0]
    "bottom board's rail"
    """
    from hivecalc.warmth import in_both_degrees  # noqa: PLC0415 - slow to load

    rows: list[list[Cell]] = []
    for f in told.faces:
        drop = _weather(f.drop)
        first = "no winter is so cold" if drop is None else in_both_degrees(drop)
        rows.append([f.name, in_both_degrees(f.temperature), first])
    return Table(("face", "now", "first drop with outside at"), rows)


def _order_said(told: Warmth) -> str:
    """Where water comes first, and whether it stays off the bees."""
    from hivecalc.warmth import dew_point, in_both_degrees  # noqa: PLC0415 - slow to load

    at, names = told.weather, [f.name for f in told.faces]
    dew = in_both_degrees(dew_point(at.inside, at.humidity))
    last = names[-1] == "above the bees"
    order = (
        "Above the bees it stays warmest, so water runs down the walls and does not drip on them."
        if last
        else f"It is warmer at: {', '.join(names[names.index('above the bees') + 1 :])}. "
        "So water may drip on the bees first: put more foam in the roof."
    )
    said = f"Air of {100 * at.humidity:.0f} % humidity drops its water at {dew}. First: {names[0]}."
    return f"{wrapped(f'{said} {order}')}\n"


def compared_table(told: Warmth) -> Table:
    """The hive built in other ways, from the most heat lost to the least.

    >>> from hivecalc.hive import demo_hive
    >>> compared_table(Warmth(demo_hive(), Weather(20, -10, 0.6))).rows[-1]
    ['2 in of foam all round, in a sleeve', '16']
    """
    return Table(("built", "watts"), [[c.words, f"{c.watts:.0f}"] for c in told.compared])


def _honey_said(told: Warmth) -> str:
    """What honey would hold this heat, what a cluster gives, and what is left out."""
    from hivecalc.warmth import (  # noqa: PLC0415 - slow to load
        CLUSTER,
        LEFT_OUT,
        MASS,
        WINTER_DAYS,
        honey,
        imperial,
    )

    kilos = honey(told.losses.total)
    pounds = kilos.times(imperial(1, MASS))
    said = (
        f"Honey that holds so much heat for {WINTER_DAYS} days: {kilos.words} kg "
        f"({pounds.words} lb). Bees do not heat the whole hive, so they eat less. A cluster gives "
        f"about {CLUSTER[0]:.0f} W for each kg of bees, a very small one {CLUSTER[1]:.0f} W "
        "(Southwick 1985, abstract; unit assumed)."
    )
    left = "".join(wrapped(one, "  ") + "\n" for one in LEFT_OUT)
    return f"{wrapped(said)}\n\nLeft out\n{left}"
