"""The tools that read the code find nothing: style, form, types, import order."""

import subprocess
import sysconfig
from pathlib import Path

import pytest

from tests.jupyter_rig import ROOT

SCRIPTS = Path(sysconfig.get_path("scripts"))
CHECKS = {
    "style": ["ruff", "check"], "form": ["ruff", "format", "--check"], "types": ["mypy"],
    "order of imports": ["lint-imports"],
}  # fmt: skip


def complaints(command: list[str]) -> str:
    """Return what a tool of this environment says when it is not content, else nothing."""
    tool = [str(SCRIPTS / command[0]), *command[1:]]
    done = subprocess.run(
        tool, cwd=ROOT, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL
    )
    return done.stdout + done.stderr if done.returncode else ""


@pytest.mark.parametrize("check", CHECKS)
def test_a_tool_that_reads_the_code_is_content(check):
    assert complaints(CHECKS[check]) == ""


def test_what_is_said_of_an_unknown_name_is_written_in_one_file():
    said = [f.name for f in (ROOT / "hivecalc").rglob("*.py") if "nearest known name is" in
            f.read_text(encoding="utf-8")]  # fmt: skip
    assert said == ["faults.py"]
