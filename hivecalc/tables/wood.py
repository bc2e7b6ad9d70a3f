"""What wood does to a hive's gaps in a year: as text, rows and for other programs."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from hivecalc.hive import Hive
from hivecalc.length import SIXTY_FOURTH, TENTH_MM, THIRTY_SECOND, Grid, shown
from hivecalc.support.faults import escaped
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, text_table, wrapped

if TYPE_CHECKING:
    from hivecalc.wood import Gap, Species

MM = 25.4


@dataclass(frozen=True)
class Year:
    """A hive's gaps through a year, for a species and a climate, cut at one moisture in percent."""

    hive: Hive
    species: "Species"
    climate: str
    made: float

    @property
    def moistures(self) -> tuple[float, ...]:
        """What the wood comes to, month by month."""
        from hivecalc.wood import CLIMATES  # noqa: PLC0415 - slow to load

        return CLIMATES[self.climate]

    @cached_property
    def gaps(self) -> "tuple[Gap, ...]":
        """Every gap that wood may move."""
        from hivecalc.wood import gaps  # noqa: PLC0415 - slow to load

        return gaps(self.hive, self.species, self.moistures, self.made)

    @property
    def grid(self) -> Grid:
        """The marks that a gap is told on."""
        return TENTH_MM if self.hive.units == "mm" else THIRTY_SECOND

    @property
    def fine(self) -> Grid:
        """The marks that a movement is told on, which is less than a tape shows."""
        return TENTH_MM if self.hive.units == "mm" else SIXTY_FOURTH


def wood_json(year: Year) -> Json:
    """A hive's gaps through a year for other programs, in mm.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.wood import SPECIES
    >>> found = wood_json(Year(demo_hive(), SPECIES["white fir"], "chicago", 12))
    >>> found["gaps"][0]["meant_for"]
    'lean, bow and dirt'
    """
    from hivecalc.wood import MONTHS  # noqa: PLC0415 - slow to load

    return {
        "schema": SCHEMA,
        "species": year.species.name,
        "source": year.species.source,
        "climate": year.climate,
        "made_percent": round(year.made, 1),
        "moisture_percent": dict(zip(MONTHS, year.moistures, strict=True)),
        "gaps": [
            {
                "name": gap.name,
                "planned_mm": round(float(gap.planned) * MM, 2),
                "least_mm": round(gap.least * MM, 1),
                "most_mm": round(gap.most * MM, 1),
                "meant_for": gap.meant_for,
                "months_mm": [[round(end * MM, 1) for end in month] for month in gap.months],
            }
            for gap in year.gaps
        ],
    }


def wood_table(year: Year) -> Table:
    """The gaps month by month as rows for a spreadsheet, in mm.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.wood import SPECIES
    >>> wood_table(Year(demo_hive(), SPECIES["white fir"], "chicago", 12)).rows[0][:3]
    ['panel, side to side', 'Jan', 14.2]
    """
    from hivecalc.wood import MONTHS  # noqa: PLC0415 - slow to load

    columns = ("gap", "month", "moisture", "planned_mm", "least_mm", "most_mm")
    rows: list[list[Cell]] = [
        [gap.name, month, moisture, round(float(gap.planned) * MM, 2),
         *(round(end * MM, 1) for end in ends)]
        for gap in year.gaps
        for month, moisture, ends in zip(MONTHS, year.moistures, gap.months, strict=True)
    ]  # fmt: skip
    return Table(columns, rows)


def wood_text(year: Year, across: int | None = None) -> str:
    """The gaps of a year to read: as planned, at their least and most, and what each is for.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.wood import SPECIES
    >>> text = wood_text(Year(demo_hive(), SPECIES["white fir"], "chicago", 12))
    >>> print(text.splitlines()[0])
    Orchard hive, in white fir: measured and cut at 12 % moisture. In Chicago it
    """
    low, high = min(year.moistures), max(year.moistures)
    said = (
        f"{escaped(year.hive.name)}, in {year.species.name}: measured and cut at {year.made:.0f} % "
        f"moisture. In {year.climate.capitalize()} it goes from {low:.0f} to {high:.0f} % through "
        "the year."
    )
    return "\n".join((f"{wrapped(said)}\n", text_table(gap_table(year), across), _notes(year)))


def gap_table(year: Year) -> Table:
    """The gaps to read, on marks that a tape has.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.wood import SPECIES
    >>> gap_table(Year(demo_hive(), SPECIES["white fir"], "seattle", 12)).rows[1]
    ['panel, front to back', '1/4 in', '≈ 1/4 in', '≈ 1/4 in', '≈ 1/64 in', 'lean, bow and dirt']
    """
    columns = ("gap", "planned", "at least", "at most", "moves by", "there for")
    rows: list[list[Cell]] = [
        [gap.name, told(gap.planned, year), told(gap.least, year), told(gap.most, year),
         shown(Fraction(gap.moves).limit_denominator(10_000), grid=year.fine), gap.meant_for]
        for gap in year.gaps
    ]  # fmt: skip
    return Table(columns, rows)


def told(inches: float | Fraction, year: Year) -> str:
    """A gap on the marks of a tape; one that is shut is told as nothing.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.wood import SPECIES
    >>> year = Year(demo_hive(), SPECIES["white fir"], "chicago", 12)
    >>> told(0.24, year), told(-0.1, year)
    ('≈ 1/4 in', 'less than nothing')
    """
    least = -year.grid.step / 2
    if inches < least:
        return "less than nothing"
    return shown(max(Fraction(inches).limit_denominator(10_000), Fraction(0)), grid=year.grid)


def _notes(year: Year) -> str:
    from hivecalc.wood import KILN_DRIED  # noqa: PLC0415 - slow to load

    notes = (
        f"A stud sold as dry may hold {KILN_DRIED:.0f} %: --made {KILN_DRIED:.0f} shows what it does.",
        "Least and most are for boards sawn either way, a fifth more or less. Foam stays as it is.",
        "Plywood and the length of a board hardly move.",
        f"Shrinkage: {year.species.source}. Climate: Wood Handbook, Table 13-1, from memory.",
    )
    return "".join(f"{wrapped(note)}\n" for note in notes)
