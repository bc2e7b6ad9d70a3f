"""A chain from the shell, NAME=COUNT by NAME=COUNT: read, judged, told."""

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.cli.names import derived_name, dimension_name
from hivecalc.components import DIMENSIONS
from hivecalc.derivation import kind_of, title
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.judging.chain import (
    MOST_COUNT,
    ChainVerdict,
    chain_json,
    chain_verdict,
    true_chain,
    whole_verdict,
)
from hivecalc.support.faults import quoted
from hivecalc.tables import csv_text, json_text
from hivecalc.tables.judge import verdict_table
from hivecalc.tables.texts import wrapped

_COUNT: Final = re.compile(r"[+-]?[0-9]{1,4}(/2)?")
_ACCEPTED: Final = f"write a number from -{MOST_COUNT} to {MOST_COUNT}, like -2, 1 or 1/2"


def chain_of_words(hive: Hive, dimension: str, counts: Mapping[str, str]) -> ChainVerdict:
    """Return the verdict on a chain; raise HiveFaults for all that is wrong with its words."""
    asked = derived_name(dimension, hive)
    if true_chain(hive, asked) is None:
        found = "it is no plain sum of sizes, so it has no chain"
        raise HiveFaults([Fault(asked, found, "judge its answer")])
    faults: list[Fault] = []
    chain: dict[str, Fraction] = {}
    for text, count in counts.items():
        try:
            name = _size(text, hive)
            if name in chain:
                faults.append(Fault(name, "it is given twice", "give it once"))
            chain[name] = _count(text, count)
        except HiveFaults as error:
            faults += error.faults
    if faults:
        raise HiveFaults(faults)
    if not any(chain.values()):
        found = "there is nothing in this chain"
        raise HiveFaults([Fault("--chain", found, "count at least one size")])
    return chain_verdict(hive, asked, chain)


def _size(text: str, hive: Hive) -> str:
    name = dimension_name(text, hive)
    if kind_of(name, DIMENSIONS.dimensions) != "length":
        raise HiveFaults([Fault(name, "it is no length", "a chain is made of lengths")])
    return name


def _count(name: str, text: str) -> Fraction:
    found = text.strip().replace("−", "-")
    if _COUNT.fullmatch(found):
        count = Fraction(found)
        if abs(count) <= MOST_COUNT:
            return count
    raise HiveFaults([Fault(f"--chain {name}", f"{quoted(text)} is no such count", _ACCEPTED)])


def chain_told(hive: Hive, found: ChainVerdict, answer: str | None, form: str) -> tuple[str, bool]:
    """Return the verdict on a chain and its sum in a form, and whether all of it is right."""
    whole = whole_verdict(hive, found, answer)
    if form == "json":
        return json_text(chain_json(hive, found, answer)), whole.right
    if form == "csv":
        return csv_text(verdict_table([whole])), whole.right
    return "".join(
        f"{wrapped(line)}\n" for line in _lines(found, whole.message, answer)
    ), whole.right


def _lines(found: ChainVerdict, message: str, answer: str | None) -> Iterator[str]:
    sizes = ", ".join(f"{count} × {title(name)}" for name, count in found.chain.items())
    given = f"; {quoted(answer)}" if answer is not None else ""
    yield f"{title(found.dimension).capitalize()} ({found.dimension}): {sizes}{given}"
    yield message
    if found.question:
        yield f"Look again: {found.question}"
