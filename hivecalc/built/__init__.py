"""From the pieces to the hive: what comes together, from pieces as they were cut.

The plan derives pieces from the hive; the functions in here go back. `BUILT` is the graph of them,
over the sizes of each single piece. Fit rules, the check of what was cut and the trial of many
hives read these functions and nothing else, so they cannot disagree. With pieces cut as planned
they give the plan's own figures.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.built import sizes
from hivecalc.components import DIMENSIONS, MODULES
from hivecalc.components import built as components_built
from hivecalc.components import values as planned
from hivecalc.derivation import Graph, UnknownNameError, Values, collected, title
from hivecalc.hive import BOX_SIZES, MEASUREMENTS, OPENINGS, Hive
from hivecalc.part import Part, TradeSize

# ── the pieces, each by itself: "bottom_board.side_rail_left_length" ─────────────────────────────

SET_OUT: Final = (
    "bottom_board.slot_height",
    "roof.deck_screw_line",
    "roof.deck_back_screw_line",
    "roof.cover_screw_line",
    "roof.cover_back_screw_line",
    "inner_cover.slot_length",
    "inner_cover.slot_width",
    "inner_cover.slot_from_front",
)
"""Sizes that no piece has: they are marked out when pieces are put together."""


@dataclass(frozen=True)
class PieceSize:
    """One size of one piece: its own name, and the name that the plan has for it."""

    name: str
    planned: str
    component: str
    part: Part
    place: str
    size: str

    @property
    def words(self) -> str:
        """The piece as one says it: "left side rail"."""
        return f"{self.place} {title(self.part.name)}".strip()


def _sizes(component: str, parts: Iterable[Part]) -> Iterator[PieceSize]:
    for part in parts:
        for place in part.places:
            piece = "_".join([part.name, *place.split()])
            for size, _ in part.sizes():
                planned = f"{component}.{part.name}_{size}"
                yield PieceSize(
                    f"{component}.{piece}_{size}", planned, component, part, place, size
                )


_OF_COMPONENT: Final = {c: tuple(_sizes(c, module.PARTS)) for c, module in MODULES.items()}
PIECES: Final[Mapping[str, PieceSize]] = {
    s.name: s for sizes in _OF_COMPONENT.values() for s in sizes
}
"""Every size of every piece that a hive may have, by its own name."""


def _together() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for size in PIECES.values():
        words = size.place.split()
        for many in range(len(words)):  # "lower left" is one of all, and one of the lower ones
            name = "_".join([size.part.name, *words[:many], size.size])
            found.setdefault(f"{size.component}.{name}", []).append(size.name)
    return found


EACH_PIECE: Final[Mapping[str, list[str]]] = _together()
"""The pieces that rules ask about together: all of a part, or all of its lower ones."""


def pieces_of(hive: Hive) -> tuple[PieceSize, ...]:
    """The sizes of all pieces of this hive, one box standing for all, in the order of the parts."""
    there = hive.measurements
    return tuple(
        s for c in components_built(hive) for s in _OF_COMPONENT[c] if s.part.is_there(there)
    )


def each_piece(hive: Hive, cut: Mapping[str, Fraction]) -> dict[str, Fraction]:
    """The same sizes piece by piece, where a part's name stands for all its pieces.

    >>> from hivecalc.hive import demo_hive
    >>> sorted(each_piece(demo_hive(), {"bottom_board.side_rail_length": Fraction(20)}))
    ['bottom_board.side_rail_left_length', 'bottom_board.side_rail_right_length']

    Other names stay as they are. The name of one piece wins over that of its part.
    """
    pieces = pieces_of(hive)
    spread = {s.name: cut[s.planned] for s in pieces if s.planned in cut}
    parts = {s.planned for s in pieces} - {s.name for s in pieces}
    return {**spread, **{n: v for n, v in cut.items() if n not in parts}}


# ── what comes together ───────────────────────────────────────────────────────────────────────────

_NOT_THERE: Final = Fraction(0)
_LEAVES: Final = {
    **{
        n: TradeSize(_NOT_THERE, f"The {s.size} of the {s.words}.", "as cut")
        for n, s in PIECES.items()
    },
    **{n: TradeSize(_NOT_THERE, "As marked out.", "as marked out") for n in SET_OUT},
    "sleeved": TradeSize(_NOT_THERE, "Whether there is a sleeve.", "the hive file"),
    "stacked": TradeSize(_NOT_THERE, "Boxes beyond the first.", "the hive file"),
}
BUILT: Final[Graph] = collected(sizes, leaves=_LEAVES, pieces=EACH_PIECE)
"""What comes together, by full name, over the sizes of the single pieces."""


CUT_TO: Final[Mapping[str, tuple[str, ...]]] = {
    opening: tuple(n for n in (opening, *cut) if n in DIMENSIONS.dimensions)
    for opening, *cut in OPENINGS.values()
}
"""Each opening of a glued frame, and the dimensions of the plan that are cut to it."""


def as_cut(hive: Hive, cut: Mapping[str, Fraction] | None = None) -> Values:
    """Every size that a hive is put together from: pieces, marks, and what was measured.

    >>> from hivecalc.hive import demo_hive
    >>> sizes = as_cut(demo_hive(), {"bottom_board.side_rail_left_length": Fraction(43, 2)})
    >>> [str(sizes[f"bottom_board.side_rail_{side}_length"]) for side in ("left", "right")]
    ['43/2', '173/8']

    In inches; the sizes of a box that is built come from its boards. `cut` replaces sizes by the
    name of one piece, by the name of a part for all its pieces, or anything that comes together by
    its own name. Raises UnknownNameError for any other.
    """
    plan, components = planned(hive), components_built(hive)
    from_boards = {n for n in BOX_SIZES if "box" in components and n not in hive.measured}
    known = {n: plan.get(n, _NOT_THERE) for n in MEASUREMENTS if n not in from_boards}
    marked: Values = {n: plan[n] for n in SET_OUT if n in plan}
    pieces = {s.name: plan[s.planned] for s in pieces_of(hive)}
    flags = {"sleeved": Fraction("sleeve" in components), "stacked": plan["boxes"] - 1}
    opening = {n: v for n, v in hive.measurements.items() if n in BUILT.dimensions}
    given = each_piece(hive, cut or {})
    for name in given:
        if name not in BUILT.dimensions and name not in MEASUREMENTS:
            raise UnknownNameError(name, [*BUILT.dimensions, *MEASUREMENTS])
    return {**known, **marked, **pieces, **flags, **opening, **given}


def together(hive: Hive, cut: Mapping[str, Fraction] | None = None) -> Values:
    """What comes together from the pieces of this hive, with the pieces' own sizes beside it.

    `cut` as for `as_cut`; lengths are Fractions of an inch.
    """
    return BUILT.values(as_cut(hive, cut), components=(*components_built(hive), "stack"))
