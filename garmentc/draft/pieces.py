"""Drafts pieces and strips: closes outlines, takes pieces from pieces, grows facings, sets marks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress

from garmentc.data.model import Body
from garmentc.design.model import Design, PiecePlan, StripPlan
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Findings, Label
from garmentc.draft.clip import NamedPath
from garmentc.draft.closing import Gap, gaps
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.functions import as_line
from garmentc.draft.keeping import check_darts, cut_down, grown
from garmentc.draft.lengthening import lengthen_lines
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import (
    GRAIN_TURNS,
    DraftedEdge,
    DraftedPiece,
    InnerLine,
    Interfacing,
    Making,
    PlacedMark,
    PlacedNotch,
)
from garmentc.draft.reshape import Ring
from garmentc.draft.rows import placed_rows, row_lines, row_marks
from garmentc.draft.shaping import Shaped, shape
from garmentc.geometry.crossing import find_crossing
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.path import Path
from garmentc.geometry.vector import CLOSE, Point, heading
from garmentc.numbers import decimal, length
from garmentc.source import Span
from garmentc.syntax import nodes

_FARTHEST = 100_000.0  # mm
_TOPSTITCHED = 2.0  # mm from both edges of a quartered strip where nothing is said; common practice, no source


class Drafter:
    """Drafts the pieces of one design for one body, each once and when first asked for."""

    def __init__(
        self, design: Design, body: Body, findings: Findings, solved: Mapping[str, float] | None = None
    ) -> None:
        self.design = design
        self.values = Evaluator(design, body, findings, self.piece, solved or {})

    def piece(self, name: str) -> DraftedPiece:
        """A piece or strip by name; raises Poisoned when it can't be drafted (the fault is then reported)."""
        key = ("the piece", name)
        if self.values.memo.is_under_way(key):
            own = self.design.pieces.get(name) or self.design.strips[name]
            self.values.fault(
                "ring",
                f"`{name}` is defined by itself",
                own.span,
                help="what a piece or strip is drafted from can't be measured on the finished piece or strip",
            )
            raise Poisoned
        plan = self.design.pieces.get(name)
        found: DraftedPiece = self.values.memo.once(
            key, lambda: self._strip(self.design.strips[name]) if plan is None else self._piece(plan)
        )
        return found

    # ---- outlines

    def _ring(self, plan: PiecePlan) -> Shaped:
        """The edges of a piece without grown parts, anticlockwise, as its keeps and then its shaping leave them."""
        shaped: Shaped = self.values.memo.once(("the ring", plan.name), lambda: self._fresh_ring(plan))
        return shaped

    def _fresh_ring(self, plan: PiecePlan) -> Shaped:
        found = Shaped(self._own_ring(plan)) if plan.parent is None else self._ring(self.design.pieces[plan.parent])
        found = cut_down(plan, found, self.values)
        if plan.shapings:
            found = shape(plan, found, self._staying(plan, found.ring), self._middle(plan), self.values)
            self._simple(plan, found.ring)
        if plan.keeps:
            check_darts(plan, found, self.values)
        return found

    def _staying(self, plan: PiecePlan, ring: Ring) -> str:
        """The edge that keeps its place when a part of the piece is moved: the fold, else the first of the outline."""
        names = [edge.name for edge in ring]
        cut = next((one.cut for one in self._ancestry(plan) if one.cut is not None), None)
        wanted = [cut.fold.text] if cut is not None and cut.fold is not None else []
        wanted += [name for one in self._ancestry(plan) for name in one.edges]
        return next((name for name in wanted if name in names), names[0])

    def _middle(self, plan: PiecePlan) -> tuple[str, ...]:
        """The edges in the middle of the garment: the fold, and those that are sewn to their mirror image."""
        cut = next((one.cut for one in self._ancestry(plan) if one.cut is not None), None)
        folds = (cut.fold.text,) if cut is not None and cut.fold is not None else ()
        mirrored = (seam for seam in self.design.seams.values() if seam.mirrored)
        return (*folds, *(name.edge for seam in mirrored for name in seam.first if name.piece == plan.name))

    def _own_ring(self, plan: PiecePlan) -> Ring:
        paths: list[Path] = []
        lost = False
        for name in plan.edges:
            try:
                paths.append(self.values.edge_path(plan, name))
            except Poisoned:
                lost = True
        if lost:
            raise Poisoned
        edges = list(plan.edges.values())
        for gap in gaps(paths):
            lost = True
            self._open(edges, paths, gap)
        far = [abs(path.start) for path in paths if abs(path.start) > _FARTHEST]
        if far:
            lost = True
            self.values.fault(
                "beyond-any-cloth",
                f"piece `{plan.name}` reaches {length(max(far))} from its origin",
                plan.span,
                help="no cloth is that long: look for a wrong unit or a missing division",
            )
        if lost:
            raise Poisoned
        drawn = tuple(NamedPath(edge.name.text, path) for edge, path in zip(edges, paths, strict=True))
        self._simple(plan, drawn)
        if Outline(tuple(paths)).orientation > 0:
            return drawn
        return tuple(NamedPath(edge.name, edge.path.reversed(), True) for edge in reversed(drawn))

    def _open(self, edges: Sequence[nodes.Edge], paths: Sequence[Path], gap: Gap) -> None:
        edge, before = edges[gap.at], edges[gap.at - 1]
        help = "an outline goes round edge by edge, each from the end of the one before"
        if gap.turned and isinstance(edge.value, nodes.Stroke):
            start, end = edge.value.start.span.text, edge.value.end.span.text
            help = f"it would fit the other way round: {edge.name.text} : {end} -> {start}"
        elif gap.early:
            help = f"it would fit behind `{edges[(gap.at + 1) % len(edges)].name.text}`: exchange the two"
        self.values.fault(
            "open-outline",
            f"edge `{edge.name.text}` does not begin where `{before.name.text}` ends",
            edge.span,
            label=f"begins at {_at(paths[gap.at].start)}",
            others=(Label(before.span, f"ends at {_at(paths[gap.at - 1].end)}"),),
            notes=(f"the gap is {length(gap.distance)}",),
            help=help,
        )

    def _simple(self, plan: PiecePlan, edges: Ring) -> None:
        crossing = find_crossing([edge.path for edge in edges])
        if crossing is None:
            return
        one, other = (edges[i].name for i in crossing.edges)
        spans = [self._edge_span(plan, name) for name in (one, other)]
        self.values.fault(
            "edges-cross",
            f"edge `{one}` crosses itself" if one == other else f"edges `{one}` and `{other}` cross",
            spans[1],
            label=f"at {_at(crossing.at)}",
            others=(Label(spans[0], "crosses this"),) if one != other else (),
            help="an outline must not cross itself: look for swapped points or a wrong sign",
        )
        raise Poisoned

    # ---- pieces

    def _piece(self, plan: PiecePlan) -> DraftedPiece:
        self._local_values(plan)
        shaped = self._ring(plan)
        edges = shaped.ring
        folds = [
            InnerLine("fold", part.across.text, edge.path, "fold", part.span)
            for part in plan.parts.values()
            for edge in edges
            if edge.name == part.across.text
        ]
        for part in plan.parts.values():
            edges = grown(edges, part, self.values, Scope(plan.name))
        if plan.parts:
            self._simple(plan, edges)
        ancestry = self._ancestry(plan)
        cut = next(one.cut for one in ancestry if one.cut is not None)
        grain = next(one.grain for one in ancestry if one.grain is not None)
        on_fold = self._fold_edges(edges, cut)
        border = tuple(
            DraftedEdge(
                edge.name,
                edge.path,
                edge.backward,
                edge.name in on_fold,
                self._edge_span(plan, edge.name),
                shaped.taken(edge),
            )
            for edge in edges
        )
        rows = placed_rows(plan, Outline(tuple(edge.path for edge in edges)), shaped.moved, self.values)
        drafted = DraftedPiece(
            plan.name,
            plan.title,
            cut.number,
            cut.pair,
            border,
            Outline(tuple(edge.path for edge in edges)),
            (*folds, *self._guides(plan), *lengthen_lines(plan, border, self.values), *row_lines(rows)),
            (*self._marks(plan, shaped), *_part_marks(ancestry, border), *row_marks(rows)),
            (),
            shaped.takeups,
            shaped.shifts,
            self._thread(grain, plan),
            grain.thread,
            None,
            plan.span,
            rows,
            _interfacing(plan),
        )
        self._fold_is_straight(drafted, cut)
        return drafted._replace(notches=self._notches(plan, drafted))

    def _local_values(self, plan: PiecePlan) -> None:
        """Compute what nothing asks for too, so that a definition without a value does not stay unseen."""
        for define in plan.defines.values():
            with suppress(Poisoned):
                self.values.value(nodes.Ref(define.name.span, (define.name,)), Scope(plan.name))

    def _ancestry(self, plan: PiecePlan) -> list[PiecePlan]:
        """The piece itself, then the piece it is taken from, and so on: the first that says a thing is heard."""
        found = [plan]
        while found[-1].parent is not None:
            found.append(self.design.pieces[found[-1].parent])
        return found

    def _fold_edges(self, edges: Ring, cut: nodes.Cut) -> set[str]:
        if cut.fold is None:
            return set()
        fold = cut.fold.text
        return {edge.name for edge in edges if edge.name == fold or edge.name.endswith(f".{fold}")}

    def _fold_is_straight(self, drafted: DraftedPiece, cut: nodes.Cut) -> None:
        folds = [edge for edge in drafted.edges if edge.on_fold]
        if cut.fold is None:
            return
        if not folds:
            self.values.edge_gone(drafted.name, cut.fold.text, drafted, cut.fold.span)
            raise Poisoned
        first = min(folds, key=lambda edge: "." in edge.name)
        for edge in folds:
            bent = not edge.path.is_straight(0.01)
            line = as_line(first.path) if not bent else None
            aside = 0.0
            if line is not None:
                ends = (edge.path.start, edge.path.end)
                aside = max(abs(((end - line.at) * line.direction.conjugate()).imag) for end in ends)
            if bent or aside > 0.05:
                self.values.fault(
                    "fold-not-straight",
                    f"edge `{edge.name}` can't lie on the fold"
                    if bent
                    else f"edge `{edge.name}` does not continue the fold line",
                    cut.span,
                    others=(Label(edge.span, "it is a curve" if bent else f"{length(aside)} off the fold"),),
                    help="a fold is one straight line: draw its edges along it, square to what is mirrored",
                )
                raise Poisoned

    def _guides(self, plan: PiecePlan) -> tuple[InnerLine, ...]:
        found: list[InnerLine] = []
        for guide in plan.guides:
            try:
                path = self.values.value(guide.value, Scope(plan.name))
            except Poisoned:
                continue
            kind = "fold" if guide.is_fold else "guide"
            text = guide.text.text if guide.text else "fold" if guide.is_fold else ""
            found.append(InnerLine(kind, guide.name.text, path, text, guide.span))
        return tuple(found)

    def _marks(self, plan: PiecePlan, shaped: Shaped) -> tuple[PlacedMark, ...]:
        found: list[PlacedMark] = []
        for mark in plan.marks:
            try:
                at = self.values.value(mark.at, Scope(plan.name))
            except Poisoned:
                continue
            found.append(PlacedMark(mark.name.text, shaped.moved(at), mark.text.text if mark.text else "", mark.span))
        return tuple(found)

    def _notches(self, plan: PiecePlan, drafted: DraftedPiece) -> tuple[PlacedNotch, ...]:
        found: list[PlacedNotch] = []
        for notch in plan.notches:
            name = ".".join(word.text for word in notch.edge.words)
            edge = drafted.edge(name)
            if edge is None:
                self.values.edge_gone(plan.name, name, drafted, notch.edge.span)
                continue
            along = self.values.amount(notch.at, edge.path.length, Scope(plan.name))
            if not 0.0 <= along <= edge.path.length:
                self.values.fault(
                    "notch-off-edge",
                    f"this notch lies beyond the edge `{name}`",
                    notch.at.span,
                    notes=(f"the edge is {length(edge.path.length)} long, the notch at {length(along)}",),
                )
                continue
            along = edge.path.length - along if edge.backward else along
            found.append(PlacedNotch(name, along, notch.span, notch.slits))
        return tuple(found)

    def _thread(self, grain: nodes.Grain, plan: PiecePlan) -> complex:
        """The direction of the lengthwise threads, pointing up."""
        along = 1j
        if grain.along is not None:
            value = self.values.value(grain.along, Scope(plan.name))
            try:
                along = as_line(value).direction
            except GeometryFault as fault:
                self.values.impossible(fault, grain.along.span)
        turned = along * heading(GRAIN_TURNS[grain.thread])
        return turned if (round(turned.imag, 9), turned.real) > (0.0, 0.0) else -turned

    def _edge_span(self, plan: PiecePlan, name: str) -> Span:
        """Where the statement stands that an edge comes from."""
        last = name.rpartition(".")[2]
        for here in self._ancestry(plan):
            if last in here.made_edges:
                return here.made_edges[last].span
            for part in here.parts.values():
                if part.keep.name.text == last:
                    return part.keep.span
            if last in here.edges:
                return here.edges[last].span
        return plan.span

    # ---- strips

    def _strip(self, plan: StripPlan) -> DraftedPiece:
        long, wide = (float(self.values.value(expr)) for expr in (plan.length, plan.width))
        stitched = 0.0 if plan.stitched is None else float(self.values.value(plan.stitched))
        if plan.way == "quartered" and plan.stitched is None:
            stitched = _TOPSTITCHED
        finished = wide / 2 - stitched if plan.way == "tube" else wide / 4 if plan.way == "quartered" else wide
        sizes = [(long, plan.length, "length"), (wide, plan.width, "width")]
        if plan.stitched is not None:
            sizes.append((stitched, plan.stitched, "distance of the stitching"))
        for value, expr, what in sizes:
            if value <= CLOSE:
                self.values.fault("strip-too-small", f"the {what} of strip `{plan.name}` is {length(value)}", expr.span)
                raise Poisoned
        if finished <= CLOSE:
            self.values.fault(
                "strip-too-small",
                f"strip `{plan.name}` has no width left once it is made up",
                plan.width.span,
                notes=(
                    f"cut {length(wide)} wide, folded to {length(wide / 2)}, stitched {length(stitched)} from the edge",
                ),
                help="cut it wider, or stitch nearer to the edge",
            )
            raise Poisoned
        if plan.way == "quartered" and plan.stitched is not None and stitched >= finished:
            self.values.fault(
                "strip-too-small",
                f"strip `{plan.name}` is too narrow for its stitching",
                plan.stitched.span,
                notes=(f"it finishes {length(finished)} wide, stitched {length(stitched)} from each long edge",),
                help="cut it wider, or stitch nearer to the edge",
            )
            raise Poisoned
        outline = ring([0j, complex(wide, 0), complex(wide, long), complex(0, long)])
        names = ("end", "side", "far_end", "far_side")
        thread = plan.grain.thread if plan.grain else "straight"
        return DraftedPiece(
            plan.name,
            plan.title,
            plan.cut.number,
            plan.cut.pair,
            tuple(
                DraftedEdge(name, path, False, False, plan.span)
                for name, path in zip(names, outline.edges, strict=True)
            ),
            outline,
            (),
            (),
            (),
            (),
            (),
            1j * heading(GRAIN_TURNS[thread]),
            thread,
            Making(plan.way, long, wide, stitched, finished),
            plan.span,
        )


def _interfacing(plan: PiecePlan) -> Interfacing | None:
    one = plan.interfaced
    return None if one is None else Interfacing(one.text.text, one.with_allowances, one.span)


def _part_marks(plans: Iterable[PiecePlan], border: Sequence[DraftedEdge]) -> Iterator[PlacedMark]:
    """Where parts of edges begin, so that what differs along an edge is told on the cloth.

    They are named by the piece, or by those it is taken from.
    """
    parts = {one.name.text: one for plan in plans for one in plan.shapings if isinstance(one, nodes.Part)}
    for before, after in zip([border[-1], *border], border, strict=False):
        for one, other in ((before, after), (after, before)):
            part = parts.get(one.name)
            if part is None:
                continue
            whole = part.edge.words[-1].text
            if other.name == whole or (other.name in parts and parts[other.name].edge.words[-1].text == whole):
                text = f"{spoken(part.name.text)} begins"
                yield PlacedMark(f"{part.name.text}_end", after.path.start, text, part.span)
                break


def _at(point: Point) -> str:
    return f"({decimal(point.real / 10, 1)} cm, {decimal(point.imag / 10, 1)} cm)"
