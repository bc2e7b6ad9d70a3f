"""What all tests of notebooks share: where they are, their cells, a home without settings."""

import json
import os
from pathlib import Path

ON_CI = os.environ.get("CI") == "true"
ROOT = Path(__file__).parent.parent
FOLDERS = ("workbook", "exercises", "solutions")


def notebooks() -> list[Path]:
    """Every notebook of the project, in the order of its folders and names."""
    return [path for folder in FOLDERS for path in sorted((ROOT / folder).rglob("*.ipynb"))]


def cells(notebook: Path, kind: str = "") -> list[dict]:
    """The cells of a notebook, of one kind or all, each with its source as one text."""
    held = json.loads(notebook.read_bytes())["cells"]
    return [c | {"source": "".join(c["source"])} for c in held if kind in ("", c["cell_type"])]


def notebook_text(*code: str) -> str:
    """A new notebook with these cells of code, as it is stored."""
    cell = {"cell_type": "code", "execution_count": None, "metadata": {}, "outputs": []}
    made = [cell | {"id": f"cell-{n}", "source": text} for n, text in enumerate(code)]
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3 (ipykernel)"}}
    return json.dumps({"cells": made, "metadata": kernel, "nbformat": 4, "nbformat_minor": 5})


def make_jupyter_home(home: Path) -> dict[str, str]:
    """Make a folder that Jupyter keeps to; the variables that tell it so come back."""
    home.mkdir()
    return {
        "JUPYTER_CONFIG_DIR": str(home / "config"),
        "JUPYTER_DATA_DIR": str(home / "data"),
        "JUPYTER_RUNTIME_DIR": str(home / "runtime"),
        "JUPYTERLAB_SETTINGS_DIR": str(home / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(home / "workspaces"),
        "IPYTHONDIR": str(home / "ipython"),
        "JUPYTER_PREFER_ENV_PATH": "1",
    }
