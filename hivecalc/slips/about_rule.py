"""Slips about the rule: a dimension's own function with one thing in it changed.

A term is dropped, doubled or its sign turned; a neighbour is put in a size's place; a step is left
out. They are made from the parsed function, so a new dimension has its slips without a line more.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache, partial

from hivecalc.components import COURSE
from hivecalc.derivation import Dimension, Values, kind_of, line, number
from hivecalc.hive import MEASUREMENTS
from hivecalc.length import Units
from hivecalc.slips.arithmetic import computed, full_named, plain, swapped
from hivecalc.slips.rule_slips import NAMED, SLIPS
from hivecalc.slips.slip import Wrong

__all__ = ["SLIPS", "WrongRule", "makes_sense", "wrong_answers", "wrong_rules"]

# Actual and nominal sizes of lumber: American Softwood Lumber Standard PS 20-20, Table 3.
NOMINAL = {"stud_thickness": 2, "stud_width": 4, "board_thickness": 1}
OTHER_SIDE = {
    "stud_thickness": "stud_width",
    "stud_width": "stud_thickness",
    "strip_narrow": "strip_wide",
    "strip_wide": "strip_narrow",
}
ROLES = {
    "thickness": ("_thickness", "strip_narrow", "strip_wide"),
    "gap": ("_gap", "_ease", "_play"),
    "clearance": ("_clearance",),
}
FEWEST_LAYERS = 3

FORGOTTEN = {
    "thickness": "thickness_forgotten",
    "gap": "gap_forgotten",
    "clearance": "clearance_forgotten",
}
COUNTED_TWICE = {
    "thickness": "thickness_twice",
    "gap": "gap_each_side",
    "clearance": "clearance_doubled",
}
ADDED = {"thickness": "thickness_added", "gap": "gap_added"}


@dataclass(frozen=True)
class WrongRule:
    """A dimension's arithmetic with one slip in it; names in it are full names."""

    slip: str
    expression: ast.expr
    what: str
    other: str = ""


def makes_sense(slip: str, dimension: Dimension, _units: Units = "inch") -> bool:
    """Whether a dimension's arithmetic can be got wrong so."""
    return any(rule.slip == slip for rule in wrong_rules(dimension))


def wrong_answers(dimension: Dimension, values: Values, units: Units) -> Iterator[Wrong]:
    """The wrong answers of the rule's slips at one step, those that these values allow."""
    for rule in wrong_rules(dimension):
        try:
            value = computed(rule.expression, values)
        except KeyError:  # a size that this hive does not have
            continue
        working = partial(_working, rule.expression, values, value, dimension, units)
        yield Wrong(NAMED[rule.slip], dimension.name, value, rule.what, rule.other, working)


def _working(
    expression: ast.expr, values: Values, value: Fraction, dimension: Dimension, units: Units
) -> str:
    names = {n.id for n in ast.walk(expression) if isinstance(n, ast.Name) and n.id in values}
    words = {n: number(values[n], kind_of(n, COURSE.dimensions), units) for n in names}
    shown = number(value, dimension.kind, units)
    if isinstance(expression, ast.Name | ast.Constant):
        return shown
    return f"{line(expression, words | {'max': 'max', 'min': 'min'})} = {shown}"


@lru_cache(maxsize=512)
def wrong_rules(dimension: Dimension) -> tuple[WrongRule, ...]:
    """Every wrong rule of a dimension; one arithmetic never twice, nor the right one."""
    expression = full_named(dimension)
    seen, found = {ast.dump(expression)}, []
    for rule in _rewritten(expression, dimension):
        if ast.dump(rule.expression) not in seen:
            seen.add(ast.dump(rule.expression))
            found.append(rule)
    return tuple(found)


def _rewritten(expression: ast.expr, dimension: Dimension) -> Iterator[WrongRule]:
    for node in ast.walk(expression):
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add | ast.Sub):
            yield from _of_term(expression, node)
        elif isinstance(node, ast.Name) and node.id in dimension.inputs:
            yield from _of_name(expression, node)
        elif isinstance(node, ast.Call):
            yield _smaller(expression, node)
        elif isinstance(node, ast.BinOp) and not isinstance(node.right, ast.Constant):
            yield from _of_division(expression, node)
    yield from _left_out_steps(expression, dimension)


# ── a term ────────────────────────────────────────────────────────────────────────────────────


def _of_term(expression: ast.expr, node: ast.BinOp) -> Iterator[WrongRule]:
    """The slips with one term of a sum: dropped, counted wrongly, on the wrong side."""
    core, times = _core_and_times(node.right)
    what, role = _words(core), _role(core)
    yield WrongRule(
        FORGOTTEN.get(role, "size_left_out"), swapped(expression, node, node.left), what
    )
    for slip, term in _counted_wrongly(core, times, role, stacked=_is_stack(expression)):
        yield WrongRule(slip, swapped(expression, node.right, term), what)
    if _is_outermost(expression, node) and not _is_stack(expression):
        yield WrongRule(_turned_slip(node, role), swapped(expression, node, _turned(node)), what)


def _core_and_times(term: ast.expr) -> tuple[ast.expr, Fraction]:
    """What a term is a multiple of, and how often: 2 × a is (a, 2), a ÷ 2 is (a, 1/2)."""
    if isinstance(term, ast.BinOp):
        if isinstance(term.op, ast.Mult) and isinstance(term.left, ast.Constant):
            return term.right, Fraction(str(term.left.value))
        if isinstance(term.op, ast.Div) and isinstance(term.right, ast.Constant):
            return term.left, 1 / Fraction(str(term.right.value))
    return term, Fraction(1)


def _counted_wrongly(
    core: ast.expr, times: Fraction, role: str, *, stacked: bool
) -> Iterator[tuple[str, ast.expr]]:
    if times > 1:
        yield ("thickness_once" if role == "thickness" else "one_side_only"), core
    elif times < 1:
        yield ("clearance_doubled" if role == "clearance" else "half_forgotten"), core
    elif role in COUNTED_TWICE and not stacked:
        yield COUNTED_TWICE[role], ast.BinOp(ast.Constant(2), ast.Mult(), core)


def _turned_slip(node: ast.BinOp, role: str) -> str:
    taken_off = isinstance(node.op, ast.Sub)
    return ADDED.get(role, "size_added") if taken_off else "size_taken_off"


def _turned(node: ast.BinOp) -> ast.BinOp:
    turned = ast.Add() if isinstance(node.op, ast.Sub) else ast.Sub()
    return ast.BinOp(node.left, turned, node.right)


def _role(core: ast.expr) -> str:
    """What a term is for: a thickness, a gap, a clearance, or else just a size."""
    names = _names(core)
    for role, endings in ROLES.items():
        if all(n.endswith(endings) for n in names):
            return role
    return "size"


def _names(expression: ast.expr) -> list[str]:
    found = [n.id for n in ast.walk(expression) if isinstance(n, ast.Name)]
    return [n for n in dict.fromkeys(found) if n not in {"max", "min"}]


def _words(core: ast.expr) -> str:
    return " and ".join(map(plain, _names(core)))


def _sums(expression: ast.expr) -> Iterator[ast.BinOp]:
    """The additions and subtractions that make the outermost sum, the last one first."""
    while isinstance(expression, ast.BinOp) and isinstance(expression.op, ast.Add | ast.Sub):
        yield expression
        expression = expression.left


def _is_outermost(expression: ast.expr, node: ast.BinOp) -> bool:
    return any(node is s for s in _sums(expression))


def _is_stack(expression: ast.expr) -> bool:
    """Whether a size is a stack of layers, where nothing is taken off and nothing is double."""
    sums = list(_sums(expression))
    return len(sums) >= FEWEST_LAYERS - 1 and all(isinstance(s.op, ast.Add) for s in sums)


# ── a neighbour ───────────────────────────────────────────────────────────────────────────────


def _of_name(expression: ast.expr, node: ast.Name) -> Iterator[WrongRule]:
    """The slips with one size: its nominal one, its other side, length for width."""
    what = plain(node.id)
    if node.id in NOMINAL:
        nominal = NOMINAL[node.id]
        rule = swapped(expression, node, ast.Constant(nominal))
        yield WrongRule("nominal_size", rule, what, str(nominal))
    if node.id in OTHER_SIDE:
        other = OTHER_SIDE[node.id]
        yield WrongRule(
            "other_side", swapped(expression, node, ast.Name(id=other)), what, plain(other)
        )
    if across := _across(node.id):
        rule = swapped(expression, node, ast.Name(id=across))
        yield WrongRule("length_for_width", rule, what, plain(across))


def _across(name: str) -> str | None:
    """The length that goes with a width, or the width that goes with a length."""
    for one, other in (("_length", "_width"), ("_width", "_length")):
        sibling = name.removesuffix(one) + other
        if name.endswith(one) and (sibling in MEASUREMENTS or _has_own_rule(sibling)):
            return sibling
    return None


def _has_own_rule(name: str) -> bool:
    """Whether a name is a dimension of its own, and not only a part's copy of some size."""
    return name in COURSE.dimensions and COURSE.dimensions[name].parameters != ("source",)


def _smaller(expression: ast.expr, node: ast.Call) -> WrongRule:
    wrong = "min" if ast.unparse(node.func) == "max" else "max"
    rule = swapped(expression, node, ast.Call(ast.Name(id=wrong), node.args, []))
    return WrongRule("wrong_one_of_two", rule, _words(node))


def _of_division(expression: ast.expr, node: ast.BinOp) -> Iterator[WrongRule]:
    if isinstance(node.op, ast.Div):
        rule = swapped(expression, node, ast.BinOp(node.right, node.op, node.left))
        yield WrongRule("upside_down", rule, _words(node))


# ── a step left out ───────────────────────────────────────────────────────────────────────────


def _left_out_steps(expression: ast.expr, dimension: Dimension) -> Iterator[WrongRule]:
    """The slips in which a number met on the way is handed in."""
    sums = list(_sums(expression))
    if dimension.kind == "ratio" or _is_stack(expression):
        return
    if len(sums) > 1 and any(isinstance(s.op, ast.Sub) for s in sums):
        for name in _names(sums[-1].left):
            yield WrongRule("overall_size", ast.Name(id=name), plain(name))
    for name in dimension.inputs:
        if name in COURSE.dimensions and COURSE.dimensions[name].kind == "length":
            yield WrongRule("step_skipped", ast.Name(id=name), plain(name))
