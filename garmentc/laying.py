"""Lays a garment on a cloth of the stock: reads the cloth and the kept plan, searches, and keeps what is found."""

from __future__ import annotations

import posixpath

from garmentc.assembly.model import Assembly
from garmentc.cloth.finder import Limits
from garmentc.cloth.ground import ground
from garmentc.cloth.judge import check_entries, is_of, judge
from garmentc.cloth.lay import Laying, lay
from garmentc.cloth.model import Plan
from garmentc.cloth.saved import kept, splits_of, spots_of
from garmentc.cloth.shapes import shapes
from garmentc.cloth.verify import verify
from garmentc.data.cloths import read_cloth
from garmentc.data.plans import SavedPlan, plan_text, read_plan
from garmentc.data.stock import Cloth
from garmentc.design.lays import MAIN
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.host import Host, seconds
from garmentc.output.write import folders
from garmentc.record import Record


class Laid(Record):
    """What came of laying on one cloth: where its plan is kept, and how long the search took (s)."""

    cloth: Cloth
    laying: Laying
    kept: str
    took: float


def lay_on(
    host: Host, spec: str, assembly: Assembly, part: str, cloth_file: str, limits: Limits, findings: Findings
) -> Laid | None:
    """Lay what is cut from one cloth (``part``) of a garment; None after a finding about a file.

    A kept plan that still holds is taken as it is. A plan that is found is kept beside the spec; raises ``OSError``
    when it can't be written.
    """
    cloth = read_cloth(host, cloth_file, findings)
    if cloth is None:
        return None
    if cloth.by_metre:
        findings.add(
            Finding(
                "cloth-by-metre",
                "cloth that is sold by the metre has no size to lay a garment on",
                cloth.span,
                help="`garmentc by-metre` says what length to buy; once it is cut off, give its outline a `length`",
            )
        )
        return None
    design, size = assembly.draft.design, assembly.draft.body.name
    place = plan_path(spec, design.name, size, part, cloth.key)
    own = Findings()
    saved = _read_plan(host, place, own)
    if saved is not None and is_of(saved, assembly, cloth, own):
        check_entries(saved, assembly, part, own)
    began = seconds()
    laying = None if own.has_errors else lay(assembly, part, ground(cloth), saved, limits)
    took = seconds() - began
    if laying is not None:
        judge(laying, assembly, part, cloth, took, own)
    for finding in own:
        findings.add(finding)
    if laying is None:
        return None
    if laying.plan is not None and not laying.held:
        host.write(place, plan_text(kept(laying.plan, design.name, size)).encode())
    return Laid(cloth, laying, place, took)


def verify_kept(
    host: Host, spec: str, assembly: Assembly, part: str, cloth_file: str, findings: Findings
) -> str | None:
    """Whether the plan that is kept for a garment on a cloth holds, in words; None where none is kept."""
    cloth = read_cloth(host, cloth_file, findings)
    if cloth is None or cloth.by_metre:
        return None
    saved = kept_plan(host, spec, assembly, part, cloth)
    if saved is None:
        return None
    whole = shapes(assembly, part, splits_of(saved.pieces))
    spots, _ = spots_of(saved.pieces, whole)
    faults = verify(Plan(ground(cloth), whole, spots))
    named = f"{assembly.draft.body.shown} on {cloth.key}"
    if not faults:
        return f"{named}: the kept plan holds"
    more = f", and {len(faults) - 1} more" if len(faults) > 1 else ""
    return f"{named}: the kept plan can't be cut any more: {faults[0].words}{more}"


def plan_path(spec: str, garment: str, size: str, part: str, cloth: str) -> str:
    """Where a plan is kept: beside the spec, under the names of the garment, the size and the cloth."""
    (size,) = folders([size])
    name = [garment, size, *([part] if part != MAIN else []), cloth]
    return posixpath.join(posixpath.dirname(spec), f"{'-'.join(name)}.plan.yaml")


def kept_plan(host: Host, spec: str, assembly: Assembly, part: str, cloth: Cloth) -> SavedPlan | None:
    """The plan that is kept for a garment on a cloth; None where there is none, or where it is none of these."""
    aside = Findings()
    design, size = assembly.draft.design, assembly.draft.body.name
    saved = _read_plan(host, plan_path(spec, design.name, size, part, cloth.key), aside)
    return saved if saved is not None and is_of(saved, assembly, cloth, aside) else None


def _read_plan(host: Host, path: str, findings: Findings) -> SavedPlan | None:
    try:
        host.read(path, 1)
    except FileNotFoundError:
        return None
    except OSError:
        pass  # the reader says what is wrong with it
    return read_plan(host, path, findings)
