"""The pictures of a step: what lies where, and the work cut across."""

from __future__ import annotations

from garmentc.assembly.model import Assembly, FinishedEdge, Join, JoinedSeam, PlannedStep
from garmentc.assembly.tasks import closing_name
from garmentc.draft.model import DraftedPiece
from garmentc.output.pictures.edge import edge_picture, place_picture
from garmentc.output.pictures.interfacing import interfacing_picture
from garmentc.output.pictures.layers import layer_names
from garmentc.output.pictures.model import Picture
from garmentc.output.pictures.rows import row_picture
from garmentc.output.pictures.seam import seam_picture
from garmentc.output.pictures.section import section_picture
from garmentc.output.pictures.shaping import shaping_picture
from garmentc.output.pictures.strip import strip_sections


def step_pictures(assembly: Assembly, step: PlannedStep) -> tuple[Picture, ...]:
    """What there is to see of a step; of the maker's own, where it is done, if it says so."""
    thing = step.thing
    if isinstance(thing, JoinedSeam):
        sewn = [one.thing for one in assembly.steps[: step.number - 1] if isinstance(one.thing, JoinedSeam)]
        return seam_picture(assembly, thing, sewn), *_sections(thing.join, layer_names(assembly.draft, thing))
    if isinstance(thing, FinishedEdge):
        sewn = [one.thing for one in assembly.steps[: step.number - 1] if isinstance(one.thing, JoinedSeam)]
        return *edge_picture(assembly, thing, sewn), *_sections(thing.join, {})
    if isinstance(thing, DraftedPiece):
        return tuple(section_picture(section, {}) for section in strip_sections(thing))
    if step.about == "closing":
        closed = ((seam, seam.gap) for seam in assembly.seams if seam.gap and closing_name(seam) == step.name)
        return tuple(one for seam, gap in closed for one in _sections(gap.join, layer_names(assembly.draft, seam)))
    if step.about == "interfacing":
        return interfacing_picture(assembly, step.name)
    if step.about == "row":
        return row_picture(assembly, step.name)
    if step.about == "shaping":
        return shaping_picture(assembly, step.name)
    sewn = [one.thing for one in assembly.steps[: step.number - 1] if isinstance(one.thing, JoinedSeam)]
    return place_picture(assembly, assembly.draft.design.step_edges.get(step.name, ()), sewn)


def _sections(join: Join, names: dict[str, str]) -> tuple[Picture, ...]:
    return tuple(section_picture(section, names) for section in join.sections)
