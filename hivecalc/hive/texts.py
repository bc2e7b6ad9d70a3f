"""Text from outside, shown in a message so that it can do no harm there."""

import unicodedata
from collections.abc import Iterable
from typing import Final

MOST_QUOTED: Final = 40
LONGEST_NAME: Final = 80

_TURNS: Final = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
_UNREADABLE: Final = frozenset({"Cc", "Cs", "Zl", "Zp"})
_NO_CHARACTER: Final = 0xFFFE  # the last two of each plane are none: Unicode Standard, 23.7


def seen(text: str) -> str:
    """Text with what could not be seen, or could steer a terminal, as an escape."""
    return "".join(sign if sign.isprintable() else ascii(sign)[1:-1] for sign in text)


def short(text: str) -> str:
    """Text cut to a length that a message has room for, and harmless."""
    return seen(text[:MOST_QUOTED])


def sentence(text: str) -> str:
    """Text that begins with a capital letter."""
    return f"{text[:1].upper()}{text[1:]}"


def quoted(text: str) -> str:
    """Text as a message quotes it."""
    return f"“{short(text)}{'…' if len(text) > MOST_QUOTED else ''}”"


def steers(sign: str) -> bool:
    """Whether a character breaks the line, turns the text round, or is none at all."""
    return (
        unicodedata.category(sign) in _UNREADABLE
        or unicodedata.bidirectional(sign) in _TURNS
        or ord(sign) & _NO_CHARACTER == _NO_CHARACTER
    )


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Known name that a misspelt one comes nearest to, or None where there is none like it."""
    import difflib  # noqa: PLC0415 - only a misspelt name needs it

    near = difflib.get_close_matches(name, known, n=1) if len(name) <= LONGEST_NAME else []
    return next(iter(near), None)
