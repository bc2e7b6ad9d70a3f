"""Files of the course folder, written whole or not at all."""

import json
from pathlib import Path

from hivecalc.hive import write_whole


def write(path: Path, data: bytes) -> None:
    """Write a file, and the folders that it stands in."""
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)


def write_json(path: Path, document: object) -> None:
    """Write a JSON file of ours, unless it says the same already."""
    data = f"{json.dumps(document, indent=1)}\n".encode()
    if not path.exists() or path.read_bytes() != data:
        write(path, data)
