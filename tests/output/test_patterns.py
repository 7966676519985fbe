"""Patterns read back from their files: every edge measured in mm against the model, by a reader of its own."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import NamedTuple
from xml.etree import ElementTree

import pytest
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as ShapelyPoint

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.host import DiskHost
from garmentc.output.patterns.files import MARGIN, pattern_files
from garmentc.pipeline import compile_spec

CHART = "specs/sizes/women-en13402.yaml"
SVG = "{http://www.w3.org/2000/svg}"
NEAR = 0.01  # mm
CASES = [(garment, size) for garment in ("tern", "tern_tunic", "plover") for size in ("76", "88", "128")]
CASES += [("heron", "88"), ("curlew", "76"), ("curlew", "128"), ("avocet", "88")]


@cache
def assemblies(garment: str) -> dict[str, Assembly]:
    compiled = compile_spec(DiskHost(), f"specs/{garment}.garment", sizes=CHART)
    assert not compiled.findings.has_errors
    return {one.draft.body.name: one for one in compiled.made}


@cache
def files(garment: str, size: str) -> dict[str, bytes]:
    return dict(pattern_files(assemblies(garment)[size]))


class Element(NamedTuple):
    """An element with what it inherits, and how far its groups move it."""

    tag: str
    text: str
    attributes: dict[str, str]
    shift: complex

    def has(self, use: str, piece: str | None = None) -> bool:
        here = self.attributes
        return here.get("data-use") == use and piece in (None, here.get("data-piece"))


def elements(data: bytes) -> list[Element]:
    """All paths and texts of a file."""

    def walk(node: ElementTree.Element, inherited: dict[str, str], shift: complex) -> Iterator[Element]:
        attributes = {**inherited, **node.attrib}
        if node.tag == f"{SVG}g":
            moved = re.fullmatch(r"translate\((\S+) (\S+)\)", node.get("transform", "translate(0 0)"))
            assert moved
            shift += complex(float(moved[1]), float(moved[2]))
            attributes.pop("transform", None)
            attributes.pop("id", None)
        if node.tag in (f"{SVG}path", f"{SVG}text"):
            yield Element(node.tag.removeprefix(SVG), node.text or "", attributes, shift)
        for child in node:
            yield from walk(child, attributes, shift)

    return list(walk(ElementTree.fromstring(data), {}, 0j))


def sampled(d: str) -> list[list[complex]]:
    """The runs of a path as many points; knows M, L, C and A."""
    tokens = re.findall(r"[A-Za-z]|[-+.\d]+", d)
    runs: list[list[complex]] = []
    at = 0
    count = {"M": 2, "L": 2, "C": 6, "A": 7}
    while at < len(tokens):
        command = tokens[at]
        n = [float(token) for token in tokens[at + 1 : at + 1 + count[command]]]
        at += 1 + count[command]
        end = complex(n[-2], n[-1])
        if command == "M":
            runs.append([end])
            continue
        start = runs[-1][-1]
        if command == "L":
            runs[-1].append(end)
        elif command == "C":
            a, b = complex(n[0], n[1]), complex(n[2], n[3])
            for i in range(1, 401):
                t = i / 400
                u = 1 - t
                runs[-1].append(u**3 * start + 3 * u * u * t * a + 3 * u * t * t * b + t**3 * end)
        else:
            runs[-1] += arc_points(start, end, n[0], bool(n[3]), bool(n[4]))
    return runs


def arc_points(start: complex, end: complex, radius: float, large: bool, sweep: bool) -> list[complex]:
    """Points of an elliptical arc command for a circle, as SVG 2 appendix B.2.4 finds its centre."""
    half = (end - start) / 2
    radius = max(radius, abs(half))
    away = math.sqrt(max(radius**2 - abs(half) ** 2, 0.0))
    side = 1 if large != sweep else -1
    centre = start + half + side * away * (half / abs(half)) * 1j
    first = math.atan2((start - centre).imag, (start - centre).real)
    last = math.atan2((end - centre).imag, (end - centre).real)
    turn = (last - first) % (2 * math.pi) if sweep else -((first - last) % (2 * math.pi))
    angles = [first + turn * i / 400 for i in range(1, 400)]
    return [*(centre + radius * complex(math.cos(angle), math.sin(angle)) for angle in angles), end]


def length(runs: list[list[complex]]) -> float:
    return sum(abs(b - a) for run in runs for a, b in pairwise(run))


def pieces(assembly: Assembly) -> tuple[CutPiece, ...]:
    return (*assembly.pieces, *assembly.strips)


def only(found: list[Element]) -> Element:
    assert len(found) == 1, found
    return found[0]


def points(element: Element) -> list[complex]:
    """Where an element lies on the page: the points of a path, the corners of a text as drawn in a wide font."""
    here = element.attributes
    if element.tag == "path":
        return [p + element.shift for run in sampled(here["d"]) for p in run]
    x, y, size = (float(here[name]) for name in ("x", "y", "font-size"))
    wide = sum(0.36 if char in " .,:;ijltrf'I1()/" else 0.62 for char in element.text) * size
    left = -wide / 2 if here.get("text-anchor") == "middle" else 0.0
    corners = [complex(left, 0.2 * size), complex(left + wide, 0.2 * size)]
    corners += [complex(left + wide, -0.72 * size), complex(left, -0.72 * size)]
    turned = re.fullmatch(r"rotate\((\S+) (\S+) (\S+)\)", here.get("transform", f"rotate(0 {x} {y})"))
    assert turned and (float(turned[2]), float(turned[3])) == (x, y)
    angle = math.radians(float(turned[1]))
    return [complex(x, y) + element.shift + corner * complex(math.cos(angle), math.sin(angle)) for corner in corners]


def polygon(corners: list[complex]) -> Polygon:
    return Polygon([(p.real, p.imag) for p in corners])


def ring_on_page(piece: CutPiece, found: list[Element], stitched: bool = False) -> Polygon:
    """The outline of a piece as the model has it, laid where the file draws its first edge."""
    name = piece.drafted.edges[0].name
    first = next(
        e for e in found if re.fullmatch(f"{piece.drafted.name}.{name}.(cut|fold)", e.attributes.get("id", ""))
    )
    drawn, meant = points(first)[0], piece.edges[0].path.start
    outline = piece.drafted.outline if stitched else piece.cut_line
    return polygon([drawn + (p - meant).conjugate() for p in outline.flatten(0.001)])


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_a_file_for_each_piece_and_one_for_all(garment: str, size: str) -> None:
    names = [piece.drafted.name for piece in pieces(assemblies(garment)[size])]
    assert list(files(garment, size)) == [*(f"{name}.svg" for name in names), "all-pieces.svg"]


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_every_stitched_and_cut_edge_is_true(garment: str, size: str) -> None:
    found = files(garment, size)
    for piece in pieces(assemblies(garment)[size]):
        name = piece.drafted.name
        for file in (f"{name}.svg", "all-pieces.svg"):
            drawn = [e for e in elements(found[file]) if e.attributes.get("data-piece") == name]
            for drafted, cut in zip(piece.drafted.edges, piece.edges, strict=True):
                edge = [e for e in drawn if e.attributes.get("data-edge") == drafted.name and e.tag == "path"]
                assert all(
                    e.attributes["data-line"] == str(drafted.span.line)
                    for e in edge
                    if not (e.has("notch") or e.has("dart"))
                )
                stitch = [e for e in edge if e.has("stitch")]
                use = piece.uses.get(drafted.name)
                if use is not None and use.allowance > 0:
                    assert length(sampled(only(stitch).attributes["d"])) == pytest.approx(drafted.path.length, abs=NEAR)
                else:
                    assert not stitch
                border = only([e for e in edge if e.has("fold" if drafted.on_fold else "cut")])
                corner = 0.0 if cut.corner is None or drafted.on_fold else cut.corner.length
                runs = sampled(border.attributes["d"])
                assert len(runs) == 1
                assert length(runs) == pytest.approx(cut.path.length + corner, abs=NEAR)


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_cut_line_is_closed_and_where_the_model_has_it(garment: str, size: str) -> None:
    found = files(garment, size)
    for piece in pieces(assemblies(garment)[size]):
        drawn = elements(found[f"{piece.drafted.name}.svg"])
        border = [p for e in drawn if e.attributes.get("id", "").endswith((".cut", ".fold")) for p in points(e)]
        ring = ring_on_page(piece, drawn)
        assert polygon(border).is_valid
        assert polygon(border).area == pytest.approx(piece.cut_line.area, rel=1e-5)
        assert ring.symmetric_difference(polygon(border)).area < 1e-4 * ring.area


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_page_is_in_millimetres_and_holds_everything(garment: str, size: str) -> None:
    for data in files(garment, size).values():
        root = ElementTree.fromstring(data)
        wide, high = (float(root.attrib[name].removesuffix("mm")) for name in ("width", "height"))
        assert root.attrib["width"].endswith("mm") and root.attrib["height"].endswith("mm")
        assert [float(number) for number in root.attrib["viewBox"].split()] == [0, 0, wide, high]
        assert root.attrib["role"] == "img"
        assert root.findtext(f"{SVG}title") and root.findtext(f"{SVG}desc")
        for element in elements(data):
            for p in points(element):
                assert MARGIN / 2 <= p.real <= wide - MARGIN / 2, element
                assert MARGIN / 2 <= p.imag <= high - MARGIN / 2, element


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_check_square_is_fifty_millimetres_in_every_file(garment: str, size: str) -> None:
    for data in files(garment, size).values():
        drawn = elements(data)
        sides = [sampled(e.attributes["d"]) for e in drawn if e.has("check") and e.tag == "path"]
        assert [round(length(side), 6) for side in sides] == [50.0] * 4
        steps = [side[0][1] - side[0][0] for side in sides]
        assert {abs(step.real) for step in steps} == {abs(step.imag) for step in steps} == {0.0, 50.0}
        assert [e.text for e in drawn if e.has("check")].count("5 cm") == 2
        square = polygon([points(e)[0] for e in drawn if e.has("check") and e.tag == "path"])
        for e in drawn:
            if not e.has("check"):
                track = points(e) if e.tag == "path" else [*points(e), points(e)[0]]
                assert not square.intersects(LineString([(p.real, p.imag) for p in track])), e


def _dot(p: complex) -> ShapelyPoint:
    return ShapelyPoint(p.real, p.imag)


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_words_lie_inside_their_piece_and_clear_of_each_other(garment: str, size: str) -> None:
    found = files(garment, size)
    for piece in pieces(assemblies(garment)[size]):
        drawn = elements(found[f"{piece.drafted.name}.svg"])
        inside = ring_on_page(piece, drawn, stitched=True)
        texts = [e for e in drawn if e.tag == "text" and not e.has("check")]
        boxes = [polygon(points(e)) for e in texts]
        for e, place in zip(texts, boxes, strict=True):
            assert inside.contains(place), e
        for i, e in enumerate(texts):
            for j in range(i):
                assert boxes[i].intersection(boxes[j]).area < 0.5, (e.text, texts[j].text)
        lines = [e for e in drawn if e.tag == "path" and not e.has("check")]
        for line in lines:
            for run in sampled(line.attributes["d"]):
                track = LineString([((p + line.shift).real, (p + line.shift).imag) for p in run])
                for e, place in zip(texts, boxes, strict=True):
                    assert not place.buffer(-0.01).intersects(track), (line.attributes, e.text)


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_pieces_together_do_not_overlap(garment: str, size: str) -> None:
    drawn = elements(files(garment, size)["all-pieces.svg"])
    rings = [
        ring_on_page(piece, [e for e in drawn if e.attributes.get("data-piece") == piece.drafted.name])
        for piece in pieces(assemblies(garment)[size])
    ]
    for i, ring in enumerate(rings):
        for other in rings[:i]:
            assert ring.distance(other) > 5.0


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_no_text_is_upside_down(garment: str, size: str) -> None:
    for data in files(garment, size).values():
        for element in elements(data):
            turned = re.match(r"rotate\((\S+)", element.attributes.get("transform", ""))
            if turned:
                assert -90.0 <= float(turned[1]) < 90.0


@pytest.mark.parametrize(("garment", "size"), CASES)
def test_label_says_what_is_needed(garment: str, size: str) -> None:
    assembly = assemblies(garment)[size]
    for piece in pieces(assembly):
        drawn = elements(files(garment, size)[f"{piece.drafted.name}.svg"])
        label = " ".join(e.text for e in drawn if e.has("label")).replace("\u00a0", " ")
        cut = f"cut {piece.drafted.number}" + (" on the fold" if piece.drafted.on_fold else "")
        cut = f"cut {piece.drafted.number} on single cloth, unfolded" if piece.drafted.is_unfolded else cut
        cut = "cut a pair" if piece.drafted.pair else cut
        design = assembly.draft.design
        for text in (design.title, piece.drafted.title, f"size {size}", cut, f"edition {design.edition}", "allowances"):
            assert text in label, (piece.drafted.name, text, label)
        heights = [float(e.attributes["font-size"]) * 0.72 for e in drawn if e.tag == "text"]
        assert min(heights) >= 2.59


def test_every_label_says_what_was_set_from_outside() -> None:
    settings = ["ease.bust_girth=10cm", "straps=loops"]
    compiled = compile_spec(DiskHost(), "specs/tern.garment", sizes=CHART, only=["88"], settings=settings)
    told = "set otherwise: ease.bust_girth 10cm; straps loops"
    for name, data in pattern_files(compiled.made[0]):
        label = " ".join(one.text for one in elements(data) if one.has("label")).replace("\u00a0", " ")
        assert told in label, name
    assert not any(b"set otherwise" in data for data in files("tern", "88").values())


def test_grain_arrow_follows_the_threads() -> None:
    for garment in ("tern", "plover"):
        for piece in pieces(assemblies(garment)["88"]):
            drawn = elements(files(garment, "88")[f"{piece.drafted.name}.svg"])
            shaft = only([e for e in drawn if e.has("grain") and e.attributes.get("fill") != "black"])
            start, end = sampled(shaft.attributes["d"])[0]
            along = (end - start).conjugate() / abs(end - start)
            assert abs((along * piece.drafted.thread.conjugate()).imag) < 1e-3
            assert abs(end - start) > 25.0
            assert ring_on_page(piece, drawn, stitched=True).contains(_dot((start + end) / 2 + shaft.shift))


def test_found_hem_says_so_and_folds_have_a_bent_arrow() -> None:
    drawn = elements(files("tern", "88")["front.svg"])
    hem = only([e for e in drawn if e.has("finish")])
    assert (hem.text, hem.attributes["data-edge"]) == ("the cloth's own hem", "hem")
    assert only([e for e in drawn if e.has("fold") and e.text == "turn the pattern over here"])  # it is on the bias
    assert only([e for e in elements(files("plover", "88")["front.svg"]) if e.text == "place on the fold"])
    bent = [e for e in drawn if e.tag == "path" and e.has("fold") and e.attributes.get("fill") == "black"]
    assert len(bent) == 2


def test_notch_goes_from_the_cut_line_inward() -> None:
    drawn = elements(files("tern", "88")["front.svg"])
    notch = only([e for e in drawn if e.has("notch") and e.attributes["data-edge"] == "side"])
    start, end = points(notch)
    assert abs(end - start) == pytest.approx(5.0, abs=NEAR)
    front = assemblies("tern")["88"].pieces[0]
    ring = ring_on_page(front, drawn)
    assert ring.exterior.distance(_dot(start)) < NEAR
    assert ring.contains(_dot(end))


def test_one_element_stands_on_each_line() -> None:
    for data in files("tern", "88").values():
        for line in data.decode().splitlines():
            assert len(re.findall(r"<(?!/)", line)) <= 1, line


@pytest.mark.parametrize("garment", ["tern", "tern_tunic", "heron", "avocet"])
def test_an_edge_that_something_is_sewn_to_carries_its_name(garment: str) -> None:
    """The words of the mark take the room beside a short edge, and its name has to go farther in."""
    for size, made in assemblies(garment).items():
        caught = {(one.piece, one.at) for seam in made.seams for one in seam.inserts}
        assert caught
        for name, at in caught:
            piece = made.draft.piece(name)
            edge = min(piece.edges, key=lambda one: one.path.nearest(at)[1]).name
            drawn = elements(files(garment, size)[f"{name}.svg"])
            names = [e.text for e in drawn if e.has("name") and e.attributes["data-edge"] == edge]
            assert names == [edge.replace(".", " ").replace("_", " ")], (size, name, edge)
