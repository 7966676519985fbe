"""The openings of a sewn garment, and whether it is one thing with two sides."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from garmentc.assembly.faces import faces
from garmentc.assembly.gluing import Sheet
from garmentc.assembly.instances import Leaf
from garmentc.assembly.model import JoinedSeam
from garmentc.assembly.sewn import Opening, Surface, opening_part
from garmentc.assembly.turning import CLOSES, ENCLOSES, OPENS
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator

_ALIKE = 1.0
"""Openings whose parts differ by less than this (mm) are mirror images or copies of each other."""
_INSIDE = 1.5  # times as much cloth inside as outside is no facing or lining; common practice, no source
_MOST = 4  # parts of a garment that a finding shows


def openings_of(shells: Iterable[Sheet], leaves: Sequence[Leaf]) -> tuple[Opening, ...]:
    """The openings of the shells; what is there again, mirrored or copied, is counted."""
    found: list[Opening] = []
    known: dict[tuple[tuple[str, str], ...], list[int]] = {}
    for sheet in shells:
        for loop in sheet.loops:
            parts = tuple(opening_part(leaves[part.disc], part) for part in loop)
            long = sum(part.length for part in parts)
            made = Opening((), "", parts, long, 1, long)
            alike = known.setdefault(tuple(sorted((part.piece, part.edge) for part in parts)), [])
            again = next((i for i in alike if _is_alike(found[i], made)), None)
            if again is None:
                alike.append(len(found))
                found.append(made)
            else:
                found[again] = found[again]._replace(times=found[again].times + 1)
    return tuple(found)


def with_closures(
    openings: Iterable[Opening], opened: Sequence[Opening], closures: Mapping[str, Sequence[EdgeName]]
) -> tuple[Opening, ...]:
    """The openings of a garment that is closed, and what they become when it is ``opened``.

    ``closures`` are the seams that open, with their edges.
    """
    found: list[Opening] = []
    for one in openings:
        wide = max((other for other in opened if set(one.edges) <= set(other.edges)), key=_length, default=one)
        more = set(wide.edges) - set(one.edges)
        by = tuple(name for name, edges in closures.items() if any((edge.piece, edge.edge) in more for edge in edges))
        found.append(one._replace(opened=wide.length, closures=by, open_times=wide.times) if by else one)
    return tuple(found)


def _length(opening: Opening) -> float:
    return opening.length


def _is_alike(one: Opening, other: Opening) -> bool:
    """Whether the parts of two openings, with the same edges, lie at the same places of what is drawn."""
    a, b = (sorted((part.piece, part.edge, part.low, part.high) for part in opening.parts) for opening in (one, other))
    return all(abs(x[2] - y[2]) < _ALIKE and abs(x[3] - y[3]) < _ALIKE for x, y in zip(a, b, strict=True))


def named_openings(surface: Surface, values: Evaluator) -> tuple[Opening, ...]:
    """The openings with the names that the spec gives them; a name for what is no opening is reported."""
    found = list(surface.openings)
    for plan in values.design.openings.values():
        place = (plan.edge.piece, plan.edge.edge)
        at = next((i for i, one in enumerate(found) if place in one.edges), None)
        if at is None:
            values.fault(
                "no-opening",
                f"no opening of the sewn garment runs along `{plan.edge.text}`",
                plan.edge.span,
                notes=(f"its openings: {'; '.join(opening_words(one) for one in found) or 'none'}",),
                help="name an edge at which the garment ends; what is sewn to something, or lies inside, is not open",
            )
            continue
        found[at] = found[at]._replace(names=(*found[at].names, plan.name), title=found[at].title or plan.title)
    return tuple(found)


def opening_words(opening: Opening) -> str:
    """An opening by its title, or by its edges piece by piece: "hem (Front, Back)"."""
    if opening.title:
        return opening.title
    edges: dict[str, dict[str, None]] = {}
    for part in opening.parts:
        edges.setdefault(spoken(part.edge), {})[part.title] = None
    return ", ".join(f"{edge} ({', '.join(titles)})" for edge, titles in edges.items())


def check_surface(surface: Surface, seams: Iterable[JoinedSeam], values: Evaluator) -> None:
    """Report cloth with one side only, and pieces that do not hang together."""
    by_name = {seam.name: seam for seam in seams}
    for sheet in surface.whole:
        if sheet.twisted is not None and sheet.twisted.by in by_name:
            seam = by_name[sheet.twisted.by]
            values.fault(
                "one-sided",
                f"seam `{seam.name}` twists the work: its right side runs on into its wrong side",
                seam.span,
                help="name the edges of one side in the other order, so that the work is not turned over there",
            )
    _check_closed(surface, by_name.values(), values)
    _check_inside_out(surface, by_name.values(), values)
    if by_name:
        _check_apart(surface, [seam for seam in by_name.values() if seam.layers], values)


def _check_closed(surface: Surface, seams: Iterable[JoinedSeam], values: Evaluator) -> None:
    """Report work that is sewn shut on all sides: nothing is left to turn it through, or to get into it."""
    seams = tuple(seams)
    for sheet in surface.whole:
        names = {surface.leaves[disc].piece.name for disc in sheet.discs}
        sewn = [seam for seam in seams if seam.first[0].piece in names]
        if sheet.loops or not sewn or any(one.gap or one.join.turning in (CLOSES, ENCLOSES, OPENS) for one in sewn):
            continue
        how = [faces(one.join) for one in sewn]
        if any(one.below_wrong for one in how):  # sewn from outside, it need not be turned
            continue
        values.fault(
            "no-way-to-turn",
            f"seam `{sewn[-1].name}` leaves no opening to turn the work right side out",
            sewn[-1].span,
            others=tuple(
                Label(surface.leaves[disc].piece.span, "all its edges are sewn shut") for disc in sheet.discs[:1]
            ),
            help="leave some of a seam open: { leave 12 cm at 50 % }",
        )


def _check_inside_out(surface: Surface, seams: Iterable[JoinedSeam], values: Evaluator) -> None:
    """Warn where an enclosed seam turns most of the garment to the inside: its sides are named the wrong way round."""
    worn, inside = (
        sum(surface.leaves[disc].area for sheet in sheets for disc in sheet.discs)
        for sheets in (surface.shells, surface.hidden)
    )
    if inside <= _INSIDE * worn:
        return
    hidden = {surface.leaves[disc].piece.name for sheet in surface.hidden for disc in sheet.discs}
    turned = [seam for seam in seams if seam.join.turning == ENCLOSES and seam.second[0].piece in hidden]
    if turned:
        seam = turned[0]
        first = " and ".join(f"`{name}`" for name in dict.fromkeys(one.piece for one in seam.first))
        values.fault(
            "inside-out",
            f"seam `{seam.name}` turns most of the garment to the inside, behind {first}",
            seam.span,
            notes=("what an enclosed seam joins first lies outside; its second side is the facing",),
            help=f"name the outer side first: joins {_chain(seam.second)} with {_chain(seam.first)}",
            severity=Severity.WARNING,
        )


def _chain(side: Iterable[EdgeName]) -> str:
    return " then ".join(name.text for name in side)


def _check_apart(surface: Surface, layered: Iterable[JoinedSeam], values: Evaluator) -> None:
    plans = values.design.pieces
    pieces = {leaf.piece.name: leaf.piece for leaf in surface.leaves}
    order = {name: number for number, name in enumerate(plans)}
    groups = {frozenset(surface.leaves[disc].piece.name for disc in sheet.discs): None for sheet in surface.whole}
    for seam in layered:
        sewn = {name.piece for name in seam.edges}
        together = frozenset().union(*(group for group in groups if group & sewn))
        groups = {group: None for group in groups if not group & sewn} | {together: None}
    largest = {name: len(group) for group in sorted(groups, key=len) for name in group}
    apart = [
        sorted(group, key=order.__getitem__)
        for group in groups
        if not any(plans[name].is_apart or largest[name] > len(group) for name in group)
    ]
    if len(apart) < 2:
        return
    smallest = min(reversed(apart), key=len)
    others = [group for group in apart if group is not smallest]
    values.fault(
        "pieces-apart",
        f"{_names(smallest)} {'is' if len(smallest) == 1 else 'are'} sewn to nothing else of the garment",
        pieces[smallest[0]].span,
        others=tuple(Label(pieces[group[0]].span, _names(group)) for group in others[:_MOST]),
        notes=(f"the garment is in {len(apart)} parts",) if len(others) > _MOST else (),
        help='is a seam missing? if it stays apart, say so in the piece: apart "why"',
        severity=Severity.WARNING,
    )


def _names(group: Sequence[str]) -> str:
    quoted = [f"`{name}`" for name in group]
    return " and ".join([", ".join(quoted[:-1]), quoted[-1]] if len(quoted) > 2 else quoted)
