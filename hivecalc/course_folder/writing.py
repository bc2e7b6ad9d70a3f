"""Files of the course folder, written whole or not at all."""

import json
import time
from contextlib import suppress
from itertools import chain
from pathlib import Path
from typing import Final

from hivecalc.hive import write_whole
from hivecalc.support.files import PART

OLD: Final = 24 * 60 * 60  # seconds after which nobody writes a file any more


def write(path: Path, data: bytes) -> None:
    """Write a file, and the folders that it stands in."""
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)


def write_json(path: Path, document: object) -> None:
    """Write a JSON file of ours, unless it says the same already."""
    data = f"{json.dumps(document, indent=1)}\n".encode()
    if not path.exists() or path.read_bytes() != data:
        write(path, data)


def sweep(folder: Path, *below: str) -> None:
    """Remove what a crash left half written, more than a day ago, in a folder and some below it."""
    found = chain(folder.glob(".*.part"), *((folder / name).rglob(".*.part") for name in below))
    for path in found:
        with suppress(OSError):
            if PART.fullmatch(path.name) and time.time() - path.stat().st_mtime > OLD:
                path.unlink()
