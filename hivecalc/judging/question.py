"""A size that is asked for, and the one way to judge an answer to it.

Can it be read; is it the value, or what may be cut instead; would it be right if an earlier answer
were; is it what a named slip gives; and else, where to look first.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from typing import Final, TypeAlias

from hivecalc.derivation import Dimension, Step, Values, computed, full_named, line, title
from hivecalc.judging.answer import (
    FARTHEST,
    HAIR,
    ONE_MARK,
    Candidate,
    Entry,
    Judgement,
    NamedSlip,
    Verdict,
    entered,
    is_at,
    is_fall,
    named_slips,
    roundings,
    slip_verdict,
    space_left_out,
    spoken,
    stands_for,
)
from hivecalc.judging.slips import Wrong
from hivecalc.judging.wrong_rules import kind_or_length
from hivecalc.length import (
    MARKS,
    SIXTEENTH,
    LengthError,
    Rounding,
    Units,
    as_written,
    is_mark,
    rounded,
    written,
)
from hivecalc.support.faults import sentence

NOT_EXPECTED: Final = "Not yet: this is not the value expected."

Earlier: TypeAlias = Mapping[str, Entry]


class Question:
    """A size that is asked for: its value, and the wrong answers that slips would give.

    `values` are the sizes that it is made from, and its own.
    The slips that are shown, by name, come first, and are looked for at the nearest mark of a tape
    whatever they are about.
    """

    def __init__(
        self,
        dimension: Dimension,
        values: Values,
        units: Units,
        wrong: Iterable[Wrong] = (),
        shown: Collection[str] = (),
    ) -> None:
        self.dimension, self.values, self.units, self.shown = dimension, values, units, shown
        self.value, self._given_wrong = values[dimension.name], wrong

    @cached_property
    def wrong(self) -> tuple[Wrong, ...]:
        """The wrong answers of slips at this very step; none that would be judged right."""
        found = (w for w in self._all_wrong() if w.value > 0)
        return tuple(w for w in found if not self.is_right(Entry("", w.value, self.units)))

    def _all_wrong(self) -> Iterable[Wrong]:
        return self._given_wrong

    @property
    def name(self) -> str:
        """The full name of what is asked."""
        return self.dimension.name

    def verdict(self, answer: str, _earlier: Mapping[str, str | Fraction] | None = None) -> Verdict:
        """The verdict on an answer: can it be read, is it right, a slip, or none of them.

        What stands alone rests on no earlier answer.
        """
        return self._judge(answer, {})

    def steps(self) -> list[Step]:
        """The worked steps to its value, the deepest first: here its own sum alone."""
        asked, value = self.dimension, written(self.value, self.units)
        words = {n: title(n) for n in asked.inputs}
        numbers = {n: written(self.values[n], self.units) for n in asked.inputs}
        formula, summed = (line(asked.expression, each) for each in (words, numbers))
        return [Step(self.name, formula, summed, self.value, value, asked.why)]

    def _judge(self, answer: str, earlier: Earlier) -> Verdict:
        try:
            entry = self.read(answer)
        except LengthError as error:
            return Verdict(self.name, answer, "unreadable", str(error))
        return (
            self._right(entry)
            or self._carried(entry, earlier)
            or self._slip(entry, earlier)
            or self._unexplained(entry, earlier)
        )

    def _carried(self, _entry: Entry, _earlier: Earlier) -> Verdict | None:
        return None

    def read(self, answer: str) -> Entry:
        """An answer as it is read; raises LengthError with one sentence for the learner."""
        return entered(answer, self.dimension, self.units, below_nothing=self.value < 0)

    # right

    def is_right(self, entry: Entry) -> bool:
        """Whether an answer is the value, or a mark of its tape that may be cut instead."""
        if abs(entry.value - self.value) > FARTHEST:
            return False
        return self._is_at(entry, self.value, ()) or self._is_at(
            entry, self.value, self.marks(entry.written_in)
        )

    def _is_at(self, entry: Entry, value: Fraction, marks: Collection[Fraction]) -> bool:
        if self.dimension.kind == "ratio":
            return is_fall(entry, value)
        return is_at(entry.value, value, marks)

    def marks(self, units: Units) -> Collection[Fraction]:
        """The marks of a tape that may stand for the value; none takes more than a tenth of it."""
        marks = self._roundings(units)
        return [m for m in marks if abs(m - self.value) * 10 <= self.value]

    def _roundings(self, units: Units) -> frozenset[Fraction]:
        """What the value is rounded to, and where no side is safer the sum of what is shown."""
        found = roundings(self.value, self._rounding, units)
        if self._rounding is not Rounding.NEAREST:
            return found
        return found | roundings(self._as_shown, self._rounding, units)

    @cached_property
    def _as_shown(self) -> Fraction:
        """What its sizes come to as they are shown, some of them rounded, as ≈ 63/64 is."""
        sizes = {n: self.values[n] for n in self.dimension.inputs}
        shown = {
            n: as_written(size, self.units) if kind_or_length(n) == "length" else size
            for n, size in sizes.items()
        }
        return computed(full_named(self.dimension), shown)

    @property
    def listed(self) -> str:
        """The right value as it is written on a cutting list, with its unit."""
        exact = self.units == "mm" or is_mark(self.value)
        value = self.value if exact else rounded(self.value, SIXTEENTH, self._rounding)
        return spoken(value, self.units)

    @property
    def _rounding(self) -> Rounding:
        return self.dimension.rule.rounding

    def _right(self, entry: Entry) -> Verdict | None:
        if not self.is_right(entry):
            return None
        text = f"Right{self._closeness(entry, self.value)}"
        if entry.is_unfinished:
            text = "Right so far: now carry the inch."
        elif self._in_form(entry):
            return self._verdict(entry, "right", text)
        return self._verdict(entry, "right_other_form", f"{text} {self.on_list(entry)}")

    def on_list(self, entry: Entry) -> str:
        """How a right answer stands on a cutting list: its own mark, or else that of the value."""
        own = rounded(entry.value, MARKS[self.units])
        is_its_own = abs(entry.value - own) <= HAIR and own in self.marks(self.units)
        nearest = self.units == "inch" and self._rounding is Rounding.NEAREST
        form = "On a cutting list it is written"
        if nearest and not is_mark(self.value):
            form = "The nearest mark of a tape is"
        return f"{form} {spoken(own, self.units) if is_its_own else self.listed}."

    def _in_form(self, entry: Entry) -> bool:
        """Whether it stands as on a cutting list; a fall stands on none, so any form will do."""
        return self.dimension.kind == "ratio" or entry.is_list_form

    def _closeness(self, entry: Entry, expected: Fraction) -> str:
        if abs(entry.value - expected) <= HAIR:
            return "."
        if self._rounding is Rounding.NEAREST:
            return ", to the nearest mark."
        return f", and on the safe side. {self._reason}"

    @property
    def _reason(self) -> str:
        """Why the size is rounded to one side, as a sentence."""
        return f"{sentence(self.dimension.rule.reason.rstrip('.'))}."

    def _side(self, entry: Entry) -> bool | None:
        """Whether an answer lies on the safe side; None where both are alike, or it is far off."""
        over = entry.value - self.value
        if abs(over) > 2 * ONE_MARK:
            return None
        return {Rounding.DOWN: over <= HAIR, Rounding.UP: over >= -HAIR}.get(self._rounding)

    # a slip

    def _slip(self, entry: Entry, earlier: Earlier) -> Verdict | None:
        """The verdict if a space was left out, or if named slips give the answer."""
        if without := space_left_out(entry, self.value, self.dimension):
            return without
        found = self._slips(entry, earlier)
        if not found:
            return None
        slipped = slip_verdict(self.name, entry.text, entry.value, found)
        return replace(slipped, message=slipped.message + self._unsafe(entry))

    def _slips(self, entry: Entry, _earlier: Earlier) -> tuple[NamedSlip, ...]:
        near = (
            Candidate(w, w.value)
            for w in self.wrong
            if (w.slip.name in self.shown and entry.value == rounded(w.value, SIXTEENTH))
            or stands_for(entry, w.value, w, self.dimension)
        )
        return named_slips(near, entry.value, self.units, self.shown)

    def _unsafe(self, entry: Entry) -> str:
        """What to know about rounding when an answer is just over on the wrong side."""
        unsafe = self._side(entry) is False
        return f" Mind which side is safe. {self._reason}" if unsafe else ""

    # nothing known

    def _unexplained(self, entry: Entry, _earlier: Earlier) -> Verdict:
        return self._verdict(entry, "unexplained", NOT_EXPECTED)

    def _verdict(self, entry: Entry, judged: Judgement, message: str) -> Verdict:
        return Verdict(self.name, entry.text, judged, message, value=entry.value)
