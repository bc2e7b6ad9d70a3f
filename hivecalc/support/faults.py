"""Faults of the input, all listed at once, and text from outside that does no harm in a message."""

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final

MOST_FAULTS: Final = 100


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of the input: where it stands, what was found there, and what is accepted.

    >>> print(Fault("hive.toml, units", "“cm” is not a unit of this file", 'write "inch" or "mm"'))
    hive.toml, units: “cm” is not a unit of this file; write "inch" or "mm".
    """

    place: str
    found: str
    accepted: str

    def __str__(self) -> str:
        """Return the fault as one sentence."""
        return f"{self.place}: {self.found}; {self.accepted}."


class HiveFaults(ValueError):  # noqa: N818 - it carries several faults, and is named for them
    """All faults of one input, listed at once."""

    faults: tuple[Fault, ...]

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))


class RefusedError(ValueError):
    """A value that is not accepted: what was found, and, where one can say, what would be."""

    def __str__(self) -> str:
        """Return both as one sentence; what was found as it is where it stands alone."""
        found, *accepted = self.args
        return f"{found}; {accepted[0]}." if accepted else found


def raise_faults(faults: Iterator[Fault], place: str) -> None:
    """Raise HiveFaults where there are any; of very many only the first are listed."""
    listed = tuple(islice(faults, MOST_FAULTS))
    if next(faults, None):
        listed += (Fault(place, "there are more faults than these", "mend these first"),)
    if listed:
        raise HiveFaults(listed)


# ── text from outside, in a message ───────────────────────────────────────────────────────────────


MOST_QUOTED: Final = 40
LONGEST_NAME: Final = 80

_TURNS: Final = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
_UNREADABLE: Final = frozenset({"Cc", "Cs", "Zl", "Zp"})
_NO_CHARACTER: Final = 0xFFFE  # the last two of each plane are none: Unicode Standard, 23.7


def escaped(text: str) -> str:
    """Text with what could not be seen, or could steer a terminal, as an escape."""
    return "".join(sign if sign.isprintable() else ascii(sign)[1:-1] for sign in text)


def short(text: str) -> str:
    """Text cut to a length that a message has room for, and harmless."""
    return escaped(text[:MOST_QUOTED])


def sentence(text: str) -> str:
    """Text that begins with a capital letter."""
    return f"{text[:1].upper()}{text[1:]}"


def so_many(number: int, what: str) -> str:
    """So many things, in words: "1 board", "2 boards"."""
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def quoted(text: str) -> str:
    """Text as a message quotes it, cut to what it has room for."""
    seen = escaped(text[: MOST_QUOTED + 1])
    return f"“{seen if len(seen) <= MOST_QUOTED else f'{seen[:MOST_QUOTED]}…'}”"


def steers(sign: str) -> bool:
    """Whether a character breaks the line, turns the text round, or is not a character at all."""
    return (
        unicodedata.category(sign) in _UNREADABLE
        or unicodedata.bidirectional(sign) in _TURNS
        or ord(sign) & _NO_CHARACTER == _NO_CHARACTER
    )


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Known name that a misspelt one comes nearest to, or None where none is like it."""
    import difflib  # noqa: PLC0415 - only a misspelt name needs it

    near = difflib.get_close_matches(name, known, n=1) if len(name) <= LONGEST_NAME else []
    return next(iter(near), None)


def nearest_or(near: str | None, accepted: str) -> str:
    """What to write for a name that is unknown: the known one nearest to it, else what is accepted.

    >>> nearest_or(nearest("lenght", ["length"]), "write length"), nearest_or(None, "write length")
    ('the nearest known name is length', 'write length')
    """
    return f"the nearest known name is {near}" if near else accepted
