"""The lessons in a real browser: they run as a learner runs them and their drawings can be read."""

import re

import nbformat
import pytest
from playwright.sync_api import Browser, expect

from tests.browser import Learner, label_faults
from tests.jupyter_rig import ROOT, notebooks

pytestmark = pytest.mark.browser
LESSONS = [str(path.relative_to(ROOT)) for path in notebooks() if path.parent.name == "workbook"]
SCREENS = {
    "desk": (1280, 900, 1),
    "projector": (1024, 768, 1),
    "zoomed to 150 %": (1280, 900, 1.5),
    "as wide as a phone": (420, 900, 1),
}


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_runs_by_the_menu_and_its_drawings_can_be_read(
    learner: Learner, lesson: str
) -> None:
    learner.open_lesson(lesson)
    learner.run_all_by_menu()
    drawings = learner.page.locator(".jp-OutputArea-output svg").all()
    assert drawings
    for drawing in drawings:
        expect(drawing).to_have_role("img")
        expect(drawing).to_have_accessible_name(re.compile(r"\w"))
        expect(drawing).to_have_accessible_description(re.compile(r"\w"))
    learner.fold_file_list()
    for theme in ("JupyterLab Light", "JupyterLab Dark"):
        learner.choose_theme(theme)
        faults = {}
        for screen, size in SCREENS.items():
            learner.view(*size)
            faults[screen] = label_faults(learner.page)
        assert faults == {screen: [] for screen in SCREENS}


def test_labels_that_cannot_be_read_are_found(browser: Browser) -> None:
    """The check of the checks: a drawing with one label too near, one cut off, one too small."""
    page = browser.new_page()
    page.set_content("""<div class="jp-OutputArea-output"><svg width="300" height="100">
        <text x="10" y="20">front rail</text><text x="60" y="20">side rail</text>
        <text x="150" y="20">back rail</text><text x="280" y="60">runner</text>
        <text x="20" y="180" font-size="24" transform="scale(0.45)">panel</text>
        <text x="10" y="20" visibility="hidden">hidden</text></svg></div>""")
    assert label_faults(page) == [
        "“front rail” and “side rail” overlap",
        "“runner” is cut off",
        "“panel” is small",
    ]
    page.close()


def test_an_error_that_jupyter_hides_from_the_learner_is_found(learner: Learner) -> None:
    """The check of the checks: an error in what a field calls is shown nowhere on the page."""
    failing = "field.observe(lambda change: int(change.new), 'value')"
    text = "field = ipywidgets.Text(description='Width', continuous_update=False)"
    cell = nbformat.v4.new_code_cell(f"import ipywidgets\n{text}\n{failing}\nfield")
    notebook = nbformat.v4.new_notebook(
        cells=[cell],
        metadata={"kernelspec": {"name": "python3", "display_name": "Python 3 (ipykernel)"}},
    )
    nbformat.write(notebook, learner.lab.folder / "workbook" / "failing.ipynb")
    learner.open_lesson("workbook/failing.ipynb")
    learner.enter("Width", "wide")
    assert learner.errors == ["ValueError: invalid literal for int() with base 10: 'wide'"]
    learner.errors.clear()
