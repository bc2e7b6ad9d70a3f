"""What the pages of the workshop share: words, and how much goes into one picture."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, TypeVar

from hivecalc.cutting import Unplanned
from hivecalc.cutting.needs import kinds_of
from hivecalc.drawing.page import Page
from hivecalc.hive import Hive
from hivecalc.tables.shop import so_many

T = TypeVar("T")

MISSING: Final = "Not planned"
FEW: Final = 3
"""Kinds of hives that a heading has room to name."""


def named(name: str, title: str) -> str:
    """The title of a page, for the hive or the class of this name if it has one.

    >>> named("Orchard hive", "How to cut it"), named("", "How to cut it")
    ('Orchard hive: How to cut it', 'How to cut it')
    """
    return f"{name}: {title}" if name else title


def hives_named(hives: Sequence[Hive]) -> str:
    """The hives that pages are for, as their heading names them.

    >>> from hivecalc.hive import demo_hive
    >>> hives_named([demo_hive()] * 3)
    'Orchard hive × 3'

    Of more than three kinds it only says how many hives there are. Raises HiveFaults for no hive.
    """
    kinds = kinds_of(hives)
    if len(kinds) > FEW:
        return f"{len(hives):,} hives"
    return ", ".join(so_many(kind.name or kind.hive.name, kind.count) for kind in kinds)


def write_missing(page: Page, left: Iterable[Unplanned]) -> None:
    """Write what the yard does not give, and why not."""
    lines = [f"{each.count:,} × {each.label}: {each.why}." for each in left]
    if lines:
        page.begin(MISSING)
        page.write(*lines)


def shares(things: Sequence[T], most: int) -> Iterator[Sequence[T]]:
    """Things in their order, in shares for pictures that hang two abreast, about equally big.

    >>> [len(share) for share in shares(range(7), 6)], [len(share) for share in shares("a", 6)]
    ([4, 3], [1])

    No share is bigger than `most`.
    """
    pictures = 2 * -(-len(things) // (2 * most))
    size = -(-len(things) // pictures)
    yield from (things[i : i + size] for i in range(0, len(things), size))
