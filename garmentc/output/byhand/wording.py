"""What is done by hand, in words."""

from __future__ import annotations

from garmentc.output.byhand.model import Action, Begin, Cross, Curve, Join, Measure, Notch, Parallel, Purpose, Say
from garmentc.output.byhand.ruler import Ruler, bare, said
from garmentc.output.texts.speech import Voice

_NOTHING = 1e-6  # mm


def sentence_of(action: Action, voice: Voice) -> str:
    """What to do, in one language."""
    match action:
        case Begin(spot, left, low, width, height):
            return voice.say(
                "hand_paper",
                spot=spot.name,
                left=said(left, voice),
                low=said(low, voice),
                width=said(width, voice),
                height=said(height, voice),
            )
        case Measure():
            return _way(action, voice)
        case Join(start, end, purpose):
            return voice.say("hand_join", start=start.name, end=end.name, purpose=_purpose(purpose, voice))
        case Curve(start, end, _, purpose):
            return voice.say("hand_curve", start=start.name, end=end.name, purpose=_purpose(purpose, voice))
        case Parallel(start, end, width, _, purpose):
            return voice.say(
                "hand_parallel",
                start=start.name,
                end=end.name,
                width=said(width, voice),
                step=said(Ruler(voice.inches).stations[0], voice),
                purpose=_purpose(purpose, voice),
            )
        case Notch():
            return _notch(action, voice)
        case Cross(spot, text):
            return voice.say("hand_cross", spot=spot.name, text=text)
        case Say(key, values):
            shown = {name: value if isinstance(value, str) else said(value, voice) for name, value in values.items()}
            return voice.say(key, **shown)


def _notch(notch: Notch, voice: Voice) -> str:
    if not notch.along:
        return voice.say("hand_notch_corner", origin=notch.origin.name, edge=notch.edge)
    key = "hand_notch" if notch.slits == 1 else "hand_notch_slits"
    return voice.say(
        key,
        origin=notch.origin.name,
        along=said(notch.along, voice),
        edge=notch.edge,
        slits=str(notch.slits),
        wide=said(notch.wide, voice),
    )


def table_of(curve: Curve, voice: Voice) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """The table of a curve: keys of its columns, of which the left or the right one may be missing, and its rows."""
    sides = {"hand_left": 1.0, "hand_right": -1.0}
    used = {key: sign for key, sign in sides.items() if any(row.height * sign > _NOTHING for row in curve.rows)}
    used = used or {"hand_left": 1.0}
    rows = tuple(
        (bare(row.along, voice), *(_height(row.height * sign, voice, len(used)) for sign in used.values()))
        for row in curve.rows
    )
    return ("hand_along", *used), rows


def _height(mm: float, voice: Voice, columns: int) -> str:
    """A height in its column; what lies on the other side has none."""
    return bare(mm, voice) if mm > _NOTHING or columns == 1 or abs(mm) <= _NOTHING else ""


def _way(action: Measure, voice: Voice) -> str:
    way = action.spot.at - action.origin.at
    level = (abs(way.real), voice.say("way_right" if way.real > 0 else "way_left"))
    upright = (abs(way.imag), voice.say("way_up" if way.imag > 0 else "way_down"))
    order = (level, upright) if action.first_level else (upright, level)
    names = {"origin": action.origin.name, "spot": action.spot.name}
    measured = [(said(long, voice), where) for long, where in order if long > _NOTHING]
    if not measured:
        return voice.say("hand_same", **names)
    (first, where), *rest = measured
    if not rest:
        return voice.say("hand_measure", **names, first=first, way=where)
    return voice.say("hand_measure_two", **names, first=first, way=where, second=rest[0][0], other=rest[0][1])


def _purpose(purpose: Purpose, voice: Voice) -> str:
    return voice.say(f"line_is_{purpose.use}", name=purpose.name)
