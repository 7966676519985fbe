"""Draws a pattern from the written instructions alone, as someone with paper, ruler and pencil would."""

from __future__ import annotations

import html
import re
from fractions import Fraction
from typing import NamedTuple

from shapely.geometry import LineString, Point

WAYS = {"up": 1j, "down": -1j, "to the right": 1, "to the left": -1}
LENGTH = r"((?:\d+ )?\d+/\d+|[\d.]+) (cm|in)"
WAY = f"({'|'.join(WAYS)})"
NAME = r"([A-Z]+|\d+)"


class Line(NamedTuple):
    purpose: str
    edge: str
    points: list[complex]


class Drawn(NamedTuple):
    """A piece on paper: its points by name, its lines, its notches and its crosses."""

    spots: dict[str, complex]
    lines: list[Line]
    notches: list[complex]
    crosses: list[complex]


def mm(number: str, unit: str) -> float:
    whole = sum(Fraction(part) for part in number.split())
    return float(whole) * (10.0 if unit == "cm" else 25.4)


def texts_of_html(document: str) -> list[str]:
    """Headings, sentences and cells of tables in their order, marked as in Markdown."""
    found = []
    for tag, inside in re.findall(r"<(h2|h3|li|caption|tr)\b[^>]*>(.*?)</\1>", document, re.S):
        cells = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", inside, re.S) if tag == "tr" else [inside]
        plain = [html.unescape(re.sub(r"<[^>]+>", "", cell)).replace("\xa0", " ").strip() for cell in cells]
        found.append({"h2": "## ", "tr": "| "}.get(tag, "") + " | ".join(plain))
    return found


def texts_of_markdown(document: str) -> list[str]:
    found = []
    for line in document.splitlines():
        text = re.sub(r"\\(.)", r"\1", line).strip()
        text = html.unescape(re.sub(r"^(- \[ \] |- |### |\*\*)", "", text)).removesuffix("**")
        if text.startswith("| ---") or not text:
            continue
        found.append(text.removesuffix(" |").rstrip("| ") if text.startswith("| ") else text)
    return found


def replay(texts: list[str]) -> dict[str, Drawn]:
    """All pieces by the headings of their parts."""
    found: dict[str, Drawn] = {}
    pen: Pen | None = None
    for text in texts:
        if text.startswith("## "):
            pen = Pen()
            found[text.removeprefix("## ")] = pen.drawn
        elif pen is not None:
            pen.read(text)
    return {title: drawn for title, drawn in found.items() if drawn.lines}


class Pen:
    def __init__(self) -> None:
        self.drawn = Drawn({}, [], [], [])
        self.curve: tuple[str, str, str, str] | None = None
        self.head: list[str] = []
        self.unit = "cm"
        self.rows: list[list[str]] = []

    def read(self, text: str) -> None:
        spots, lines = self.drawn.spots, self.drawn.lines
        if text.startswith("| "):
            cells = [cell.strip() for cell in text[2:].split(" | ")]
            if not self.head:
                self.head = cells
            else:
                self.rows.append(cells)
            if self.curve:
                start, end, purpose, edge = self.curve
                self.curve_so_far(start, end, purpose, edge)
            return
        self.head, self.rows = [], []
        if caption := re.fullmatch(r"Curve from .*\((cm|in)\)", text):
            self.unit = caption[1]
            assert self.curve
            lines.append(Line(*self.curve[2:], []))
        elif begin := re.match(rf"Take a paper at least .* Mark {NAME}, ", text):
            spots[begin[1]] = 0j
        elif two := re.match(
            rf"From {NAME} measure {LENGTH} {WAY}, then square to that {LENGTH} {WAY}, and mark {NAME}\.", text
        ):
            way = mm(two[2], two[3]) * WAYS[two[4]] + mm(two[5], two[6]) * WAYS[two[7]]
            spots[two[8]] = spots[two[1]] + way
        elif one := re.match(rf"From {NAME} measure {LENGTH} {WAY} and mark {NAME}\.", text):
            spots[one[5]] = spots[one[1]] + mm(one[2], one[3]) * WAYS[one[4]]
        elif same := re.fullmatch(rf"{NAME} falls on {NAME}\.", text):
            spots[same[1]] = spots[same[2]]
        elif join := re.fullmatch(rf"Join {NAME} and {NAME} with a straight line: (.*)\.", text):
            lines.append(Line(*split(join[3]), [spots[join[1]], spots[join[2]]]))
        elif curve := re.fullmatch(rf"Draw a thin straight line from {NAME} to {NAME}\. .* curve: (.*)\.", text):
            self.curve = (curve[1], curve[2], *split(curve[3]))
        elif beside := re.fullmatch(
            rf"Draw a curve from {NAME} to {NAME}, everywhere {LENGTH} outside .* This is (.*)\.", text
        ):
            self.parallel(spots[beside[1]], spots[beside[2]], mm(beside[3], beside[4]), *split(beside[5]))
        elif notch := re.match(rf"From {NAME} measure {LENGTH} along the (.*) and cut or draw a notch", text):
            self.notch(spots[notch[1]], mm(notch[2], notch[3]), notch[4])
        elif corner := re.match(rf"At {NAME}, where the (.*) ends, cut or draw a notch", text):
            self.drawn.notches.append(spots[corner[1]])
        elif cross := re.match(rf"Draw a small cross at {NAME}:", text):
            self.drawn.crosses.append(spots[cross[1]])

    def curve_so_far(self, start: str, end: str, purpose: str, edge: str) -> None:
        """The smooth line through the rows that were read, by other means than the project's own."""
        a, b = self.drawn.spots[start], self.drawn.spots[end]
        signs = [1.0 if "left" in name else -1.0 for name in self.head[1:]]
        known = [(0.0, 0.0)]
        for along, *heights in self.rows:
            height = next((sign * mm(text, self.unit) for sign, text in zip(signs, heights, strict=True) if text), 0.0)
            known.append((mm(along, self.unit), height))
        known.append((abs(b - a), 0.0))
        way = (b - a) / abs(b - a)
        points = [a + complex(x, y) * way for x, y in natural_spline(known)]
        self.drawn.lines[-1] = Line(purpose, edge, points)

    def parallel(self, a: complex, b: complex, wide: float, purpose: str, edge: str) -> None:
        """Marks square out from the stitching line, those of them that lie between both ends."""
        stitched = chained(
            [line.points for line in self.drawn.lines if line.edge == edge and "stitching" in line.purpose]
        )
        # Pieces are drawn anticlockwise, so outside is on the right.
        marks = [
            p - 1j * wide * (after - before) / abs(after - before)
            for before, p, after in zip(stitched, stitched[1:], stitched[2:], strict=False)
        ]
        way = (b - a) / abs(b - a)
        inside = [p for p in marks if 0 < ((p - a) * way.conjugate()).real < abs(b - a)]
        self.drawn.lines.append(Line(purpose, edge, [a, *inside, b]))

    def notch(self, corner: complex, along: float, edge: str) -> None:
        points = chained(
            [
                line.points
                for line in self.drawn.lines
                if line.edge == edge and "fold" not in line.purpose and line.purpose != "the cut line"
            ]
        )
        if abs(points[0] - corner) > abs(points[-1] - corner):
            points = points[::-1]
        at: Point = LineString([(p.real, p.imag) for p in points]).interpolate(along)
        self.drawn.notches.append(complex(at.x, at.y))


def split(purpose: str) -> tuple[str, str]:
    what, _, edge = purpose.partition(", ")
    return what, edge.removeprefix("no allowance, ")


def chained(parts: list[list[complex]]) -> list[complex]:
    return [p for number, part in enumerate(parts) for p in (part if number == 0 else part[1:])]


def natural_spline(known: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Points of the natural cubic spline (Press et al., Numerical Recipes, section 3.3: the equations)."""
    n = len(known)
    x, y = [one[0] for one in known], [one[1] for one in known]
    bend, u = [0.0] * n, [0.0] * n
    for i in range(1, n - 1):
        share = (x[i] - x[i - 1]) / (x[i + 1] - x[i - 1])
        p = share * bend[i - 1] + 2.0
        bend[i] = (share - 1.0) / p
        slope = (y[i + 1] - y[i]) / (x[i + 1] - x[i]) - (y[i] - y[i - 1]) / (x[i] - x[i - 1])
        u[i] = (6.0 * slope / (x[i + 1] - x[i - 1]) - share * u[i - 1]) / p
    for i in range(n - 2, -1, -1):
        bend[i] = bend[i] * bend[i + 1] + u[i]
    found = []
    for i in range(n - 1):
        h = x[i + 1] - x[i]
        for part in range(8):
            b = part / 8
            a = 1 - b
            over = ((a**3 - a) * bend[i] + (b**3 - b) * bend[i + 1]) * h * h / 6
            found.append((x[i] + b * h, a * y[i] + b * y[i + 1] + over))
    return [*found, (x[-1], y[-1])]
