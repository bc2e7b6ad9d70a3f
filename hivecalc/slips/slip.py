"""What a slip is: a wrong rule with a name, and the wrong answer that it gives at one step."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.derivation import title

Family: TypeAlias = Literal["rule", "sums", "tape", "writing"]

_WHICH_SIZE = re.compile(" (length|width|height|thickness)$")
PRACTICE = "common practice, no published source"


@dataclass(frozen=True)
class Slip:
    """One way to go wrong: what gives this value, where to look again, how to practise it.

    gives completes the sentence "This is what you would get if …"; {what} and {other} in it are
    filled by the size it happened with and by what came in its place; {step} and {piece} in a
    question by the size that is asked for and by what it is a size of. needs says what a dimension
    must have for the slip to make sense. weight ranks slips that give one value: the likelier has
    the larger; it is a judgement, no published figure. carries says whether somebody would work on
    from such a value, so that it shows in later steps.
    """

    name: str
    family: Family
    gives: str
    question: str
    practice: str
    needs: str
    weight: int
    source: str = PRACTICE
    carries: bool = True


@dataclass(frozen=True)
class Wrong:
    """The wrong answer that a slip gives at one step, and the working that leads to it.

    step is a dimension's full name; value is in inches (a plain number for a ratio).
    """

    slip: Slip
    step: str
    value: Fraction
    what: str = ""
    other: str = ""
    _working: Callable[[], str] = field(default=str, repr=False, compare=False)

    @property
    def working(self) -> str:
        """The line of working with the slip in it, as it may stand on a learner's paper."""
        return self._working()

    @property
    def gives(self) -> str:
        """What would give this value: the end of a sentence that begins "if"."""
        return self._filled(self.slip.gives)

    @property
    def sentence(self) -> str:
        """One sentence for the learner: this is what you would get if …."""
        return f"This is what you would get if {self.gives}."

    @property
    def question(self) -> str:
        """One question that sends the learner to look again."""
        return self._filled(self.slip.question)

    def _filled(self, text: str) -> str:
        step = title(self.step)
        piece = _WHICH_SIZE.sub("", step)
        return text.format(what=self.what, other=self.other, step=step, piece=piece)
