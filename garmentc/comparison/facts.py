"""What can be said of an assembled garment, one quality of one thing after the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.assembly.model import Assembly, CutPiece, EdgeUse, FinishedEdge, Inserted, Join, JoinedSeam, PlannedStep
from garmentc.comparison import model as m
from garmentc.comparison.model import Fact
from garmentc.comparison.pairs import AS_THEY_ARE, Names
from garmentc.design import kinds as k
from garmentc.design.model import EdgeName
from garmentc.draft.model import DraftedPiece, TakeUp
from garmentc.draft.takeups import takeup_lines
from garmentc.syntax.values import of_one

_ALIKE = 0.05  # mm; sides of a seam that differ by less are told once


def facts_of(assembly: Assembly, names: Names = AS_THEY_ARE) -> Iterator[Fact]:
    """All that is compared of a garment in one size; the first quality of a thing is the one it is known by.

    Pieces, edges and seams get the names that ``names`` gives them.
    """
    yield from _values(assembly)
    for piece in assembly.pieces:
        yield from _piece(piece, names)
    for strip in assembly.draft.strips:
        yield from _strip(strip, names)
    for seam in assembly.seams:
        yield from _seam(seam, names)
    for finish in assembly.finishes:
        yield from _finish(finish, names)
    yield from _steps(assembly, names)
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


def _piece(piece: CutPiece, names: Names) -> Iterator[Fact]:
    drafted = piece.drafted
    called = names.piece(drafted.name)
    yield Fact(m.PIECE, called, "cloth as cut", _cloth(piece), k.AREA)
    yield from _cutting(m.PIECE, called, drafted)
    if drafted.interfacing is not None:
        line = "with allowances" if drafted.interfacing.with_allowances else "without allowances"
        yield Fact(m.PIECE, called, "interfacing", f"{drafted.interfacing.text}, {line}")
    for edge in drafted.edges:
        name, use = names.edge(drafted.name, edge.name), piece.uses.get(edge.name)
        yield Fact(m.EDGE, name, "", edge.path.length, k.LENGTH)
        if edge.taken:
            yield Fact(m.EDGE, name, "with darts and folds made", edge.sewn_length, k.LENGTH)
        if use is not None:
            yield Fact(m.EDGE, name, "allowance", use.allowance, k.LENGTH)
            told = [f"{one.of_one}: {_use(one, names)}" if one.of_one else _use(one, names) for one in use.all]
            yield Fact(m.EDGE, name, "used", "; ".join(told))
    for number, notch in enumerate(piece.notches, start=1):
        name = f"{names.edge(drafted.name, notch.edge)} notch {number}"
        yield Fact(m.NOTCH, name, "along the edge", notch.along, k.LENGTH)
        yield Fact(m.NOTCH, name, "slits", float(notch.slits), k.COUNT)
    for mark in drafted.marks:
        yield Fact(m.MARK, f"{called}.{mark.name}", "text", mark.text)
    for taken in drafted.takeups:
        yield from _takeup(drafted, taken, names)


def _cutting(group: str, name: str, drafted: DraftedPiece) -> Iterator[Fact]:
    how = "in pairs" if drafted.pair else "on the fold" if drafted.on_fold else "single"
    yield Fact(group, name, "title", drafted.title)
    yield Fact(group, name, "cut", f"{drafted.number} {how}")
    yield Fact(group, name, "grain", drafted.grain)


def _use(use: EdgeUse, names: Names) -> str:
    if use.way == "fold" or use.join is None:
        return "on the fold"
    return f"seam {names.seam(use.by)} as {use.join.name}" if use.way == "seam" else f"finish as {use.join.name}"


def _takeup(drafted: DraftedPiece, one: TakeUp, names: Names) -> Iterator[Fact]:
    name = f"{names.piece(drafted.name)}.{one.name}"
    leg, _ = takeup_lines(one).legs
    yield Fact(m.TAKEUP, name, "taken at the edge", abs(one.second - one.first), k.LENGTH)
    yield Fact(m.TAKEUP, name, "long", leg.length, k.LENGTH)
    yield Fact(m.TAKEUP, name, "is", f"a {one.title} in {names.edge(drafted.name, one.edge)}, pressed {one.pressed}")


def _strip(drafted: DraftedPiece, names: Names) -> Iterator[Fact]:
    making = drafted.making
    assert making is not None
    name = names.piece(drafted.name)
    yield Fact(m.STRIP, name, "length", making.length, k.LENGTH)
    yield Fact(m.STRIP, name, "cut width", making.cut_width, k.LENGTH)
    yield Fact(m.STRIP, name, "finished width", making.finished_width, k.LENGTH)
    yield Fact(m.STRIP, name, "stitched from the edge", making.stitched, k.LENGTH)
    yield Fact(m.STRIP, name, "made", making.way)
    yield from _cutting(m.STRIP, name, drafted)


def _seam(seam: JoinedSeam, names: Names) -> Iterator[Fact]:
    name = names.seam(seam.name)
    yield Fact(m.SEAM, name, "length", seam.first_length, k.LENGTH)
    if abs(seam.first_length - seam.second_length) > _ALIKE:
        yield Fact(m.SEAM, name, "length of the second side", seam.second_length, k.LENGTH)
    yield Fact(m.SEAM, name, "ease", seam.ease, k.LENGTH)
    yield Fact(m.SEAM, name, "gathered", seam.gathered, k.COUNT)
    if seam.stretched:
        yield Fact(m.SEAM, name, "stretched", seam.stretched, k.COUNT)
    yield Fact(m.SEAM, name, "sewn times", float(seam.times), k.COUNT)
    sides = [_listed(seam.first, names)] + ([] if seam.mirrored else [_listed(seam.second, names)])
    sides += [_listed((one.name for one in layer.side), names) for layer in seam.layers]
    yield Fact(m.SEAM, name, "joins", " with ".join(sides))
    if seam.gap is not None:
        yield Fact(m.SEAM, name, "left open", seam.gap.high - seam.gap.low, k.LENGTH)
        yield Fact(m.SEAM, name, "left open after", seam.gap.low, k.LENGTH)
    yield Fact(m.SEAM, name, "inserts", ", ".join(_caught(one, names) for one in seam.inserts) or "none")
    yield from _join(m.SEAM, name, seam.join)


def _caught(one: Inserted, names: Names) -> str:
    how = f"{'folded ' if one.folded else ''}{'inside ' if one.inside else ''}"
    return f"{names.piece(one.strip)} {how}at {names.piece(one.piece)}.{one.point_name}"


def _finish(finish: FinishedEdge, names: Names) -> Iterator[Fact]:
    name = _listed(finish.edges, names)
    yield Fact(m.FINISH, name, "length", finish.length, k.LENGTH)
    yield from _join(m.FINISH, name, finish.join)


def _join(group: str, name: str, join: Join) -> Iterator[Fact]:
    yield Fact(group, name, "sewn as", join.name)
    yield Fact(group, name, "allowance", join.allowance, k.LENGTH)
    rows = [f"{work.width:.1f} mm" for work in join.work if work.stitch is not None]
    yield Fact(group, name, "rows of stitching", ", ".join(rows) or "none")


def _steps(assembly: Assembly, names: Names) -> Iterator[Fact]:
    """The steps; what those of a seam or finish say follows from what is told of it."""
    for step in assembly.steps:
        yield Fact(m.STEP, step_name(step, names), "says", " ".join(step.lines) if step.about == "own" else "")


def step_name(step: PlannedStep, names: Names) -> str:
    """What a step is called: after the seam, the edges, the strip or the shaping that it is about."""
    if isinstance(step.thing, JoinedSeam):
        return f"seam {names.seam(step.thing.name)}"
    if isinstance(step.thing, FinishedEdge):
        return f"finish {_listed(step.thing.edges, names)}"
    if isinstance(step.thing, DraftedPiece):
        return f"strip {names.piece(step.thing.name)}"
    return step.title if step.about in ("shaping", "row") else f"step {step.name}"


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


def _listed(edges: Iterable[EdgeName], names: Names) -> str:
    return ", ".join(of_one(names.edge(one.piece, one.edge), one.hand, one.copy) for one in edges)
