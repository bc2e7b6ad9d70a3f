"""What all tests that run Jupyter share: where the notebooks are, a home without settings."""

import os
from pathlib import Path

ON_CI = os.environ.get("CI") == "true"
ROOT = Path(__file__).parent.parent
FOLDERS = ("workbook", "exercises", "solutions")


def notebooks() -> list[Path]:
    """Every notebook of the project, in the order of its folders and names."""
    return [path for folder in FOLDERS for path in sorted((ROOT / folder).rglob("*.ipynb"))]


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
