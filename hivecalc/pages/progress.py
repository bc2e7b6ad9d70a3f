"""What a learner has practised: the slips that gave an answer, how often, and what to do next.

A slip comes back, spaced: a day after it was made, and each time that it then goes right after a
longer while.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from html import escape
from typing import Final

from hivecalc.answers import Answer, Answers
from hivecalc.components import DIMENSIONS
from hivecalc.derivation import title
from hivecalc.exercise import by_slip, titles
from hivecalc.judging import SLIPS
from hivecalc.length import Units
from hivecalc.pages.messages import message, table
from hivecalc.support.faults import short, so_many

DAYS: Final = (1, 3, 7, 14, 30)
"""After how many days a slip comes back: the first time, the second time, and so on.

That what is spaced is kept longer is known from many experiments (Cepeda et al. 2006, Psychological
Bulletin 132, 354-380, cited from memory); the days themselves are common practice, no published
source.
"""
MOST_NEXT: Final = 3
MOST_LISTED: Final = 60


@dataclass(frozen=True)
class SlipMade:
    """A slip that gave answers of a learner's, and how it has gone since.

    times counts the answers that it gives; alone those of them that no other slip gives, too. asked
    is where it was last. right_since counts right answers after that to what practises it. due is
    when it comes back; None where it has gone right every time, to the last.
    """

    name: str
    times: int
    alone: int
    last: date
    asked: str
    right_since: int = 0
    step: int = 0
    due: date | None = None


@dataclass(frozen=True)
class Next:
    """One thing to do next: an exercise or dimension, the slip it practises, and why."""

    asked: str
    slip: SlipMade
    why: str
    practice: str


@dataclass(frozen=True)
class Progress:
    """What the answers of one learner say, on one day: counted, and no more than that.

    slips stand in the order in which they are to be practised. not_right is what was last answered
    otherwise than right.
    """

    today: date
    answers: int
    days: int
    unexplained: int
    unreadable: int
    slips: tuple[SlipMade, ...]
    next: tuple[Next, ...]
    not_right: tuple[str, ...]


def progress(
    answers: Iterable[Answer],
    today: date,
    exercises: Mapping[str, Sequence[str]] | None = None,
    units: Units = "inch",
) -> Progress:
    """What a learner's answers say today, and what to do next.

    >>> from datetime import datetime, timezone
    >>> monday = datetime(2026, 5, 4, 10, tzinfo=timezone.utc)
    >>> panel = "bottom_board.panel_width"
    >>> wrong = Answer(panel, "14 5/8", "slip", ("gap_added",), monday)
    >>> found = progress([wrong], date(2026, 5, 5))
    >>> [(each.slip.name, each.asked, str(each.slip.due)) for each in found.next]
    [('gap_added', 'bottom_board.panel_width', '2026-05-05')]

    answers stand in the order they were given. exercises says for a slip which ones practise it;
    what showed it in the first place always does. An answer that more than one slip gives counts
    for each of them.
    """
    known, given = exercises or {}, list(answers)
    practised_by = defaultdict[str, set[str]](set)
    for slip, names in known.items():
        for name in names:
            practised_by[name].add(slip)
    made, last = dict[str, SlipMade](), dict[str, Answer]()
    for answer in given:
        last.pop(answer.asked, None)
        last[answer.asked] = answer
        for name in answer.slips:
            practised_by[answer.asked].add(name)
            made[name] = _made_again(made.get(name), name, answer)
        for name in practised_by[answer.asked] & made.keys() if answer.right else ():
            made[name] = _gone_right(made[name], answer.when.date())
    order = {name: place for place, name in enumerate(last, 1)}
    slips = tuple(sorted(made.values(), key=_urgency))
    following = []
    for due in [s for s in slips if s.due and s.due <= today][:MOST_NEXT]:
        asked = min(known.get(due.name) or [due.asked], key=lambda name: order.get(name, 0))
        practice = SLIPS[due.name].to_practise(units) if due.name in SLIPS else ""
        following.append(Next(asked, due, _why(due, today), practice))
    verdicts = Counter(answer.verdict for answer in given)
    return Progress(
        today,
        len(given),
        len({answer.when.date() for answer in given}),
        verdicts["unexplained"],
        verdicts["unreadable"],
        slips,
        tuple(following),
        tuple(asked for asked, answer in last.items() if not answer.right),
    )


def _made_again(old: SlipMade | None, name: str, answer: Answer) -> SlipMade:
    """The slip, made once more: it begins from the start."""
    times, alone = (old.times, old.alone) if old else (0, 0)
    alone += len(answer.slips) == 1
    day = answer.when.date()
    return SlipMade(name, times + 1, alone, day, answer.asked, due=day + timedelta(DAYS[0]))


def _gone_right(slip: SlipMade, day: date) -> SlipMade:
    """The slip after a right answer: a step further if it was due, and only practised if not."""
    slip = replace(slip, right_since=slip.right_since + 1)
    if slip.due is None or day < slip.due:
        return slip
    step = slip.step + 1
    due = day + timedelta(DAYS[step]) if step < len(DAYS) else None
    return replace(slip, step=step, due=due)


def _urgency(slip: SlipMade) -> tuple[int, int, date, int, str]:
    """The order of practice: the least practised first, then what was due first, then what is most.

    What has gone right every time comes last.
    """
    due = slip.due or date.max
    return slip.step, slip.right_since, due, -slip.times, slip.name


# ── in words ──────────────────────────────────────────────────────────────────────────────────


def _why(slip: SlipMade, today: date) -> str:
    given, last = f"{slip.times} of your answers", "the last one "
    if slip.times == 1:
        given, last = "one of your answers", ""
    since = "You have not had it right since."
    if slip.right_since:
        often = _times(slip.right_since)
        since = f"You have had it right {often} since; it comes back so that it stays right."
    return f"This slip gives {given} ({last}{_ago(slip.last, today)}). {since}"


def _times(count: int) -> str:
    return {0: "never", 1: "once", 2: "twice"}.get(count, f"{count} times")


def _ago(day: date, today: date) -> str:
    days = (today - day).days
    near = {0: "today", 1: "yesterday"}.get(days)
    return near or (f"{days} days ago" if days > 0 else f"on {day.isoformat()}")


def _ahead(day: date, today: date) -> str:
    days = (day - today).days
    return "now" if days <= 0 else "tomorrow" if days == 1 else f"in {days} days"


def asked_title(asked: str, titles: Mapping[str, str] | None = None) -> str:
    """What was asked, in words: an exercise by its title, a dimension by its name."""
    if titles and asked in titles:
        return titles[asked]
    if asked in DIMENSIONS.dimensions:
        component, _, name = asked.rpartition(".")
        return f"{title(component)}: {title(name)}" if component else title(name)
    return short(asked)


# ── as a page ─────────────────────────────────────────────────────────────────────────────────

HOW: Final = (
    "How this is chosen: a slip comes back a day after you made it. Each time it then goes right, "
    f"it waits longer: {', '.join(map(str, DAYS[1:-1]))} and {DAYS[-1]} days. If you make it "
    "again, it starts again. What you have had right least often comes first."
)
NOT_KNOWN: Final = (
    "This page counts answers. It can't see how you found them, so it gives no mark: a slip that "
    "is named here gives the answer that you typed, and something else may have led to it."
)


def progress_html(found: Progress, titles: Mapping[str, str] | None = None) -> str:
    """What a learner has practised, as a page: counts, what to do next, and the slips.

    titles are the exercises' own.
    """
    if not found.answers:
        return message("note", "No answer of yours is saved yet.")
    text = _counts(found) + _next(found, titles) + _slips(found)
    if found.not_right:
        names = [asked_title(asked, titles) for asked in found.not_right[-MOST_LISTED:]]
        text += _paragraphs(f"Not right yet, when you last answered: {'; '.join(names)}.")
    return text + _paragraphs(HOW, NOT_KNOWN)


def _counts(found: Progress) -> str:
    texts = [f"{so_many(found.answers, 'answer')} of yours on {so_many(found.days, 'day')}."]
    if found.unexplained:
        texts.append(f"{so_many(found.unexplained, 'wrong answer')} that no known slip gives.")
    if found.unreadable:
        texts.append(f"{so_many(found.unreadable, 'answer')} that could not be read.")
    return message("note", *texts)


def _next(found: Progress, titles: Mapping[str, str] | None) -> str:
    if not found.next:
        later = min((slip.due for slip in found.slips if slip.due), default=None)
        back = f" The next one comes back {_ahead(later, found.today)}." if later else ""
        return message("right", f"No slip comes back today.{back}")
    items = ""
    for each in found.next:
        asked, slip = asked_title(each.asked, titles), title(short(each.slip.name))
        practice = f"<br>To warm up: {escape(each.practice)}" if each.practice else ""
        items += f"<li><b>{escape(asked)}</b> ({escape(slip)})<br>{escape(each.why)}{practice}</li>"
    return f'<div class="hc"><h3>What to do next</h3><ol>{items}</ol></div>'


def _slips(found: Progress) -> str:
    if not found.slips:
        return message("right", "No slip has given an answer of yours.")
    head = ["slip", "answers", "or another slip", "last", "right since", "comes back"]
    rows = [
        [title(short(slip.name)), str(slip.times), str(slip.times - slip.alone),
         _ago(slip.last, found.today), _times(slip.right_since),
         _ahead(slip.due, found.today) if slip.due else "no more"]
        for slip in found.slips[:MOST_LISTED]
    ]  # fmt: skip
    return f'<div class="hc"><h3>Slips</h3></div>{table(head, rows)}'


def _paragraphs(*texts: str) -> str:
    return '<div class="hc">' + "".join(f"<p>{escape(text)}</p>" for text in texts) + "</div>"


def learned(answers: Answers, units: Units = "inch") -> str:
    """The page of one learner: what the kept answers show, what to do next, and damaged lines."""
    faults = message("wrong", *map(str, answers.faults))
    today = datetime.now().astimezone().date()
    return faults + progress_html(progress(answers.all(), today, by_slip(), units), titles())
