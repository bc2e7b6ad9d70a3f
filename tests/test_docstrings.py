"""What learners read in the code: each dimension says why; ruff reads the form of docstrings."""

import ast
import re
from pathlib import Path

import hivecalc
from hivecalc.components import DIMENSIONS, MODULES
from hivecalc.fit import FIT
from hivecalc.hive import MEASUREMENTS
from hivecalc.hive.measurements import OPENINGS
from tests.each import each

ROOT = Path(hivecalc.__file__).parent
SOURCES = sorted(ROOT.rglob("*.py"))


WRITTEN = [n for n, d in DIMENSIONS.dimensions.items() if not d.function.__name__.startswith("_")]


@each(WRITTEN)
def test_every_dimension_says_what_why_and_shows_its_sum(name):
    dimension = DIMENSIONS.dimension(name)
    text = dimension.function.__doc__ or ""
    assert dimension.what.endswith(".")
    assert dimension.why.endswith(".")
    assert len(dimension.why.split()) >= 6
    assert f">>> {dimension.function.__name__}(" in text


@each(MODULES)
def test_figures_in_the_examples_have_a_source(component):
    text = " ".join((MODULES[component].__doc__ or "").split())
    assert "common practice, no published source" in text


def test_no_formula_holds_a_length_of_its_own():
    """A number in a formula is a count: 2 rails, half a gap. Lengths are measured or chosen."""
    numbers = {
        (name, node.value)
        for name in DIMENSIONS.dimensions
        for node in ast.walk(DIMENSIONS.dimension(name).expression)
        if isinstance(node, ast.Constant)
    }
    assert {value for _, value in numbers} == {2}


def test_every_measurement_is_used_by_a_dimension_or_by_a_module_that_names_it():
    used = {i for d in FIT.dimensions.values() for i in d.inputs} | OPENINGS.keys()
    rooms = [path for path in SOURCES if path.parent != ROOT / "hive"]
    named = set(re.findall(r"\w+", "\n".join(path.read_text() for path in rooms)))
    assert set(MEASUREMENTS) - used - named == set()
