"""What the rules find on a hive: which hold, by how much, and what a change breaks."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.components import COURSE, built
from hivecalc.derivation import Kind, collected
from hivecalc.fit import bottom_board, box, inner_cover, roof, sleeve
from hivecalc.fit.fasteners import FIGURES
from hivecalc.fit.rule import Level, Rule, rule_of
from hivecalc.hive import Hive
from hivecalc.length import length_json

Json: TypeAlias = dict[str, object]

FIT: Final = collected(bottom_board, roof, inner_cover, box, sleeve, base=COURSE, leaves=FIGURES)
"""The graph of all dimensions, figures and rules: it gives each rule's worked steps too."""

RULES: Final[Mapping[str, Rule]] = {
    name: rule_of(rated.function)
    for name, rated in FIT.dimensions.items()
    if name not in COURSE.dimensions and name not in FIGURES
}
"""Every rule by its full name, such as "bottom_board.room_above_stack", from the bottom up."""


@dataclass(frozen=True)
class Finding:
    """What one rule finds on one hive: whether it holds, its value, its limits, why it matters.

    The name is the rule's in FIT, such as "roof.fall". A length is in inches, a ratio a number; a
    limit that is None does not exist.
    """

    rule: str
    level: Level
    holds: bool
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    kind: Kind
    why: str
    source: str


def findings(hive: Hive, given: Mapping[str, Fraction] | None = None) -> list[Finding]:
    """What each rule finds on what is built of this hive, from the bottom board up.

    >>> from hivecalc.hive import demo_hive
    >>> short = {"bottom_board.panel_length": Fraction(20)}
    >>> [f.rule for f in findings(demo_hive(), short) if f.value == Fraction(1, 8)][0]
    'bottom_board.panel_play_along'

    `given` replaces a dimension, measurement or figure, by full name, with a value in inches: a
    wrong cut, a size as built, a longer screw. Raises UnknownNameError for any other name.
    """
    components = built(hive)
    values = FIT.values(hive.measurements, given, components)
    return [_finding(n, r, values[n]) for n, r in RULES.items() if r.applies(components)]


def _finding(name: str, rule: Rule, value: Fraction) -> Finding:
    rated = FIT.dimension(name)
    return Finding(
        rule=name,
        level=rule.level,
        holds=rule.allows(value),
        value=value,
        low=rule.low,
        high=rule.high,
        kind=rated.kind,
        why=rated.why,
        source=rule.source,
    )


def holds(found: Iterable[Finding]) -> bool:
    """Whether nothing fails that blocks or harms; a note stops nothing.

    >>> from hivecalc.hive import demo_hive
    >>> holds(findings(demo_hive())), holds(findings(demo_hive(), {"skirt_width": Fraction(1)}))
    (True, False)
    """
    return all(f.holds or f.level == "note" for f in found)


def broken(before: Iterable[Finding], after: Iterable[Finding]) -> list[Finding]:
    """The findings that fail after a change, of rules that held before it.

    >>> from hivecalc.hive import demo_hive
    >>> hive, on_edge = demo_hive(), {"bottom_board.upper_runner_height": Fraction(3, 4)}
    >>> [f.rule.partition(".")[2] for f in broken(findings(hive), findings(hive, on_edge))]
    ['room_above_stack', 'bee_way_in', 'way_over_stop', 'upper_runner_lies_flat']
    """
    held = {f.rule for f in before if f.holds}
    return [f for f in after if f.rule in held and not f.holds]


def finding_json(found: Finding) -> Json:
    """One finding for other programs: lengths exact, in inches and in mm; a ratio as a number.

    >>> from hivecalc.hive import demo_hive
    >>> lap = next(f for f in findings(demo_hive()) if f.rule == "roof.skirt_lap")
    >>> finding_json(lap)["low"], finding_json(lap)["high"]
    ({'exact': '1/4', 'inches': '1/4', 'mm': 6.35}, None)
    """
    return {
        "rule": found.rule,
        "level": found.level,
        "holds": found.holds,
        "value": _value_json(found.value, found.kind),
        "low": _value_json(found.low, found.kind),
        "high": _value_json(found.high, found.kind),
        "why": found.why,
        "source": found.source,
    }


def _value_json(value: Fraction | None, kind: Kind) -> dict[str, str | float] | float | None:
    if value is None:
        return None
    return float(value) if kind == "ratio" else length_json(value)


def fit_json(hive: Hive, given: Mapping[str, Fraction] | None = None) -> Json:
    """Every rule on one hive for other programs, and whether all that matters holds.

    >>> from hivecalc.hive import demo_hive
    >>> list(fit_json(demo_hive()))
    ['schema', 'holds', 'rules']
    """
    found = findings(hive, given)
    rules = [finding_json(f) for f in found]
    return {"schema": "hivecalc/1", "holds": holds(found), "rules": rules}
