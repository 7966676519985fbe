"""The page to cut by: the plan, where each piece lies, in which order it is cut, and what is left."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.cloth.folding import FOLD
from garmentc.data.stock import Cloth
from garmentc.numbers import area, length, percent
from garmentc.output.byhand.ruler import said
from garmentc.output.lay.drawing import Shown
from garmentc.output.lay.tape import Placed
from garmentc.output.sheet.document import (
    Block,
    Caution,
    Checklist,
    Document,
    Drawing,
    Heading,
    Items,
    Paragraph,
    Table,
)

_WHOLE = "Make whole pieces of paper of the patterns that are drawn in half: fold the paper where they say so."
_OFF = 5.0  # mm that a cloth may be off its measures before the plan is doubtful: common practice, no source


def plan_title(shown: Shown, cloth: Cloth) -> str:
    """What the plan is called."""
    assembly = shown.assembly
    return f"{assembly.draft.design.title}: {assembly.draft.body.shown}, cut from {cloth.title}"


def plan_document(shown: Shown, cloth: Cloth, svg: str, kept: str) -> Document:
    """The whole page; ``svg`` is the drawing for the screen."""
    parts = (
        _about(shown, cloth, kept),
        _plan(svg),
        _before(shown, cloth),
        _places(shown),
        _cutting(shown),
        _left(shown),
    )
    document = Document(plan_title(shown, cloth), tuple(block for part in parts for block in part))
    if shown.voice.inches:
        from garmentc.output.sheet.inches import in_inches

        return in_inches(document)
    return document


def _about(shown: Shown, cloth: Cloth, kept: str) -> Iterator[Block]:
    (x0, y0, x1, y1), voice = shown.plan.ground.box, shown.voice
    yield Heading(2, "In short")
    count = len(shown.placed)
    how = "from a cloth folded in half that then" if shown.folded else "single, from a cloth that"
    lines = [
        f"{count} {'piece' if count == 1 else 'pieces'} to cut, {how} measures "
        f"{said(x1 - x0, voice)} by {said(y1 - y0, voice)} when it is washed and ironed.",
        f"The pieces cover {percent(shown.plan.used)} of it.",
    ]
    if cloth.fibre:
        lines.append(f"Fibre: {cloth.fibre}.")
    if kept:
        lines.append(f"The places are kept in {kept}: move a piece there, pin it, and lay again.")
    yield Items(tuple(lines))


def _plan(svg: str) -> Iterator[Block]:
    yield Heading(2, "The plan")
    yield Drawing(svg, "the plan is in plan-screen.svg, and true to scale in plan.svg")
    yield Items(
        (
            "wide line: cut here, allowances included",
            "narrow line: the edge of the cloth; with a dashed line inside it: a finished edge",
            "chain line: where a pattern drawn in half lies folded; round a name: a part of the picture",
            "crossed area: a flaw, to be kept off",
            "arrow with two heads: along the lengthwise threads",
            "small cross with a number and a letter: a point to measure to",
        )
    )


def _before(shown: Shown, cloth: Cloth) -> Iterator[Block]:
    ground = shown.plan.ground
    yield Heading(2, "Before you cut")
    lines = []
    if min(ground.shrunk) < 1.0:
        along, across = cloth.shrinkage.along, cloth.shrinkage.across
        lines.append(
            f"Wash the cloth first, as the garment will be washed: it is taken to shrink by {percent(along)} along and "
            f"{percent(across)} across its lengthwise threads."
        )
    (x0, y0, x1, y1), voice = ground.box, shown.voice
    lines += [
        "Iron it. " + _spread(shown),
        f"Measure it: {said(x1 - x0, voice)} from left to right and {said(y1 - y0, voice)} from below to above. If it "
        f"is off by {length(_OFF)} or more, write what you measured into the file of the cloth and lay again.",
        *([] if shown.folded else [_WHOLE]),
        "Pin all pieces down by their places below before the first cut, then look at the whole once more.",
    ]
    if ground.is_one_way:
        lines.append("See that the upper end of the cloth is where the plan has it.")
    yield Checklist(tuple(lines))
    yield Caution(
        "Blades, pins and irons",
        (
            "Scissors and rolling cutters cut fingers as they cut cloth: cut away from you, close the blade when you "
            "put it down, and keep both out of the reach of children.",
            "Count the pins before and after. An iron burns skin and scorches some fibres: try it on a corner first.",
        ),
        (),
    )


def _spread(shown: Shown) -> str:
    """How the cloth lies on the table."""
    if shown.folded:
        return "Fold it lengthwise in half, right sides together, the fold below: two layers are cut at once."
    side = "either side up" if shown.plan.ground.is_alike else "right side up"
    return f"Lay it out flat and single, {side}, without pulling."


def _places(shown: Shown) -> Iterator[Block]:
    voice, base = shown.voice, shown.frame
    yield Heading(2, "Where each piece lies")
    if base.pins is None:
        how = (
            f"Measure each point from {base.first} and from {base.second} of the cloth, square to the edges. Two "
            "points of a piece say where it lies and how it is turned; its grain line then runs as the arrow shows."
        )
    else:
        how = (
            "Mark the points P and Q on the border of the cloth with pins, as the plan shows them: "
            f"they are {said(abs(base.pins[1] - base.pins[0]), voice)} apart. Each point of a piece lies where two "
            "tapes, one from each pin, cross. Two points of a piece say where it lies and how it is turned."
        )
    yield Paragraph(how)
    head = ("Point", "Of the piece", f"From {base.first}", f"From {base.second}")
    rows = tuple(
        (mark.letter, one.shape.title, said(mark.first, voice), said(mark.second, voice))
        for one in shown.placed
        for mark in one.points
    )
    yield Table("Points of the pieces", head, rows)
    asked = [line for one in shown.placed for line in _on_cloth(one)]
    if asked:
        yield Paragraph("These use what the cloth has:")
        yield Items(tuple(asked))


def _on_cloth(placed: Placed) -> Iterator[str]:
    """Which edges and corners of a piece lie on those of the cloth."""
    shape = placed.shape
    hems = dict.fromkeys(name.replace("_", " ") for name, _ in shape.hems if name != FOLD)
    if any(name == FOLD for name, _ in shape.hems):
        yield f"{placed.number} {shape.title.partition(',')[0]}: its fold on the fold of the cloth."
    corners = dict.fromkeys(name.replace("_", " ") for name, _ in shape.corners)
    if hems:
        yield f"{placed.number} {shape.title}: {' and '.join(hems)} on a finished edge of the cloth."
    if corners:
        yield f"{placed.number} {shape.title}: {' and '.join(corners)} on a corner of the cloth."


def _cutting(shown: Shown) -> Iterator[Block]:
    yield Heading(2, "Cut in this order")
    yield Paragraph(
        "From one end of the cloth to the other, so that what is not cut yet lies still (common practice). Mark "
        "notches and points before you take the paper off."
    )
    spots = shown.plan.spots
    yield Checklist(
        tuple(
            f"{one.number}. {one.shape.title}"
            + (", right side down" if spots[one.shape.key].turn.over else "")
            + (", through the upper layer only" if one.shape.key in shown.upper_only else "")
            for one in shown.placed
        )
    )


def _left(shown: Shown) -> Iterator[Block]:
    yield Heading(2, "What is left")
    if not shown.rests:
        yield Paragraph("Nothing in one piece that would be 10 cm wide.")
        return
    voice, base = shown.voice, shown.frame
    where = base.pins is None
    head = ("Size", "Area", *(("Its lower left corner, from the left", "from below") if where else ()))
    rows = tuple(
        (
            f"{said(rest.wide, voice)} by {said(rest.high, voice)}",
            area(rest.area),
            *((said(rest.x, voice), said(rest.y, voice)) if where else ()),
        )
        for rest in shown.rests
    )
    yield Table("The largest rectangles beside the pieces", head, rows)
