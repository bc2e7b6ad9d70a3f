"""What a learner may choose from: every option computed, each wrong one with what gives it."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from hashlib import sha256
from itertools import pairwise
from typing import Final, TypeAlias

from hivecalc.components import values
from hivecalc.derivation import title
from hivecalc.exercise.judgements import MAKERS, Maker, orders
from hivecalc.exercise.record import Exercise, Numbers, Option, asked_for, with_change
from hivecalc.judging import (
    Candidate,
    Question,
    Verdict,
    Wrong,
    before,
    named_slips,
    plain,
    question,
    slip_verdict,
)
from hivecalc.judging import in_units as said
from hivecalc.judging.chain import rules_in_words
from hivecalc.length import LengthError, Units, length_from_text

MIXED: Final = {"choose", "chain", "order"}
MOST_RULES: Final = 99
IN_THEIR_ORDER: Final = {"square", "piece", "rule", "count"}
"""Choices that are always the same, or go up."""
Offered: TypeAlias = tuple[Option, ...]


def options(exercise: Exercise, numbers: Numbers) -> Offered:
    """What an exercise offers to choose from on these numbers; nothing where a length is typed.

    >>> from hivecalc.exercise.record import numbers_of
    >>> rail = Exercise("02-01", "choose", "bottom_board.front_rail_length", "", "", "",
    ...                 "thickness_once thickness_forgotten")
    >>> [o.text for o in options(rail, numbers_of(""))]
    ['14 3/8 in', '17 3/8 in', '15 7/8 in']
    """
    first = exercise.by.partition(" ")[0]
    judge = MAKERS.get(exercise.by) or MAKERS.get(first)
    make = judge or _MAKERS.get(first) or _MAKERS.get(exercise.kind)
    offered = make(exercise, numbers) if make else ()
    mixed = first not in IN_THEIR_ORDER if judge else exercise.kind in MIXED
    return tuple(_mixed(offered, exercise.id) if mixed else offered)


def _mixed(offered: Iterable[Option], seed: str) -> list[Option]:
    """The same options in an order that says nothing of which is right, and is always the same."""
    return sorted(offered, key=lambda o: sha256(f"{seed} {o.text}".encode()).digest())


# ── pieces and effects ────────────────────────────────────────────────────────────────────────


def _pieces(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """The right piece among those that the slips would cut."""
    (asked,) = asked_for(exercise, numbers)
    shown = [w for w in asked.wrong if w.slip.name in exercise.slips]
    for value in {asked.value, *(w.value for w in shown)}:
        wrong = tuple(w for w in shown if w.value == value)
        yield Option(said(value, asked.units), value == asked.value, value, wrong)


def _chains(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """The rule of a size in words among those of slips: which sizes, which sign, how often."""
    (asked,) = asked_for(exercise, numbers)
    by_slip = {w.slip.name: (w,) for w in reversed(asked.wrong)}
    for rule in rules_in_words(numbers.hive, exercise.asks, MOST_RULES):
        if not rule.slip:
            yield Option(rule.words, right=True, says="Each size is there, as often as it counts.")
        elif rule.slip in exercise.slips:
            wrong = by_slip.get(rule.slip, ())  # none on a hive as long as it is wide
            yield Option(rule.words, right=False, wrong=wrong, says=rule.question)


def _effects(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """How a size changes with a measurement: rightly, by a slip, not at all, the other way."""
    old, new = (
        question(n.hive, exercise.asks) for n in (numbers, with_change(numbers, exercise.change))
    )
    right = new.value - old.value
    by_slip = dict[Fraction, list[Wrong]]()
    for wrong, change in _changes_by_slip(exercise, old, new):
        by_slip.setdefault(change, []).append(wrong)
    name = exercise.change.partition(" ")[0]
    step = right or abs(new.hive.measurements[name] - old.hive.measurements[name])
    values_said = (said(v.value, numbers.units) for v in (old, new))
    says = "Before it is {}, after it is {}.".format(*values_said)
    for change in sorted({right, -step, step, Fraction(0), *by_slip}):
        text = _effect(change, exercise.asks, numbers.units)
        if change == right:
            yield Option(text, right=True, says=says)
        else:
            told = _no_effect(exercise, change, right)
            yield Option(text, right=False, wrong=tuple(by_slip.get(change, ())), says=told)


def _no_effect(exercise: Exercise, change: Fraction, right: Fraction) -> str:
    """Why a size does not change so, without saying how it does."""
    measured, asked = plain(exercise.change.partition(" ")[0]), title(exercise.asks)
    if not right:
        return f"The {measured} does not come into the {asked} at all."
    if not change:
        return f"The {asked} is made from the {measured}: when one changes, so does the other."
    if change * right < 0:
        return f"The other way: look whether the {measured} is added there or taken off."
    return f"Count how often the {measured} comes into the {asked}."


def _changes_by_slip(
    exercise: Exercise, old: Question, new: Question
) -> Iterator[tuple[Wrong, Fraction]]:
    """What the change comes to if the same slip is made before and after it."""
    after = {(w.slip.name, w.what, w.other): w.value for w in new.wrong}
    for wrong in old.wrong:
        key = (wrong.slip.name, wrong.what, wrong.other)
        if wrong.slip.name in exercise.slips and key in after:
            yield wrong, after[key] - wrong.value


WAYS: Final[Mapping[str, tuple[str, str]]] = {
    "length": ("longer", "shorter"),
    "width": ("wider", "narrower"),
    "height": ("higher", "lower"),
}


def _effect(change: Fraction, name: str, units: Units) -> str:
    if not change:
        return "It stays the same"
    longer, shorter = WAYS.get(name.rpartition("_")[2], ("more", "less"))
    return f"{said(abs(change), units)} {longer if change > 0 else shorter}"


def _touched(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """Which of several sizes a change reaches most, or least."""
    old, new = (values(n.hive) for n in (numbers, with_change(numbers, exercise.change)))
    changes = {n: new[n] - old[n] for n in exercise.dimensions}
    extreme = (max if exercise.by.startswith("most ") else min)(abs(c) for c in changes.values())
    for name, by in changes.items():
        told = _effect(by, name, numbers.units)
        says = f"The {title(name)}: {told[:1].lower()}{told[1:]}."
        yield Option(_piece(name), abs(by) == extreme, says=says)


def _piece(name: str) -> str:
    """What a size is the size of, as it is said at the bench."""
    return title(name).removesuffix(" length")


# ── orders ────────────────────────────────────────────────────────────────────────────────────


def _orders(exercise: Exercise, numbers: Numbers) -> Iterator[Option]:
    """The right order, turned round, as it is listed, and with two exchanged."""
    listed = exercise.asks.split()
    fault = partial(_FAULTS[exercise.by], exercise, numbers)
    for names in orders(_sorted(listed, fault), listed):
        found = next(filter(None, (fault(a, b) for a, b in pairwise(names))), "")
        says = found or _sizes_in_row(names, exercise, numbers)
        yield Option(", then ".join(map(_piece, names)), not found, says=says)


def _sizes_in_row(names: Iterable[str], exercise: Exercise, numbers: Numbers) -> str:
    if exercise.by == "needed first":
        return ""
    sizes = {**values(numbers.hive), **numbers.sizes}
    return "; ".join(f"{_piece(n)} {said(sizes[n], numbers.units)}" for n in names) + "."


Fault: TypeAlias = Callable[[str, str], str]


def _sorted(listed: Sequence[str], fault: Fault) -> list[str]:
    """The names in an order in which none stands before one that must come first."""
    left, right = list(listed), list[str]()
    while left:
        first = next(n for n in left if not any(fault(n, m) for m in left if m != n))
        left.remove(first)
        right.append(first)
    return right


def _longest_first(_exercise: Exercise, numbers: Numbers, one: str, other: str) -> str:
    sizes = values(numbers.hive)
    longer = sizes[other] > sizes[one]
    return f"The {_piece(other)} is longer than the {_piece(one)}." if longer else ""


def _smallest_first(_exercise: Exercise, numbers: Numbers, one: str, other: str) -> str:
    more = numbers.sizes[one] > numbers.sizes[other]
    return f"{numbers.said(one)} is more than {numbers.said(other)}." if more else ""


def _needed_first(exercise: Exercise, numbers: Numbers, one: str, other: str) -> str:
    needed = other in before(one, numbers.hive.measurements, len(exercise.dimensions))
    return f"The {title(one)} is made from the {title(other)}." if needed else ""


_FAULTS: Final[Mapping[str, Callable[[Exercise, Numbers, str, str], str]]] = {
    "longest first": _longest_first,
    "smallest first": _smallest_first,
    "needed first": _needed_first,
}


_MAKERS: Final[Mapping[str, Maker]] = {
    "choose": _pieces,
    "chain": _chains,
    "predict": _effects,
    "order": _orders,
    "most": _touched,
    "least": _touched,
}


# ── the verdict ───────────────────────────────────────────────────────────────────────────────


def choice_verdict(
    name: str, offered: Sequence[Option], answer: str, question: str, units: Units = "inch"
) -> Verdict:
    """The verdict on a choice: by its text, or by its value where that is a length.

    >>> offered = (Option("9 in", True, Fraction(9)), Option("8 in", False, Fraction(8)))
    >>> [choice_verdict("left", offered, a, "").verdict for a in ("9.0", "8 in", "7")]
    ['right', 'unexplained', 'unreadable']
    """
    chosen = _chosen(offered, answer)
    if chosen is None:
        texts = "; ".join(o.text for o in offered)
        return Verdict(name, answer, "unreadable", f"Choose one of these: {texts}.")
    if chosen.right:
        told = f"Right. {chosen.says}".strip()
        return Verdict(name, answer, "right", told, value=chosen.value)
    if chosen.wrong:
        read = chosen.value or Fraction(0)
        slips = named_slips((Candidate(w, read) for w in chosen.wrong), read, units)
        return slip_verdict(name, answer, chosen.value, slips)
    told = chosen.says or "That is not it."
    return Verdict(name, answer, "unexplained", told, question, chosen.value)


def _chosen(offered: Iterable[Option], answer: str) -> Option | None:
    plain, value = " ".join(answer.casefold().split()), _length(answer)
    by_text = (o for o in offered if o.text.casefold() == plain)
    by_value = (o for o in offered if o.value is not None and o.value == value)
    return next(by_text, None) or next(by_value, None)


def _length(answer: str) -> Fraction | None:
    try:
        return length_from_text(answer)
    except LengthError:
        return None
