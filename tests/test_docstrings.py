"""The docstrings are part of the product: learners read them. This reads them all."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import hivecalc
from hivecalc.components import DIMENSIONS, MODULES
from hivecalc.fit import FIT
from hivecalc.hive import MEASUREMENTS
from hivecalc.hive.measurements import OPENINGS
from tests.each import each

ROOT = Path(hivecalc.__file__).parent
SOURCES = sorted(p for p in ROOT.rglob("*.py"))


def public(path: Path) -> Iterator[tuple[str, ast.FunctionDef | ast.ClassDef]]:
    for node in ast.parse(path.read_text()).body:
        named = isinstance(node, ast.FunctionDef | ast.ClassDef)
        if named and not node.name.startswith("_"):
            yield f"{path.relative_to(ROOT)}:{node.name}", node


def test_every_module_says_what_it_is_for():
    said = {path: ast.get_docstring(ast.parse(path.read_text())) or "" for path in SOURCES}
    first = re.compile(r"[A-ZÀ-Ž“`'][^\n]*\.$")
    assert [p for p, text in said.items() if not first.match(text.partition("\n")[0])] == []


def test_every_public_thing_says_in_one_sentence_what_it_is():
    found = (item for path in SOURCES for item in public(path))
    said = {n: (ast.get_docstring(node) or "").partition("\n\n")[0] for n, node in found}
    assert {n: t for n, t in said.items() if not t.endswith((".", ":")) or len(t) >= 240} == {}


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
