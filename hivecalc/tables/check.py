"""What was cut, put together: as text, as rows and for other programs."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, TypeAlias

from hivecalc.derivation import title
from hivecalc.hive import Hive
from hivecalc.length import Grid, length_json, shown
from hivecalc.support.faults import escaped
from hivecalc.tables.fit import findings_text
from hivecalc.tables.texts import Table, text_table, wrapped

if TYPE_CHECKING:  # the rules take a while to load, and parts need none of them
    from hivecalc.as_built import AsBuilt, FrameCheck

Json: TypeAlias = dict[str, object]


def check_json(found: "AsBuilt", frame: "FrameCheck | None", grid: Grid) -> Json:
    """What was cut, for other programs: what comes together, the pieces, the rules.

    >>> from fractions import Fraction
    >>> from hivecalc.as_built import check
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> found = check(demo_hive(), {"bottom_board.panel_width": [Fraction(14)]})
    >>> list(check_json(found, None, SIXTEENTH))
    ['schema', 'holds', 'built', 'pieces', 'rules']

    With a frame there is `frame` too: its shapes, opening, what to cut anew, and what is said.
    """
    from hivecalc.fit import finding_json  # noqa: PLC0415 - the rules load slowly

    return {
        "schema": "hivecalc/1",
        "holds": found.holds and (frame is None or frame.holds),
        "built": {name: length_json(value, grid) for name, value in found.came.items()},
        "pieces": [
            {
                "piece": piece.name,
                "planned": length_json(piece.planned, grid),
                "found": length_json(piece.found, grid),
                "allowed": piece.allowed,
                "advice": " ".join(filter(None, (piece.advice, piece.caution))),
            }
            for piece in found.pieces
        ],
        "rules": [finding_json(f) for f in found.findings],
        **({"frame": _frame_json(frame, grid)} if frame else {}),
    }


def _frame_json(frame: "FrameCheck", grid: Grid) -> Json:
    return {
        "shapes": list(frame.shapes),
        "square": frame.squareness.square,
        "opening": [length_json(side, grid) for side in frame.opening],
        "recut": {name: length_json(size, grid) for name, size in frame.recut.items()},
        "told": list(frame.sentences),
    }


def check_table(hive: Hive, found: "AsBuilt", grid: Grid) -> Table:
    """The pieces that were cut as rows for a spreadsheet.

    >>> from fractions import Fraction
    >>> from hivecalc.as_built import check
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> found = check(demo_hive(), {"bottom_board.panel_width": [Fraction(14)]})
    >>> check_table(demo_hive(), found, SIXTEENTH).rows[0][1:5]
    ['bottom_board.panel_width', '14 1/8 in', '14 in', 'yes']
    """
    columns = ("hive", "piece", "planned", "found", "allowed", "advice", "caution")
    rows = [
        [
            hive.name,
            piece.name,
            shown(piece.planned, grid=grid),
            shown(piece.found, grid=grid),
            "yes" if piece.allowed else "no",
            piece.advice,
            piece.caution,
        ]
        for piece in found.pieces
    ]
    return Table(columns, rows)


def check_text(
    hive: Hive,
    found: "AsBuilt",
    frame: "FrameCheck | None",
    grid: Grid,
    across: int | None = None,
) -> str:
    """What was cut, to read: what comes together, what fails now, what to do with each piece.

    >>> from fractions import Fraction
    >>> from hivecalc.as_built import check
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.length import SIXTEENTH
    >>> found = check(demo_hive(), {"bottom_board.panel_width": [Fraction(14)]})
    >>> check_text(demo_hive(), found, None, SIXTEENTH).splitlines()[0]
    'Orchard hive, as cut: it goes together.'
    """
    return "\n".join(_blocks(hive, found, frame, grid, across))


def _blocks(
    hive: Hive,
    found: "AsBuilt",
    frame: "FrameCheck | None",
    grid: Grid,
    across: int | None,
) -> Iterator[str]:
    result = "it goes together" if found.holds else f"{_rules(len(found.broken))} now"
    if found.holds and frame and not frame.holds:
        result = "the frame is not as planned"
    yield f"{wrapped(f'{escaped(hive.name)}, as cut: {result}.')}\n"
    for piece in found.pieces:
        sign = "✓" if piece.allowed else "✗"
        yield wrapped(f"{sign} {' '.join(filter(None, (piece.advice, piece.caution)))}", "  ")
    if frame:
        yield "\nThe frame"
        yield from (wrapped(sentence, "  ") for sentence in frame.sentences)
    components = dict.fromkeys(p.name.partition(".")[0] for p in found.pieces)
    for component in components:
        rows = [
            [title(name), shown(value, grid=grid)]
            for name, value in found.came.items()
            if name.startswith(f"{component}.")
        ]
        yield f"\n{title(component).capitalize()}, put together"
        yield text_table(Table(("", "comes to"), rows), across)
    if found.broken:
        yield "What fails now"
        yield findings_text(hive, found.broken, across)


def _rules(count: int) -> str:
    return "1 rule fails" if count == 1 else f"{count} rules fail"
