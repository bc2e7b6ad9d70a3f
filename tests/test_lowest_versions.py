"""The lowest versions that pyproject.toml allows do: commands, a printed book, whole lessons."""

import os
import re
import subprocess
import sys
import tomllib
from importlib.metadata import distributions
from pathlib import Path

import pytest

from hivecalc.course_folder.copying import prepare
from tests.jupyter_rig import ON_CI, ROOT, make_jupyter_home

pytestmark = pytest.mark.notebooks
LESSONS = "12-why-insulate", "15-your-hive-book"


@pytest.fixture(scope="module")
def programs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the programs are of an environment with the lowest versions."""
    place = tmp_path_factory.mktemp("lowest")
    uv = [sys.executable, "-m", "uv", "-q"]
    subprocess.run([*uv, "venv", "--python", sys.executable, str(place)], check=True)
    install = ["pip", "install", "--python", str(place), "--resolution", "lowest-direct", str(ROOT)]
    done = subprocess.run([*uv, *install], capture_output=True, text=True, check=False)
    if "error sending request" in done.stderr and not ON_CI:
        pytest.skip("the lowest versions can't be had without a network")
    assert done.returncode == 0, done.stderr
    return place / ("Scripts" if os.name == "nt" else "bin")


def test_they_are_the_lowest(programs):
    (packages,) = programs.parent.rglob("site-packages")
    here = {found.name.lower(): found.version for found in distributions(path=[str(packages)])}
    asked = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["dependencies"]
    for name, lowest in (re.split(">=", each) for each in asked):
        assert re.fullmatch(rf"{re.escape(lowest)}(\.0)*", here[name]), name


def test_the_commands_and_the_book_do(programs, tmp_path):
    for given in ("new my-hive.toml", "fit my-hive.toml --trial 100", "book my-hive.toml"):
        command = [str(programs / "hivecalc"), *given.split()]
        done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
        assert (done.returncode, done.stderr) == (0, ""), given
    assert (tmp_path / "my-hive-book.pdf").read_bytes().startswith(b"%PDF")


def test_lessons_run_through(programs, tmp_path):
    course = prepare(tmp_path / "course").folder / "workbook"
    home = {**os.environ, **make_jupyter_home(tmp_path / "home")}
    command = [str(programs / "jupyter"), "execute", *(f"{lesson}.ipynb" for lesson in LESSONS)]
    done = subprocess.run(
        command, cwd=course, env=home, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
