"""The lessons in a real browser: they run as a learner runs them and their drawings can be read."""

import json
import re

import nbformat
import pytest
from hivecalc.course_folder.addresses import EXTENSION, EXTENSIONS
from playwright.sync_api import Browser, expect

from hivecalc.course_folder import prints
from tests.browser import HAS_RUN, KERNEL, Learner, label_faults
from tests.jupyter_rig import ROOT, notebooks

pytestmark = pytest.mark.browser
LESSONS = [str(path.relative_to(ROOT)) for path in notebooks() if path.parent.name == "workbook"]
TAPE = "workbook/00-your-hive-and-your-tape.ipynb"
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
    learner.open_lesson("workbook/failing.ipynb", press=True)
    learner.enter("Width", "wide")
    assert learner.errors == ["ValueError: invalid literal for int() with base 10: 'wide'"]
    learner.errors.clear()


# ── what runs by itself ───────────────────────────────────────────────────────────────────────

TRICKY = [
    "",
    "show(2)",
    'say("\\n")\n\ttab',
    "¾ in × 蜂 🐝",
    "\x00\x1b\x7f\x80\u2028\ufeff",
    "a/b </script>",
]


def test_the_page_knows_cells_by_the_digest_that_the_manifest_has(browser: Browser) -> None:
    cells = [("markdown" if n % 2 else "code", source) for n, source in enumerate(TRICKY)]
    notebook = {"cells": [{"cell_type": kind, "source": source} for kind, source in cells]}
    page = browser.new_page()
    page.goto((EXTENSIONS / EXTENSION / "package.json").as_uri())  # where digests can be made
    page.add_script_tag(path=EXTENSIONS / EXTENSION / "static" / "remoteEntry.js")
    digest = page.evaluate(
        """async cells => (await window._JUPYTERLAB['hivecalc-lessons'].get())().digest(cells)""",
        cells,
    )
    assert digest == prints("00.ipynb", json.dumps(notebook).encode()).work
    page.close()


def test_a_sent_notebook_and_a_changed_lesson_run_at_a_press_only(learner: Learner) -> None:
    written = learner.lab.folder / "written"
    code = f"open({str(written)!r}, 'w').close()"
    sent = learner.lab.folder / "exercises" / "zz-sent-by-somebody.ipynb"
    nbformat.write(nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(code)]), sent)
    changed = learner.lab.folder / TAPE
    lesson = nbformat.read(changed, as_version=4)
    lesson.cells.append(nbformat.v4.new_code_cell(code))
    nbformat.write(lesson, changed)
    for path in (sent, changed):
        name = path.relative_to(learner.lab.folder).as_posix()
        page = learner.page
        page.goto(learner.address(name))
        expect(page.get_by_text("This notebook is changed or not from the course")).to_be_visible()
        page.wait_for_function(f"{KERNEL}?.connectionStatus === 'connected'")
        learner.wait_idle()
        assert not written.exists()
        page.get_by_role("button", name="Run it", exact=True).click()
        page.wait_for_function(HAS_RUN)
        learner.wait_idle()
        assert written.exists()
        written.unlink()
        learner.lab.close_sessions()


def test_a_lesson_that_was_run_and_saved_runs_by_itself_again(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    before = prints(TAPE, (learner.lab.folder / TAPE).read_bytes())
    learner.page.evaluate("window.jupyterapp.commands.execute('docmanager:save')")
    saved = prints(TAPE, (learner.lab.folder / TAPE).read_bytes())
    assert saved.whole != before.whole
    learner.lab.close_sessions()
    learner.open_lesson(TAPE)
