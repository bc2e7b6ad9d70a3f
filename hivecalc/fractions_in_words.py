"""Sums of lengths, step by step, as a builder works them out on the tape: as data, and in words.

Equal parts first, then the fractions, then the whole inches: with an inch carried where the
fractions make more than one, and borrowed where there is too little fraction to take from. In
millimetres each sum is one step, but where carrying and borrowing a ten are taught.
"""

import ast
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import lcm
from typing import Final, Literal, TypeAlias

from hivecalc.length import MM, SIGN_OF, Length, Units, decimal_inches, is_mark, written
from hivecalc.support.faults import sentence, so_many

StepKind: TypeAlias = Literal[
    "equal parts", "borrow", "carry", "add", "take", "multiply", "halve", "divide", "choose",
    "lacking", "result",
]  # fmt: skip

Sign: TypeAlias = Literal["+", "−"]

HALF: Final = 2
PARTS: Final = {
    2: "halves",
    4: "quarters",
    8: "eighths",
    16: "sixteenths",
    32: "thirty-seconds",
    64: "sixty-fourths",
}
SIGNS: Final[Mapping[type[ast.operator], str]] = {
    ast.Add: "+", ast.Sub: "−", ast.Mult: "×", ast.Div: "÷",
}  # fmt: skip


@dataclass(frozen=True)
class Figure:
    """A number as it stands on paper: 22 9/8 stays 22 9/8, in eighths.

    value is in inches, or a plain number where something is counted. bottom is the number of parts
    that an inch is cut into, 1 for whole inches and for millimetres.
    """

    value: Fraction
    text: str
    bottom: int = 1


@dataclass(frozen=True)
class SumStep:
    """One step of a sum: what it starts from, what comes of it, and how it is said.

    without_result is the same step as a task, empty where nothing is left to do in it. operation
    counts the additions, subtractions, products and halves of the sum, from 0.
    """

    kind: StepKind
    before: tuple[Figure, ...]
    after: Figure
    words: str
    without_result: str
    operation: int = 0


Operation: TypeAlias = tuple[str, tuple[Fraction, ...]]  # a sign or "max", and what it works on


def sum_steps(terms: Sequence[tuple[Fraction, Length]], units: Units = "inch") -> list[SumStep]:
    """The steps of a sum of sizes, each with how often it counts; whole times or half.

    >>> one, off = (Fraction(1), Fraction(139, 8)), (Fraction(-2), Fraction(3, 2))
    >>> for step in sum_steps([one, off]):
    ...     print(f"{step.kind}: {step.words}")
    multiply: First 2 × 1 1/2. Take the inches: 2 × 1 = 2.
    multiply: Take the halves as often: 2 × 1/2 = 2/2, which is 1.
    result: Together: 3 in.
    take: Then 17 3/8 − 3. Take the inches: 17 − 3 = 14.
    result: Left: 14 3/8 in.

    Lengths are in inches. Raises ValueError for a length below zero.
    """
    return _steps(operations_of(terms), units)


def taught_steps(first: Length, sign: Sign, second: Length, units: Units) -> list[SumStep]:
    """The steps of a sum of two lengths as it is taught: in whole millimetres by ones and tens.

    >>> for step in taught_steps(441 * MM, "−", 38 * MM, "mm"):
    ...     print(step.words)
    1 is too small to take 8 from: borrow a ten. 441 is 43 tens and 11 ones.
    Take the ones: 11 − 8 = 3.
    Take the tens: 43 − 3 = 40.
    Left: 403 mm.

    Lengths are in inches. Raises ValueError for a length below zero.
    """
    at_once = _steps([(sign, (first, second))], units)
    last, sizes = at_once[-1], [size / MM for size in (first, second)]
    if units == "inch" or last.kind == "lacking" or any(s.denominator > 1 for s in sizes):
        return at_once
    found = [*(_tens_added if sign == "+" else _tens_taken_off)(*map(int, sizes))]
    if len(found) < 2:  # noqa: PLR2004 - nothing is carried or borrowed, and one column is enough
        return at_once
    lead = "Together" if sign == "+" else "Left"
    words = f"{lead}: {last.after.text} mm."
    return [*found, SumStep("result", last.before, last.after, words, "")]


def operations_of(terms: Iterable[tuple[Fraction, Length]]) -> list[Operation]:
    """The operations of such a sum, each with the numbers that it works on."""
    operations, total = list[Operation](), Fraction(0)
    for number, (count, size) in enumerate(terms):
        times, taken = abs(count.numerator), abs(count) * size
        if times > 1:
            operations.append(("×", (Fraction(times), size)))
        if count.denominator > 1:
            operations.append(("÷", (times * size, Fraction(count.denominator))))
        if number:
            operations.append(("+" if count > 0 else "−", (total, taken)))
        total += taken if count > 0 else -taken
    return operations


def formula_steps(
    formula: ast.expr, values: Mapping[str, Fraction], units: Units = "inch"
) -> list[SumStep]:
    """The steps of a formula for these values of its names, in the order of working.

    >>> formula = ast.parse("overhang - clearance / 2", mode="eval").body
    >>> sizes = {"overhang": Fraction(17, 8), "clearance": Fraction(3, 8)}
    >>> for sentence in in_words(formula_steps(formula, sizes)):
    ...     print(sentence)
    First half of 3/8. Double what stands under the line: half of 3/8 is 3/16 in.
    Then 2 1/8 − 3/16. Make the parts equal: 2 1/8 is 2 2/16.
    2/16 is too small to take 3/16 from: borrow an inch. 2 2/16 is 1 18/16.
    Take the sixteenths: 18/16 − 3/16 = 15/16.
    Left: 1 15/16 in.
    """
    operations = list[Operation]()
    _worked_out(formula, values, operations)
    return _steps(operations, units)


def in_words(steps: Iterable[SumStep]) -> list[str]:
    """The sentences of a sum, with what comes of each step."""
    return [step.words for step in steps]


def without_result(steps: Sequence[SumStep]) -> list[str]:
    """The sentences of a sum whose last operation is left to do: its result stands in none.

    >>> terms = [(Fraction(1), Fraction(185, 8)), (Fraction(-1), Fraction(11, 2))]
    >>> for sentence in without_result(sum_steps(terms)):
    ...     print(sentence)
    Make the parts equal: 5 1/2 is 5 4/8.
    1/8 is too small to take 4/8 from: borrow an inch. 23 1/8 is 22 9/8.
    Take the eighths: 9/8 − 4/8 = ?
    Take the inches: 22 − 5 = ?
    """
    last = steps[-1].operation if steps else 0
    sentences = (s.words if s.operation < last else s.without_result for s in steps)
    return [sentence for sentence in sentences if sentence]


# ── from a formula to its operations ──────────────────────────────────────────────────────────


def _worked_out(
    formula: ast.expr, values: Mapping[str, Fraction], operations: list[Operation]
) -> Fraction:
    """The value of a formula; what is added, taken off and so on is put down on the way."""
    if isinstance(formula, ast.Name):
        return values[formula.id]
    if isinstance(formula, ast.BinOp):
        sign = SIGNS[type(formula.op)]
        both = tuple(_worked_out(e, values, operations) for e in (formula.left, formula.right))
        operations.append((sign, both))
        return _result(sign, both)
    if isinstance(formula, ast.Call):
        sizes = tuple(_worked_out(e, values, operations) for e in formula.args)
        operations.append((ast.unparse(formula.func), sizes))
        return _result(ast.unparse(formula.func), sizes)
    return Fraction(ast.literal_eval(formula))


def _result(sign: str, sizes: Sequence[Fraction]) -> Fraction:
    if sign in {"max", "min"}:
        return (max if sign == "max" else min)(sizes)
    left, right = sizes
    if sign in "+−":
        return left + right if sign == "+" else left - right
    return left * right if sign == "×" else left / right


def _steps(operations: Sequence[Operation], units: Units) -> list[SumStep]:
    """The steps of all operations, each headed by what is done in it; no more where some lacks."""
    steps = list[SumStep]()
    for number, operation in enumerate(operations):
        found = [replace(s, operation=number) for s in _operation_steps(operation, units)]
        if len(operations) > 1:
            found[0] = _headed(found[0], operation, units, number)
        steps += found
        if found[-1].kind == "lacking":
            break
    return steps


def _headed(step: SumStep, operation: Operation, units: Units, number: int) -> SumStep:
    """The same step with what is done in it before it, unless it begins with that itself."""
    first, done = "Then" if number else "First", _done(operation, units)
    if step.words.startswith(sentence(done)):
        words, task = (f"{first} {t[:1].lower()}{t[1:]}" for t in (step.words, step.without_result))
        return replace(step, words=words, without_result=task)
    task = f"{first} {done}. {step.without_result}" if step.without_result else ""
    return replace(step, words=f"{first} {done}. {step.words}", without_result=task)


def _done(operation: Operation, units: Units) -> str:
    """An operation as it is announced: 17 3/8 − 3, or half of 3/8."""
    sign, sizes = operation
    texts = [written(s, units).removeprefix("≈ ") for s in sizes]
    if sign == "×":
        texts[0] = str(sizes[0])
    if sign == "÷" and sizes[1] == HALF:
        return f"half of {texts[0]}"
    if sign in {"max", "min"}:
        *others, last = texts
        ending = "er" if len(others) == 1 else "est"
        compared = f"the {'larg' if sign == 'max' else 'small'}{ending}"
        return f"{compared} of {', '.join(others)} and {last}"
    return f" {sign} ".join(texts)


def _operation_steps(operation: Operation, units: Units) -> list[SumStep]:
    sign, sizes = operation
    lengths = sizes[1:] if sign == "×" else sizes
    if min(sizes) < 0:
        raise ValueError(f"a board can't be {_read(min(sizes))} in long")
    if sign == "−" and sizes[1] > sizes[0]:
        return [_lacking(sizes[0], sizes[1], units)]
    on_tape = all(map(is_mark, lengths))
    make = _IN_STEPS.get(sign)
    if units == "mm" or not on_tape or make is None or (sign == "÷" and sizes[1] != HALF):
        return [_at_once(operation, units)]
    found, total = [*make(*sizes)], _result(sign, sizes)
    if len(found) == 1 and found[0].after.value == total:
        return [replace(found[0], words=f"{found[0].words.removesuffix('.')} in.")]
    lead = "Left" if sign == "−" else "Together"
    before = tuple(Figure(s, _read(s), s.denominator) for s in sizes)
    after = Figure(total, _read(total), total.denominator)
    task = "" if found else f"{lead}: ?"
    return [*found, SumStep("result", before, after, f"{lead}: {after.text} in.", task)]


# ── one operation in steps ────────────────────────────────────────────────────────────────────


def _added(first: Length, second: Length) -> Iterator[SumStep]:
    bottom = lcm(first.denominator, second.denominator)
    (whole, top), (other, other_top) = (_whole_and_top(v, bottom) for v in (first, second))
    carried, rest = divmod(top + other_top, bottom)
    yield from _equal_parts((first, second), bottom)
    if top and other_top:
        both = _fraction(top + other_top, bottom)
        lowest = "" if carried else _lowest(both)
        yield _step(
            "add",
            [_fraction(t, bottom) for t in (top, other_top)],
            both,
            f"Add the {_named(bottom)}: {top}/{bottom} + {other_top}/{bottom} =",
            lowest,
        )
        if carried:
            yield _carried(both, _mixed(1, rest, bottom))
    inches = [n for n in (whole, other, carried) if n]
    if len(inches) > 1:
        total = _mixed(sum(inches))
        text = f"Add the inches: {' + '.join(map(str, inches))} ="
        yield _step("add", [_mixed(n) for n in inches], total, text)


def _carried(parts: Figure, after: Figure) -> SumStep:
    more = "more than" if after.value > 1 else "just"
    words = f"{parts.text} is {more} an inch: carry it. {parts.text} is {after.text}"
    asked = "Is that an inch or more? Then carry it."
    return SumStep("carry", (parts,), after, f"{words}{_lowest(after)}.", asked)


def _taken_off(whole: Length, off: Length) -> Iterator[SumStep]:
    bottom = lcm(whole.denominator, off.denominator)
    (inches, top), (off_inches, off_top) = (_whole_and_top(v, bottom) for v in (whole, off))
    yield from _equal_parts((whole, off), bottom)
    if top < off_top:
        before, after = _mixed(inches, top, bottom), _mixed(inches - 1, top + bottom, bottom)
        small = f"{top}/{bottom} is too small" if top else f"{before.text} has no fraction"
        text = f"{small} to take {off_top}/{bottom} from: borrow an inch."
        yield _open_step("borrow", before, after, f"{text} {before.text} is {after.text}.")
        inches, top = inches - 1, top + bottom
    if off_top:
        fractions = [_fraction(t, bottom) for t in (top, off_top)]
        left = _fraction(top - off_top, bottom)
        text = f"Take the {_named(bottom)}: {top}/{bottom} − {off_top}/{bottom} ="
        yield _step("take", fractions, left, text, _lowest(left))
    if off_inches:
        left = _mixed(inches - off_inches)
        both = [_mixed(n) for n in (inches, off_inches)]
        yield _step("take", both, left, f"Take the inches: {inches} − {off_inches} =")


def _tens_added(first: int, second: int) -> Iterator[SumStep]:
    (tens, ones), (more_tens, more_ones) = divmod(first, 10), divmod(second, 10)
    both = ones + more_ones
    carried, rest = divmod(both, 10)
    if ones and more_ones:
        task = f"Add the ones: {ones} + {more_ones} ="
        yield _step("add", map(_counted, (ones, more_ones)), _counted(both), task)
        if carried:
            after = _counted(both, f"1 ten and {so_many(rest, 'one')}")
            words = f"{both} is {'more than ' if rest else 'just '}ten: carry it."
            asked = "Is that ten or more? Then carry a ten."
            said = f"{words} {both} is {after.text}."
            yield SumStep("carry", (_counted(both),), after, said, asked)
    added = [n for n in (tens, more_tens, carried) if n]
    if len(added) > 1:
        task = f"Add the tens: {' + '.join(map(str, added))} ="
        yield _step("add", map(_tens, added), _tens(sum(added)), task)


def _tens_taken_off(whole: int, off: int) -> Iterator[SumStep]:
    (tens, ones), (off_tens, off_ones) = divmod(whole, 10), divmod(off, 10)
    if ones < off_ones:
        after = _counted(whole, f"{so_many(tens - 1, 'ten')} and {ones + 10} ones")
        text = f"{ones} is too small to take {off_ones} from: borrow a ten."
        yield _open_step("borrow", _counted(whole), after, f"{text} {whole} is {after.text}.")
        tens, ones = tens - 1, ones + 10
    if off_ones:
        task = f"Take the ones: {ones} − {off_ones} ="
        yield _step("take", map(_counted, (ones, off_ones)), _counted(ones - off_ones), task)
    if off_tens:
        task = f"Take the tens: {tens} − {off_tens} ="
        yield _step("take", map(_tens, (tens, off_tens)), _tens(tens - off_tens), task)


def _multiplied(count: Fraction, size: Length) -> Iterator[SumStep]:
    times, bottom = int(count), size.denominator
    inches, top = _whole_and_top(size, bottom)
    counted = Figure(count, str(times))
    if inches:
        before = counted, _mixed(inches)
        after = _mixed(times * inches)
        yield _step("multiply", before, after, f"Take the inches: {times} × {inches} =")
    if top:
        also = " as often" if inches else ""
        after = _fraction(times * top, bottom)
        text = f"Take the {_named(bottom)}{also}: {times} × {top}/{bottom} ="
        note = _lowest(after) or (f", which is {_read(after.value)}" if after.value > 1 else "")
        yield _step("multiply", (counted, _fraction(top, bottom)), after, text, note)


def _halved(size: Length, _two: Fraction) -> Iterator[SumStep]:
    bottom = size.denominator
    inches, top = _whole_and_top(size, bottom)
    if inches % 2:
        before, bottom = _mixed(inches, top, bottom), max(bottom, 2)
        top, inches = top + bottom, inches - 1
        after = _mixed(inches, top, bottom)
        text = f"The inches are odd: take one of them apart. {before.text} is {after.text}."
        yield _open_step("borrow", before, after, text)
    if inches:
        whole = _mixed(inches)
        half = Figure(whole.value / 2, str(inches // 2))
        yield _step("halve", [whole], half, f"Half of {inches} is")
    if top:
        parts = _fraction(top, bottom)
        half = _fraction(top, 2 * bottom) if top % 2 else _fraction(top // 2, bottom)
        how = "Double what stands under the line: half" if top % 2 else "Half"
        yield _step("halve", [parts], half, f"{how} of {parts.text} is")


def _equal_parts(lengths: Iterable[Length], bottom: int) -> Iterator[SumStep]:
    """Each length written with the bottom that all share, where it has another."""
    for length in lengths:
        if length.denominator not in {1, bottom}:
            before = Figure(length, _read(length), length.denominator)
            after = _mixed(*_whole_and_top(length, bottom), bottom)
            text = f"Make the parts equal: {before.text} is {after.text}."
            yield _open_step("equal parts", before, after, text)


def _lacking(whole: Length, off: Length, units: Units) -> SumStep:
    before = tuple(Figure(v, written(v, units)) for v in (whole, off))
    lacks = Figure(off - whole, written(off - whole, units))
    had, taken, lack = (f"{f.text} {SIGN_OF[units]}" for f in (*before, lacks))
    text = f"{taken} can’t come off {had}:"
    return SumStep(
        "lacking", before, lacks, f"{text} {lack} is lacking.", f"{text} how much is lacking?"
    )


_IN_STEPS: Final = {"+": _added, "−": _taken_off, "×": _multiplied, "÷": _halved}
_AT_ONCE: Final[Mapping[str, StepKind]] = {
    "+": "add", "−": "take", "×": "multiply", "÷": "halve", "max": "choose", "min": "choose",
}  # fmt: skip


def _at_once(operation: Operation, units: Units) -> SumStep:
    """A sum in one line: in mm, of sizes that no tape in inches has, a ratio, the larger of two."""
    sign, sizes = operation
    ratio = sign == "÷" and sizes[1] != HALF
    total, before = _result(sign, sizes), tuple(Figure(s, written(s, units)) for s in sizes)
    text = decimal_inches(total) if ratio else written(total, units)
    if "≈" not in text and any("≈" in f.text for f in before):
        text = f"≈ {text}"
    done, unit = sentence(_done(operation, units)), "" if ratio else f" {SIGN_OF[units]}"
    verb = " =" if done[:1].isdigit() else " is"
    words = f"{done}{'' if verb == ' =' and '≈' in text else verb} {text}{unit}."
    kind: StepKind = "divide" if ratio else _AT_ONCE[sign]
    return SumStep(kind, before, Figure(total, text), words, f"{done}{verb} ?{unit}")


def _step(
    kind: StepKind, before: Iterable[Figure], after: Figure, task: str, note: str = ""
) -> SumStep:
    return SumStep(kind, tuple(before), after, f"{task} {after.text}{note}.", f"{task} ?")


def _open_step(kind: StepKind, before: Figure, after: Figure, words: str) -> SumStep:
    """A step that only writes a length another way, and so gives nothing away."""
    return SumStep(kind, (before,), after, words, words)


# ── how a length is written ───────────────────────────────────────────────────────────────────


def _whole_and_top(length: Length, bottom: int) -> tuple[int, int]:
    """The whole inches of a length, and how many parts of this bottom are left over."""
    whole = int(length // 1)
    return whole, int((length - whole) * bottom)


def _fraction(top: int, bottom: int) -> Figure:
    return Figure(Fraction(top, bottom), f"{top}/{bottom}" if top else "0", bottom)


def _mixed(whole: int, top: int = 0, bottom: int = 1) -> Figure:
    """Whole inches and a fraction just as they are given, so that 22 9/8 stays 22 9/8."""
    if not top:
        return Figure(Fraction(whole), str(whole))
    value = whole + Fraction(top, bottom)
    return Figure(value, f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}", bottom)


def _counted(millimetres: int, text: str = "") -> Figure:
    """So many millimetres, as a plain number or in other words."""
    return Figure(millimetres * MM, text or str(millimetres))


def _tens(number: int) -> Figure:
    """So many tens of millimetres."""
    return _counted(10 * number, str(number))


def _read(length: Length) -> str:
    """A length with its fraction in lowest terms."""
    sign = "−" if length < 0 else ""
    whole, top = _whole_and_top(abs(length), length.denominator)
    return sign + _mixed(whole, top, length.denominator).text


def _lowest(figure: Figure) -> str:
    """What a figure is in lowest terms, to be said after it; nothing where it is so already."""
    lowest = figure.value.denominator
    return f", which is {_read(figure.value)}" if figure.value and lowest < figure.bottom else ""


def _named(bottom: int) -> str:
    return PARTS.get(bottom, f"parts of 1/{bottom}")
