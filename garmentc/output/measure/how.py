"""How a finished measurement is taken, from what its value is made of."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.design import kinds as k
from garmentc.design.model import Design, FinishedPlan
from garmentc.design.texts import spoken
from garmentc.syntax import nodes

_WIDTHS = "Lay the garment flat and smooth. Measure straight across"
_GIRTHS = "Lay the garment flat and smooth, closed. Measure straight across, from fold to fold, at the level of"
_BESIDE = "Lay the tape on its edge all round, always as far from"
_EDGES = "Lay the tape on its edge along"


def how_to_measure(plan: FinishedPlan, design: Design) -> str:
    """What to do with the tape; a value of other kinds is computed, not measured."""
    if plan.kind != k.LENGTH:
        return "Computed from the draft."
    places = list(dict.fromkeys(_places(plan.value, design, ())))
    widths = [place for word, place in places if word == "width"]
    edges = [place for word, place in places if word == "edge"]
    said = []
    if girths := [place for word, place in places if word == "girth"]:
        said.append(f"{_GIRTHS} {' and '.join(girths)}, and double it.")
    if besides := [place for word, place in places if word == "beside"]:
        said.append(f"{_BESIDE} {' and '.join(besides)}.")
    if openings := [place for word, place in places if word == "opening"]:
        said.append(f"Lay the tape on its edge all round {', '.join(openings)}, without pulling.")
    if widths:
        said.append(f"{_WIDTHS} {' and '.join(widths)}, from side to side, and add up for all round.")
    if edges:
        more = ", each as often as it is there, and add up" if len(edges) > 1 else "; where there are two, measure both"
        said.append(f"{_EDGES} {' and '.join(edges)}, without pulling{more}.")
    return " ".join(said) or "Lay the garment flat and smooth; measure without pulling."


def _places(value: object, design: Design, within: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """The widths and edges that a value is made of, through the values it names."""
    if isinstance(value, nodes.Call) and value.function.text == "width":
        piece = value.arguments[0]
        if isinstance(piece, nodes.Ref) and piece.words[0].text in design.pieces:
            yield "width", f"the {design.pieces[piece.words[0].text].title}"
            return
    if isinstance(value, nodes.Call) and value.function.text == "girth":
        around, at, *edge = value.arguments
        title = design.pieces[around.span.text].title if around.span.text in design.pieces else around.span.text
        if edge:
            yield "beside", f"{_place(edge[0], title)} as {_place(at, title)}"
        else:
            yield "girth", _place(at, title)
        return
    if isinstance(value, nodes.Ref) and value.words[0].text in design.openings:
        yield "opening", f"the {design.openings[value.words[0].text].title}"
        return
    if isinstance(value, nodes.Ref):
        yield from _named([word.text for word in value.words], design, within)
        return
    if isinstance(value, tuple):
        for part in value:
            if isinstance(part, tuple):
                yield from _places(part, design, within)


def _place(at: nodes.Expr, title: str) -> str:
    """A point or edge of a piece in words."""
    while isinstance(at, nodes.Call) and at.arguments:
        at = at.arguments[0]
    named = [word.text for word in at.words] if isinstance(at, nodes.Ref) else []
    return f"the {spoken(named[1])} of the {title}" if len(named) == 2 else f"{at.span.text} ({title})"


def _named(words: list[str], design: Design, within: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    head = words[0]
    if len(words) > 2 and head in design.pieces and words[-1] in ("length", "sewn_length"):
        yield "edge", f"the {spoken(' '.join(words[1:-1]))} of the {design.pieces[head].title}"
    elif len(words) == 1 and head in design.values and head not in within:
        yield from _places(design.values[head].value, design, (*within, head))
