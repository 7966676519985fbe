"""The pictures of a step: what lies where, and the work cut across."""

from __future__ import annotations

from garmentc.assembly.faces import faces
from garmentc.assembly.model import Assembly, FinishedEdge, Join, JoinedSeam, PlannedStep
from garmentc.assembly.tasks import closing_name
from garmentc.design.model import EdgeName
from garmentc.draft.model import DraftedPiece
from garmentc.output.pictures.edge import edge_picture, place_picture
from garmentc.output.pictures.interfacing import interfacing_picture
from garmentc.output.pictures.leaf import leaf_title, part_of
from garmentc.output.pictures.model import Picture
from garmentc.output.pictures.rows import row_picture
from garmentc.output.pictures.seam import seam_picture
from garmentc.output.pictures.section import section_picture
from garmentc.output.pictures.shaping import shaping_picture
from garmentc.output.pictures.strip import strip_sections

_LONGEST_NAME = 22
_SMALL_WORDS = ("of", "the")


def step_pictures(assembly: Assembly, step: PlannedStep) -> tuple[Picture, ...]:
    """What there is to see of a step; of the maker's own, where it is done, if it says so."""
    thing = step.thing
    if isinstance(thing, JoinedSeam):
        sewn = [one.thing for one in assembly.steps[: step.number - 1] if isinstance(one.thing, JoinedSeam)]
        layers = ["upper layer", "lower layer"]
        if not faces(thing.join).first_on_top:
            layers.reverse()
        names = {
            "first": _short(assembly, thing.first, layers[0]),
            "second": _short(assembly, thing.second, layers[1]),
        }
        return seam_picture(assembly, thing, sewn), *_sections(thing.join, names)
    if isinstance(thing, FinishedEdge):
        sewn = [one.thing for one in assembly.steps[: step.number - 1] if isinstance(one.thing, JoinedSeam)]
        return *edge_picture(assembly, thing, sewn), *_sections(thing.join, {})
    if isinstance(thing, DraftedPiece):
        return tuple(section_picture(section, {}) for section in strip_sections(thing))
    if step.about == "closing":
        joins = (seam.gap.join for seam in assembly.seams if seam.gap and closing_name(seam) == step.name)
        return tuple(picture for join in joins for picture in _sections(join, {}))
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


def _short(assembly: Assembly, side: tuple[EdgeName, ...], otherwise: str) -> str:
    """What a side is called beside a section: its pieces, or the words that their titles have in common."""
    titles = list(
        dict.fromkeys(leaf_title(assembly.draft.piece(name.piece).title, part_of(name.edge)) for name in side)
    )
    text = ", ".join(titles)
    if len(text) <= _LONGEST_NAME:
        return text
    words = [[word for word in title.lower().split() if word not in _SMALL_WORDS] for title in titles]
    common = [word for word in words[0] if all(word in other for other in words)]
    shared = " ".join(common).capitalize()
    return shared if 0 < len(shared) <= _LONGEST_NAME else otherwise
