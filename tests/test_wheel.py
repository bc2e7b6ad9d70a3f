"""The course from a wheel, built and installed elsewhere, without the clone."""

import json
import os
import re
import shutil
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from hivecalc.course_folder import HIVE_FILE
from tests.jupyter_rig import FOLDERS, ROOT, notebooks

SOURCES = ("hivecalc", *FOLDERS)
SCRATCH = shutil.ignore_patterns(".*", "__pycache__")
PREPARE = """
import sys
from pathlib import Path
from hivecalc.course_folder import originals
from hivecalc.course_folder.copying import prepare
print(originals(), prepare(Path(sys.argv[1])).lesson, sep="\\n")
"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder with sdist and wheel, built from a copy so that the clone stays as it is."""
    source, made = tmp_path_factory.mktemp("source"), tmp_path_factory.mktemp("built")
    for name in SOURCES:
        shutil.copytree(ROOT / name, source / name, ignore=SCRATCH)
    for name in ("README.md", "pyproject.toml"):
        shutil.copy(ROOT / name, source / name)
    command = [sys.executable, "-m", "hatchling", "build", "-t", "sdist", "-t", "wheel", "-d", made]
    subprocess.run(command, cwd=source, check=True, stderr=subprocess.DEVNULL)
    return made


@pytest.fixture(scope="module")
def wheel(built: Path) -> Path:
    [path] = built.glob("*.whl")
    return path


@pytest.fixture(scope="module")
def elsewhere(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder with the wheel laid out as an installer does; what it needs is lent by this one."""
    home = tmp_path_factory.mktemp("elsewhere")
    shutil.unpack_archive(wheel, home, "zip")
    return home


def told(elsewhere: Path, code: str, *arguments: str | Path) -> str:
    """Return what some code tells, run where no clone is."""
    environment = {n: v for n, v in os.environ.items() if not n.startswith(("PYTHON", "HIVECALC"))}
    before = f"import sys; sys.path[:0] = [{str(elsewhere)!r}]\n{code}"
    return subprocess.run(
        [sys.executable, "-P", "-c", before, *arguments],
        cwd=elsewhere, env=environment, check=True, stdout=subprocess.PIPE, text=True,
    ).stdout  # fmt: skip


def test_the_notebooks_travel_in_the_wheel(wheel):
    with zipfile.ZipFile(wheel) as packed:
        names = {name for name in packed.namelist() if name.endswith(".ipynb")}
    ours = {f"hivecalc/notebooks/{path.relative_to(ROOT).as_posix()}" for path in notebooks()}
    assert len(ours) >= 2
    assert names == ours


def test_everything_in_the_package_travels_in_the_wheel(wheel):
    with zipfile.ZipFile(wheel) as packed:
        names = set(packed.namelist())
    ours = {path.relative_to(ROOT) for path in (ROOT / "hivecalc").rglob("*") if path.is_file()}
    missing = {str(path) for path in ours if "__pycache__" not in path.parts} - names
    assert missing == set()


def test_the_licence_travels_in_sdist_and_wheel(built, wheel):
    text = (ROOT / "hivecalc" / "LICENSE").read_bytes()
    assert text.startswith(b"MIT License\n\nCopyright (c) ")
    [sdist] = built.glob("*.tar.gz")
    with tarfile.open(sdist) as packed:
        [name] = [name for name in packed.getnames() if name.endswith("/hivecalc/LICENSE")]
        held = packed.extractfile(name)
        assert held
        assert held.read() == text
    with zipfile.ZipFile(wheel) as packed:
        [name] = [
            n for n in packed.namelist() if n.endswith(".dist-info/licenses/hivecalc/LICENSE")
        ]
        assert packed.read(name) == text
        metadata = packed.read(name.partition("/")[0] + "/METADATA").decode()
    assert {"License-Expression: MIT", "License-File: hivecalc/LICENSE"} <= {*metadata.splitlines()}


def test_the_commands_work_without_the_clone(elsewhere):
    [found] = elsewhere.glob("*.dist-info/entry_points.txt")
    module, _, name = re.findall(r"^hivecalc = (\S+?)(:)(\S+)$", found.read_text(), re.MULTILINE)[0]
    run = f"from {module} import {name}; {name}()"
    document = json.loads(told(elsewhere, run, "parts", "--format", "json"))
    assert document["dimensions"]["bottom_board.side_rail_length"]["exact"] == "173/8"


def test_a_course_folder_is_made_without_the_clone(elsewhere, tmp_path):
    folder = tmp_path / "course"
    source, lesson = told(elsewhere, PREPARE, folder).splitlines()
    assert Path(source).is_relative_to(elsewhere)
    assert (folder / lesson).is_file()
    assert (folder / HIVE_FILE).is_file()
    for path in notebooks():
        assert (folder / path.relative_to(ROOT)).read_bytes() == path.read_bytes()
