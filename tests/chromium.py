"""The Chromium-family browser that the browser tests drive; run as a script, it tells which."""

import shutil
import sys

NAMES = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "microsoft-edge",
    "microsoft-edge-stable",
    "brave-browser",
    "vivaldi",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
)
HOW_TO_GET_ONE = "No Chromium-family browser was found; on Debian: apt-get install chromium"


def chromium() -> str | None:
    """Path of the first Chromium-family browser on this machine, or None."""
    return next((path for path in map(shutil.which, NAMES) if path), None)


if __name__ == "__main__":
    found = chromium()
    if found is None:
        sys.exit(HOW_TO_GET_ONE)
    sys.stdout.write(found + "\n")
