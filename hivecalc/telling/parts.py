"""What is told of the pieces of a hive: a table for each component, and what each piece is for."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from hivecalc.components import DIMENSIONS, is_there, parts, values
from hivecalc.derivation import title
from hivecalc.document import (
    SCHEMA,
    Cell,
    Document,
    Json,
    Paragraph,
    Rows,
    Section,
    Told,
)
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import MARKS, MM, Grid, length_json, shown
from hivecalc.part import SIZES, Piece, Size
from hivecalc.telling.figures import kind_named, number_json


def parts_told(hive: Hive, grid: Grid | None = None, component: str | None = None) -> Told:
    """What is told of the pieces of a hive, or of one component, with their marks on a grid."""
    pieces = parts(hive, component=component)
    listed = _Listed(hive, tuple(pieces), grid or MARKS[hive.units])
    return Told(listed.document, listed.table, listed.data)


@dataclass(frozen=True)
class _Listed:
    hive: Hive
    pieces: tuple[Piece, ...]
    grid: Grid

    @property
    def marked(self) -> list[Piece]:
        """The pieces with the marks that the cutting list has."""
        from hivecalc.fit import marked  # noqa: PLC0415 - the rules load slowly

        return [marked(self.hive, piece, self.grid) for piece in self.pieces]

    # to read

    def document(self) -> Document:
        what = f"pieces to cut, on a grid of {self.grid.name}; ≈ stands before a rounded size"
        first = Section("", (Paragraph(f"{self.hive.name}: {what}"),))
        found = groupby(self.marked, lambda piece: piece.component)
        return Document("", (first, *(self._section(name, list(group)) for name, group in found)))

    def _section(self, component: str, pieces: list[Piece]) -> Section:
        rows = [
            [p.quantity, title(p.part), p.material, *(text or "" for text in self._sizes(p))]
            for p in pieces
        ]
        notes = (Paragraph(f"{title(p.part)}: {p.note}", tone="note") for p in pieces)
        table = Rows(("qty", "part", "material", *SIZES), rows)
        return Section(title(component).capitalize(), (table, *notes))

    def _sizes(self, piece: Piece) -> Iterator[str | None]:
        for size in _sizes(piece):
            yield shown(size.value, grid=self.grid, rounding=size.rounding) if size else None

    # as rows: sizes carry their unit, or a spreadsheet would take 1/2 for a day in February

    def table(self) -> Rows:
        in_mm = (f"{size}_mm" for size in SIZES)
        columns = ("hive", "component", "part", "quantity", "material", *SIZES, *in_mm, "note")
        return Rows(columns, [self._row(piece) for piece in self.marked])

    def _row(self, piece: Piece) -> list[Cell]:
        return [
            *(self.hive.name, piece.component, piece.part, piece.quantity, piece.material),
            *self._sizes(piece),
            *(float(size.value / MM) if size else None for size in _sizes(piece)),
            piece.note,
        ]

    # for other programs

    def data(self) -> Json:
        listed = self.marked
        return {
            "schema": SCHEMA,
            "hive": self._hive(),
            "parts": [self._piece(piece) for piece in listed],
            "dimensions": self._dimensions({piece.component for piece in listed}),
        }

    def _hive(self) -> Json:
        measured, chosen = (
            {name: number_json(value, kind_named(name), self.grid) for name, value in given.items()}
            for given in (self.hive.measured, self.hive.chosen)
        )
        named: Json = {"name": self.hive.name, "units": self.hive.units}
        return {**named, "measured": measured, "chosen": chosen}

    def _piece(self, piece: Piece) -> Json:
        sizes = {
            name: length_json(size.value, self.grid, size.rounding) if size else None
            for name, size in zip(SIZES, _sizes(piece), strict=True)
        }
        said = {
            name: getattr(piece, name) for name in ("component", "part", "quantity", "material")
        }
        return {**said, **sizes, "note": piece.note}

    def _dimensions(self, components: set[str]) -> Json:
        """What is derived for these components, by name; measurements stand in the hive."""
        from hivecalc.fit import rounding_to_mark  # noqa: PLC0415 - the rules load slowly

        hive, grid, found = self.hive, self.grid, values(self.hive)
        given = MEASUREMENTS.keys() & hive.measurements.keys()
        names = (n for n in DIMENSIONS.dimensions if n in found and n not in given)
        return {
            n: number_json(found[n], kind_named(n), grid, rounding_to_mark(hive, n, found[n], grid))
            for n in names
            if DIMENSIONS.dimension(n).component in components and is_there(n, hive.measurements)
        }


def _sizes(piece: Piece) -> list[Size | None]:
    return [getattr(piece, size) for size in SIZES]
