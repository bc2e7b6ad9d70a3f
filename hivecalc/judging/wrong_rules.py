"""Slips about the rule: a dimension's own function with one thing in it changed.

A term is dropped, doubled or its sign turned; a neighbour is put in a size's place; a step is left
out. They are made from the parsed function, so a new dimension has its slips without a line more.
"""

import ast
import math
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache, partial
from typing import Final

from hivecalc.components import DIMENSIONS
from hivecalc.derivation import (
    Dimension,
    Kind,
    Values,
    computed,
    full_named,
    kind_of,
    line,
    number,
    sizes_in,
    swapped,
)
from hivecalc.hive import MEASUREMENTS
from hivecalc.judging.slips import COUNTS, SLIPS, Wrong, plain
from hivecalc.length import MM, Units
from hivecalc.part import NOMINAL

# The strips of the inner cover's rim are as wide as a stud is thick.
OTHER_SIDE: Final[Mapping[str, str]] = {
    "stud_thickness": "stud_width",
    "stud_width": "stud_thickness",
    "strip_narrow": "strip_wide",
    "strip_wide": "strip_narrow",
}
OTHER_SIDE_OF_RIM: Final[Mapping[str, str]] = {
    **OTHER_SIDE,
    "stud_thickness": "inner_rim_height",
    "inner_rim_height": "stud_thickness",
}
OTHER_GAPS: Final[Mapping[str, tuple[str, ...]]] = {
    "panel_gap": ("screen_gap", "runner_gap"),
    "screen_gap": ("panel_gap", "runner_gap"),
    "runner_gap": ("panel_gap", "screen_gap"),
    "slot_ease": ("panel_gap",),
}
COUNTED_FROM: Final = {"hive_length": "roof.rim_length", "hive_width": "roof.rim_width"}
ROLES: Final = {
    "thickness": ("_thickness", "strip_narrow", "strip_wide"),
    "gap": ("_gap", "_ease", "_play"),
    "clearance": ("_clearance",),
    "notch": ("_notch",),
}
FORGOTTEN: Final = {
    "thickness": "thickness_forgotten",
    "gap": "gap_forgotten",
    "clearance": "clearance_forgotten",
}
COUNTED_TWICE: Final = {
    "thickness": "thickness_twice",
    "gap": "gap_each_side",
    "clearance": "clearance_doubled",
    "notch": "notch_twice",
}
ADDED: Final = {"thickness": "thickness_added", "gap": "gap_added"}
POSITION: Final = re.compile(r"(?<![a-z])(side|end|front|back|lower|upper)_")


@dataclass(frozen=True)
class WrongRule:
    """A dimension's arithmetic with one slip in it; names in it are full names."""

    slip: str
    expression: ast.expr
    what: str
    other: str = ""


def of_wrong_rules(dimension: Dimension, values: Values, units: Units) -> Iterator[Wrong]:
    """The wrong answers of the rule's slips at one step, those that these values allow."""
    called = {n: size_by_name(values[n], units) for n in WITH_A_NAME if n in values}
    names = {n: size for n, size in called.items() if size}
    sizes = {**values, **{f"{n} by name": size for n, (size, _) in names.items()}}
    for rule in wrong_rules(dimension):
        try:
            value = computed(rule.expression, sizes)
        except (KeyError, ZeroDivisionError):  # no such size or name of wood here, or a flat roof
            continue
        other = names[rule.other][1] if rule.slip == "nominal_size" else rule.other
        working = partial(_working, rule.expression, sizes, value, dimension, units)
        as_it_is = plain(rule.expression.id) if isinstance(rule.expression, ast.Name) else ""
        yield Wrong(
            SLIPS[rule.slip], dimension.name, value, rule.what, other, as_it_is, _working=working
        )
    yield from _in_degrees(dimension, values)
    yield from _inch_as_25_mm(dimension, values, units)


def _working(
    expression: ast.expr, values: Values, value: Fraction, dimension: Dimension, units: Units
) -> str:
    words = {n: number(values[n], kind_or_length(n), units) for n in sizes_in(expression)}
    shown = number(value, dimension.kind, units)
    if isinstance(expression, ast.Name | ast.Constant):
        return shown
    return f"{line(expression, words | {'max': 'max', 'min': 'min'})} = {shown}"


def kind_or_length(name: str) -> Kind:
    """What sort of number stands behind a name; a length behind one that no hive has."""
    known = name in DIMENSIONS.dimensions or name in MEASUREMENTS
    return kind_of(name, DIMENSIONS.dimensions) if known else "length"


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
            yield from _of_name(expression, node, dimension)
        elif isinstance(node, ast.Call):
            wrong = "min" if ast.unparse(node.func) == "max" else "max"
            rule = swapped(expression, node, ast.Call(ast.Name(id=wrong), node.args, []))
            yield WrongRule("wrong_one_of_two", rule, _words(node))
        elif isinstance(node, ast.BinOp):
            yield from _of_product(expression, node)
    core, times = _core_and_times(expression)
    if times < 1:  # one of two pieces
        yield WrongRule("both_given", core, _words(core))
    yield from _left_out_steps(expression, dimension)
    yield from _of_neighbours(expression, dimension)
    yield from _taken_off_or_added(expression, dimension)


# ── a term ────────────────────────────────────────────────────────────────────────────────────


def _of_term(expression: ast.expr, node: ast.BinOp) -> Iterator[WrongRule]:
    """The slips with one term of a sum: dropped, counted wrongly, on the wrong side."""
    core, times = _core_and_times(node.right)
    what, role, stacked = _words(core), role_of(sizes_in(core)), _is_stack(expression)
    forgotten = "size_left_out" if stacked else FORGOTTEN.get(role, "size_left_out")
    yield WrongRule(forgotten, swapped(expression, node, node.left), what)
    for slip, term in _counted_wrongly(core, times, role, stacked=stacked):
        yield WrongRule(slip, swapped(expression, node.right, term), what)
    if any(node is s for s in _sums(expression)) and not stacked:
        taken_off = isinstance(node.op, ast.Sub)
        slip = ADDED.get(role, "size_added") if taken_off else "size_taken_off"
        turned = ast.BinOp(node.left, ast.Add() if taken_off else ast.Sub(), node.right)
        yield WrongRule(slip, swapped(expression, node, turned), what)
    yield from _of_first_term(expression, node, times)
    for other in _other_thicknesses(expression, core):
        rule = swapped(expression, core, ast.Name(id=other))
        yield WrongRule("other_thickness", rule, what, plain(other))


def _of_first_term(expression: ast.expr, node: ast.BinOp, times: Fraction) -> Iterator[WrongRule]:
    """The slips with the first size of an addition, where it is no length or width over all."""
    first = node.left
    over_all = isinstance(first, ast.Name) and first.id.endswith(("_length", "_width"))
    if not isinstance(node.op, ast.Add) or isinstance(first, ast.BinOp) or over_all:
        return
    forgotten = FORGOTTEN.get(role_of(sizes_in(first)), "size_left_out")
    yield WrongRule(forgotten, swapped(expression, node, node.right), _words(first))
    if times == 2:  # noqa: PLR2004 - what counts twice
        core, _ = _core_and_times(node.right)
        rule = swapped(expression, node, ast.BinOp(_twice(first), ast.Add(), core))
        yield WrongRule("other_one_doubled", rule, _words(core), _words(first))


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
        yield COUNTED_TWICE[role], _twice(core)


def _twice(core: ast.expr) -> ast.BinOp:
    return ast.BinOp(ast.Constant(2), ast.Mult(), core)


def role_of(names: Collection[str]) -> str:
    """What sizes are for, all of them: a thickness, a gap, a clearance, a notch, or just a size."""
    found = (r for r, endings in ROLES.items() if all(n.endswith(endings) for n in names))
    return next(found, "size")


def _other_thicknesses(expression: ast.expr, core: ast.expr) -> list[str]:
    """The thicknesses of other pieces that are taken off in the same sum."""
    taken_off = [s.right for s in _sums(expression) if isinstance(s.op, ast.Sub)]
    cores = [c for c, _ in map(_core_and_times, taken_off)]
    if not any(core is c for c in cores) or role_of(sizes_in(core)) != "thickness":
        return []
    others = [c for c in cores if isinstance(c, ast.Name) and role_of(sizes_in(c)) == "thickness"]
    return [c.id for c in others if ast.dump(c) != ast.dump(core)]


def _words(core: ast.expr) -> str:
    is_product = isinstance(core, ast.BinOp) and isinstance(core.op, ast.Mult)
    return (" times the " if is_product else " and ").join(map(plain, sizes_in(core)))


def _sums(expression: ast.expr) -> Iterator[ast.BinOp]:
    """The additions and subtractions that make the outermost sum, the last one first."""
    expression, _ = _core_and_times(expression)
    while isinstance(expression, ast.BinOp) and isinstance(expression.op, ast.Add | ast.Sub):
        yield expression
        expression = expression.left


def _is_stack(expression: ast.expr) -> bool:
    """Whether a size is a stack of three layers or more: nothing is taken off or counts twice."""
    sums = list(_sums(expression))
    return len(sums) > 1 and all(isinstance(s.op, ast.Add) for s in sums)


# ── a product ─────────────────────────────────────────────────────────────────────────────────


def _of_product(expression: ast.expr, node: ast.BinOp) -> Iterator[WrongRule]:
    """The slips with a multiplication or a division: one too few, upside down, left out."""
    if isinstance(node.op, ast.Div) and not isinstance(node.right, ast.Constant):
        rule = swapped(expression, node, ast.BinOp(node.right, node.op, node.left))
        yield WrongRule("upside_down", rule, _words(node))
        yield WrongRule("not_divided", swapped(expression, node, node.left), _words(node.right))
    if isinstance(node.left, ast.Name) and node.left.id in COUNTS:
        fewer = ast.BinOp(node.left, ast.Sub(), ast.Constant(1))
        rule = swapped(expression, node.left, fewer)
        yield WrongRule("one_fewer", rule, _words(node.right), plain(node.left.id))


def _in_degrees(dimension: Dimension, values: Values) -> Iterator[Wrong]:
    if dimension.kind == "ratio":
        degrees = math.degrees(math.atan(values[dimension.name]))
        for text in dict.fromkeys(f"{degrees:.{places}f}" for places in (2, 1, 0)):
            working = partial(str, f"{text}°")
            yield Wrong(SLIPS["in_degrees"], dimension.name, Fraction(text), _working=working)


# ── another size ──────────────────────────────────────────────────────────────────────────────


def _of_name(expression: ast.expr, node: ast.Name, dimension: Dimension) -> Iterator[WrongRule]:
    """The slips with one size: its nominal one, its other side, length for width, another gap."""
    what, component = plain(node.id), dimension.component
    by_name = swapped(expression, node, ast.Name(id=f"{node.id} by name"))
    yield WrongRule("nominal_size", by_name, what, node.id)
    sides = OTHER_SIDE_OF_RIM if component == "inner_cover" else OTHER_SIDE
    from_rim = COUNTED_FROM.get(node.id) if component == "roof" else None
    if from_rim in {dimension.name, *dimension.inputs}:
        from_rim = None
    others = [
        ("other_side", sides.get(node.id)),
        ("length_for_width", across_of(node.id)),
        *(("another_gap", n) for n in OTHER_GAPS.get(node.id, ())),
    ]
    *_, innermost = (None, *_sums(expression))
    if innermost and innermost.left is node and isinstance(innermost.op, ast.Add):
        others.append(("from_the_rim", from_rim))  # something is added to where the size ends
    for slip, other in others:
        if other:
            rule = swapped(expression, node, ast.Name(id=other))
            yield WrongRule(slip, rule, what, plain(other))


def across_of(name: str) -> str | None:
    """The length that goes with a width, or the width that goes with a length."""
    for one, other in (("_length", "_width"), ("_width", "_length")):
        sibling = name.removesuffix(one) + other
        if name.endswith(one) and (sibling in MEASUREMENTS or _runs_across(name, sibling)):
            return sibling
    return None


def _runs_across(name: str, sibling: str) -> bool:
    """Whether two dimensions begin with a length and the width that goes with it."""
    known = DIMENSIONS.dimensions
    if not {name, sibling} <= known.keys():
        return False
    one, other = ([*sizes_in(_first(full_named(known[n]))), ""][0] for n in (name, sibling))
    return known[sibling].parameters != ("source",) and across_of(one) == other


def _first(expression: ast.expr) -> ast.expr:
    """The size, or the product, that a sum begins with."""
    *_, first = (expression, *(s.left for s in _sums(expression)))
    return first


# ── the names of wood ─────────────────────────────────────────────────────────────────────────

IN_INCHES: Final = {
    int(side): size
    for name, dressed in NOMINAL.items()
    for side, size in zip(name.split("x"), (dressed.thickness, dressed.width), strict=True)
    if side.isdigit()
}
"""What dry lumber measures, in inches, by the number that it is called by."""
NAMED_IN_MM: Final = ((25, 18, 22), (50, 36, 47), (75, 60, 72), (100, 86, 97), (150, 136, 147))
"""The mm of wood as it was sawn, and what planing leaves of them, from and to: common practice, no
published source.
"""
NEARLY: Final = Fraction(1, 8)
"""How far from its standard size a stud may measure and still have its name, in inches."""
WITH_A_NAME: Final[tuple[str, ...]] = (
    "stud_thickness", "stud_width", "board_thickness", "landing_thickness", "landing_width",
)  # fmt: skip


def size_by_name(size: Fraction, units: Units) -> tuple[Fraction, str] | None:
    """The size that wood of this size has by its name, in inches and as it is said; or None."""
    if units == "mm":
        called = (n for n, low, high in NAMED_IN_MM if low * MM <= size <= high * MM)
        return next(((n * MM, f"{n} mm") for n in called), None)
    known = (n for n, actual in IN_INCHES.items() if abs(actual - size) <= NEARLY)
    return next(((Fraction(n), f"{n} in") for n in known), None)


def is_a_name(measurement: str, size: Fraction, units: Units) -> bool:
    """Whether a size is one that such wood is called by and hardly ever measures."""
    names = [n * MM for n, *_ in NAMED_IN_MM] if units == "mm" else list(IN_INCHES)
    return measurement in WITH_A_NAME and size in names


def _inch_as_25_mm(dimension: Dimension, values: Values, units: Units) -> Iterator[Wrong]:
    """The slip with a size that was bought in mm and reckoned in inches, or the other way."""
    whole, taken = (25 * MM, Fraction(1)) if units == "inch" else (Fraction(1), 25 * MM)
    expression = full_named(dimension)
    for name in dimension.inputs:
        count = values[name] / whole
        if name in MEASUREMENTS and count and count.denominator == 1:
            sizes = {**values, name: count * taken}
            value = computed(expression, sizes)
            working = partial(_working, expression, sizes, value, dimension, units)
            yield Wrong(
                SLIPS["size_as_25_mm"], dimension.name, value, plain(name), _working=working
            )


# ── a step left out, a neighbour's rule ───────────────────────────────────────────────────────


def _left_out_steps(expression: ast.expr, dimension: Dimension) -> Iterator[WrongRule]:
    """The slips in which a number met on the way is handed in."""
    sums = list(_sums(expression))
    if dimension.kind == "ratio" or _is_stack(expression):
        return
    if len(sums) > 1 and any(isinstance(s.op, ast.Sub) for s in sums):
        for name in sizes_in(sums[-1].left):
            yield WrongRule("overall_size", ast.Name(id=name), plain(name))
    for name in dimension.inputs:
        if name in DIMENSIONS.dimensions and DIMENSIONS.dimensions[name].kind == "length":
            yield WrongRule("step_skipped", ast.Name(id=name), plain(name))


def _of_neighbours(expression: ast.expr, dimension: Dimension) -> Iterator[WrongRule]:
    """The rules of pieces that stand beside this one, used for its own length."""
    base = sizes_in(_first(expression))
    for other in _neighbours(dimension.name):
        rule = full_named(other)
        theirs = _first(rule)
        if isinstance(theirs, ast.Name) and base and across_of(theirs.id) == base[0]:
            rule = swapped(rule, theirs, ast.Name(id=base[0]))
        places = {*POSITION.findall(dimension.name), *POSITION.findall(other.name)}
        slip = "wrong_one_covers" if places == {"side", "end"} else "neighbours_rule"
        if sizes_in(_first(rule)) == base:
            piece = plain(other.name).removesuffix(" length")
            yield WrongRule(slip, rule, piece)


@lru_cache(maxsize=512)
def _neighbours(name: str) -> tuple[Dimension, ...]:
    """The lengths of pieces of the same kind at another place of the same component."""
    if not name.endswith("_length") or not POSITION.search(name):
        return ()
    kind = POSITION.sub("", name)
    alike = (d for n, d in DIMENSIONS.dimensions.items() if n != name and POSITION.search(n))
    return tuple(d for d in alike if POSITION.sub("", d.name) == kind)


def _taken_off_or_added(expression: ast.expr, dimension: Dimension) -> Iterator[WrongRule]:
    """The slips with a piece that is just as long or wide as the hive, and nothing comes off."""
    if not isinstance(expression, ast.Name) or expression.id not in COUNTED_FROM:
        return
    if dimension.component in {"bottom_board", "inner_cover"}:
        stud, clearance = ast.Name(id="stud_thickness"), ast.Name(id="cap_clearance")
        for off in (stud, _twice(stud)):
            rule = ast.BinOp(expression, ast.Sub(), off)
            yield WrongRule("nothing_comes_off", rule, plain("stud_thickness"))
        rule = ast.BinOp(expression, ast.Add(), clearance)
        yield WrongRule("as_for_the_roof", rule, plain("cap_clearance"))
