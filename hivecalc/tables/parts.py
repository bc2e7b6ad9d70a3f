"""The pieces to cut, as text, as rows and for other programs."""

from collections.abc import Iterable
from itertools import groupby

from hivecalc.components import DIMENSIONS, is_there, values
from hivecalc.derivation import title
from hivecalc.hive import MEASUREMENTS, Hive
from hivecalc.length import MM, Grid, length_json, shown
from hivecalc.part import SIZES, Piece, Size
from hivecalc.support.faults import escaped
from hivecalc.tables.numbers import kind_named, number_json
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, text_table, wrapped


def parts_json(hive: Hive, pieces: Iterable[Piece], grid: Grid) -> Json:
    """Pieces of a hive for other programs, with every dimension of their components.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> found = parts_json(demo_hive(), parts(demo_hive()), SIXTEENTH)
    >>> list(found), found["dimensions"]["roof.rim_length"]["inches"]
    (['schema', 'hive', 'parts', 'dimensions'], '23 5/8')
    """
    listed = _marked(hive, pieces, grid)
    return {
        "schema": SCHEMA,
        "hive": _hive_json(hive, grid),
        "parts": [_piece_json(piece, grid) for piece in listed],
        "dimensions": _dimensions_json(hive, {piece.component for piece in listed}, grid),
    }


def _marked(hive: Hive, pieces: Iterable[Piece], grid: Grid) -> list[Piece]:
    """The pieces with the marks that the cutting list has."""
    from hivecalc.fit import marked  # noqa: PLC0415 - the rules load slowly

    return [marked(hive, piece, grid) for piece in pieces]


def _hive_json(hive: Hive, grid: Grid) -> Json:
    measured, chosen = (
        {name: number_json(value, kind_named(name), grid) for name, value in given.items()}
        for given in (hive.measured, hive.chosen)
    )
    return {"name": hive.name, "units": hive.units, "measured": measured, "chosen": chosen}


def _piece_json(piece: Piece, grid: Grid) -> Json:
    return {
        "component": piece.component,
        "part": piece.part,
        "quantity": piece.quantity,
        "material": piece.material,
        **{size: _size_json(getattr(piece, size), grid) for size in SIZES},
        "note": piece.note,
    }


def _size_json(size: Size | None, grid: Grid) -> object:
    return length_json(size.value, grid, size.rounding) if size else None


def _dimensions_json(hive: Hive, components: set[str], grid: Grid) -> Json:
    """Return what is derived for these components, by name; measurements stand in the hive."""
    from hivecalc.fit import rounding_to_mark  # noqa: PLC0415 - the rules load slowly

    found = values(hive)
    given = MEASUREMENTS.keys() & hive.measurements.keys()
    names = (n for n in DIMENSIONS.dimensions if n in found and n not in given)
    return {
        n: number_json(found[n], kind_named(n), grid, rounding_to_mark(hive, n, found[n], grid))
        for n in names
        if DIMENSIONS.dimension(n).component in components and is_there(n, hive.measurements)
    }


def parts_table(hive: Hive, pieces: Iterable[Piece], grid: Grid) -> Table:
    """Pieces of a hive as rows for a spreadsheet: sizes on the grid, then exact in mm.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> parts_table(demo_hive(), parts(demo_hive()), SIXTEENTH).rows[0][2:8]
    ['side_rail', 2, 'stud', '1 1/2 in', '3 1/2 in', '21 5/8 in']

    The sizes carry their unit, or a spreadsheet would take 1/2 for a day in February.
    """
    in_mm = (f"{size}_mm" for size in SIZES)
    columns = ("hive", "component", "part", "quantity", "material", *SIZES, *in_mm, "note")
    return Table(columns, [_piece_row(hive, piece, grid) for piece in _marked(hive, pieces, grid)])


def _piece_row(hive: Hive, piece: Piece, grid: Grid) -> list[Cell]:
    sizes = [getattr(piece, size) for size in SIZES]
    return [
        *(hive.name, piece.component, piece.part, piece.quantity, piece.material),
        *(_size_text(size, grid) for size in sizes),
        *(size and float(size.value / MM) for size in sizes),
        piece.note,
    ]


def _size_text(size: Size | None, grid: Grid) -> str | None:
    return shown(size.value, grid=grid, rounding=size.rounding) if size else None


def parts_text(hive: Hive, pieces: Iterable[Piece], grid: Grid, across: int | None = None) -> str:
    """Pieces of a hive to read: for each component a table, and what each piece is for.

    >>> from hivecalc.components import parts
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> pieces = parts(demo_hive(), component="inner_cover")
    >>> print(parts_text(demo_hive(), pieces, SIXTEENTH))  # doctest: +ELLIPSIS
    Orchard hive: pieces to cut, on a grid of 1/16 in; ≈ stands before a rounded
    size
    <BLANKLINE>
    Inner cover
    qty  part          material  thickness  width      length
      2  rim side      stud      3/8 in     1 1/2 in   23 1/8 in
    ...
    """
    what = f"pieces to cut, on a grid of {grid.name}; ≈ stands before a rounded size"
    listed = _marked(hive, pieces, grid)
    by_component = groupby(listed, lambda piece: piece.component)
    sections = (_component_text(name, list(group), grid, across) for name, group in by_component)
    return "\n".join((f"{wrapped(f'{escaped(hive.name)}: {what}')}\n", *sections))


def _component_text(name: str, pieces: list[Piece], grid: Grid, across: int | None) -> str:
    columns = ("qty", "part", "material", *SIZES)
    rows = [_text_row(piece, grid) for piece in pieces]
    notes = (wrapped(f"{title(p.part)}: {p.note}", "  ") for p in pieces)
    table = text_table(Table(columns, rows), across)
    return f"{title(name).capitalize()}\n{table}" + "".join(f"{note}\n" for note in notes)


def _text_row(piece: Piece, grid: Grid) -> list[Cell]:
    sizes = (_size_text(getattr(piece, size), grid) or "" for size in SIZES)
    return [piece.quantity, title(piece.part), piece.material, *sizes]
