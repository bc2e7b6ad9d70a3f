"""Two hives side by side: which files count, and what is drawn of them."""

from pathlib import Path

import pytest

from hivecalc.hive import demo_hive, hive_text
from hivecalc.widgets import Bench
from hivecalc.widgets.folder import TwoHives, other_hives
from hivecalc.workshop import yard_text
from tests.hives import HIVES


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A course folder with a yard, a second hive and a damaged one."""
    texts = {
        "my-hive": hive_text(demo_hive()),
        "my-yard": yard_text(),
        "ann": HIVES["eight-frame"],
        "torn": "[measured",
    }
    for name, text in texts.items():
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


def test_every_other_hive_of_the_folder_can_stand_beside_this_one(folder):
    assert [*other_hives(folder / "my-hive.toml")] == ["ann.toml"]
    assert [*other_hives(folder / "ann.toml")] == ["my-hive.toml"]


def test_both_are_drawn_without_what_is_still_to_be_found(folder):
    page_hive = Bench(str(folder / "my-hive.toml")).page_hive
    panel = TwoHives(page_hive, other_hives(page_hive.path))
    assert panel.shown.value == ""
    panel.other.value = "ann.toml"
    own, other = panel.shown.value.split("<svg")[1:]
    assert "side rail ?" in own
    assert "side rail ?" in other
    assert "hive 23 1/8 in" in own.replace("\u00a0", " ")
    assert "hive 23 1/8 in" not in other.replace("\u00a0", " ")
    page_hive.keep("hive_length", "24")
    assert "hive 24 in" in panel.shown.value.replace("\u00a0", " ")


def test_it_is_offered_where_there_is_another_hive_only(folder, capsys):
    Bench(str(folder / "my-hive.toml"))
    assert "TwoHives" in capsys.readouterr().out
    (folder / "ann.toml").unlink()
    Bench(str(folder / "my-hive.toml"))
    assert "TwoHives" not in capsys.readouterr().out
