"""The photo of a cloth, drawn under its plan."""

from __future__ import annotations

import base64
import io

from garmentc.cloth.model import Ground
from garmentc.data.stock import Photo
from garmentc.geometry.vector import Point
from garmentc.numbers import decimal

_KINDS = {b"\x89PNG": "image/png", b"\xff\xd8\xff": "image/jpeg"}


def photo_element(photo: Photo, data: bytes, ground: Ground, scale: float, corner: Point) -> str:
    """The photo as an SVG element, turned and scaled so that its two known points lie where they are on the cloth.

    ``corner`` is the upper left corner of the drawing. ValueError for a file that is neither PNG nor JPEG.
    """
    kind = next((kind for head, kind in _KINDS.items() if data.startswith(head)), None)
    if kind is None:
        raise ValueError("it is neither PNG nor JPEG")
    import imagesize

    wide, high = imagesize.get(io.BytesIO(data))
    if wide <= 0 or high <= 0:
        raise ValueError("its size can't be read")
    first, second = photo.pins
    shrunk = ground.shrunk
    here, there = (complex(pin.at.real * shrunk[0], pin.at.imag * shrunk[1]) * scale for pin in (first, second))
    turn = (there - here) / (second.pixel - first.pixel).conjugate()
    shift = here - turn * first.pixel.conjugate() - corner
    numbers = (turn.real, -turn.imag, turn.imag, turn.real, shift.real, -shift.imag)
    matrix = " ".join(decimal(one, 6) for one in numbers)
    coded = base64.b64encode(data).decode()
    return (
        f'<image width="{wide}" height="{high}" transform="matrix({matrix})" opacity="0.55" '
        f'preserveAspectRatio="none" href="data:{kind};base64,{coded}" />\n'
    )
