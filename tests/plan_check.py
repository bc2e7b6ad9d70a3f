"""A check of a plan written apart: it knows stock, pieces, kerf, margin and trim, and no planner.

It reads the plan's JSON alone. Boards and strips are walked along cut by cut; of each sheet the
rectangles are looked at, whether cuts from edge to edge can free them, and what each cut takes off.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import combinations


def exact(length: Mapping[str, object]) -> Fraction:
    return Fraction(str(length["exact"]))


def plan_faults(plan: dict, wanted: Counter[str]) -> list[str]:
    """What is wrong with a plan, in which `wanted` says how often each mark must be cut."""
    yard = plan["yard"]
    cut = Fraction(yard["kerf"]) + Fraction(yard["cut_margin"])
    return [
        *_pieces(plan, wanted),
        *(fault for board in plan["boards"] for fault in _board(board, yard, cut)),
        *(fault for strip in plan["strips"] for fault in _strip(strip, cut)),
        *(fault for sheet in plan["sheets"] for fault in _sheet(sheet, yard)),
        *_stock(plan),
    ]


def _pieces(plan: dict, wanted: Counter[str]) -> Iterator[str]:
    blanks = {strip["blank"] for strip in plan["strips"]}
    made = Counter(
        piece["mark"]
        for group in ("boards", "strips", "sheets")
        for one in plan[group]
        for piece in one["pieces"]
        if piece["mark"] not in blanks
    )
    made.update(left["mark"] for left in plan["unplanned"])
    for mark in made.keys() | wanted.keys():
        if made[mark] != wanted[mark]:
            yield f"{mark}: {wanted[mark]} wanted, {made[mark]} cut or told"
    on_boards = Counter(p["mark"] for b in plan["boards"] for p in b["pieces"])
    yield from (f"{blank}: comes out of no board" for blank in blanks if not on_boards[blank])


def _board(board: dict, yard: dict, cut: Fraction) -> Iterator[str]:
    stock = next(b for b in yard["boards"] if b["name"] == board["stock"]["name"])
    trim = Fraction(0) if stock["at_hand"] else Fraction(yard["end_trim"])
    length = Fraction(stock["length"])
    if length > Fraction(yard["longest_board"]) and not stock["at_hand"]:
        yield f"{board['board']}: it is longer than one can handle"
    at, lengths = trim, [exact(piece["length"]) for piece in board["pieces"]]
    for piece, size in zip(board["pieces"], lengths, strict=True):
        at += size + cut
        if at > length - trim + (cut if stock["at_hand"] else 0):
            yield f"{board['board']}: {piece['mark']} ends on the raw end"
    if lengths != sorted(lengths, reverse=True):
        yield f"{board['board']}: not the longest first"
    if exact(board["offcut"]) != max(length - at, Fraction(0)):
        yield f"{board['board']}: another offcut is left"


def _strip(strip: dict, cut: Fraction) -> Iterator[str]:
    if sum(exact(piece["length"]) + cut for piece in strip["pieces"]) > exact(strip["length"]):
        yield f"{strip['strip']}: its pieces are longer than it"


def _stock(plan: dict) -> Iterator[str]:
    for group, sort in (("boards", "boards"), ("sheets", "sheets")):
        used = Counter(one["stock"]["name"] for one in plan[group])
        for goods in plan["yard"][sort]:
            if goods["count"] is not None and used[goods["name"]] > goods["count"]:
                yield f"{goods['name']}: more are cut than there are"


def _sheet(sheet: dict, yard: dict) -> Iterator[str]:
    goods = next(s for s in yard["sheets"] if s["name"] == sheet["stock"]["name"])
    kerf = Fraction(yard["kerf"]) if goods["material"] == "plywood" else Fraction(0)
    wide, long = Fraction(goods["width"]), Fraction(goods["length"])
    boxes = [tuple(exact(p[n]) for n in ("x", "y", "width", "length")) for p in sheet["pieces"]]
    name = sheet["sheet"]
    for x, y, width, length in boxes:
        if x < 0 or y < 0 or x + width > wide or y + length > long:
            yield f"{name}: a piece lies beyond the edge"
    for one, other in combinations(boxes, 2):
        gaps = (
            max(one[i], other[i]) - min(one[i] + one[i + 2], other[i] + other[i + 2])
            for i in (0, 1)
        )
        if max(gaps) < kerf:
            yield f"{name}: two pieces have no kerf between them"
    if _stuck(boxes, kerf):
        yield f"{name}: no cut from edge to edge parts its pieces"
    for cut in sheet["cuts"]:
        if cut["stage"] < 3 and exact(cut["takes_off"]) < kerf + Fraction(1, 4):
            yield f"{name}: a cut takes off a sliver"


def _stuck(boxes: list, kerf: Fraction) -> list:
    """Pieces that no cut from edge to edge of their part can part; none if all come free."""
    if len(boxes) < 2:
        return []
    for low in (0, 1):
        row = sorted(boxes, key=lambda box: box[low])
        end = row[0][low] + row[0][low + 2]
        for at, box in enumerate(row[1:], start=1):
            if box[low] >= end + kerf:
                return _stuck(row[:at], kerf) or _stuck(row[at:], kerf)
            end = max(end, box[low] + box[low + 2])
    return boxes
