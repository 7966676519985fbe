"""What has changed, as text: one line where all sizes tell the same, else a small table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from garmentc.comparison import model as m
from garmentc.comparison.model import Change, Comparison, Move, Rewritten, Value
from garmentc.design import kinds as k
from garmentc.design.kinds import Kind
from garmentc.numbers import fixed

HEADINGS = {
    m.PARAM: "Params, eases and choices",
    m.MEASURE: "Measures of the body",
    m.FINISHED: "Finished measurements",
    m.PIECE: "Pieces",
    m.EDGE: "Edges, along the stitching line",
    m.TAKEUP: "Darts, tucks and pleats",
    m.NOTCH: "Notches",
    m.MARK: "Marks",
    m.STRIP: "Strips",
    m.SEAM: "Seams",
    m.FINISH: "Finished edges",
    m.STEP: "Steps",
    m.CLOTH: "Cloth",
    m.NOTION: "Notions and tools",
    m.PAPER: "Paper, each size printed on its own",
}
_UNITS = {k.LENGTH: (1.0, " mm"), k.AREA: (0.01, " cm²"), k.ANGLE: (57.29577951308232, " deg"), k.RATIO: (100.0, " %")}
_PLACES = (1, 2, 3, 6)  # decimals, as many as tell two numbers apart
_WIDEST = 118


def comparison_text(comparison: Comparison) -> str:
    """All that has changed, without a line end at the end."""
    lines = [f"{comparison.title}: {_outcome(comparison)}", f"from {comparison.old} to {comparison.new}"]
    if comparison.renamed:
        lines += ["", "Renamed", *(f"  {one.group} {one.old} to {one.new}" for one in comparison.renamed)]
    for group, changes in groupby(comparison.changes, key=lambda change: change.group):
        lines += ["", HEADINGS[group], *(line for one in changes for line in _change(comparison.sizes, one))]
    if comparison.moves:
        lines += ["", "Points that moved", *(line for one in comparison.moves for line in _move(comparison.sizes, one))]
    if comparison.bends:
        lines += ["", "Edges that bend otherwise between their ends"]
        lines += [f"  {one.edge}: by up to {_range(one.off)} mm" for one in comparison.bends]
    rules = [one for one in comparison.rewritten if one.is_rule or not comparison.sizes]
    if rules:
        lines += ["", "Statements", *(line for one in rules for line in _rewritten(one))]
    return "\n".join(lines)


def _outcome(comparison: Comparison) -> str:
    sizes = len(comparison.sizes)
    said = "" if not sizes else f" in {sizes} sizes" if sizes > 1 else f" ({comparison.sizes[0]})"
    if not comparison.is_same:
        return f"what has changed{said}"
    if comparison.is_same_text:
        return "nothing has changed" if not sizes else f"nothing has changed{said}"
    if not comparison.rewritten:
        return f"the same garment{said}; only the layout or the comments differ"
    names = ", ".join(one.name for one in comparison.rewritten)
    return f"the same garment{said}, though written differently: {names}"


def _rewritten(one: Rewritten) -> Iterator[str]:
    if one.old is None or one.new is None:
        kept = one.new or one.old
        assert kept is not None
        yield f"  {'added' if one.old is None else 'dropped'}: {kept.name}"
        yield f"    {kept.text}"
        return
    yield f"  {one.name}"
    yield f"    from  {one.old.text}"
    yield f"    to    {one.new.text}"


def _move(sizes: Sequence[str], move: Move) -> Iterator[str]:
    """How a point moved: in words where that is alike in all sizes, else as a table."""
    said = list(dict.fromkeys(way_words(way) for way in move.ways))
    name = f"{move.piece}.{move.point}"
    if len(said) == 1:
        yield f"  {name}: {said[0]}"
        return
    rows = [
        (word, [signed(fixed(part, 1)) for part in parts])
        for word, parts in (("right", [way.real for way in move.ways]), ("up", [way.imag for way in move.ways]))
    ]
    yield f"  {name} mm"
    yield from _table(sizes, [*rows, ("all", [fixed(abs(way), 1) for way in move.ways])])


def way_words(way: complex) -> str:
    """A movement in words: ``12.2 mm (10.0 to the right, 7.0 down)``."""
    parts = [(way.real, "to the right", "to the left"), (way.imag, "up", "down")]
    told = [f"{fixed(abs(part), 1)} {over if part > 0 else under}" for part, over, under in parts if abs(part) >= 0.05]
    if len(told) == 1:
        number, _, where = told[0].partition(" ")
        return f"{number} mm {where}"
    return f"{fixed(abs(way), 1)} mm ({', '.join(told)})"


def _range(values: Sequence[float]) -> str:
    low, high = fixed(min(values), 1), fixed(max(values), 1)
    return low if low == high else f"{low} to {high}"


def _change(sizes: Sequence[str], change: Change) -> Iterator[str]:
    name = f"{change.thing}, {change.quality}" if change.quality else change.thing
    if change.is_added or change.is_dropped:
        values = change.new if change.is_added else change.old
        word, said = ("added", "") if change.is_added else ("dropped", "was ")
        yield f"  {word}: {change.thing}{_of(change, said, values)}"
        return
    pairs = list(dict.fromkeys(zip(change.old, change.new, strict=True)))
    if len(pairs) == 1:
        yield f"  {name}: {from_to(*pairs[0], change.kind)}"
        return
    rows, step = _rows(change)
    yield f"  {name}{unit(change.kind)}{step}"
    yield from _table(sizes, rows)


def _of(change: Change, said: str, values: Sequence[Value | None]) -> str:
    """The value that a thing is known by, with what it is; its smallest and largest where sizes differ."""
    if change.kind is None or change.group == m.STEP:
        return ""
    numbers = [value for value in values if isinstance(value, float)]
    low, high = number(min(numbers), change.kind), number(max(numbers), change.kind)
    quality = f"{change.quality} " if change.quality else ""
    return f", {quality}{said}{low if low == high else f'{low} to {high}'}{unit(change.kind)}"


def from_to(old: Value | None, new: Value | None, kind: Kind | None) -> str:
    """How one value became another: ``412.0 to 418.5 mm (+6.5)``."""
    if not isinstance(old, float) or not isinstance(new, float) or kind is None:
        return f"{'nothing' if old is None else old} to {'nothing' if new is None else new}"
    places = places_for([(old, new)], kind)
    step = number(new - old, kind, places)
    return f"{number(old, kind, places)} to {number(new, kind, places)}{unit(kind)} ({signed(step)})"


def signed(step: str) -> str:
    """A number that says that it is added or taken away."""
    return step if step.startswith("-") else f"+{step}"


def places_for(pairs: Sequence[tuple[float, float]], kind: Kind) -> int:
    """As many decimals as tell the two numbers of each pair apart, at least one."""
    for places in _PLACES:
        if all(number(a, kind, places) != number(b, kind, places) for a, b in pairs if a != b):
            return 0 if kind == k.COUNT and places == 1 and all(a == int(a) for pair in pairs for a in pair) else places
    return _PLACES[-1]


def number(value: float, kind: Kind, places: int = 1) -> str:
    """A number in the unit people read: mm, cm², degrees, percent."""
    return fixed(value * _UNITS.get(kind, (1.0, ""))[0], places)


def unit(kind: Kind | None) -> str:
    return "" if kind is None else _UNITS.get(kind, (1.0, ""))[1]


def _table(sizes: Sequence[str], rows: Sequence[tuple[str, Sequence[str]]]) -> Iterator[str]:
    cell = 2 + max(len(text) for texts in (sizes, *(texts for _, texts in rows)) for text in texts)
    fit = max(1, (_WIDEST - 10) // cell)
    for first in range(0, len(sizes), fit):
        shown = slice(first, first + fit)
        for word, texts in [("", sizes), *rows]:
            yield f"    {word:<5}{''.join(text.rjust(cell) for text in texts[shown])}".rstrip()


def _rows(change: Change) -> tuple[list[tuple[str, Sequence[str]]], str]:
    """What it was, what it is, and the step between them by size; a step that is alike in all sizes as words."""
    kind = change.kind
    if kind is None:
        return [("from", [str(one or "-") for one in change.old]), ("to", [str(one or "-") for one in change.new])], ""
    both = zip(change.old, change.new, strict=True)
    pairs = [(a, b) for a, b in both if isinstance(a, float) and isinstance(b, float)]
    places = places_for(pairs, kind)
    rows: list[tuple[str, Sequence[str]]] = [
        (word, [number(value, kind, places) if isinstance(value, float) else "-" for value in values])
        for word, values in (("from", change.old), ("to", change.new))
    ]
    steps = [signed(number(b - a, kind, places)) for a, b in pairs]
    if len(steps) < len(change.old):
        return rows, ""
    if len(set(steps)) == 1:
        return rows, f", {steps[0]} in each size"
    return [*rows, ("by", ["" if step.strip("+-0.") == "" else step for step in steps])], ""
