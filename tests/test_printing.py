"""What goes to paper: the files that a lesson and the command `book` write, and what they say."""

import json
from pathlib import Path

import pytest

from hivecalc.hive import demo_hive, hive_text
from hivecalc.widgets.folder import book_steps, file_link, template_steps
from tests.commands import called


def parted(steps):
    """What was said, and the files that were written."""
    told = list(steps)
    return [t for t in told if isinstance(t, str)], [t for t in told if isinstance(t, Path)]


def test_the_book_is_written_beside_the_hive_file_and_says_what_is_done_and_what_is_wrong(tmp_path):
    (tmp_path / "my-yard.toml").write_text('[[board]]\nmaterial = "2x4"\nprice = "dear"\n')
    said, paths = parted(book_steps(demo_hive(), tmp_path / "my-hive.toml", "letter"))
    assert [text[-6:] for text in said] == ["1 of 3", "2 of 3", "3 of 3"]
    assert [path.name for path in paths] == ["my-hive-book.html", "my-hive-book.pdf"]
    assert paths[1].read_bytes().startswith(b"%PDF-")
    told = paths[0].read_text(encoding="utf-8")
    assert told.startswith("<!DOCTYPE html>")
    assert "Your yard file can&#x27;t be used." in told
    assert "my-yard.toml, [[board]] 1" in told
    assert str(tmp_path) not in told


def test_templates_are_written_beside_the_hive_file(tmp_path):
    _, (path,) = parted(template_steps(demo_hive(), tmp_path / "my-hive.toml", "a4"))
    assert path.name == "my-hive-templates.pdf"
    assert path.read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize(("page", "link"), [
    ("workbook/15-your-hive-book.ipynb", 'href="/files/a%20%26%20b.html"'),
    ("", "a &amp; b.html"),
])  # fmt: skip
def test_a_file_of_the_course_folder_is_opened_by_a_link(tmp_path, monkeypatch, page, link):
    monkeypatch.setenv("JPY_SESSION_NAME", str(tmp_path / page) if page else "")
    told = file_link(tmp_path / "a & b.html")
    assert link in told
    assert ("<a " in told) == bool(page)
    assert "<a " not in file_link(Path("/elsewhere/a.html"))


# ── the command ───────────────────────────────────────────────────────────────────────────────


@pytest.fixture
def own(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("own.toml").write_text(hive_text(demo_hive()), encoding="utf-8")


@pytest.mark.usefixtures("own")
def test_book_writes_both_beside_the_file_or_the_one_that_is_named(capfd, monkeypatch):
    """On letter for a hive in inches, unless another paper is asked for."""
    monkeypatch.setattr("hivecalc.reports.book.document_pdf", lambda _, paper: paper.encode())
    assert called(capfd, "book", "own.toml") == (
        0, "Wrote own-book.html.\nWrote own-book.pdf.\n", "",
    )  # fmt: skip
    assert called(capfd, "book", "own.toml", "--out", "B.PDF", "--paper", "a4")[0] == 0
    assert [Path(name).read_text() for name in ("own-book.pdf", "B.PDF")] == ["letter", "a4"]
    assert sorted(p.name for p in Path().iterdir()) == [
        "B.PDF", "own-book.html", "own-book.pdf", "own.toml",
    ]  # fmt: skip


@pytest.mark.usefixtures("own")
@pytest.mark.parametrize(("arguments", "said"), [
    (["--out", "book.txt"], "--out names a file that ends with .html or .pdf"),
    (["--plan", "other.json"], "--plan: Orchard hive is not as it was when the plan was made"),
    (["--yard", "none.toml"], "none.toml"),
    (["--paper", "a3"], "'--paper': 'a3' is not one of 'a4', 'letter'"),
])  # fmt: skip
def test_book_refuses_in_one_sentence_and_writes_nothing(capfd, arguments, said):
    called(capfd, "plan", "--set", "hive_width=16", "--out", "other.json")
    status, out, err = called(capfd, "book", "own.toml", *arguments)
    assert (status, out, err.count("\n")) == (2, "", 1)
    assert said in err
    assert sorted(p.name for p in Path().iterdir()) == ["other.json", "own.toml"]


@pytest.mark.usefixtures("own")
def test_book_shows_a_plan_that_was_kept(capfd):
    called(capfd, "plan", "own.toml", "--kerf", "3/32", "--out", "plan.json")
    assert called(capfd, "book", "own.toml", "--plan", "plan.json", "--out", "b.html")[0] == 0
    kept = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert f"{len(kept['settings'])} settings, " in Path("b.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", ["x" * 5000, "a b" * 2000, "x" * 200 + "/" + "y" * 4000])
def test_a_long_path_is_not_repeated_whole(capfd, path):
    status, _, err = called(capfd, "parts", path)
    assert status == 2
    assert len(err) < 500
