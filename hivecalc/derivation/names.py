"""Full names, such as "roof.lap": in plain words, and the nearest where one is misspelt."""

import difflib
from collections.abc import Iterable
from typing import Final


class UnknownNameError(LookupError):
    """A name that no dimension and no measurement has: says the nearest ones.

    >>> str(UnknownNameError("lap", ["roof.lap"]))
    "there is no dimension called 'lap'; did you mean roof.lap?"
    """

    def __init__(self, name: str, known: Iterable[str], kind: str = "dimension") -> None:
        self.name = name
        self.nearest = nearest_names(name, known)
        hint = (
            f"did you mean {' or '.join(self.nearest)}?" if self.nearest else "see the parts table."
        )
        super().__init__(f"there is no {kind} called {name[:60]!a}; {hint}")

    def __str__(self) -> str:
        return str(self.args[0])


def nearest_names(name: str, known: Iterable[str]) -> list[str]:
    """At most three known names that are spelt most like this one, the likeliest first.

    >>> nearest_names("side_rail_lenght", ["side_rail_length", "lap"])
    ['side_rail_length']

    A name without its component is found too.

    >>> nearest_names("lap", ["roof.lap", "bottom_board.way_in"])
    ['roof.lap']
    """
    names = list(known)
    same_ending = [n for n in names if n.rpartition(".")[2] == name.rpartition(".")[2]]
    return same_ending[:3] or difflib.get_close_matches(name[:60], names, n=3, cutoff=0.6)


SAID: Final = {"inner_cover.overall_height": "inner cover height"}
"""Names that say too little without their component, in the words of the bench."""


def title(name: str) -> str:
    """A dimension's or measurement's name in plain words, without its component.

    >>> title("bottom_board.side_rail_length"), title("inner_cover.overall_height")
    ('side rail length', 'inner cover height')
    """
    return SAID.get(name) or name.rpartition(".")[2].replace("_", " ")
