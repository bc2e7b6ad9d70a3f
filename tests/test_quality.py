"""The tools that read the code find nothing: style, form, types, import order, clean notebooks."""

import json
import subprocess
import sysconfig
from pathlib import Path

import pytest

from tests.jupyter_rig import ROOT, notebooks

SCRIPTS = Path(sysconfig.get_path("scripts"))
CHECKS = {
    "style": ["ruff", "check"],
    "form": ["ruff", "format", "--check"],
    "types": ["mypy"],
    "order of imports": ["lint-imports"],
}


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


def test_notebooks_are_stored_without_results():
    """As nbstripout leaves them, and with nothing but what a lesson's page goes by."""
    for path in notebooks():
        held = json.loads(path.read_bytes())
        assert held["metadata"].keys() == {"kernelspec"}, path
        for cell in held["cells"]:
            assert cell["metadata"].keys() <= {"jupyter", "tags"}, path
            assert not cell.get("outputs")
            assert cell.get("execution_count") is None, path
