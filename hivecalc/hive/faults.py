"""Faults of the input: each one sentence, and all of them told at once."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final

MOST_FAULTS: Final = 100


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of the input: where it stands, what was found there, and what is accepted.

    >>> print(Fault("hive.toml, units", "“cm” is no unit of this file", 'write "inch" or "mm"'))
    hive.toml, units: “cm” is no unit of this file; write "inch" or "mm".
    """

    place: str
    found: str
    accepted: str

    def __str__(self) -> str:
        """Return the fault as one sentence."""
        return f"{self.place}: {self.found}; {self.accepted}."


class HiveFaults(ValueError):  # noqa: N818 - it carries several faults, and is named for them
    """All faults of one input, told at once."""

    faults: tuple[Fault, ...]

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))


class RefusedError(ValueError):
    """A value that is not accepted: what was found, and what would be accepted."""


def refuse(faults: Iterator[Fault], place: str) -> None:
    """Raise HiveFaults where there are any; of very many only the first are told."""
    told = tuple(islice(faults, MOST_FAULTS))
    if next(faults, None):
        told += (Fault(place, "there are more faults than these", "mend these first"),)
    if told:
        raise HiveFaults(told)
