"""What the layers of a seam are called beside its sections: short titles of what they are cut from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from garmentc.assembly.faces import faces
from garmentc.assembly.model import JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.design.texts import one_of, spoken
from garmentc.draft.model import Draft
from garmentc.output.pictures.leaf import leaf_title, part_of

_LONGEST = 22  # letters; longer names would make the picture smaller
_SMALL_WORDS = ("of", "the")


def layer_names(draft: Draft, seam: JoinedSeam) -> dict[str, str]:
    """Names for the layers ``first`` and ``second``: their pieces, else the edges, halves or places that differ."""

    def title(name: EdgeName) -> str:
        return leaf_title(draft.piece(name.piece).title, part_of(name.edge))

    ways: tuple[Callable[[EdgeName], str], ...] = (
        title,
        lambda name: spoken(name.edge),
        lambda name: one_of(title(name), name.hand, name.copy).removeprefix("the "),
    )
    for way in ways:
        first, second = (_short([way(name) for name in side]) for side in (seam.first, seam.second))
        if first != second:
            return {"first": first, "second": second}
    words = ("upper", "lower") if faces(seam.join).first_on_top else ("lower", "upper")
    return {layer: f"{first}, {word}" for layer, word in zip(("first", "second"), words, strict=True)}


def _short(names: Iterable[str]) -> str:
    """Names in a row; where that is long, the words that all have in common, else the first of them."""
    found = list(dict.fromkeys(names))
    text = ", ".join(found)
    if len(text) > _LONGEST:
        head = found[0].partition(" of ")[0]
        text = head if len(found) == 1 else _in_common(found) or f"{head} and others"
    return text[:1].upper() + text[1:]


def _in_common(names: Sequence[str]) -> str:
    """The words that several names share, when they are few; nothing otherwise."""
    words = [[word for word in name.lower().split() if word not in _SMALL_WORDS] for name in names]
    shared = " ".join(word for word in words[0] if all(word in other for other in words[1:]))
    return shared if len(shared) <= _LONGEST else ""
