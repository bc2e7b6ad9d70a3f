"""How long a page takes to answer an entry: from the key to the frame that shows the answer.

The page's clock says when the key went down, when the new node was in the document (a picture of
pixels: when it was decoded) and when the next frame was painted. The kernel's clock, on its
messages, says when it began with the entry ("busy") and had done all that it does ("idle").
"""

from dataclasses import dataclass
from datetime import datetime
from itertools import cycle
from typing import Any

from tests.bench.learner_entries import Panel
from tests.browser import KERNEL, PATIENCE, Learner

# Notes every message between the page and the kernel.
LISTEN = f"""() => {{
    window.heard = [];
    {KERNEL}.anyMessage.connect((_, {{msg, direction}}) => window.heard.push({{
        direction, type: msg.header.msg_type, date: msg.header.date, id: msg.header.msg_id,
        parent: msg.parent_header.msg_id, state: msg.content.execution_state,
        method: msg.content.data?.method,
        size: direction === 'recv' && msg.channel === 'iopub' ? JSON.stringify(msg).length : 0,
    }}));
}}"""

# Waits for the next key within an area, and for another node in the place of the one shown there.
WATCH = f"""(area, [shows, entry]) => {{
    const now = () => performance.timeOrigin + performance.now();
    const old = area.querySelector(shows);
    const before = old?.outerHTML;
    window.heard.length = 0;
    window.answer = new Promise((resolve, reject) => {{
        let key;
        area.addEventListener('keydown', event => {{
            key = performance.timeOrigin + event.timeStamp;
        }}, {{capture: true, once: true}});
        const watcher = new MutationObserver(async () => {{
            const node = area.querySelector(shows);
            if (node === null || node === old) return;
            watcher.disconnect();
            await node.decode?.();
            const drawn = now();
            requestAnimationFrame(() => {{
                const after = new MessageChannel();
                after.port1.onmessage = () => resolve({{
                    key, drawn, painted: now(), changed: node.outerHTML !== before,
                }});
                after.port2.postMessage(null);
            }});
        }});
        watcher.observe(area, {{subtree: true, childList: true}});
        setTimeout(reject, {PATIENCE}, new Error('no answer to ' + entry));
    }});
}}"""


@dataclass(frozen=True)
class Answer:
    """When an entry was answered, in ms of the clock, and what was sent for it.

    key: the key went down; begun, done: in the kernel; drawn: the answer was in the document;
    painted: it was on the screen. messages and size are those to the page, and their characters;
    later are the characters of what it is sent when the kernel is idle again.
    """

    key: float
    begun: float
    done: float
    drawn: float
    painted: float
    messages: int
    size: int
    later: int

    @property
    def whole(self) -> float:
        """Milliseconds from the key to the painted answer."""
        return self.painted - self.key

    @property
    def in_kernel(self) -> float:
        """Milliseconds that the kernel was busy with the entry."""
        return self.done - self.begun


def answers(learner: Learner, panel: Panel) -> list[Answer]:
    """How each entry of a panel was answered, by Enter and by Tab in turn, but for the first one.

    What is loaded when it is used for the first time is loaded by that.
    """
    found = [
        _answer(learner, panel, entry, key)
        for entry, key in zip(panel.entries, cycle(("Enter", "Tab")), strict=False)
    ]
    return found[1:]


def _answer(learner: Learner, panel: Panel, entry: str, key: str) -> Answer:
    area = panel.area(learner.page)
    box = area.get_by_label(panel.field, exact=True)
    area.evaluate(WATCH, [panel.shows, entry])
    box.fill(entry)
    box.press(key)
    times = learner.page.evaluate("window.answer")
    learner.wait_idle()
    assert times.pop("changed"), f"{entry}: the page shows the same as before"
    return Answer(**times, **kernel_part(learner.page.evaluate("window.heard")))


def kernel_part(heard: list[dict[str, Any]]) -> dict[str, Any]:
    """What the kernel's messages say about the first value that a widget of the page sent.

    A short message that Enter was pressed goes before it, and counts as part of the way.
    """
    asked = next(m["id"] for m in heard if (m["direction"], m["method"]) == ("send", "update"))
    answers = [m for m in heard if m["parent"] == asked and m["direction"] == "recv"]
    begun, done = (
        next(_milliseconds(m["date"]) for m in answers if m["state"] == state)
        for state in ("busy", "idle")
    )
    idle = next(n for n, m in enumerate(answers) if m["state"] == "idle")
    size, later = (
        [m["size"] for m in some if m["type"] in {"comm_msg", "display_data"}]
        for some in (answers[:idle], answers[idle:])
    )
    return {
        "begun": begun,
        "done": done,
        "messages": len(size),
        "size": sum(size),
        "later": sum(later),
    }


def _milliseconds(date: str) -> float:
    return datetime.fromisoformat(date).timestamp() * 1000
