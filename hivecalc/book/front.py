"""The title page of a hive book, and the chapter of what its figures rest on."""

from hivecalc.book.content import Block, Chapter, Column, Paragraph, Table
from hivecalc.book.figures import exactly_in_both_units, grid_name
from hivecalc.components import DIMENSIONS, built, parts, values
from hivecalc.derivation import number, title
from hivecalc.hive import HIVE_SIZES, MEASUREMENTS, Hive

ALL_FROM_HERE = "Every size in this book is worked out from these."
USUAL = (
    "Nobody gave these for this hive, so the usual sizes stand here. Some can be measured, such as "
    "the stud, and some are yours to choose, such as the overhang. Measure the wood, foam and "
    "sheets that you really have. Where yours differs, write it down, enter it in the lessons and "
    "print the book again."
)


def front(hive: Hive) -> tuple[Block, ...]:
    r"""What stands on the title page below the name: the hive, what was given, who measured.

    >>> from hivecalc.hive import demo_hive
    >>> front(demo_hive())[2].rows[0][:2]
    ('Hive length\nOutside length of the hive where the box stands, front to back.', 'measured')
    """
    return (
        Paragraph(_outside(hive), "Outside."),
        Paragraph(_in_short(hive), "What is built."),
        _given(hive),
        _who(),
    )


def _outside(hive: Hive) -> str:
    """Return how large the hive is, in both units."""
    length, width = (
        exactly_in_both_units(values(hive)[name], hive.units).split("\n") for name in HIVE_SIZES
    )
    sizes = [" by ".join(pair) for pair in zip(length, width, strict=True)]
    return f"{sizes[0]} ({sizes[1]}), length by width, where the box stands."


def _in_short(hive: Hive) -> str:
    components = ", ".join(title(c) for c in built(hive))
    pieces = sum(piece.quantity for piece in parts(hive))
    marks = (
        f"Sizes to cut are rounded to {grid_name(hive.units)}; ≈ stands before a rounded figure."
    )
    return f"{components.capitalize()}: {pieces} pieces. {marks} {ALL_FROM_HERE}"


def _given(hive: Hive) -> Table:
    columns = (Column("what was given", 6), Column("how", 2), Column("size", 2, bold=True))
    given = {**dict.fromkeys(hive.measured, "measured"), **dict.fromkeys(hive.chosen, "chosen")}
    rows = ((_meaning(n), given[n], _value(hive, n)) for n in MEASUREMENTS if n in given)
    return Table(columns, tuple(rows))


def _who() -> Table:
    columns = (Column("measured by", 1), Column("checked by", 1), Column("begun on", 1))
    return Table(columns, (("", "", ""),), to_write_in=True)


def _meaning(name: str) -> str:
    return f"{title(name).capitalize()}\n{MEASUREMENTS[name].meaning}"


def _value(hive: Hive, name: str) -> str:
    value, kind = hive.measurements[name], MEASUREMENTS[name].kind
    return exactly_in_both_units(value, hive.units) if kind == "length" else number(value, kind)


def not_given(hive: Hive) -> Chapter:
    r"""Chapter of the usual sizes that stand in for what was not measured or chosen.

    >>> from hivecalc.hive import demo_hive
    >>> not_given(demo_hive()).blocks[1].rows[0]
    ('Stud thickness\nThickness of a stud, the thin way, as measured.', '1 1/2 in\n38.1 mm', '')
    """
    columns = (Column("usual size", 6), Column("used here", 2, bold=True), Column("yours", 2))
    used = _used(hive)
    names = [n for n in MEASUREMENTS if n in used - {*hive.measured, *hive.chosen}]
    rows = tuple((_meaning(n), _value(hive, n), "") for n in names)
    return Chapter(
        "What was not measured", (Paragraph(USUAL), Table(columns, rows, to_write_in=True))
    )


def _used(hive: Hive) -> set[str]:
    """Return the measurements that some size of what is built is made from."""
    names, found = DIMENSIONS.names(built(hive)), values(hive)
    return {source for n in names for source in DIMENSIONS.rests_on(n, hive.measurements, found)}
