"""What is told of wood that moves: a hive's gaps through a year."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from hivecalc.document import SCHEMA, Cell, Document, Json, Paragraph, Rows, Section, Told
from hivecalc.hive import Hive
from hivecalc.length import SIXTY_FOURTH, TENTH_MM, THIRTY_SECOND, Grid, shown
from hivecalc.wood import CLIMATES, KILN_DRIED, MONTHS, Gap, Species, gaps

MM = 25.4


@dataclass(frozen=True)
class Year:
    """A hive's gaps through a year, for a species and a climate, cut at one moisture in percent.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.wood import SPECIES
    >>> year = Year(demo_hive(), SPECIES["white fir"], "chicago", 12)
    >>> year.data()["gaps"][0]["meant_for"], year.table().rows[0][:3]
    ('lean, bow and dirt', ['panel, side to side', 'Jan', 14.2])
    """

    hive: Hive
    species: Species
    climate: str
    made: float

    @property
    def told(self) -> Told:
        """It, in the forms that can be asked for."""
        return Told(self.document, self.table, self.data)

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
        """The marks that a gap is told on."""
        return TENTH_MM if self.hive.units == "mm" else THIRTY_SECOND

    @property
    def fine(self) -> Grid:
        """The marks that a movement is told on, which is less than a tape shows."""
        return TENTH_MM if self.hive.units == "mm" else SIXTY_FOURTH

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
                {
                    "name": gap.name,
                    "planned_mm": round(float(gap.planned) * MM, 2),
                    "least_mm": round(gap.least * MM, 1),
                    "most_mm": round(gap.most * MM, 1),
                    "meant_for": gap.meant_for,
                    "months_mm": [[round(end * MM, 1) for end in month] for month in gap.months],
                }
                for gap in self.gaps
            ],
        }

    def table(self) -> Rows:
        """The gaps month by month as rows for a spreadsheet, in mm."""
        columns = ("gap", "month", "moisture", "planned_mm", "least_mm", "most_mm")
        rows: list[list[Cell]] = [
            [gap.name, month, moisture, round(float(gap.planned) * MM, 2),
             *(round(end * MM, 1) for end in ends)]
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
        notes = (
            f"A stud sold as dry may still hold {KILN_DRIED:.0f} %: --made 19 shows what it does.",
            "Least and most are for boards sawn either way, a fifth more or less. "  # noqa: ISC004
            "Foam stays as it is.",
            "Plywood and the length of a board hardly move.",
            f"Shrinkage: {self.species.source}. Climate: Wood Handbook, Table 13-1, from memory.",
        )
        first = (Section("", (Paragraph(said),)), Section("", (self.gap_table,)))
        return Document("", (*first, Section("", tuple(map(Paragraph, notes)))))

    @property
    def gap_table(self) -> Rows:
        """The gaps to read, on marks that a tape has."""
        columns = ("gap", "planned", "at least", "at most", "moves by", "there for")
        rows: list[list[Cell]] = [
            [gap.name, self.words(gap.planned), self.words(gap.least), self.words(gap.most),
             shown(Fraction(gap.moves).limit_denominator(10_000), grid=self.fine), gap.meant_for]
            for gap in self.gaps
        ]  # fmt: skip
        return Rows(columns, rows)

    def words(self, inches: float | Fraction) -> str:
        """A gap on the marks of a tape; one that is shut is told as less than nothing."""
        if inches < -self.grid.step / 2:
            return "less than nothing"
        return shown(max(Fraction(inches).limit_denominator(10_000), Fraction(0)), grid=self.grid)
