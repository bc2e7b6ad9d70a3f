"""Dimensions as a graph: a dimension is a function, written once.

Its name says what comes back, its parameters are the dimensions and measurements that it needs,
its docstring says why, its body is the arithmetic. From that text alone come the value, the order
of work, the worked steps and what a change reaches.
"""

from hivecalc.derivation.chain import Chain, Chains, added
from hivecalc.derivation.dimension import (
    DerivationError,
    Dimension,
    Formula,
    Kind,
    RoundingRule,
    UnknownNameError,
    compiled,
    computed,
    difference,
    full_named,
    kind_of,
    line,
    nearest_names,
    number,
    on_hive,
    rounds,
    sizes_in,
    swapped,
    title,
)
from hivecalc.derivation.graph import Change, Graph, Step, Values, changes, collected

__all__ = [
    "Chain", "Chains", "Change", "DerivationError", "Dimension", "Formula", "Graph", "Kind",
    "RoundingRule", "Step", "UnknownNameError", "Values", "added", "changes",
    "collected", "compiled", "computed", "difference", "full_named", "kind_of", "line",
    "nearest_names", "number", "on_hive", "rounds", "sizes_in", "swapped", "title",
]  # fmt: skip
