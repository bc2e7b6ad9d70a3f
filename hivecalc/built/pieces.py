"""The pieces of a hive, each by itself: "bottom_board.side_rail_left_length"."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from hivecalc.components import MODULES, built
from hivecalc.hive import Hive
from hivecalc.part import Part

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
        return f"{self.place} {self.part.name.replace('_', ' ')}".strip()


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
    return tuple(s for c in built(hive) for s in _OF_COMPONENT[c] if s.part.is_there(there))


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
