"""The components of a hive, top to bottom as built, and the graph of all their dimensions."""

from hivecalc.components.checking import checked, opened_hive
from hivecalc.components.course import (
    COURSE,
    MODULES,
    PRACTICE,
    TAPE_AGREES,
    built,
    in_use,
    is_there,
    of_stock,
    parts,
    parts_of,
    sizes_from_box,
    values,
    values_to_find,
)
from hivecalc.components.making import LEAST_BEARING
from hivecalc.components.notes import changed_since_first_edition, notes

__all__ = [
    "COURSE",
    "LEAST_BEARING",
    "MODULES",
    "PRACTICE",
    "TAPE_AGREES",
    "built",
    "changed_since_first_edition",
    "checked",
    "in_use",
    "is_there",
    "notes",
    "of_stock",
    "opened_hive",
    "parts",
    "parts_of",
    "sizes_from_box",
    "values",
    "values_to_find",
]
