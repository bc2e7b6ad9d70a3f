"""Every notebook is stored clean, is short, and runs through with any hive."""

import json
import os
import re
import subprocess
import sys
import tomllib
from functools import partial
from pathlib import Path
from types import ModuleType

import pytest
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output
from ipywidgets import Widget
from ipywidgets.widgets.widget import _instances
from traitlets.config import Config

from hivecalc.course_folder import HIVE_VARIABLE
from hivecalc.course_folder.copying import prepare
from hivecalc.length import length_from_text
from tests.hives import HIVES
from tests.jupyter_rig import ROOT, cells, make_jupyter_home, notebooks

NOTEBOOKS = [str(path.relative_to(ROOT)) for path in notebooks()]
LESSONS = [name for name in NOTEBOOKS if name.startswith("workbook/")]
FOLDERS = sorted({name.partition("/")[0] for name in NOTEBOOKS})
KERNEL = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}


@pytest.mark.parametrize("lesson", LESSONS)
def test_what_a_lesson_has_typed_is_read_alike_on_either_tape(lesson):
    """Lengths that stand in its panels, or that it says to try: a hive may be in mm."""
    told = "\n".join(cell["source"] for cell in cells(ROOT / lesson))
    panels = re.findall(r"bench\.(?:end_to_end|cut_off)\((.*)\)", told)
    tried = re.findall(r"(?:Try|Then|then|Type) (`.*`)", told)
    for text in re.findall(r'["`]([^"`]+)["`]', " ".join([*panels, *tried])):
        assert length_from_text(text, "mm") == length_from_text(text, "inch")


def is_parameter(cell: dict) -> bool:
    return "parameters" in cell["metadata"].get("tags", [])


def code_lines(cell: dict) -> list[str]:
    lines = [line.strip() for line in cell["source"].splitlines()]
    return [line for line in lines if line and not line.startswith("#")]


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_a_notebook_is_stored_clean_as_jupyter_writes_it_in_short_cells(name):
    text = (ROOT / name).read_text(encoding="utf-8")
    held = json.loads(text)
    assert text == json.dumps(held, indent=1, ensure_ascii=False, sort_keys=True) + "\n"
    assert held["metadata"] == {"kernelspec": KERNEL}
    ids = [cell["id"] for cell in held["cells"]]
    assert len(set(ids)) == len(ids)
    assert all(cell["metadata"].keys() <= {"jupyter", "tags"} for cell in held["cells"])
    for cell in cells(ROOT / name, "code"):
        assert (cell["outputs"], cell["execution_count"]) == ([], None), cell["id"]
        assert len(code_lines(cell)) <= 3, cell["id"]


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_takes_the_hive_file_as_its_parameter(name):
    tagged = [cell for cell in cells(ROOT / name, "code") if is_parameter(cell)]
    assert [code_lines(cell) for cell in tagged] == [['hive_file = ""']]


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A fresh course folder, and Jupyter without settings of this machine's user."""
    for name, value in make_jupyter_home(tmp_path / "home").items():
        monkeypatch.setenv(name, value)
    monkeypatch.delenv(HIVE_VARIABLE, raising=False)
    return prepare(tmp_path / "course").folder


# Jupyter asks for a free port and takes it half a second later: another kernel may have it by then.
PORT_TAKEN = "Address already in use"

# nbval lays out every message for a log that nobody reads: a fifth of its time.
NO_LOG = "import nbval.kernel\n\nnbval.kernel.pformat = repr\n"


@pytest.mark.notebooks
@pytest.mark.parametrize("folder", FOLDERS)
def test_the_notebooks_of_a_folder_run_through_by_nbval(folder, course):
    own_settings = course / "pytest.ini"
    own_settings.write_text("[pytest]\n")
    (course / "conftest.py").write_text(NO_LOG)
    options = ["--nbval-lax", "--nbval-current-env", "--nbval-cell-timeout=60", "-q", "--tb=short"]
    options += ["-p", "nbval.plugin", "-p", "no:cacheprovider"]
    options += [f"-c{own_settings}", f"--rootdir={course}"]
    command = [sys.executable, "-m", "pytest", *options, str(course / folder)]
    alone = {**os.environ, "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    run = partial(
        subprocess.run, command, env=alone, capture_output=True, text=True, timeout=900, check=False
    )
    done = run()
    if PORT_TAKEN in done.stderr + done.stdout:
        done = run()
    assert done.returncode == 0, done.stdout + done.stderr


# Each notebook with one of the six hives in turn; the lessons also in a sleeve and with hives that
# differ in kind. nbval gives each a kernel of its own; to start one takes longer than what it runs.
TURNS = [(name, list(HIVES)[at % len(HIVES)]) for at, name in enumerate(NOTEBOOKS)]
KINDS = [(name, ("metric", "smallest", "largest")[at % 3]) for at, name in enumerate(LESSONS)]
RUNS = sorted({*TURNS, *KINDS, *((name, "sleeved") for name in LESSONS)})


@pytest.fixture(scope="module")
def papermill() -> ModuleType:
    """Papermill, with an engine that runs a notebook's cells in this process."""
    import papermill  # noqa: PLC0415 - loading it takes longer than all quick tests of this file
    from nbformat.v4 import new_output  # noqa: PLC0415
    from papermill.engines import Engine, papermill_engines  # noqa: PLC0415

    class Here(Engine):
        @classmethod
        def execute_managed_notebook(cls, nb_man, kernel_name, **_):  # noqa: ARG003
            shell = InteractiveShell.instance(config=Config({"HistoryManager": {"enabled": False}}))
            shell.reset()
            Widget.close_all()
            for cell in (c for c in nb_man.nb.cells if c.cell_type == "code"):
                with capture_output() as shown:
                    shell.run_cell(cell.source, silent=True).raise_error()
                assert shown.stderr == "", cell.source
                cell.outputs = [new_output("display_data", each.data) for each in shown.outputs]

    papermill_engines.register("here", Here)
    return papermill


@pytest.mark.notebooks
@pytest.mark.parametrize(("name", "hive"), RUNS)
def test_a_notebook_runs_by_papermill_and_tells_whose_hive_it_shows(
    name, hive, course, tmp_path, papermill
):
    hive_file, done = tmp_path / f"{hive}.toml", tmp_path / "done.ipynb"
    hive_file.write_text(HIVES[hive], encoding="utf-8")
    given, place = {"hive_file": str(hive_file)}, course / name
    assert given.keys() <= papermill.inspect_notebook(place).keys()
    papermill.execute_notebook(
        place, done, given, "here", cwd=place.parent, kernel_name="python3", progress_bar=False
    )
    outputs = [output for cell in cells(done, "code") for output in cell["outputs"]]
    widgets = [widget.get_state() for widget in _instances.values()]
    assert tomllib.loads(HIVES[hive])["name"] in str([outputs, widgets])


@pytest.mark.notebooks
def test_notebooks_are_valid():
    import nbformat  # noqa: PLC0415 - as slow as papermill

    for name in NOTEBOOKS:
        text = (ROOT / name).read_text(encoding="utf-8")
        stored = nbformat.reads(text, as_version=nbformat.NO_CONVERT)
        nbformat.validate(stored)
        assert text == nbformat.writes(stored).rstrip("\n") + "\n", name
