"""A learner's chain judged by structure, and the sum of it judged as arithmetic alone.

A chain is right where it comes to the same in measurements as the formula. What is wrong with it is
said in the terms that the learner built it from: of all forms of the true chain, the nearest.
"""

import ast
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, NamedTuple

from hivecalc.components import DIMENSIONS, begun_with
from hivecalc.derivation import (
    Chain,
    Dimension,
    added,
    full_named,
    line,
    on_hive,
    sizes_in,
)
from hivecalc.hive import Hive
from hivecalc.judging.answer import (
    Judgement,
    NamedSlip,
    Verdict,
    named_slip,
    verdict_json,
)
from hivecalc.judging.of_hive import Questions, questions
from hivecalc.judging.question import Question
from hivecalc.judging.slips import SLIPS, Wrong, plain
from hivecalc.judging.wrong_figures import misspelt, wrong_sums
from hivecalc.judging.wrong_rules import (
    ADDED,
    COUNTED_TWICE,
    FORGOTTEN,
    WrongRule,
    role_of,
    wrong_rules,
)

MOST_COUNT: Final = 20
"""How often one size may count in a chain, added or taken off."""
MOST_OFFERED: Final = 8


@dataclass(frozen=True)
class ChainVerdict:
    """What is wrong with a chain, if anything: names of sizes, and how often they should count."""

    dimension: str
    chain: Chain
    missing: tuple[str, ...] = ()
    extra: tuple[str, ...] = ()
    count: Mapping[str, Fraction] | None = None
    sign: tuple[str, ...] = ()
    message: str = ""
    question: str = ""
    slips: tuple[NamedSlip, ...] = ()

    @property
    def right(self) -> bool:
        """Whether nothing is wrong with it."""
        return bool(self.chain) and not (self.missing or self.extra or self.count or self.sign)

    @property
    def verdict(self) -> Judgement:
        """The same in the words that answers are kept with."""
        if self.right:
            return "right"
        return "slip" if self.slips else "unexplained"


# ── the chain ─────────────────────────────────────────────────────────────────────────────────


def true_chain(hive: Hive, dimension: str) -> dict[str, Fraction] | None:
    """The chain of a dimension in its own terms; None where its formula is no plain sum.

    >>> from hivecalc.hive import demo_hive
    >>> list(true_chain(demo_hive(), "bottom_board.panel_width"))
    ['bottom_board.opening_width', 'panel_gap']

    Raises UnknownNameError.
    """
    known = questions(hive)
    return known.chains.of(known.dimension(dimension))


def chain_verdict(hive: Hive, dimension: str, chain: Chain) -> ChainVerdict:
    """The verdict on a chain for one dimension of this hive.

    >>> from hivecalc.hive import demo_hive
    >>> rail = "bottom_board.front_rail_length"
    >>> once = {"hive_width": Fraction(1), "stud_thickness": Fraction(-1)}
    >>> found = chain_verdict(demo_hive(), rail, once)
    >>> found.count, found.message
    ({'stud_thickness': Fraction(-2, 1)}, 'Your stud thickness does not count often enough.')
    >>> chain_verdict(demo_hive(), rail, {"bottom_board.opening_width": Fraction(1)}).right
    True

    Raises UnknownNameError, and ValueError for a dimension whose formula is no plain sum.
    """
    known, true = questions(hive), true_chain(hive, dimension)
    if true is None:
        raise ValueError(f"{dimension} is no plain chain of sizes")
    chain = {name: count for name, count in chain.items() if count}
    if not chain:
        text = "There is nothing in this chain yet: choose a size that the piece begins with."
        return ChainVerdict(dimension, chain, missing=tuple(true), message=text)
    in_a_circle = any(dimension in known.in_order(name) for name in chain)
    comes_to = known.chains.in_measurements
    if not in_a_circle and comes_to(chain) == comes_to(true):
        return ChainVerdict(dimension, chain, message="Your chain is right.")
    return _faulty(known, dimension, true, chain)


def _faulty(known: Questions, dimension: str, true: Chain, chain: Chain) -> ChainVerdict:
    """What is wrong with a chain, beside the form of the true one that differs least from it."""

    def far(form: Chain) -> tuple[int, int]:
        extra = sum(1 for n in chain if n not in form)
        return extra, sum(1 for n in {**chain, **form} if chain.get(n) != form.get(n))

    form = min(_forms(known, dimension, true, chain), key=far)
    both = [n for n in form if n in chain]
    missing = tuple(n for n in form if n not in chain)
    extra = tuple(n for n in chain if n not in form)
    sign = tuple(n for n in both if (chain[n] > 0) != (form[n] > 0))
    count = {n: form[n] for n in both if abs(chain[n]) != abs(form[n])}
    faults = [
        *(("missing", n) for n in missing),
        *(("extra", n) for n in extra),
        *(("sign", n) for n in sign),
        *(("seldom" if abs(chain[n]) < abs(form[n]) else "often", n) for n in count),
    ]
    text = " ".join(SAID[kind].format(what=plain(name)) for kind, name in faults)
    slips = _slips(known, dimension, true, chain)
    question = slips[0].question if slips else _question(*faults[0], dimension, form)
    return ChainVerdict(dimension, chain, missing, extra, count, sign, text, question, slips)


def _forms(known: Questions, dimension: str, true: Chain, chain: Chain) -> Iterator[Chain]:
    """The true chain on its own steps, and on those of the learner's that are part of it."""
    own = list(known.chains.forms(true))
    yield from own
    names = {n for form in own for n in form}
    comes_to = known.chains.in_measurements
    for name in chain:
        if name in names or dimension in known.in_order(name):
            continue
        if known.chains.behind(name):
            rest = added(comes_to(true), comes_to({name: Fraction(1)}), -1)
            if rest.keys() <= names:
                yield {name: Fraction(1), **rest}


def _question(kind: str, name: str, dimension: str, form: Chain) -> str:
    """What to look at again, by what is wrong with a size and what that is for."""
    if kind == "extra":
        return f"Look at the drawing: where does the {plain(name)} come into this size?"
    slip = _slip(kind, role_of([name]), form[name])
    return Wrong(SLIPS[slip], dimension, Fraction(0), plain(name)).question


def _slips(known: Questions, dimension: str, true: Chain, chain: Chain) -> tuple[NamedSlip, ...]:
    """The named slips of the rule that make this very chain, here or a step before."""
    meant = known.chains.in_measurements(chain)
    found = {
        rule.slip: named_slip(Wrong(SLIPS[rule.slip], step, Fraction(0), rule.what, rule.other))
        for step, rule, theirs in _wrong_chains(known, dimension, true)
        if known.chains.in_measurements(theirs) == meant
    }
    return tuple(found.values())[:1]


def _wrong_chains(
    known: Questions, dimension: str, true: Chain
) -> Iterator[tuple[str, WrongRule, Chain]]:
    """Each wrong rule on the way here, with the chain that it makes of this dimension."""
    own = list(known.chains.forms(true))
    for step in reversed(known.in_order(dimension)):
        form = true if step == dimension else next((f for f in own if step in f), {})
        for rule, theirs in _wrong_rule_chains(DIMENSIONS.dimension(step), known):
            if step == dimension:
                yield step, rule, theirs
            elif step in form:
                rest = {n: c for n, c in form.items() if n != step}
                yield step, rule, added(rest, theirs, form[step])


SAID: Final = {
    "missing": "The {what} is missing.",
    "extra": "The {what} is not part of it.",
    "sign": "The {what} is on the wrong side: added or taken off?",
    "seldom": "Your {what} does not count often enough.",
    "often": "Your {what} counts too often.",
}


def _slip(kind: str, role: str, expected: Fraction) -> str:
    """The slip whose question sends somebody to look at such a fault again."""
    if kind == "missing":
        return FORGOTTEN.get(role, "size_left_out")
    if kind == "sign":
        return ADDED.get(role, "size_added") if expected < 0 else "size_taken_off"
    if kind == "often":
        return COUNTED_TWICE.get(role, "one_side_only")
    return "thickness_once" if role == "thickness" else "one_side_only"


def _wrong_rule_chains(
    dimension: Dimension, known: Questions
) -> Iterator[tuple[WrongRule, dict[str, Fraction]]]:
    """The slips of a dimension's rule that make a plain chain, each with that chain."""
    for rule in wrong_rules(on_hive(dimension, known.values)):
        if found := known.chains.terms(rule.expression):
            yield rule, found


# ── what is offered ───────────────────────────────────────────────────────────────────────────


def offered(
    hive: Hive, dimension: str, found: Collection[str] = (), *, slips: bool = True
) -> tuple[str, ...]:
    """The sizes that a learner may build a chain from: those of the formula, and a slip's.

    >>> from hivecalc.hive import demo_hive
    >>> offered(demo_hive(), "bottom_board.front_rail_length")
    ('hive_length', 'hive_width', 'stud_width', 'stud_thickness')
    >>> panel, opening = "bottom_board.panel_width", "bottom_board.opening_width"
    >>> [opening in offered(demo_hive(), panel, found) for found in ((), [opening])]
    [False, True]

    The largest first, which does not tell which are right. A size that has to be worked out is
    offered only where it was found before; what it is made from always is. Without slips only the
    sizes that belong there. Empty for a formula that is no plain chain.
    """
    known, true = questions(hive), true_chain(hive, dimension)
    if true is None:
        return ()
    begun = begun_with(hive, dimension)
    given = {*found, *begun} - {dimension}
    listed = dict.fromkeys(true)
    for name in (n for n in true if n not in begun):
        listed |= dict.fromkeys(_given_in(name, known, given))
    if slips:
        for _, chain in _wrong_rule_chains(DIMENSIONS.dimension(dimension), known):
            listed |= dict.fromkeys(n for n in chain if known.values[n] > 0)
    kept = [n for n in listed if n in given][:MOST_OFFERED]
    return tuple(sorted(kept, key=lambda n: (-known.values[n], n)))


def _given_in(name: str, known: Questions, given: Collection[str]) -> Iterator[str]:
    """The given sizes that a size is made from, where it is none itself."""
    for each in known.chains.behind(name) or ():
        yield each
        if each not in given:
            yield from _given_in(each, known, given)


class RuleInWords(NamedTuple):
    """A rule to choose, where the formula is no plain chain: its words, and the slip in it."""

    words: str
    slip: str = ""
    question: str = ""


def rules_in_words(hive: Hive, dimension: str, most: int = MOST_OFFERED) -> tuple[RuleInWords, ...]:
    """The true rule of a dimension and those of slips, in words, by their words.

    >>> from hivecalc.hive import demo_hive
    >>> [rule.words for rule in rules_in_words(demo_hive(), "roof.slope") if not rule.slip]
    ['(stud width − rim low height) ÷ rim length']

    Raises UnknownNameError.
    """
    known = questions(hive)
    asked = known.question(dimension).dimension
    right = _in_words(full_named(asked))
    found = {right: RuleInWords(right)}
    for rule in wrong_rules(asked):
        if known.values.keys() >= {*sizes_in(rule.expression)}:
            wrong = Wrong(SLIPS[rule.slip], dimension, Fraction(0), rule.what, rule.other)
            words = _in_words(rule.expression)
            found.setdefault(words, RuleInWords(words, rule.slip, wrong.question))
    return tuple(sorted(list(found.values())[:most]))


def _in_words(expression: ast.expr) -> str:
    return line(expression, {n: plain(n) for n in sizes_in(expression)})


# ── the sum ───────────────────────────────────────────────────────────────────────────────────


def comes_to(hive: Hive, chain: Chain) -> Fraction:
    """What a chain comes to on this hive, in inches."""
    sizes = questions(hive).values
    return sum((count * sizes[name] for name, count in chain.items()), Fraction(0))


def in_working_order(chain: Chain) -> list[tuple[str, Fraction]]:
    """A chain's sizes as one works them out: what is added first, then what is taken off.

    >>> in_working_order({"a": Fraction(-2), "b": Fraction(1)})
    [('b', Fraction(1, 1)), ('a', Fraction(-2, 1))]
    """
    return sorted(((n, c) for n, c in chain.items() if c), key=lambda term: term[1] < 0)


def sum_verdict(hive: Hive, dimension: str, chain: Chain, answer: str) -> Verdict:
    """The verdict on the sum of a learner's own chain, right or wrong: its arithmetic alone.

    >>> from hivecalc.hive import demo_hive
    >>> rail = "bottom_board.front_rail_length"
    >>> once = {"hive_width": Fraction(1), "stud_thickness": Fraction(-1)}
    >>> sum_verdict(demo_hive(), rail, once, "15 7/8").message
    'The sum is right: this is what your chain comes to.'
    >>> [slip.name for slip in sum_verdict(demo_hive(), rail, once, "16 7/8").slips]
    ['inch_not_lowered']
    """
    known, asked = questions(hive), DIMENSIONS.dimension(dimension)
    expected = comes_to(hive, chain)
    sizes = {**known.values, dimension: expected}
    formulas = [*_as_written(chain, asked)] or [asked]
    the_sum = Question(formulas[0], sizes, known.units)
    found = the_sum.verdict(answer)
    if found.verdict == "unreadable":
        return found
    if expected <= 0:
        text = "More is taken off in this chain than there is: nothing would be left."
        return Verdict(dimension, answer, "unexplained", text, value=found.value)
    if found.right:
        text = "The sum is right: this is what your chain comes to."
        if found.verdict != "right":
            text += f" {the_sum.on_list(the_sum.read(answer))}"
        return Verdict(dimension, answer, found.verdict, text, value=found.value)
    for written in formulas:
        wrong = [*wrong_sums(written, known.values, known.units)]
        wrong += misspelt(written, expected, known.units)
        found = Question(written, sizes, known.units, wrong).verdict(answer)
        if found.verdict == "slip":
            return replace(found, tells_apart="", first_difference=None)
    text = "This is not what your chain comes to. Do the sum once more, a step at a time."
    return Verdict(dimension, answer, "unexplained", text, value=found.value)


def _as_written(chain: Chain, asked: Dimension) -> Iterator[Dimension]:
    """A chain as a formula: first with products, then with each size added or taken off singly."""
    ordered = in_working_order(chain)
    if ordered:
        yield _formula([(_product(n, abs(c)), c > 0) for n, c in ordered], asked)
    single = [(ast.Name(id=n), c > 0) for n, c in ordered for _ in range(int(abs(c)))]
    if len(single) > len(ordered) and all(c.denominator == 1 for _, c in ordered):
        yield _formula(single, asked)


def _product(name: str, times: Fraction) -> ast.expr:
    size: ast.expr = ast.Name(id=name)
    if times.numerator > 1:
        size = ast.BinOp(ast.Constant(times.numerator), ast.Mult(), size)
    if times.denominator > 1:
        size = ast.BinOp(size, ast.Div(), ast.Constant(times.denominator))
    return size


def _formula(parts: Iterable[tuple[ast.expr, bool]], asked: Dimension) -> Dimension:
    (expression, _), *others = parts
    for part, is_added in others:
        sign: ast.operator = ast.Add() if is_added else ast.Sub()
        expression = ast.BinOp(expression, sign, part)
    names = tuple(sizes_in(expression))
    return replace(asked, inputs=names, parameters=names, expression=expression)


# ── for other programs ────────────────────────────────────────────────────────────────────────


def whole_verdict(hive: Hive, found: ChainVerdict, answer: str | None) -> Verdict:
    """One verdict on a chain and on its sum, if that was given: the chain's as long as it is wrong.

    >>> from hivecalc.hive import demo_hive
    >>> rail = {"hive_width": Fraction(1), "stud_thickness": Fraction(-1)}
    >>> found = chain_verdict(demo_hive(), "bottom_board.front_rail_length", rail)
    >>> whole_verdict(demo_hive(), found, "15 7/8").message
    'Your stud thickness does not count often enough. The sum is right: this is what your chain \
comes to.'
    """
    name, said = found.dimension, found.message
    if answer is None or not found.chain:
        return Verdict(
            name, answer or "", found.verdict, said, found.question, slips=found.slips,
            first_difference=None if found.right else name,
        )  # fmt: skip
    done = sum_verdict(hive, name, found.chain, answer)
    judged, slips = (done.verdict, done.slips) if found.right else (found.verdict, found.slips)
    if done.verdict == "unreadable":
        judged = done.verdict
    return Verdict(
        name, answer, judged, f"{said} {done.message}", found.question or done.question,
        done.value, slips=slips, first_difference=None if found.right and done.right else name,
    )  # fmt: skip


def chain_json(hive: Hive, found: ChainVerdict, answer: str | None) -> dict[str, object]:
    """The verdict on a chain, and on its sum if that was given, for other programs.

    >>> from hivecalc.hive import demo_hive
    >>> rail = {"hive_width": Fraction(1), "stud_thickness": Fraction(-1)}
    >>> found = chain_verdict(demo_hive(), "bottom_board.front_rail_length", rail)
    >>> data = chain_json(demo_hive(), found, "15 7/8")
    >>> data["chain"]["count"], data["sum"]
    ({'stud_thickness': -2}, 'right')

    A count that is no whole number is given as text, like "-1/2".
    """
    count = {n: int(c) if c.denominator == 1 else str(c) for n, c in (found.count or {}).items()}
    data = {
        "right": found.right,
        "missing": [*found.missing],
        "extra": [*found.extra],
        "count": count,
        "sign": [*found.sign],
    }
    word = None
    if answer is not None and found.chain:
        done = sum_verdict(hive, found.dimension, found.chain, answer).verdict
        word = {"slip": done, "unexplained": done, "unreadable": None}.get(done, "right")
    return {**verdict_json(whole_verdict(hive, found, answer)), "chain": data, "sum": word}
