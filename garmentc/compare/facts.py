"""What can be said of an assembled garment, one quality of one thing after the other."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from garmentc.assembly.model import Assembly, CutPiece, EdgeUse, FinishedEdge, Join, JoinedSeam
from garmentc.compare import model as m
from garmentc.compare.model import Fact
from garmentc.design import kinds as k
from garmentc.design.model import EdgeName
from garmentc.draft.model import DraftedPiece, TakeUp
from garmentc.draft.takeups import takeup_lines

_ALIKE = 0.05  # mm; sides of a seam that differ by less are told once
_NUMBER = re.compile(r"\d+(?:[.,/]\d+)*")


def facts_of(assembly: Assembly) -> Iterator[Fact]:
    """All that is compared of a garment in one size; the first quality of a thing is the one it is known by."""
    yield from _values(assembly)
    for piece in assembly.pieces:
        yield from _piece(piece)
    for strip in assembly.strips:
        yield from _strip(strip)
    for seam in assembly.seams:
        yield from _seam(seam)
    for finish in assembly.finishes:
        yield from _finish(finish)
    yield from _steps(assembly)
    yield from _used_up(assembly)


def _values(assembly: Assembly) -> Iterator[Fact]:
    draft, design = assembly.draft, assembly.draft.design
    for name, param in design.params.items():
        yield Fact(m.PARAM, name, "", draft.params[name], param.kind)
    for name, choice in design.choices.items():
        yield Fact(m.PARAM, name, "", choice.value)
        yield Fact(m.PARAM, name, "options", ", ".join(choice.options))
    for name in design.measures:
        yield Fact(m.MEASURE, name, "", draft.body.measures[name].mm, k.LENGTH)
    for one in draft.finished:
        yield Fact(m.FINISHED, one.name, "", one.value, one.kind)
        yield Fact(m.FINISHED, one.name, "title", one.title)


def _piece(piece: CutPiece) -> Iterator[Fact]:
    drafted = piece.drafted
    yield Fact(m.PIECE, drafted.name, "cloth as cut", _cloth(piece), k.AREA)
    yield from _cutting(m.PIECE, drafted)
    for edge in drafted.edges:
        name, use = f"{drafted.name}.{edge.name}", piece.uses.get(edge.name)
        yield Fact(m.EDGE, name, "", edge.path.length, k.LENGTH)
        if edge.taken:
            yield Fact(m.EDGE, name, "with darts and folds made", edge.sewn_length, k.LENGTH)
        if use is not None:
            yield Fact(m.EDGE, name, "allowance", use.allowance, k.LENGTH)
            yield Fact(m.EDGE, name, "used", _use(use))
    for number, notch in enumerate(drafted.notches, start=1):
        yield Fact(m.NOTCH, f"{drafted.name}.{notch.edge} notch {number}", "along the edge", notch.along, k.LENGTH)
    for mark in drafted.marks:
        yield Fact(m.MARK, f"{drafted.name}.{mark.name}", "text", mark.text)
    for taken in drafted.takeups:
        yield from _takeup(drafted, taken)


def _cutting(group: str, drafted: DraftedPiece) -> Iterator[Fact]:
    how = "in pairs" if drafted.pair else "on the fold" if drafted.on_fold else "single"
    yield Fact(group, drafted.name, "title", drafted.title)
    yield Fact(group, drafted.name, "cut", f"{drafted.number} {how}")
    yield Fact(group, drafted.name, "grain", drafted.grain)


def _use(use: EdgeUse) -> str:
    join = "" if use.join is None else f" as {use.join.name}"
    return "on the fold" if use.way == "fold" else f"{use.way} {use.by}{join}" if use.way == "seam" else f"finish{join}"


def _takeup(drafted: DraftedPiece, one: TakeUp) -> Iterator[Fact]:
    name = f"{drafted.name}.{one.name}"
    leg, _ = takeup_lines(one).legs
    yield Fact(m.TAKEUP, name, "taken at the edge", abs(one.second - one.first), k.LENGTH)
    yield Fact(m.TAKEUP, name, "long", leg.length, k.LENGTH)
    yield Fact(m.TAKEUP, name, "is", f"a {one.title} in {one.edge}, pressed {one.pressed}")


def _strip(strip: CutPiece) -> Iterator[Fact]:
    drafted, making = strip.drafted, strip.drafted.making
    assert making is not None
    yield Fact(m.STRIP, drafted.name, "length", making.length, k.LENGTH)
    yield Fact(m.STRIP, drafted.name, "cut width", making.cut_width, k.LENGTH)
    yield Fact(m.STRIP, drafted.name, "finished width", making.finished_width, k.LENGTH)
    yield Fact(m.STRIP, drafted.name, "stitched from the edge", making.stitched, k.LENGTH)
    yield Fact(m.STRIP, drafted.name, "made", making.way)
    yield from _cutting(m.STRIP, drafted)


def _seam(seam: JoinedSeam) -> Iterator[Fact]:
    yield Fact(m.SEAM, seam.name, "length", seam.first_length, k.LENGTH)
    if abs(seam.first_length - seam.second_length) > _ALIKE:
        yield Fact(m.SEAM, seam.name, "length of the second side", seam.second_length, k.LENGTH)
    yield Fact(m.SEAM, seam.name, "ease", seam.ease, k.LENGTH)
    yield Fact(m.SEAM, seam.name, "gathered", seam.gathered, k.COUNT)
    yield Fact(m.SEAM, seam.name, "sewn times", float(seam.times), k.COUNT)
    sides = [_listed(seam.first)] + ([] if seam.mirrored else [_listed(seam.second)])
    yield Fact(m.SEAM, seam.name, "joins", " with ".join(sides))
    caught = [f"{one.strip} {'folded ' if one.folded else ''}at {one.piece}.{one.point_name}" for one in seam.inserts]
    yield Fact(m.SEAM, seam.name, "inserts", ", ".join(caught) or "none")
    yield from _join(m.SEAM, seam.name, seam.join)


def _finish(finish: FinishedEdge) -> Iterator[Fact]:
    name = _listed(finish.edges)
    yield Fact(m.FINISH, name, "length", finish.length, k.LENGTH)
    yield from _join(m.FINISH, name, finish.join)


def _join(group: str, name: str, join: Join) -> Iterator[Fact]:
    yield Fact(group, name, "sewn as", join.name)
    yield Fact(group, name, "allowance", join.allowance, k.LENGTH)
    rows = [f"{work.width:.1f} mm" for work in join.work if work.stitch is not None]
    yield Fact(group, name, "rows of stitching", ", ".join(rows) or "none")


def _steps(assembly: Assembly) -> Iterator[Fact]:
    """Each step with its words; numbers are masked, as they follow from what is told elsewhere."""
    for step in assembly.steps:
        yield Fact(m.STEP, step.title, "words", _NUMBER.sub("…", " ".join(step.lines)))


def _used_up(assembly: Assembly) -> Iterator[Fact]:
    total = sum(_cloth(piece) for piece in (*assembly.pieces, *assembly.strips))
    yield Fact(m.CLOTH, "all pieces", "as cut", total, k.AREA)
    for number, binding in enumerate(assembly.bindings, start=1):
        name = f"binding {number} of {binding.of}"
        yield Fact(m.NOTION, name, "length", binding.length, k.LENGTH)
        yield Fact(m.NOTION, name, "cut width", binding.width, k.LENGTH)
    for thread in assembly.thread:
        yield Fact(m.NOTION, f"thread for stitch {thread.stitch.code}", "", thread.thread, k.LENGTH)
    for tool in assembly.tools:
        yield Fact(m.NOTION, tool, "needed", "yes")


def _cloth(piece: CutPiece) -> float:
    return abs(piece.cut_line.area) * piece.drafted.copies


def _listed(names: Iterable[EdgeName]) -> str:
    return ", ".join(name.text for name in names)
