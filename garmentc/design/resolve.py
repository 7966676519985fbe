"""From statements to a design: what is declared, what refers to what, and whether it can mean something."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar

from garmentc.design import kinds as k
from garmentc.design.channels import bound_parts, drawn_through
from garmentc.design.conditions import Conditions
from garmentc.design.gather import Gathered, gather
from garmentc.design.joins import JoinTypes, said_once
from garmentc.design.kindcheck import TOP, KindChecker, Scope
from garmentc.design.lays import resolve_lays
from garmentc.design.library import Library
from garmentc.design.mirrors import check_itself, check_mirror, exists
from garmentc.design.model import (
    CheckPlan,
    Design,
    EdgeName,
    FinishedPlan,
    FinishPlan,
    InsertPlan,
    JoinPlan,
    LeavePlan,
    OpeningPlan,
    ParamPlan,
    PiecePlan,
    SeamPlan,
)
from garmentc.design.settings import Setting
from garmentc.design.shapings import check_shaping
from garmentc.design.strips import check_strip, strip_parts
from garmentc.design.unevens import check_unevens
from garmentc.design.unused import declared, names_in
from garmentc.design.whole import check_whole
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import closest, meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import File

_Found = TypeVar("_Found")
_CLOSED_BY = "hand_closed"
"""The seam type that closes what a seam leaves open, where no other is named."""


def resolve(
    file: File, library: Library, settings: Mapping[str, Setting], findings: Findings, *, drawn: bool = False
) -> Design | None:
    """The design that a file describes, or None when it has faults that need no body to be seen.

    ``drawn`` says that the shipped pictures of seam types and finishes are wanted, which take time to read.
    """
    gathered = gather(file, settings, findings)
    return _Resolver(file, gathered, library, findings, drawn=drawn).design()


class _Resolver:
    def __init__(self, file: File, gathered: Gathered, library: Library, findings: Findings, *, drawn: bool) -> None:
        self._file = file
        self._found = gathered
        self._findings = findings
        self._checker = KindChecker(gathered.names, (*file.damaged, *gathered.twice), findings)
        self._conditions = Conditions(gathered.names.params, self._checker, findings)
        self._types = JoinTypes(gathered, library, self._checker, self._conditions.check, findings, drawn=drawn)

    def design(self) -> Design | None:
        found = self._found
        names = found.names
        self._values()
        for plan in names.pieces.values():
            self._piece(plan)
        for strip in names.strips.values():
            check_strip(strip, self._checker)
        if not any(plan.made for plan in names.pieces.values()) and found.header is not None and not self._file.damaged:
            self._error(
                "no-piece",
                "the garment has no piece",
                found.header.span,
                help='add one: piece front "Front" { … }',
            )
        self._types.declared()
        seams: dict[str, SeamPlan] = {}
        for node in found.seams:
            seam = self._seam(node)
            if seam is not None:
                seams[seam.name] = seam
        finishes = tuple(self._finish(finish) for finish in found.finishes)
        lays = resolve_lays(found.lays, names, self._checker, self._findings) if found.lays else {}
        openings = {one.name: one for node in found.openings if (one := self._opening(node)) is not None}
        checks = tuple(self._check(check) for check in found.checks)
        solves = tuple(solve for one in found.solves if (solve := self._conditions.solve(one)) is not None)
        finished = tuple(self._finished(one) for one in found.finished)
        self._steps()
        step_edges = {step.name.text: self._edges(step.edges) or () for step in found.steps}
        self._unused()
        if self._findings.has_errors:
            return None
        assert found.header is not None
        return Design(
            self._file.source,
            found.header.name.text,
            found.header.title.text,
            found.edition,
            names.measures,
            names.params,
            names.choices,
            names.values,
            names.pieces,
            names.strips,
            seams,
            finishes,
            lays,
            self._types.plans,
            self._types.stitches,
            checks,
            solves,
            finished,
            openings,
            tuple(found.steps),
            step_edges,
            tuple(found.orderings),
            frozenset(self._checker.shares),
            names.functions,
        )

    # ---- values, pieces, strips

    def _values(self) -> None:
        names = self._found.names
        for name, param in list(names.params.items()):
            if self._lacks_unit(param):
                names.params[name] = param._replace(kind=k.FAULT)
                continue
            kind = self._checker.expect(param.value, param.kind, TOP, f"`{param.name}`")
            for bound in (param.least, param.most):
                if bound is not None and kind != k.FAULT:
                    self._checker.expect(bound, param.kind, TOP, f"the range of `{param.name}`")
        for define in names.values.values():
            self._checker.define(define)
        for function in names.functions.values():
            self._checker.function(function)

    def _lacks_unit(self, param: ParamPlan) -> bool:
        """Whether a param has a plain number and a range with units; then the number is at fault, not its range."""
        value = param.value
        if param.from_outside or not isinstance(value, nodes.Quantity) or value.unit:
            return False
        units = [bound.unit for bound in (param.least, param.most) if isinstance(bound, nodes.Quantity)]
        if not units or not all(unit not in ("", "%") for unit in units):
            return False
        what = k.of_unit(units[0], value.value)
        self._error(
            "wrong-kind",
            f"`{param.name}` has to be {k.a(what)}, as its range is",
            value.span,
            label=f"{k.a(what)} needs a unit",
            help=f"write {value.span.text} {units[0]}, if that is meant",
        )
        return True

    def _piece(self, plan: PiecePlan) -> None:
        checker = self._checker
        scope = Scope(plan.name)
        pieces = self._found.names.pieces
        if plan.parent is not None and plan.parent not in pieces:
            if not checker.is_lost(plan.parent):
                self._unknown(
                    plan.parent_span,
                    f"there is no piece `{plan.parent}`",
                    plan.parent,
                    [*(one for one in pieces if one != plan.name)],
                )
            return
        for define in plan.defines.values():
            checker.define(define, plan.name)
        checker.piece_depends(plan)
        if not checker.is_damaged(plan.name):
            check_whole(plan, self._findings)
        edge_names = checker.edge_names(plan)
        if plan.cut is not None and plan.cut.fold is not None and plan.cut.fold.text not in edge_names:
            fold = plan.cut.fold
            if not checker.is_lost(fold.text, plan.name):
                headline = f"piece `{plan.name}` has no edge `{fold.text}`"
                self._unknown(fold.span, headline, fold.text, edge_names)
        if plan.grain is not None and plan.grain.along is not None:
            checker.expect(plan.grain.along, k.LINE_LIKE, scope, "what the grain lies along")
        for part in plan.parts.values():
            if part.across.text not in plan.edges and not checker.is_lost(part.across.text, plan.name):
                headline = f"piece `{plan.name}` has no edge `{part.across.text}` of its own"
                self._unknown(part.across.span, headline, part.across.text, plan.edges)
        for ref in (ref for keep in plan.keeps for ref in keep.edges):
            checker.edge(plan.name, ".".join(word.text for word in ref.words), ref.span)
        for shaping in plan.shapings:
            check_shaping(shaping, plan, checker, self._findings)
        for notch in plan.notches:
            checker.edge(plan.name, ".".join(word.text for word in notch.edge.words), notch.edge.span)
            checker.expect(notch.at, (k.LENGTH, k.RATIO), scope, "the place of a notch")
        for mark in plan.marks:
            checker.expect(mark.at, k.POINT, scope, "a mark")
        for guide in plan.guides:
            checker.expect(guide.value, k.PATH_LIKE, scope, "a guide line")
        for line in plan.lengthens:
            checker.expect(line.at, k.LINE_LIKE, scope, "where a piece is lengthened or shortened")
        for row in plan.rows:
            checker.expect(row.first, k.POINT, scope, "where a row begins")
            checker.expect(row.last, k.POINT, scope, "where a row ends")
            checker.expect(row.number, (k.COUNT, k.RATIO), scope, f"the number of {row.kind}")
            checker.expect(row.size, k.LENGTH, scope, f"the size of {row.kind}")
        check_unevens(plan, checker, self._findings)

    # ---- joining

    def _seam(self, seam: nodes.Seam) -> SeamPlan | None:
        first = self._edges(seam.first)
        second = first if seam.second is None else self._edges(seam.second)
        layers = [self._edges(layer) for layer in seam.layers]
        if seam.second is None:
            check_mirror(seam, first or (), self._found.names.pieces, self._findings)
        else:
            check_itself(seam, first or (), second or (), self._found.names.pieces, self._findings)
        met = [*(first or ()), *(second or ())]
        for layer in layers:
            check_itself(seam, met, layer or (), self._found.names.pieces, self._findings)
            met += layer or ()
        join = self._types.join("seam", seam.type)
        changes = self._changes([item for item in seam.items if isinstance(item, nodes.Change)], join)
        eases = [item for item in seam.items if isinstance(item, nodes.SeamEase)]
        said_once(eases, self._findings)
        for ease in eases:
            if ease.how != "ease":
                self._checker.expect(ease.amount, (k.RATIO, k.COUNT), TOP, "how many times as long a side is")
            else:
                self._checker.expect(ease.amount, k.LENGTH, TOP, "the ease of a seam")
            if ease.within is not None:
                self._conditions.tolerance(ease.within, k.LENGTH)
        inserts = tuple(
            found
            for item in seam.items
            if isinstance(item, nodes.Insert) and (found := self._insert(item, seam)) is not None
        )
        smooth = [item for item in seam.items if isinstance(item, nodes.Smooth)]
        said_once(smooth, self._findings)
        for item in smooth:
            self._conditions.tolerance(item.within, k.ANGLE)
        corners = self._edges([item.edge for item in seam.items if isinstance(item, nodes.AllowedCorner)])
        if join is None or first is None or second is None or corners is None or None in layers:
            return None
        return SeamPlan(
            seam.name.text,
            first,
            second,
            seam.second is None,
            join.name,
            changes,
            eases[0] if eases else None,
            inserts,
            corners,
            smooth[0].within if smooth else None,
            seam.span,
            bound_parts(seam.items, join, self._checker, self._findings),
            self._leave(seam),
            tuple(layer for layer in layers if layer is not None),
        )

    def _leave(self, seam: nodes.Seam) -> LeavePlan | None:
        items = [item for item in seam.items if isinstance(item, nodes.Leave)]
        said_once(items, self._findings)
        for item in items:
            self._checker.expect(item.wide, k.LENGTH, TOP, "how much of a seam is left open")
            self._checker.expect(item.at, (k.LENGTH, k.RATIO), TOP, "where a seam is left open")
            join = self._types.join("seam", item.type or nodes.Word(_CLOSED_BY, item.span))
            if join is not None and join.turning != "closes":
                self._error(
                    "wrong-kind",
                    f"`{join.name}` is no seam type that closes an opening",
                    (item.type or item).span,
                    help=f"leave it out, for `{_CLOSED_BY}`, or name a seam type that `closes`",
                )
        if not items:
            return None
        one = items[0]
        return LeavePlan(one.wide, one.at, _CLOSED_BY if one.type is None else one.type.text, one.span)

    def _insert(self, item: nodes.Insert, seam: nodes.Seam) -> InsertPlan | None:
        names = self._found.names
        strip = item.strip.text
        if strip not in names.strips:
            if not self._checker.is_lost(strip):
                self._unknown(item.strip.span, f"there is no strip `{strip}`", strip, names.strips)
            return None
        self._checker.used.add(strip)
        first = item.at.words[0].text
        if first in names.pieces and len(item.at.words) > 1:
            piece, point = first, nodes.Ref(item.at.span, item.at.words[1:])
        else:
            piece, point = seam.first[0].words[0].text, nodes.Ref(item.at.span, item.at.words)
        if piece not in names.pieces:
            return None
        if not names.pieces[piece].made:
            self._not_taken(piece, item.at.span)
            return None
        self._checker.expect(point, k.POINT, Scope(piece), "the place where a strip is inserted")
        at = EdgeName(piece, "", item.at.span, item.at.hand, item.at.copy)
        if not exists(at, names.pieces, self._findings):
            return None
        return InsertPlan(strip, item.folded, item.inside, at, point, item.span)

    def _finish(self, finish: nodes.Finish) -> FinishPlan:
        parts, edges = strip_parts(finish.edges, self._found.names.strips, self._checker, self._findings)
        sewn = self._edges(edges)
        join = self._types.join("finish", finish.type)
        changes = self._changes([item for item in finish.changes if isinstance(item, nodes.Change)], join)
        return FinishPlan(
            (*(sewn or ()), *parts),
            finish.type.text,
            changes,
            finish.span,
            bound_parts(finish.changes, join, self._checker, self._findings),
            drawn_through(finish.changes, join, self._found.names.strips, self._checker, self._findings),
        )

    def _edges(self, refs: Iterable[nodes.Ref]) -> tuple[EdgeName, ...] | None:
        found: list[EdgeName] = []
        whole = True
        pieces = self._found.names.pieces
        for ref in refs:
            piece, *rest = (word.text for word in ref.words)
            if piece not in pieces:
                whole = False
                if not self._checker.is_lost(piece) and (rest or not self._pieceless(ref)):
                    self._unknown(ref.words[0].span, f"there is no piece `{piece}`", piece, pieces)
                continue
            if not pieces[piece].made:
                whole = False
                self._not_taken(piece, ref.span)
            elif not rest:
                whole = False
                self._error(
                    "wrong-kind",
                    "an edge is due here",
                    ref.span,
                    label=f"`{piece}` is a piece",
                    help=f"name one of its edges: {', '.join(self._checker.edge_names(pieces[piece]))}",
                )
                continue
            name = EdgeName(piece, ".".join(rest), ref.span, ref.hand, ref.copy)
            if self._checker.edge(piece, name.edge, ref.span) and exists(name, pieces, self._findings):
                found.append(name)
            else:
                whole = False
        return tuple(found) if whole else None

    def _not_taken(self, piece: str, span: Span) -> None:
        block, _, own = piece.rpartition(".")
        own = own if block else f"{own}_panel"
        self._error(
            "not-taken",
            f"`{piece}` is a piece of a block, and the garment has not taken it"
            if block
            else f"`{piece}` is only a draft, and is not cut",
            span,
            help=f'take it, and sew that: piece {own} "…" from {piece} {{ }}',
        )

    def _pieceless(self, ref: nodes.Ref) -> bool:
        """Whether a name without a piece is that of an edge, or nearly so; then a finding."""
        name = ref.words[0].text
        pieces = self._found.names.pieces
        edges = {piece: self._checker.edge_names(plan) for piece, plan in pieces.items()}
        meant = name
        if not any(name in own for own in edges.values()):
            near = () if closest(name, pieces) else closest(name, (one for own in edges.values() for one in own))
            meant = near[0] if near else ""
        if not meant:
            return False
        written = [f"`{piece}.{meant}`" for piece, own in edges.items() if meant in own]
        self._error(
            "unknown-name",
            f"there is no piece `{name}`",
            ref.span,
            label="an edge is named with its piece",
            help=f"write the piece too: {' or '.join(written)}",
        )
        return True

    def _changes(self, changes: list[nodes.Change], join: JoinPlan | None) -> dict[str, nodes.Change]:
        found: dict[str, nodes.Change] = {}
        for change in changes:
            self._checker.expect(change.value, k.LENGTH, TOP, "what a seam type is set to")
            if join is not None and change.name.text not in join.defines:
                headline = f"`{join.name}` has nothing called `{change.name.text}` to set"
                self._unknown(change.name.span, headline, change.name.text, join.defines)
            if change.name.text in found:
                self._error("said-twice", "this is set twice", change.span, help="keep one of them")
            found[change.name.text] = change
        return found

    # ---- checks, steps, what is left over

    def _finished(self, finished: nodes.Finished) -> FinishedPlan:
        kind, is_sewn = self._of_sewn(
            lambda: self._checker.expect(finished.value, k.QUANTITIES, TOP, "a finished measurement")
        )
        title = finished.text.text if finished.text else finished.name.text.replace("_", " ")
        return FinishedPlan(finished.name.text, title, finished.value, kind, finished.span, is_sewn)

    def _check(self, check: nodes.Check) -> CheckPlan:
        plan, is_sewn = self._of_sewn(lambda: self._conditions.check(check, TOP))
        return plan._replace(is_sewn=is_sewn)

    def _of_sewn(self, resolve: Callable[[], _Found]) -> tuple[_Found, bool]:
        """What is resolved where values of the sewn garment may stand, and whether one does."""
        self._checker.sewn, self._checker.met_sewn = True, False
        found = resolve()
        self._checker.sewn = False
        return found, self._checker.met_sewn

    def _opening(self, opening: nodes.Opening) -> OpeningPlan | None:
        if opening.passes is not None:
            self._checker.expect(opening.passes, k.LENGTH, TOP, "what passes an opening")
        if opening.stretches is not None:
            self._checker.expect(opening.stretches, k.RATIO, TOP, "the share by which an opening stretches")
        if opening.opened is not None:
            self._checker.expect(opening.opened, k.LENGTH, TOP, "how far an opening can be opened")
        edges = self._edges((opening.edge,))
        if edges is None:
            return None
        title = opening.title.text if opening.title else opening.name.text.replace("_", " ")
        return OpeningPlan(
            opening.name.text,
            title,
            edges[0],
            opening.passes,
            opening.stretches,
            opening.opened,
            "" if opening.by is None else opening.by.text,
            opening.span,
        )

    def _steps(self) -> None:
        """What own steps and orders name has to be a step: a seam, a strip, a step, or the work on an edge."""
        found = self._found
        known = [seam.name.text for seam in found.seams]
        known += [strip.name for strip in found.names.strips.values() if strip.way != "bought"]
        known += [step.name.text for step in found.steps]
        edges = [*(edge for one in found.finishes for edge in one.edges)]
        edges += [edge for seam in found.seams for edge in (*seam.first, *(seam.second or ()))]
        edges += [edge for seam in found.seams for layer in seam.layers for edge in layer]
        known += [edge.dotted for edge in edges]
        for piece in found.names.pieces.values():
            shapings = [one for one in piece.shapings if isinstance(one, nodes.Dart | nodes.Tuck | nodes.Pleats)]
            known += [f"{piece.name}.{one.name.text}" for one in shapings]
            known += [f"{piece.name}.{row.kind}.{row.name.text}" for row in piece.rows]
            known += [f"{piece.name}.interfacing"] if piece.interfaced else []
        for step in found.steps:
            if step.anchor is not None:
                self._is_step(step.anchor, known, step.name.text)
        for one in found.orderings:
            self._is_step(one.thing, known)
            self._is_step(one.other, known)

    def _is_step(self, word: nodes.Word, known: Sequence[str], but: str = "") -> None:
        piece, _, edge = word.text.partition(".")
        if word.text not in known and not self._checker.is_lost(piece) and not self._has_edge(piece, edge):
            headline = f"nothing called `{word.text}` is done"
            self._unknown(word.span, headline, word.text, [name for name in dict.fromkeys(known) if name != but])

    def _has_edge(self, piece: str, edge: str) -> bool:
        """Whether a piece is drawn with an edge; that nothing is done to it is told as a raw edge."""
        plan = self._found.names.pieces.get(piece)
        while plan is not None and edge not in plan.edges:
            plan = self._found.names.pieces.get(plan.parent or "")
        return plan is not None

    def _unused(self) -> None:
        if self._findings.has_errors:  # what is misspelt where it is used would be told as unused too
            return
        used = self._checker.used | self._found.asked
        aside = {name for span in self._found.aside for name in names_in(span.text)}
        for one in declared(self._found.names):
            if one.key not in used and one.name not in aside and one.can_go(self._file.source):
                self._findings.add(one.finding())

    # ---- findings

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._error("unknown-name", headline, span, help=meant_or_known(name, known))

    def _error(
        self,
        slug: str,
        headline: str,
        span: Span,
        label: str = "",
        help: str = "",
        others: tuple[Label, ...] = (),
    ) -> None:
        self._findings.add(Finding(slug, headline, span, label, others, (), help))
