"""A JSON list read item by item, so that a list of any size needs the room of a few items."""

import codecs
import json
import re
from collections.abc import Iterator
from typing import Final

DAMAGED: Final = object()
"""What stands for an item that can't be read."""

_BETWEEN: Final = re.compile(r"[\s,]*")
_NEXT_OBJECT: Final = re.compile(r",\s*(?=\{)")
_MOST_BETWEEN: Final = 1000  # characters between two objects, where one before is damaged


def items(pieces: Iterator[bytes], decoder: json.JSONDecoder, longest: int) -> Iterator[object]:
    """The items of a JSON list whose text comes in pieces, `DAMAGED` for one that can't be read.

    >>> list(items(iter([b'[{"a": 1}, {"a": 2', b'}]']), json.JSONDecoder(), 100))
    [{'a': 1}, {'a': 2}]

    An item has at most `longest` characters. After a damaged one, reading goes on with the next
    object; a list that is cut short ends with `DAMAGED`.
    """
    text = _Ahead(pieces, longest)
    text.find(re.compile(r"\["))
    while text.sign() not in {"]", ""}:
        try:
            found, end = decoder.raw_decode(text.held, text.at)
        except (json.JSONDecodeError, RecursionError):
            yield DAMAGED
            if not text.find(_NEXT_OBJECT):
                return
        else:
            yield found
            text.at = end
    if text.sign() == "":
        yield DAMAGED


class _Ahead:
    """A text that comes in pieces, of which enough is held to read the next item."""

    def __init__(self, pieces: Iterator[bytes], least: int) -> None:
        decode = codecs.getincrementaldecoder("utf-8")(errors="surrogateescape").decode
        self._pieces, self._least = map(decode, pieces), least
        self.held, self.at = "", 0

    def fill(self) -> bool:
        """Hold as much as is needed from here on; false where no more is to come."""
        parts, ahead = [self.held[self.at :]], len(self.held) - self.at
        while ahead < 2 * self._least and (piece := next(self._pieces, None)) is not None:
            parts.append(piece)
            ahead += len(piece)
        self.held, self.at = "".join(parts), 0
        return len(parts) > 1

    def sign(self) -> str:
        """The first sign of what comes next, past spaces and commas; empty at the end."""
        going_on = True
        while going_on:
            between = _BETWEEN.match(self.held, self.at)
            self.at = between.end() if between else self.at
            low = len(self.held) - self.at < self._least
            going_on = low and self.fill()
        return self.held[self.at : self.at + 1]

    def find(self, pattern: re.Pattern[str]) -> bool:
        """Whether a pattern comes; go behind it, or else to the end."""
        while not (found := pattern.search(self.held, self.at)):
            self.at = max(self.at, len(self.held) - _MOST_BETWEEN)
            if not self.fill():
                return False
        self.at = found.end()
        return True
