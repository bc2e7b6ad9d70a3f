"""Using the panels of a page as a browser does, and what they then say."""

import html
import re


def enter(field, text: str) -> str:
    """Type a text into a field, as Enter or leaving it sends it; what is said comes back."""
    field.box.value = text
    return said(field.message)


def press(panel, name: str) -> None:
    (made,) = (
        c for c in walk(panel) if getattr(c, "description", "") == name and hasattr(c, "click")
    )
    made.click()


def walk(panel):
    yield panel
    for child in getattr(panel, "children", ()):
        yield from walk(child)


def said(area) -> str:
    """What an area says, in words."""
    return words(area.value)


def has(text: str, *parts: str, without: tuple[str, ...] = ()) -> None:
    """Each of these parts stands in a text, and none of those."""
    assert [part for part in parts if part not in text] == [], text
    assert [part for part in without if part in text] == [], text


def words(page: str) -> str:
    """What a page says, in words."""
    plain = re.sub(r"<style>.*?</style>|<[^>]+>", " ", page, flags=re.DOTALL)
    return " ".join(html.unescape(plain).split())
