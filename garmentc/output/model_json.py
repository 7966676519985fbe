"""The resolved model as one JSON document, for other programs; its schema is ``grammar/schemas/garment.schema.json``.

Lengths are in mm, areas in mm², angles in radians, y up; numbers are rounded to a millionth.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from garmentc.assembly.model import Assembly, CutPiece, EdgeUse, FinishedEdge, Join, JoinedSeam
from garmentc.assembly.openings import opening_words
from garmentc.assembly.sewn import Surface
from garmentc.design.model import Design, EdgeName
from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.geometry.path import Path
from garmentc.geometry.segments import Arc, Cubic, Line
from garmentc.geometry.vector import Point
from garmentc.numbers import exact

VERSION = 1
Json = dict[str, Any]


def garment_json(design: Design, sizes: Sequence[Json]) -> bytes:
    """The document for a design, with the models of all the sizes it was built for."""
    document = {
        "format": "garmentc-garment",
        "version": VERSION,
        "name": design.name,
        "title": design.title,
        "edition": design.edition,
        "measures": [
            {"name": measure.name, "kind": measure.kind.name, "description": measure.description}
            for measure in design.measures.values()
        ],
        "choices": [
            {"name": choice.name, "options": list(choice.options), "value": choice.value}
            for choice in design.choices.values()
        ],
        "sizes": list(sizes),
    }
    return (json.dumps(document, ensure_ascii=False, indent=1) + "\n").encode()


def size_model(assembly: Assembly) -> Json:
    """The part of the document that tells about one size or body."""
    draft = assembly.draft
    return {
        "size": draft.body.name,
        "measures": {name: exact(draft.body.measures[name].mm) for name in draft.design.measures},
        "params": {name: exact(value) for name, value in draft.params.items()},
        "pieces": [_piece(piece) for piece in assembly.pieces],
        "strips": [_piece(strip) for strip in assembly.strips],
        "bought": [_bought(strip) for strip in draft.strips if strip.is_bought],
        "seams": [_seam(seam) for seam in assembly.seams],
        "finishes": [_finish(finish) for finish in assembly.finishes],
        "finished": [
            {
                "name": one.name,
                "title": one.title,
                "kind": one.kind.name,
                "value": exact(one.value),
            }
            for one in draft.finished
        ],
        "steps": [
            {
                "number": step.number,
                "name": step.name,
                "title": step.title,
                "about": step.about,
                "lines": list(step.lines),
            }
            for step in assembly.steps
        ],
        "thread": [
            {
                "stitch": use.stitch.code,
                "title": use.stitch.title,
                "sewn": exact(use.sewn),
                "thread": exact(use.thread),
            }
            for use in assembly.thread
        ],
        "bindings": [
            {
                "of": use.of,
                "width": exact(use.width),
                "length": exact(use.length),
                "strips": [
                    {
                        "along": exact(run.along),
                        "ring": run.ring,
                        "times": run.times,
                        "parts": run.parts,
                        "part": exact(run.part),
                        "joins": [exact(at) for at in run.joins],
                    }
                    for run in use.runs
                ],
            }
            for use in assembly.bindings
        ],
        "tools": list(assembly.tools),
        "surface": _surface(assembly.surface),
    }


def _surface(surface: Surface) -> Json:
    return {
        "parts": len(surface.whole),
        "euler": surface.euler,
        "openings": [
            {
                "names": list(opening.names),
                "title": opening_words(opening),
                "length": exact(opening.length),
                "times": opening.times,
                "opened": exact(opening.opened),
                "closures": list(opening.closures),
                "parts": [
                    {
                        "piece": part.piece,
                        "edge": part.edge,
                        "copy": part.copy + 1,
                        "mirrored": part.mirrored,
                        "from": exact(part.low),
                        "to": exact(part.high),
                    }
                    for part in opening.parts
                ],
            }
            for opening in surface.openings
        ],
    }


def _bought(strip: DraftedPiece) -> Json:
    assert strip.making is not None
    return {
        "name": strip.name,
        "title": strip.title,
        "line": strip.span.line,
        "number": strip.number,
        "length": exact(strip.making.length),
        "width": exact(strip.making.finished_width),
    }


def _piece(piece: CutPiece) -> Json:
    drafted = piece.drafted
    found: Json = {
        "name": drafted.name,
        "title": drafted.title,
        "line": drafted.span.line,
        "number": drafted.number,
        "pair": drafted.pair,
        "on_fold": drafted.on_fold,
        "grain": drafted.grain,
        "thread": _point(drafted.thread),
        "area": exact(abs(piece.cut_line.area)),
        "edges": [
            _edge(edge, cut.path, cut.corner, piece.uses.get(edge.name))
            for edge, cut in zip(drafted.edges, piece.edges, strict=True)
        ],
        **_inside(piece),
    }
    if drafted.interfacing is not None:
        found["interfacing"] = {
            "text": drafted.interfacing.text,
            "with_allowances": drafted.interfacing.with_allowances,
        }
    if drafted.making is not None:
        making = drafted.making
        found["making"] = {
            "way": making.way,
            "length": exact(making.length),
            "cut_width": exact(making.cut_width),
            "stitched": exact(making.stitched),
            "finished_width": exact(making.finished_width),
        }
    return found


def _inside(piece: CutPiece) -> Json:
    drafted = piece.drafted
    return {
        "lines": [
            {
                "kind": line.kind,
                "name": line.name,
                "text": line.text,
                "line": line.span.line,
                "path": _path(line.path),
            }
            for line in drafted.lines
        ],
        "marks": [
            {"name": mark.name, "at": _point(mark.at), "text": mark.text, "line": mark.span.line}
            for mark in drafted.marks
        ],
        "notches": [
            {
                "edge": notch.edge,
                "along": exact(notch.along),
                "slits": notch.slits,
                "seam": notch.seam,
                "line": notch.span.line,
            }
            for notch in piece.notches
        ],
        "takeups": [
            {
                "kind": one.kind,
                "name": one.name,
                "edge": one.edge,
                "first": _point(one.first),
                "second": _point(one.second),
                "tip": _point(one.tip),
                "depth": exact(one.deep),
                "bow": exact(one.bow),
                "pressed": one.pressed,
                "line": one.span.line,
            }
            for one in drafted.takeups
        ],
    }


def _edge(edge: DraftedEdge, cut: Path, corner: Path | None, use: EdgeUse | None) -> Json:
    return {
        "name": edge.name,
        "line": edge.span.line,
        "length": exact(edge.path.length),
        "sewn_length": exact(edge.sewn_length),
        "backward": edge.backward,
        "way": "strip" if use is None else use.way,
        "by": "" if use is None else use.by,
        "type": "" if use is None or use.join is None else use.join.name,
        "allowance": exact(0.0 if use is None else use.allowance),
        "path": _path(edge.path),
        "cut": _path(cut),
        "corner": [] if corner is None else _path(corner),
    }


def _seam(seam: JoinedSeam) -> Json:
    return {
        "name": seam.name,
        "line": seam.span.line,
        "type": _join(seam.join),
        "first": _names(seam.first),
        "second": _names(seam.second),
        "layers": [_names(one.name for one in layer.side) for layer in seam.layers],
        "mirrored": seam.mirrored,
        "first_length": exact(seam.first_length),
        "second_length": exact(seam.second_length),
        "ease": exact(seam.ease),
        "gathered": exact(seam.gathered),
        "stretched": exact(seam.stretched),
        "times": seam.times,
        "left_open": None
        if seam.gap is None
        else {"from": exact(seam.gap.low), "to": exact(seam.gap.high), "type": seam.gap.join.name},
        "inserts": [
            {
                "strip": insert.strip,
                "piece": insert.piece,
                "at": _point(insert.at),
                "folded": insert.folded,
                "inside": insert.inside,
            }
            for insert in seam.inserts
        ],
    }


def _finish(finish: FinishedEdge) -> Json:
    return {
        "line": finish.span.line,
        "type": _join(finish.join),
        "edges": _names(finish.edges),
        "length": exact(finish.length),
    }


def _join(join: Join) -> Json:
    return {
        "name": join.name,
        "title": join.title,
        "class": join.iso_class,
        "allowance": exact(join.allowance),
        "corner": join.corner,
        "folds": [exact(depth) for depth in join.folds],
        "passes": [
            {"width": exact(work.width), "stitch": work.stitch.code} for work in join.work if work.stitch is not None
        ],
        "binding": exact(join.binding),
    }


def _names(names: Iterable[EdgeName]) -> list[str]:
    return [name.text for name in names]


def _path(path: Path) -> list[Json]:
    return [_segment(segment) for segment in path.segments]


def _segment(segment: object) -> Json:
    if isinstance(segment, Line):
        return {"line": [_point(segment.start), _point(segment.end)]}
    if isinstance(segment, Cubic):
        return {"cubic": [_point(p) for p in (segment.start, segment.c1, segment.c2, segment.end)]}
    assert isinstance(segment, Arc)
    return {
        "arc": {
            "centre": _point(segment.centre),
            "radius": exact(segment.radius),
            "start_angle": exact(segment.start_angle),
            "sweep": exact(segment.sweep),
        }
    }


def _point(point: Point) -> list[float]:
    return [exact(point.real), exact(point.imag)]
