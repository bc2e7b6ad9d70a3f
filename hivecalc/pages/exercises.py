"""What an exercise and its solution say, as HTML: prompt, example, hints, steps, slips."""

from collections.abc import Iterable
from html import escape
from typing import Final

from hivecalc.drawing.boards import cut_off, end_to_end
from hivecalc.drawing.tape import burnt_inch_tape, tape, tape_to_read
from hivecalc.exercise import Exercise, Posed, posed
from hivecalc.exercise.hints import last_sum, lines, steps_left_open
from hivecalc.exercise.posing import HIDDEN
from hivecalc.fractions_in_words import in_words
from hivecalc.judging import Question, SizeOfHive, Verdict
from hivecalc.judging import open_steps as steps_to_find
from hivecalc.length import Units
from hivecalc.pages.messages import message, table
from hivecalc.pages.outcomes import as_answered
from hivecalc.pages.outcomes import steps as hive_steps
from hivecalc.pages.views import VIEWS

STAGES: Final = {
    "last step": "All but the last step is done for you:",
    "hard step": "The easy steps are done for you. What belongs in place of each “?”:",
}


def prompt(asked: Posed) -> str:
    """What is asked, and the numbers that it is asked for."""
    return f'<div class="hc"><p>{escape(asked.text)}</p>{_given(asked)}</div>'


def _given(asked: Posed) -> str:
    text = "; ".join(f"{escape(name)} <b>{escape(said)}</b>" for name, said in asked.given)
    return f"<p>Given: {text}.</p>" if text else ""


def beginning(asked: Posed) -> str:
    """What is done already: an example for other numbers, or some of the steps; often nothing."""
    exercise = asked.exercise
    if exercise.stage == "worked" and asked.case == "given":
        other = posed(exercise, "alike", units=asked.numbers.units)
        worked = _list(line.text for line in lines(other.asked[0], other.numbers.texts))
        return (
            '<div class="hc"><p>An example, worked out for other numbers:</p>'
            f"{solved(other)}{_given(other)}{worked}"
            "<p>Now you, with the numbers above:</p></div>"
        )
    if not asked.faded:
        return ""
    return f'<div class="hc"><p>{STAGES[exercise.stage]}</p>{_list(asked.faded)}</div>'


def _list(texts: Iterable[str]) -> str:
    """Steps, one a line; what goes on with an equals sign stands in the step that it belongs to."""
    steps = list[str]()
    for text in texts:
        if text.startswith("=") and steps:
            steps[-1] += f"<br>{escape(text)}"
        else:
            steps.append(escape(text))
    return "<ol>" + "".join(f"<li>{s}</li>" for s in steps) + "</ol>"


def picture(asked: Posed) -> str:
    """The picture that an exercise is asked with, as SVG; nothing where it has none."""
    if HIDDEN in asked.numbers.sizes:
        return tape_to_read(asked.numbers.sizes[HIDDEN], asked.numbers.units)
    view = asked.exercise.picture
    return VIEWS[view].to_work_out(asked.numbers.hive) if view else ""


def hint(asked: Posed, number: int) -> str:
    """One of the three hints, counted from 1."""
    return message("note", f"Hint: {asked.hints[number - 1]}")


def steps(asked: Posed) -> str:
    """The worked steps, the right answer and why it is so."""
    texts = [f"The answer: {asked.model_answer}{asked.unit}."]
    texts += [o.says for o in asked.options if o.right and o.says]
    if only_the_rule(asked):
        worked, there = f'<div class="hc">{_list([asked.hints[1]])}</div>', [asked.hints[1]]
    else:
        (one,) = asked.asked
        worked, there = _worked(one, asked), [step.why for step in one.steps()]
    texts += [asked.why] if asked.why and asked.why not in there else []
    return worked + message("note", *texts)


def open_step(asked: Posed) -> str:
    """A worked step without its result; for a prediction or an order the rule that leads to it."""
    if only_the_rule(asked, whole=False):
        return message("note", asked.hints[1])
    (one,) = asked.asked
    if isinstance(one, SizeOfHive):
        return message("note", *steps_to_find(one.hive, one.name))
    return f'<div class="hc">{_list(steps_left_open(one, asked.numbers.texts))}</div>'


def only_the_rule(asked: Posed, *, whole: bool = True) -> bool:
    """Whether the steps are the rule alone, which is the second hint: whole, or one left open."""
    chosen = asked.exercise.kind in {"predict", "order"} if whole else bool(asked.options)
    return len(asked.asked) != 1 or chosen


def _worked(one: Question, asked: Posed) -> str:
    if isinstance(one, SizeOfHive):
        worked = hive_steps(one.steps(), one.units)
        if words := in_words(last_sum(one)):
            worked += f'<div class="hc"><p>The last sum, step by step:</p>{_list(words)}</div>'
        return worked
    return f'<div class="hc">{_list(line.text for line in lines(one, asked.numbers.texts))}</div>'


# ── after an answer ───────────────────────────────────────────────────────────────────────────


def built_in(asked: Posed, found: Verdict, tries: int) -> str:
    """The piece as it was answered, built into the hive; nothing where no single piece is asked.

    What is shown after how many wrong tries is as_answered's to say.
    """
    one = len(asked.exercise.dimensions) == 1
    return as_answered(asked.numbers.hive, asked.exercise.asks, found, tries) if one else ""


# ── the solution ──────────────────────────────────────────────────────────────────────────────


def solution(exercise: Exercise, units: Units = "inch") -> str:
    """The worked solution of an exercise: steps, answer, why, and what each slip would give."""
    asked = posed(exercise, units=units)
    return f"{prompt(asked)}{solved(asked)}{steps(asked)}{slips(asked)}"


def solved(asked: Posed) -> str:
    """The picture of the solution, as SVG: a tape with its reading, boards with their lengths."""
    sizes, units = asked.numbers.sizes, asked.numbers.units
    if HIDDEN in sizes:
        reading = sizes[HIDDEN]
        start = sizes.get("first_mark")
        return burnt_inch_tape(reading - start, units) if start else tape(reading, units)
    if {"first_board", "second_board"} <= sizes.keys():
        return end_to_end(sizes["first_board"], sizes["second_board"], units=units)
    if "piece_cut_off" in sizes:
        return cut_off(sizes["board"], sizes["piece_cut_off"], units=units)
    return ""


def slips(asked: Posed) -> str:
    """What each slip that an exercise shows would give, and each other wrong choice."""
    typed = [(w.working, w.sentence) for w in asked.shown if not asked.options]
    none = "None of the usual slips leads there."
    chosen = [
        (o.text, " ".join(w.sentence for w in o.wrong) or o.says or none)
        for o in asked.options
        if not o.right
    ]
    return table(["wrong", "what to say to it"], [*dict.fromkeys(typed), *chosen])
