"""The commands plan, shop, cut and saw: one plan in every form, each misuse in a sentence."""

import json
import re
from fractions import Fraction

import pypdfium2
import pytest

from hivecalc.cli import exit_status
from hivecalc.workshop import yard_text
from tests.commands import called

ADA = 'name = "Ada"\n[measured]\nhive_length = "23 1/8"\nhive_width = "17 3/8"\n'
BEN = 'name = "Ben"\n[measured]\nhive_length = "22"\nhive_width = "16 1/4"\n'
VIEWS = ["shop", "cut", "saw"]


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    for name, text in (("ada", ADA), ("ben", BEN)):
        (folder / f"{name}.toml").write_text(text)
    return [folder / "ada.toml", folder / "ben.toml"]


@pytest.fixture(scope="module")
def kept(files):
    """The plan of both, made once for all tests."""
    path = files[0].with_name("plan.json")
    assert exit_status(["plan", *map(str, files), "--out", str(path)]) == 0
    return path


SHOWN = [("shop", "text"), ("cut", "text"), ("saw", "text"), ("shop", "csv"), ("cut", "json"),
         ("saw", "svg")]  # fmt: skip


@pytest.mark.parametrize(("view", "form"), SHOWN)
def test_a_view_of_a_kept_plan_is_that_of_the_files(capfd, files, kept, view, form):
    own = called(capfd, view, *files, "--format", form)
    assert called(capfd, view, "--plan", kept, "--format", form) == own
    assert own.status == 0
    assert own.out


def test_of_what_the_yard_lacks_nothing_is_proved(capfd, files):
    told = called(capfd, "cut", files[0], "--set", "foam_thickness=1 1/4").out
    assert "your yard has no foam of 1 1/4 in." in told
    assert re.findall(r"Foam of 1 1/4 in.*", told) == ["Foam of 1 1/4 in. 0 sheets."]


@pytest.mark.parametrize("command", ["plan", "shop", "cut --format json"])
def test_what_the_yard_lacks_is_said_where_the_answer_goes_to_a_file(
    capfd, files, tmp_path, command
):
    thick = ("--set", "foam_thickness=1 1/4", "--out", tmp_path / "answer")
    told = called(capfd, command, files[0], *thick)
    assert told.status == 1
    assert "your yard has no foam of 1 1/4 in." in told.err


def test_two_layers_of_foam_in_a_sleeve_are_cut_out_of_the_board_that_is_sold(capfd, tmp_path):
    """Four sides of two layers each: eight pieces of 1 in."""
    hive = tmp_path / "warm.toml"
    hive.write_text('[measured]\nsleeve_foam_thickness = "2"\n[chosen]\nframes = 10\n')
    told = called(capfd, "cut", hive, "--format", "csv")
    assert told.status == 0
    foam = [row for row in told.rows if "S-FS" in str(row) or "S-FE" in str(row)]
    marks = re.findall(r"S-F[SE] [a-h]", " ".join(map(str, foam)))
    assert sorted(set(marks)) == [f"S-F{side} {letter}" for side in "ES" for letter in "abcd"]


@pytest.mark.parametrize("view", ["shop", "saw"])
def test_json_of_a_view_is_the_plan(capfd, kept, view):
    told = called(capfd, view, "--plan", kept, "--format", "json").document
    assert told == json.loads(kept.read_text())


@pytest.mark.parametrize("view", VIEWS)
def test_pages_carry_the_plans_number(capfd, kept, tmp_path, view):
    number = json.loads(kept.read_text())["number"]
    out = tmp_path / "pages.pdf"
    assert called(capfd, view, "--plan", kept, "--format", "pdf", "--out", out)[0] == 0
    assert number in pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range()
    assert number in called(capfd, view, "--plan", kept)[1]


def test_json_of_cut_has_the_boards_of_the_plan_and_how_near_to_the_best_they_are(capfd, kept):
    told = called(capfd, "cut --format json --plan", kept).document
    plan = json.loads(kept.read_text())
    assert list(told)[:5] == ["schema", "proved", "bound", "stock_used", "plans"]
    assert told["schema"] == "hivecalc/1"
    assert [{k: v for k, v in x.items() if k != "count"} for x in told["plans"]] == plan["boards"]
    of_boards = [b for b in plan["bounds"] if b["need"].startswith(("stud", "board"))]
    assert told["stock_used"] == sum(Fraction(b["counted"]) for b in of_boards)
    assert told["bound"] == sum(Fraction(b["bound"]) for b in of_boards)
    assert told["proved"] == (told["bound"] == told["stock_used"])


def test_rows_of_cut_hold_every_piece_once(capfd, kept):
    rows = called(capfd, "cut --plan", kept, "--format", "csv").rows
    marks = [row["piece"] for row in rows if not re.fullmatch(r"R\d+", row["piece"])]
    twice = {mark for mark in marks if marks.count(mark) > 1}
    assert twice == set(), "two parts of a component with the same initials: rename one"
    assert len(marks) == 2 * 44, "44 is a hive's pieces, counted by hand: count a new part in"
    assert {row["from"][0] for row in rows} == {"B", "R", "S"}


def test_a_plan_that_no_longer_fits_says_so(capfd, files, kept, tmp_path):
    (tmp_path / "ben.toml").write_text(BEN.replace('"22"', '"22 1/2"'))
    told = called(capfd, "cut", files[0], tmp_path / "ben.toml", "--plan", kept)
    stale = "Ben is not as it was when the plan was made. Make the plan again.\n"
    assert (told.status, told.err) == (1, stale)
    assert told.out


def test_hives_that_nobody_named_are_called_by_their_files(capfd, tmp_path):
    """A class of three sends what the course made for them; a pattern names their files."""
    for student in ("anna", "ben"):
        called(capfd, "new", tmp_path / f"{student}.toml")
    (tmp_path / "chloe.toml").write_text(ADA)
    told = called(capfd, "plan", tmp_path / "*.toml").document
    assert [(hive["tag"], hive["name"]) for hive in told["hives"]] == [
        ("ANN", "anna"), ("BEN", "ben"), ("ADA", "Ada"),
    ]  # fmt: skip
    for student in ("anna", "ben"):
        (tmp_path / student).mkdir()
        (tmp_path / f"{student}.toml").rename(tmp_path / student / "my-hive.toml")
    own = [tmp_path / student / "my-hive.toml" for student in ("anna", "ben")]
    told = called(capfd, "plan", *own).document
    assert [hive["name"] for hive in told["hives"]] == ["anna/my-hive", "ben/my-hive"]
    told = called(capfd, "plan --hives 2", own[0]).document
    assert [hive["name"] for hive in told["hives"]] == ["My hive", "My hive"]


def test_each_hive_of_a_mixed_class_is_told_in_what_its_tape_shows(capfd, tmp_path):
    """By hand: 494 mm are 19.449 in, which no tape in inches has; 17 3/8 in are on one."""
    metric = tmp_path / "metric.toml"
    sizes = "--set box_length=510 --set box_width=420 --set box_height=240"
    called(capfd, f"new --set units=mm {sizes}", metric)
    (tmp_path / "ada.toml").write_text(ADA)
    plan = tmp_path / "plan.json"
    called(capfd, "plan", metric, tmp_path / "ada.toml", "--out", plan)
    saw = called(capfd, "saw --plan", plan).out
    assert re.search(r"stop 494 mm from the blade .*\n +MYH B-BR", saw)
    assert re.search(r"stop 17 3/8 in from the blade .*\n +ADA B-BR", saw)
    for form in ("text", "svg"):
        cut = called(capfd, "cut --format", form, "--plan", plan).out
        assert "494 mm" in cut
        assert "17 3/8 in" in cut.replace("\xa0", " ")


def test_what_many_hives_have_in_common_is_said_once(capfd, tmp_path):
    other = "its pieces were worked out for a stud of 1 3/8 × 3 1/2 in"
    told = called(capfd, "plan --hives 3 --set", "stud_thickness=1 3/8").document
    assert [text.count(other) for text in told["warnings"]] == [1]
    plan = tmp_path / "plan.json"
    called(capfd, "plan --hives 3 --out", plan)
    hive = tmp_path / "hive.toml"
    hive.write_text(BEN)
    told = called(capfd, "shop --plan", plan, hive, hive, hive)
    assert told.err == "Ben is not as it was when the plan was made. Make the plan again.\n"
    told = called(capfd, "shop --plan", plan, hive)
    assert told.err == "The plan is for 3 hives, and not for 1. Make the plan again.\n"


def test_a_group_and_a_component_are_parts_of_the_whole(capfd, kept):
    def lines(*more: str) -> list[str]:
        return called(capfd, "saw --format csv --plan", kept, *more).out.splitlines()[1:]

    groups = ("week before", "day one", "day two", "at home")
    assert sorted(line for group in groups for line in lines("--group", group)) == sorted(lines())
    roof = called(capfd, "saw --component roof --plan", kept).out
    assert "B-SR" not in roof
    assert "R-RS" in roof


def test_labels_are_a_page_for_each_hive(capfd, kept, tmp_path):
    out = tmp_path / "labels.pdf"
    assert called(capfd, "cut --plan", kept, "--labels", out)[0] == 0
    pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(out)]
    assert ["Ada" in pages[0], "Ben" in pages[1], len(pages)] == [True, True, 2]


# One box in its sleeve is 64 pieces, a page of two too many; three are the most there are.
@pytest.mark.parametrize("boxes", [1, 3])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_labels_that_need_two_pages_fill_both_alike(capfd, tmp_path, boxes, paper):
    hive, out = tmp_path / "hive.toml", tmp_path / "labels.pdf"
    hive.write_text(f"[chosen]\nframes = 10\nboxes = {boxes}\n")
    assert called(capfd, "cut", hive, "--labels", out, "--paper", paper)[0] == 0
    texts = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(out)]
    marks = [len(re.findall(r"^[BRIXS]-[A-Z]+", text, re.MULTILINE)) for text in texts]
    assert len(marks) == 2
    assert max(marks) - min(marks) <= 1


@pytest.mark.parametrize("option", [("--set", "hive_width=16"), ("--kerf", "1/8")])
def test_a_kept_plan_is_not_changed_by_options(capfd, kept, option):
    status, out, err = called(capfd, "cut --plan", kept, *option)
    assert (status, out) == (2, "")
    assert "--plan shows a plan as it was made" in err


def test_a_yard_without_a_kind_of_wood_is_told_and_is_status_one(capfd, tmp_path):
    yard = tmp_path / "yard.toml"
    yard.write_text('[[board]]\nmaterial = "2x4"\nlength = "8 ft"\n')
    told = called(capfd, "cut --yard", yard)
    assert told.status == 1
    assert "Not planned. B-LB: your yard has no board of" in told.out


def test_the_yard_beside_the_hive_file_is_bought_at_unless_another_is_named(capfd, tmp_path):
    hive, yard, other = (tmp_path / f"{name}.toml" for name in ("hive", "my-yard", "other"))
    hive.write_text(ADA)
    invented = called(capfd, "shop", hive).out
    assert "All prices are invented." in invented
    own = yard_text().replace('currency = "coins"', 'currency = "acorns"')
    yard.write_text(own)
    assert "acorns in all." in called(capfd, "shop", hive).out
    other.write_text(yard_text())
    assert called(capfd, "shop --yard", other, hive).out == invented
    yard.write_text(own.replace('kerf = "1/8"', "kerf = 9"))
    told = called(capfd, "shop", hive)
    assert (told.status, told.err.partition(";")[0]) == (2, "my-yard.toml, kerf: 9 in is too large")


def test_prices_are_added_up_again_from_the_rows(capfd):
    """Three boards of 4, and one of each sheet of the yard's; re-added from the printed rows."""
    rows = called(capfd, "shop --format csv").rows
    total = sum(int(row["count"]) * float(row["price"]) for row in rows)
    text = called(capfd, "shop").out
    assert f"{total:g} coins in all." in text
    assert "All prices are invented." in text
    care = "Read the label of glue, silicone and paint before you buy: solvent glue eats foam."
    assert care in " ".join(text.split())
