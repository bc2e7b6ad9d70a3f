"""What a slip is: a wrong rule with a name, and the wrong answer that it gives at one step."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.derivation import title

Family: TypeAlias = Literal["rule", "sums", "tape", "writing"]
Form: TypeAlias = Literal["bare", "decimal", "inch", "metric", "feet", "spaceless"]
"""How an answer is written: without a unit, without a fraction, in inches, in mm, cm or m, with
feet, as a fraction without a whole number before it.
"""

_WHICH_SIZE = re.compile(" (length|width|height|thickness)$")
LINE = "is there a line like"
PRACTICE = "common practice, no published source"


@dataclass(frozen=True)
class Slip:
    """One way to go wrong: what gives this value, where to look again, how to practise it.

    gives completes the sentence "This is what you would get if …"; {what} and {other} in it are
    filled by the size it happened with and by what came in its place; {step} and {piece} in a
    question by the size that is asked for and by what it is a size of. weight ranks slips of one
    family that give one value: the likelier has the larger; it is a judgement, no published figure.
    carries says whether somebody would work on from such a value, so that it shows in later steps.
    trace is a question that tells it from other slips, where no line of working can.
    """

    name: str
    family: Family
    gives: str
    question: str
    practice: str
    weight: int
    source: str = PRACTICE
    carries: bool = True
    trace: str = ""


@dataclass(frozen=True)
class Wrong:
    """The wrong answer that a slip gives at one step, and the working that leads to it.

    step is a dimension's full name; value is in inches (a plain number for a ratio). as_it_is names
    the size that was handed in as it is, where nothing was worked out. forms is how an answer has
    to be written for the slip to be possible at all: nobody writes mm for cm in a fraction.
    """

    slip: Slip
    step: str
    value: Fraction
    what: str = ""
    other: str = ""
    as_it_is: str = ""
    forms: frozenset[Form] = frozenset()
    _working: Callable[[], str] = field(default=str, repr=False, compare=False)

    @property
    def working(self) -> str:
        """The line of working with the slip in it, as it may stand on a learner's paper."""
        return self._working()

    @property
    def trace(self) -> str:
        """A question whose answer tells this slip from others that give the same value.

        The working of a slip on the tape or in writing is not told: the right value stands in it.
        """
        if self.slip.trace:
            return self.slip.trace
        if self.as_it_is:
            return f"did you put down the {self.as_it_is} just as it is"
        return f"{LINE} “{title(self.step)}: {self.working}”"

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
