"""A block drafted for any body, and measured in the drawings that are written of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from itertools import pairwise

from shapely.geometry import LineString, Point
from shapely.ops import substring

from garmentc.assembly.assemble import assemble
from garmentc.assembly.model import Assembly
from garmentc.data.model import Body, Measured
from garmentc.draft.draft import draft
from garmentc.draft.model import DraftedPiece, TakeUp
from garmentc.geometry.path import Path
from garmentc.host import DiskHost
from garmentc.output.patterns.files import pattern_files
from garmentc.pipeline import compile_spec
from garmentc.source import Source
from tests.output.test_patterns import Element, elements, only, points
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
ROOT = "specs/blocks"


@cache
def in_all_sizes(block: str, *settings: str) -> dict[str, Assembly]:
    """A block for the shipped chart, by size; without any finding."""
    compiled = compile_spec(DiskHost(), f"{ROOT}/{block}.garment", sizes=CHART, settings=settings)
    assert not list(compiled.findings)
    return {one.draft.body.name: one for one in compiled.made}


def for_body(
    block: str, measures: Mapping[str, float], settings: Sequence[str] = (), text: str | None = None
) -> Assembly:
    """A block for a body, measures in cm; ``text`` is a spec that takes its place, such as a variant of it."""
    name = f"{ROOT}/{block}.garment"
    host = MemoryHost({} if text is None else {name: text})
    compiled = compile_spec(host, name, settings=settings)
    assert compiled.design is not None and not list(compiled.findings)
    nowhere = Source("body", "").whole()
    body = Body("body", {one: Measured(10 * cm, nowhere) for one, cm in measures.items()}, nowhere, nowhere, "")
    made = draft(compiled.design, body, compiled.findings)
    assert made is not None
    assembly = assemble(made[0], made[1].values, compiled.findings)
    assert assembly is not None and not list(compiled.findings)
    return assembly


def edge(assembly: Assembly, piece: str, name: str) -> Path:
    found = assembly.draft.piece(piece).edge(name)
    assert found is not None
    return found.own_path


def sewn(assembly: Assembly, piece: str, name: str) -> float:
    found = assembly.draft.piece(piece).edge(name)
    assert found is not None
    return found.sewn_length


def dart(piece: DraftedPiece, name: str) -> TakeUp:
    return next(one for one in piece.takeups if one.name == name)


class Drawing:
    """The written drawing of one piece, in mm; ``y`` runs up."""

    def __init__(self, assembly: Assembly, piece: str) -> None:
        self._elements = elements(dict(pattern_files(assembly))[f"{piece}.svg"])

    def edge(self, name: str, use: str) -> list[complex]:
        """The points of an edge as stitched, cut or folded, along the outline."""
        return self._points(only([e for e in self._of(name) if e.has(use) and "id" in e.attributes]))

    def length(self, name: str, use: str = "stitch") -> float:
        return sum(abs(b - a) for a, b in pairwise(self.edge(name, use)))

    def darts(self, name: str) -> list[tuple[complex, complex, complex]]:
        """The darts of an edge, by the place where they begin from left to right: both ends of their legs, their tip."""
        legs = [self._points(e) for e in self._of(name) if e.has("dart") and e.tag == "path"]
        assert all(one[-1] == other[-1] for one, other in zip(legs[::2], legs[1::2], strict=True))
        found = [(one[0], other[0], one[-1]) for one, other in zip(legs[::2], legs[1::2], strict=True)]
        return sorted(found, key=lambda legs: legs[0].real)

    def bare(self, name: str, beside: str) -> list[complex]:
        """The points of an edge without allowance: its cut line, up to the stitching line of the edge beside it."""
        line = LineString([(p.real, p.imag) for p in self.edge(name, "cut")])
        stitched = self.edge(beside, "stitch")
        corner = min((Point(p.real, p.imag) for p in (stitched[0], stitched[-1])), key=line.distance)
        assert line.distance(corner) < 0.01
        at = line.project(corner)
        kept = substring(line, 0.0, at) if at > line.length / 2 else substring(line, at, line.length)
        return [complex(*p) for p in kept.coords]

    def sewn_length(self, name: str, beside: str | None = None) -> float:
        """The length of an edge without the mouths of its darts; ``beside`` as in ``bare``, for one without allowance."""
        line = self.edge(name, "stitch") if beside is None else self.bare(name, beside)
        stations = [0.0]
        for a, b in pairwise(line):
            stations.append(stations[-1] + abs(b - a))
        left = stations[-1]
        for one, other, _ in self.darts(name):
            ends = [min(zip(line, stations, strict=True), key=lambda at: abs(at[0] - p)) for p in (one, other)]
            assert all(abs(at - p) < 0.01 for (at, _), p in zip(ends, (one, other), strict=True))
            left -= abs(ends[1][1] - ends[0][1])
        return left

    def _of(self, name: str) -> list[Element]:
        return [e for e in self._elements if e.attributes.get("data-edge") == name]

    @staticmethod
    def _points(element: Element) -> list[complex]:
        return [p.conjugate() for p in points(element)]
