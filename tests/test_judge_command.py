"""`hivecalc judge`: one answer, and a file of answers; what it tells, its exit status.

Check values are sums done on paper on the demo hive (23 1/8 by 17 3/8 in): opening width 14 3/8,
panel width 14 1/8, front rail length 14 3/8, side rail length 21 5/8.
"""

import csv
import difflib
import json
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hivecalc.answers import AnswerRow, rows_in
from hivecalc.hive import Fault, HiveFaults, demo_hive
from hivecalc.judging import verdict, verdict_json
from tests.commands import Told, called
from tests.test_bad_input import check_lines, check_sentences, is_harmless

PANEL = "bottom_board.panel_width"
KEYS = ["schema", "dimension", "answer", "verdict", "slips", "message", "first_difference",
        "carried"]  # fmt: skip
BAD = [
    "", "a foot", "x" * 10_000, "1" * 10_000, "٢١", "२१ ५/८", "\u200f21 5/8", "21\u202e 5/8",
    "<b>21</b>", "=1+1", "about 21", "21 22", "-21", "−21", "-1/8", "0.5 mi", "21 s", "21 seconds",
    "1e3", "\x1b[31m21", "'; rm -rf .", "-1 inch", "-1/8 --help", "-½", "-", "\udcff",
]  # fmt: skip


def judge(capfd: pytest.CaptureFixture[str], *words: str | Path) -> Told:
    line, *more = words
    return called(capfd, f"judge {line}", *more)


# ── one answer ────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("answer", "status", "kind"), [
    ("14 1/8", 0, "right"), ("14.125", 0, "right_other_form"), ("358 mm", 0, "right_other_form"),
    ("14 1/16", 1, "unexplained"), ("13 9/8", 0, "right_other_form"), ("14 5/8", 1, "slip"),
    ("9 1/16", 1, "unexplained"), ("about 14", 1, "unreadable"),
])  # fmt: skip
def test_the_exit_status_says_whether_the_answer_is_right(capfd, answer, status, kind):
    told = judge(capfd, PANEL, answer, "--format", "json")
    assert (told.status, told.err) == (status, "")
    assert list(told.document) == KEYS
    assert (told.document["verdict"], told.document["answer"]) == (kind, answer)
    assert told.document == verdict_json(verdict(demo_hive(), PANEL, answer))


def test_text_says_what_would_give_it_and_where_to_look(capfd):
    told = judge(capfd, "'panel width' '14 5/8'")
    assert told.out.startswith("Panel width (bottom_board.panel_width): “14 5/8”\n")
    assert "if the panel gap were added instead of taken off." in told.out
    assert "\nLook again: " in told.out
    assert "\nTo practise: " in told.out
    assert max(map(len, told.out.splitlines())) <= 80
    right = judge(capfd, "'panel width' '14 1/8'")
    assert right.out.splitlines()[1:] == ["Right."]
    [row] = judge(capfd, PANEL, "14 3/8", "--format", "csv").rows
    assert (row["verdict"], row["slips"], row["carried"]) == ("slip", "gap_forgotten", "no")
    spaceless = judge(capfd, "front_rail_length 143/8")
    assert "143/8 reads as 17 7/8 in.\nLook again: Did you mean 14 3/8 in?\n" in spaceless.out


def test_an_earlier_answer_is_carried_on(capfd):
    told = judge(capfd, "panel_width '15 5/8' --carry 'opening_width=15 7/8' --format json")
    assert (told.status, told.document["verdict"], told.document["carried"]) == (
        0, "right_carried", True,
    )  # fmt: skip
    assert told.document["first_difference"] == "bottom_board.opening_width"
    assert judge(capfd, "panel_width '15 5/8'").status == 1
    assert judge(capfd, "panel_width '15 5/8' --carry opening_width=0").status == 1


def test_an_earlier_answer_without_its_space_is_taken_as_written_and_told(capfd):
    told = judge(capfd, "panel_width '17 5/8' --carry opening_width=143/8")
    assert told.status == 0  # 17 7/8 less the panel gap
    assert told.err == (
        "143/8 is taken as written, 17 7/8 in; with a space it would be 14 3/8 in.\n"
    )
    assert judge(capfd, "panel_width '14 1/8' --carry opening_width=143/0").err == ""


def test_another_hive_is_judged_by_its_own_sizes(capfd, tmp_path):
    # By hand: 16 - 3 - 1/4; in mm, 400 - 2 x 38 - 6.
    assert judge(capfd, "panel_width '12 3/4' --set hive_width=16").status == 0
    file = tmp_path / "hive.toml"
    file.write_text('units = "mm"\nmeasured = {hive_length = 600, hive_width = 400}\n')
    assert judge(capfd, "panel_width 318", file).status == 0
    assert judge(capfd, "panel_width 317", file).status == 1


def test_out_holds_the_verdict(capfd, tmp_path):
    told = judge(capfd, PANEL, "14 5/8", "--format", "json", "--out", tmp_path / "v.json")
    assert (told.status, told.out) == (1, f"Wrote {tmp_path / 'v.json'}.\n")
    assert json.loads((tmp_path / "v.json").read_text())["verdict"] == "slip"


@pytest.mark.parametrize("form", ["text", "json", "csv"])
def test_a_bad_answer_is_a_verdict_and_harmless(capfd, form):
    for answer in BAD:
        told = judge(capfd, PANEL, answer, "--format", form)
        assert (told.status, told.err) == (1, ""), answer
        assert is_harmless(told.out)
        if form == "json":
            assert told.document["verdict"] == "unreadable"
            assert told.document["answer"] == answer
        if form == "csv":
            assert not told.out.splitlines()[1].partition(",")[2].startswith(("=", "-", "+", '"='))


# ── a file of answers ─────────────────────────────────────────────────────────────────────────

CLASS = """\
learner,dimension,answer,carry
Ana,panel_width,14 1/8,
Ben,panel_width,15 5/8,opening_width=15 7/8
=Cy,panel width,=1+1,
Dee,bottom_board.front_rail_length,15 7/8,
"""
VERDICTS = ["right", "right_carried", "unreadable", "slip"]
AS_JSON = [
    {"learner": "Ana", "dimension": "panel_width", "answer": "14 1/8"},
    {"learner": "Ben", "dimension": "panel_width", "answer": 15.625,
     "carry": {"opening_width": "15 7/8"}},
    {"learner": "=Cy", "dimension": "panel width", "answer": "=1+1"},
    {"learner": "Dee", "dimension": "bottom_board.front_rail_length", "answer": "15 7/8"},
]  # fmt: skip
FORMS = {
    "CSV": CLASS,
    "CSV with semicolons, from a spreadsheet": "\ufeff"
    + CLASS.replace(",", ";").replace("\n", "\r\n"),
    "CSV with tabs": CLASS.replace(",", "\t"),
    "CSV in another order": "Answer,Carry,Dimension,x\n14 1/8,,panel_width,\n15 5/8,"
    "opening_width=15 7/8,panel_width,\n=1+1,,panel_width,\n15 7/8,,front_rail_length,\n",
    "JSON lines": "".join(f"{json.dumps(row)}\n" for row in AS_JSON),
    "a JSON list": json.dumps(AS_JSON),
    "a JSON list over many lines": json.dumps(AS_JSON, indent=4),
}


@pytest.fixture
def answers(tmp_path: Path) -> Path:
    return tmp_path / "class.csv"


def verdicts(told: Told) -> list[str]:
    return [json.loads(line)["verdict"] for line in told.out.splitlines()]


@pytest.mark.parametrize("text", FORMS.values(), ids=FORMS)
def test_every_row_of_a_file_is_judged_whatever_its_form(capfd, answers, text):
    answers.write_text(text, encoding="utf-8", newline="")
    told = judge(capfd, "--answers", answers, "--format", "json")
    assert (told.status, told.err) == (1, "")
    assert verdicts(told) == VERDICTS


def test_the_forms_of_what_is_told_agree(capfd, answers, tmp_path):
    answers.write_text(CLASS)
    told = judge(capfd, "--answers", answers, "--format", "json")
    lines = [json.loads(line) for line in told.out.splitlines()]
    assert list(lines[0]) == ["schema", "row", "learner", *KEYS[1:]]
    assert [(x["row"], x["learner"]) for x in lines] == [
        (2, "Ana"), (3, "Ben"), (4, "=Cy"), (5, "Dee"),
    ]  # fmt: skip
    as_csv = judge(capfd, "--answers", answers, "--format", "csv").rows
    for line, row in zip(lines, as_csv, strict=True):
        assert int(row["row"]) == line["row"]
        assert row["learner"].removeprefix("'") == line["learner"]
        assert row["message"] == line["message"]
        assert row["slips"] == "; ".join(line["slips"])
    assert (as_csv[2]["learner"], as_csv[2]["answer"]) == ("'=Cy", "'=1+1")
    text = judge(capfd, "--answers", answers).out.splitlines()
    assert text[0] == "2  Ana, panel width “14 1/8”: right"
    assert text[3].endswith("not right, a slip gives it: thickness once")
    assert text[4].startswith("4 answers: 1 right; 1 right, worked on")
    out = tmp_path / "told"
    judge(capfd, "--answers", answers, "--out", out)
    assert out.read_text().splitlines() == text


def test_the_exit_status_of_a_file(capfd, answers):
    for text, status in {
        "dimension,answer\npanel_width,14 1/8\n": 0,
        "dimension,answer\n": 0,
        "[]": 0,
        "dimension,answer\npanel_width,14\n": 1,
        "dimension,answer\npanel_width,14 5/8\n": 1,
        "dimension,answer\npanel_width,a foot\n": 1,
        "dimension,answer\npanel_width,14 1/8\nnone,1\n": 2,
    }.items():
        answers.write_text(text)
        assert judge(capfd, "--answers", answers).status == status, text


def test_a_hive_goes_with_a_file_of_answers(capfd, answers, tmp_path):
    hive = tmp_path / "hive.toml"
    hive.write_text("measured = {hive_length = 20, hive_width = 16}\n")
    answers.write_text("dimension,answer\npanel_width,12 3/4\n")
    assert judge(capfd, "--answers", answers, hive).status == 0
    assert judge(capfd, "--answers", answers, "--set", "hive_width=16").status == 0
    assert judge(capfd, "--answers", answers).status == 1


# ── rows that are damaged ─────────────────────────────────────────────────────────────────────

DAMAGED_CSV = {
    b"Ana,panel_widht,14 1/8,": "row 2, panel_widht: there is no dimension of this name; perhaps",
    b"Ana,,14 1/8,": "there is no dimension of this name",
    b"Ana,stud_thickness,1 1/2,": "it is measured",
    b"Ana,panel_width,14 1/8,x": "“x” is not DIMENSION=ANSWER",
    b"Ana,panel_width,14 1/8,opening=1": "row 2, opening: there is no dimension",
    b"Ana,panel_width,14,125,opening_width=1": "it has 5 cells, and there are 4 columns",
    b"Ana,panel_width": "it has only 2 of 4 cells",
    b'Ana,panel_width,"14 1/8,': "a quotation mark",
    b'"Ana"x,panel_width,14 1/8,': "a quotation mark",
}
DAMAGED_JSON = {
    b'{"dimension": "panel_width", "answer": ': "cut short or isn't JSON",
    b"{dimension: panel_width, answer: 14}": "cut short or isn't JSON",
    b'{"dimension": "panel_width"}': "“answer” is missing",
    b'{"dimension": "panel_width", "answer": true}': "“answer” is missing, or neither",
    b'{"dimension": "panel_width", "answer": NaN}': "“answer” is missing, or neither",
    b'{"dimension": "panel_width", "answer": ["14"]}': "“answer” is missing, or neither",
    b'{"dimension": "panel_width", "answer": "14", "carry": "x"}': "“carry” is not a JSON object",
    b'{"dimension": "panel_width", "answer": "14", "carry": {"lap": null}}': "“lap” is missing",
    b'["panel_width", "14"]': "not a JSON object",
    b'{"a": ' + b"[" * 5000: "isn't JSON",
}
GOOD_CSV, GOOD_JSON = (
    b"Ben,panel_width,14 1/8,",
    b'{"dimension": "panel_width", "answer": "14 1/8"}',
)


@pytest.mark.parametrize("bad", DAMAGED_CSV, ids=lambda bad: repr(bad[:40]))
def test_a_damaged_row_of_csv_costs_that_row_only(capfd, answers, bad):
    rows_there = [b"learner,dimension,answer,carry", bad, GOOD_CSV, b"", b",,,", GOOD_CSV]
    answers.write_bytes(b"\n".join(rows_there))
    told = judge(capfd, "--answers", answers, "--format", "json")
    assert (told.status, verdicts(told)) == (2, ["right", "right"])
    check_lines(told.err, f"{answers}, row 2")
    assert DAMAGED_CSV[bad] in told.err
    assert [json.loads(line)["row"] for line in told.out.splitlines()] == [3, 6]


@pytest.mark.parametrize("bad", DAMAGED_JSON, ids=lambda bad: repr(bad[:40]))
def test_a_damaged_row_of_json_costs_that_row_only(capfd, answers, bad):
    answers.write_bytes(b"\n".join([GOOD_JSON, bad, b"", GOOD_JSON]))
    told = judge(capfd, "--answers", answers, "--format", "json")
    assert (told.status, verdicts(told)) == (2, ["right", "right"])
    check_lines(told.err, f"{answers}, row 2")
    assert DAMAGED_JSON[bad] in told.err


@pytest.mark.parametrize("text", [FORMS["CSV"], FORMS["JSON lines"]], ids=["CSV", "lines"])
def test_a_file_cut_at_any_byte_gives_the_whole_rows_before_it(answers, text):
    answers.write_text(text)
    whole = rows_in(answers)
    assert len(whole) == 4
    for cut in range(len(text)):
        answers.write_text(text[:cut])
        try:
            found = rows_in(answers)
        except HiveFaults:
            assert cut < len("learner,dimension,answer")
            continue
        good = [row for row in found if isinstance(row, AnswerRow)]
        assert len(found) - len(good) <= 1
        if text == CLASS and good:
            good.pop()  # which may be cut within its last cell
        assert good == whole[: len(good)]


@pytest.mark.parametrize("text", ["\n\r\n{bad}\n", '\n\ndimension,answer\n\n"bad\n'])
def test_rows_are_numbered_as_an_editor_numbers_lines(answers, text):
    answers.write_text(text.replace("{bad}", GOOD_JSON.decode() + "\n\n{bad}"), newline="")
    *_, fault = rows_in(answers)
    assert f"{answers}, row 5: " in str(fault)


FILES = {
    b"": "this file is empty",
    b"\n \n": "this file is empty",
    b"\xff\xfea\x00": "this file is not text in UTF-8 (see byte 1)",
    b'[{"dimension": "panel_width", "answer": "14"}': "it is cut short or isn't JSON",
    b"name,size\na,b\n": "does not name the columns dimension and answer",
    b"dimension,answer,answer\na,b,c\n": "does not name the columns dimension and answer, each",
    b'"dimension,answer': "its first row can't be read, as a quotation mark",
    b"dimension,answer\n" + b" " * 1_000_000: "this file is bigger than 1 MB",
}


@pytest.mark.parametrize("data", FILES, ids=lambda data: repr(data[:20]))
def test_a_file_that_holds_no_answers_is_refused(capfd, answers, data):
    answers.write_bytes(data)
    for form in ("text", "csv", "json"):
        check_sentences(judge(capfd, "--answers", answers, "--format", form), FILES[data])


def test_a_file_of_names_only_gives_names_only(capfd, answers):
    answers.write_text("dimension,answer\n")
    told = judge(capfd, "--answers", answers, "--format", "csv")
    assert (told.status, told.out.count("\n"), told.rows) == (0, 1, [])
    assert judge(capfd, "--answers", answers).out == "0 answers: nothing to judge\n"


def test_bad_answers_in_a_file_are_verdicts(capfd, answers):
    texts = [text for text in BAD if text and "\udcff" not in text]
    with answers.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([("dimension", "answer"), *((PANEL, text) for text in texts)])
    for form in ("text", "csv", "json"):
        told = judge(capfd, "--answers", answers, "--format", form)
        assert (told.status, told.err) == (1, "")
        assert is_harmless(told.out)
    assert verdicts(told) == ["unreadable"] * len(texts)


def test_of_very_many_damaged_rows_the_first_are_told_and_the_rest_counted(
    capfd, answers, monkeypatch
):
    looks: list[str] = []
    look = difflib.get_close_matches
    monkeypatch.setattr(
        difflib, "get_close_matches", lambda *a, **b: looks.append(a[0]) or look(*a, **b)
    )
    answers.write_text("dimension,answer\n" + "panel_widht,14\n" * 3000 + "panel_width,14 1/8\n")
    told = judge(capfd, "--answers", answers)
    assert looks.count("panel_widht") == 1  # 3,000 searches would take a minute
    assert len(told.err.splitlines()) == 101
    assert told.err.endswith("2,900 more rows are left out.\n")
    assert told.out.endswith("1 answer: 1 right; 3,000 rows left out\n")


CELLS = st.text(st.characters(exclude_characters="\r\n"), max_size=12)


@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(CELLS, CELLS, CELLS), min_size=1, max_size=5))
def test_any_rows_written_as_csv_or_json_are_read_back(answers, cells):
    there = [row for row in cells if "".join(row).strip(",;\t ")]
    with answers.open("w", newline="", encoding="utf-8", errors="replace") as file:
        csv.writer(file).writerows([("learner", "dimension", "answer"), *there])
    read = [
        (r.learner, r.dimension, r.answer) for r in rows_in(answers) if isinstance(r, AnswerRow)
    ]
    assert read == [tuple(c.encode(errors="replace").decode() for c in row) for row in there]
    keys = ("learner", "dimension", "answer")
    for separators in ("\n", ","):
        text = separators.join(json.dumps(dict(zip(keys, row, strict=True))) for row in cells)
        answers.write_text(text if separators == "\n" else f"[{text}]")
        found = [(r.learner, r.dimension, r.answer) for r in rows_in(answers)]
        assert found == cells


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from([b"", b"[", b"{", b"dimension,answer\n"]), st.binary(max_size=200))
def test_no_bytes_break_the_reading(answers, begin, data):
    answers.write_bytes(begin + data)
    with suppress(HiveFaults):
        assert all(isinstance(row, AnswerRow | Fault) for row in rows_in(answers))
