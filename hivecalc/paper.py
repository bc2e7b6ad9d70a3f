"""The papers that books, plans and templates are printed on."""

from typing import Literal, TypeAlias

Paper: TypeAlias = Literal["a4", "letter"]
