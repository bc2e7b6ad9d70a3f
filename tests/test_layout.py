"""The top of the project holds what a newcomer needs and nothing else."""

import re
import shutil
import subprocess

from tests.jupyter_rig import ROOT

TOP = {
    "README.md", "DEVELOPERS.md", "pyproject.toml", "workbook", "hivecalc", "tests", "exercises",
    "solutions",
}  # fmt: skip
START = "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/hivecalc open"
TEST = ".venv/bin/pip install -e '.[test]' && .venv/bin/pytest -n auto"


def kept_names() -> set[str]:
    """Return the top names that git keeps; without git, those in the folder."""
    if (ROOT / ".git").exists() and shutil.which("git"):
        command = ["git", "-c", "safe.directory=*", "ls-files"]
        files = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
        return {line.partition("/")[0] for line in files.stdout.splitlines()}
    return {path.name for path in ROOT.iterdir()} - {"PKG-INFO"}


def test_the_top_holds_eight_names():
    assert {name for name in kept_names() if not name.startswith(".")} == TOP


def test_the_readme_opens_with_one_paragraph_and_the_two_commands():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    title, paragraph, *_ = text.split("\n\n")
    assert title.startswith("# ")
    assert re.match(r"[A-Z]", paragraph)
    assert re.findall(r"```sh\n(.*?)\n```", text, re.DOTALL)[:2] == [START, TEST]
    assert "\n#" not in text[len(title) : text.index(TEST)]
