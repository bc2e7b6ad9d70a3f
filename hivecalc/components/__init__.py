"""The components of a hive, top to bottom as built, and the graph of all their dimensions."""

from hivecalc.components.course import (
    BOXES,
    DIMENSIONS,
    LEAST_BEARING,
    MODULES,
    PRACTICE,
    TAPE_AGREES,
    before_openings,
    begun_with,
    built,
    changed_since_first_edition,
    checked,
    how_many,
    in_use,
    is_there,
    notes,
    of_stock,
    opened_hive,
    parts,
    parts_of,
    sides_in_hand,
    sleeve_layers,
    values,
    values_to_find,
    worked_out_on,
)

__all__ = [
    "BOXES", "DIMENSIONS", "LEAST_BEARING", "MODULES", "PRACTICE", "TAPE_AGREES", "before_openings",
    "begun_with", "built", "changed_since_first_edition", "checked", "how_many", "in_use",
    "is_there", "notes", "of_stock", "opened_hive", "parts", "parts_of", "sides_in_hand",
    "sleeve_layers", "values", "values_to_find", "worked_out_on",
]  # fmt: skip
