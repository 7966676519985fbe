"""The sewn surface: all that is cut, glued along its seams, with its straps on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.assembly.gluing import Bond, discs_by_sheet, glue
from garmentc.assembly.instances import FOLD, GROWN, Leaf, cut_out
from garmentc.assembly.model import JoinedSeam
from garmentc.assembly.openings import openings_of, with_closures
from garmentc.assembly.sewing import layer_bonds, seam_bonds
from garmentc.assembly.sewn import Surface
from garmentc.assembly.straps import Straps
from garmentc.assembly.turning import ENCLOSES, OPENS
from garmentc.draft.model import Draft


def sewn_surface(draft: Draft, seams: Sequence[JoinedSeam]) -> Surface:
    """The surface of pieces, strips and seams without faults."""
    cut = cut_out(draft.pieces)
    discs = [[side.length for side in leaf.sides] for leaf in cut.leaves]
    sewn = [(seam, tuple(seam_bonds(seam, cut))) for seam in seams]
    inner = [bond for bond in cut.bonds if bond.by != GROWN]
    inner += [bond for seam, bonds in sewn if seam.join.turning != ENCLOSES for bond in bonds]
    hanging = discs_by_sheet(len(discs), inner)
    hangs = {disc: i for i, found in enumerate(hanging) for disc in found}
    rims = [bond for bond in cut.bonds if bond.by == GROWN]
    for bond in (bond for seam, bonds in sewn if seam.join.turning == ENCLOSES for bond in bonds):
        # What hangs together anyway is closed by the seam, as the end of a folded band; it isn't turned behind itself.
        (inner if hangs[bond.one.disc] == hangs[bond.other.disc] else rims).append(bond)
    whole = glue(discs, [*inner, *rims])
    worn = _worn(hanging, [*rims, *(bond for seam in seams for bond in layer_bonds(seam, cut))])
    across = {FOLD, *(seam.name for seam in seams if seam.mirrored)}
    halves = discs_by_sheet(len(discs), [bond for bond in (*inner, *rims) if bond.by not in across])
    leaves, bonds = Straps(cut, seams, worn, halves).sewn_on(draft.strips)
    worn |= set(range(len(discs), len(discs) + len(leaves)))
    discs += [[side.length for side in leaf.sides] for leaf in leaves]
    sheets = glue(discs, [*inner, *bonds])
    outer = tuple(sheet for sheet in sheets if worn & set(sheet.discs))
    hidden = tuple(sheet for sheet in sheets if not worn & set(sheet.discs))
    everything = (*cut.leaves, *leaves)
    apart = {disc for disc, leaf in enumerate(everything) if _is_apart(leaf, draft)}
    openings = openings_of((sheet for sheet in outer if not apart.issuperset(sheet.discs)), everything)
    closures = {seam.name: seam.edges for seam in seams if seam.join.turning == OPENS}
    if closures:
        loose = glue(discs, [bond for bond in (*inner, *bonds) if bond.by not in closures])
        worn_open = openings_of((sheet for sheet in loose if worn & set(sheet.discs)), everything)
        openings = with_closures(openings, worn_open, closures)
    return Surface(everything, whole, outer, hidden, openings, tuple(inner))


def _is_apart(leaf: Leaf, draft: Draft) -> bool:
    plan = draft.design.pieces.get(leaf.piece.name)
    return plan is not None and plan.is_apart


def _worn(sheets: Sequence[Sequence[int]], rims: Iterable[Bond]) -> set[int]:
    """The discs of the sheets worn outside; what a spec, or a seam, names first lies outside."""
    sheet_of = {disc: i for i, sheet in enumerate(sheets) for disc in sheet}
    beside: dict[int, list[tuple[int, bool]]] = {}
    for bond in rims:
        one, other = sheet_of[bond.one.disc], sheet_of[bond.other.disc]
        if one != other:
            beside.setdefault(one, []).append((other, False))
            beside.setdefault(other, []).append((one, True))
    is_outer: dict[int, bool] = {}
    for start in range(len(sheets)):
        if start in is_outer:
            continue
        is_outer[start] = not any(is_other for _, is_other in beside.get(start, ()))
        waiting = [start]
        while waiting:
            at = waiting.pop()
            for to, _ in beside.get(at, ()):
                if to not in is_outer:
                    is_outer[to] = not is_outer[at]
                    waiting.append(to)
    return {disc for i, sheet in enumerate(sheets) if is_outer[i] for disc in sheet}
