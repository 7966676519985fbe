"""Notches of seams: partners of the maker's own, corners of chains, and what the compiler lays so that both sides meet.

Where and how many are laid is common practice, no source; the numbers stand here.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise

from garmentc.assembly.agree import Side
from garmentc.assembly.chains import Stretch
from garmentc.assembly.copies import named_back
from garmentc.assembly.model import JoinedSeam, Matched, Notch
from garmentc.assembly.runs import OwnNotch, closed_at, own_notches, place_at
from garmentc.design.texts import one_of, spoken
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.numbers import length
from garmentc.record import Record

SLIT_WORDS = {1: "single", 2: "double", 3: "triple"}
"""What a notch of so many slits is called."""
LONG_ENOUGH = 80.0
"""A seam shorter than this (mm) is matched by its ends alone."""
EACH = 400.0
"""For every so much of a seam (mm) there is one notch more."""
ALIKE = 10.0
"""Places that differ by less than this (mm) are taken for one another."""
CLEAR = 20.0
"""How far (mm) laid notches keep from each other and from corners."""

_MISS = 15.0  # mm; the maker's notches nearer than this to each other are meant to meet
_SHIFTS = (0.0, -0.06, 0.06, -0.12, 0.12, -0.18, 0.18)  # shares of the seam
_MOST = 3  # slits side by side; more can't be told apart at a glance
_MORE = 6  # notches beyond those due that may be added to tell a seam from others
_NEAR = 1.0  # mm; joints nearer than this meet


Groups = tuple[tuple[int, float, float], ...]
Stops = tuple[DraftedEdge | None, DraftedEdge | None]


class Pattern(Record):
    """The notches of one side of a seam as they are read: slits, and distances from both ends (mm)."""

    groups: Groups

    @property
    def turned(self) -> Groups:
        """The same as read from the other end."""
        return tuple((slits, rest, run) for slits, run, rest in reversed(self.groups))

    def is_like(self, other: Pattern) -> bool:
        """Whether one may be taken for the other, from either end."""
        return any(_near(self.groups, groups) for groups in (other.groups, other.turned))


class _Taken:
    """The patterns of the seams so far, from both ends, by their slits and by where their first notch lies."""

    def __init__(self) -> None:
        self._known: dict[tuple[tuple[int, ...], int, int], set[Groups]] = {}

    def add(self, pattern: Pattern) -> None:
        for groups in (pattern.groups, pattern.turned):
            self._known.setdefault(_cell(groups), set()).add(groups)

    def has_like(self, pattern: Pattern) -> bool:
        """Whether a pattern may be taken for one of these."""
        slits, run, rest = _cell(pattern.groups)
        beside = ((slits, run + aside, rest + over) for aside in (-1, 0, 1) for over in (-1, 0, 1))
        return any(_near(pattern.groups, groups) for key in beside for groups in self._known.get(key, ()))


def _cell(groups: Groups) -> tuple[tuple[int, ...], int, int]:
    """What patterns that are taken for each other have alike, but for one more or less in both numbers."""
    _, run, rest = groups[0]
    return tuple([slits for slits, _, _ in groups]), int(run // ALIKE), int(rest // ALIKE)


def _near(one: Groups, other: Groups) -> bool:
    return len(one) == len(other) and all(
        a[0] == b[0] and abs(a[1] - b[1]) < ALIKE and abs(a[2] - b[2]) < ALIKE for a, b in zip(one, other, strict=True)
    )


def check_notches(seams: Iterable[JoinedSeam], values: Evaluator) -> None:
    """Report the maker's own notches that miss each other along a seam, or that are unlike each other."""
    for seam in seams:
        if seam.mirrored or not _sides_agree(seam):
            continue
        first, second = (own_notches(side) for side in seam.sides)
        for one, other in _pairs(first, second, seam):
            if not _may_meet(one, other, seam):
                _report_miss(seam, one, other, values)
            elif one.notch.slits != other.notch.slits:
                _report_unlike(seam, one, other, values)


def match_seams(seams: Iterable[JoinedSeam]) -> tuple[JoinedSeam, ...]:
    """The seams with their notches, no two of them notched alike."""
    taken = _Taken()
    found: list[JoinedSeam] = []
    known: dict[tuple[str, ...], tuple[Matched, ...]] = {}
    for seam in seams:
        edges = _joined(seam)
        if edges in known:  # the same seam on the other hand, or of another copy
            found.append(seam._replace(matched=known[edges]))
            continue
        own = list(_own(seam))
        given = [*own, *_corners(seam, own), *_gap_ends(seam, own), *_stops(seam, own)]
        groups = _best(seam, given, len(own), taken)
        for pattern in patterns_of(seam, groups):
            taken.add(pattern)
        known[edges] = tuple(groups)
        found.append(seam._replace(matched=known[edges]))
    return tuple(found)


def piece_notches(piece: DraftedPiece, seams: Iterable[JoinedSeam]) -> tuple[Notch, ...]:
    """All notches of a piece: the maker's own, then those that its ``seams`` lay on it."""
    found: list[Notch] = []
    distinct: dict[tuple[str, ...], JoinedSeam] = {}
    for seam in seams:
        distinct.setdefault(_joined(seam), seam)
    for seam in distinct.values():
        for which, side in enumerate(seam.sides[:1] if seam.mirrored else seam.sides):
            for group in seam.matched:
                stretch, along = place_at(side, group.runs[which])
                if group.laid[which] and stretch.piece.name == piece.name:
                    found.append(Notch(stretch.edge.name, along, group.slits, seam.name, seam.span))
        for layer in seam.layers:
            for group in seam.matched:
                stretch, along = place_at(layer.side, group.runs[1] * layer.side[-1].after / seam.sides[1][-1].after)
                made = Notch(stretch.edge.name, along, group.slits, seam.name, seam.span)
                if any(group.laid) and stretch.piece.name == piece.name and not _is_there(made, found):
                    found.append(made)
    by_edge = {name.edge: seam.name for seam in seams for name in seam.edges if name.piece == piece.name}
    own = (Notch(one.edge, one.along, one.slits, by_edge.get(one.edge, ""), one.span) for one in piece.notches)
    return (*own, *found)


def _is_there(notch: Notch, found: Iterable[Notch]) -> bool:
    """Whether a notch lies there already: another copy of the piece is in the same seam."""
    return any(one.edge == notch.edge and abs(one.along - notch.along) < _NEAR for one in found)


def _joined(seam: JoinedSeam) -> tuple[str, ...]:
    """The edges of both sides; seams of the left and of the right one, or of several copies, have the same."""
    sides = (*seam.sides, *(layer.side for layer in seam.layers))
    return tuple(f"{which} {one.piece.name}.{one.edge.name}" for which, side in enumerate(sides) for one in side)


def patterns_of(seam: JoinedSeam, groups: Iterable[Matched]) -> list[Pattern]:
    """How the notches of both sides of a seam are read; nothing where there are none."""
    groups = tuple(groups)
    found = []
    for which, side in enumerate(seam.sides):
        whole = side[-1].after
        runs = sorted((one.runs[which], one.slits) for one in groups)
        if runs:
            found.append(Pattern(tuple((slits, run, whole - run) for run, slits in runs)))
    return found


def notch_words(seam: JoinedSeam) -> str:
    """What is brought together along a seam, for the one who pins it; nothing where there are no notches."""
    if not seam.matched:
        return ""
    start = seam.sides[0][0]
    end = _end_words(start)
    whole = start.before, seam.sides[0][-1].after
    inner = [one for one in seam.matched if min(abs(one.runs[0] - at) for at in whole) >= _NEAR]
    if not inner:
        return ""
    places = [f"{SLIT_WORDS[one.slits]} at {length(float(round(one.runs[0])))}" for one in inner]
    side = f" of {one_of(start.piece.title, start.name.hand, start.name.copy)}" if not seam.mirrored else ""
    return f"Notches meet: {', '.join(places)}, along the sewing line from the {end}{side}."


def _end_words(start: Stretch) -> str:
    """What lies at the end of a seam from which it is measured: a fold of the piece, or the edge beside it."""
    beside = start.beside(at_end=False)
    if beside.on_fold:
        return "fold"
    at = start.edge.path.end if start.backward else start.edge.path.start
    folds = (line for line in start.piece.lines if line.kind == "fold")
    fold = next((one for one in folds if min(abs(one.path.start - at), abs(one.path.end - at)) <= _NEAR), None)
    return f"{spoken(beside.name)} end" if fold is None else f"{spoken(fold.name)} fold"


# ---- what meets where


class _Spread:
    """Where places of one side come to lie on the other, what is eased spread evenly between places that meet."""

    def __init__(self, knots: Iterable[tuple[float, float]]) -> None:
        self._knots = sorted(set(knots))

    def across(self, run: float, which: int) -> float:
        """The place on the other side of one on side ``which`` (mm from the start)."""
        ours, theirs = ([knot[side] for knot in self._knots] for side in (which, 1 - which))
        i = min(max(bisect_left(ours, run), 1), len(ours) - 1)
        long = ours[i] - ours[i - 1]
        share = (run - ours[i - 1]) / long if long else 0.0
        return theirs[i - 1] + share * (theirs[i] - theirs[i - 1])


def _spread(seam: JoinedSeam, own: Iterable[Matched]) -> _Spread:
    first, second = seam.sides
    knots = [(0.0, 0.0), (first[-1].after, second[-1].after)]
    if len(first) == len(second):
        knots += [(one.after, other.after) for one, other in zip(first, second, strict=True)]
    knots += [one.runs for one in own]
    return _Spread(knots)


# ---- the maker's own


def _own(seam: JoinedSeam) -> Iterator[Matched]:
    """The maker's notches on both sides, with partners where the other side has none."""
    first, second = (own_notches(side) for side in seam.sides)
    if seam.mirrored:
        yield from (Matched((one.run, one.run), (False, False), one.notch.slits) for one in first)
        return
    pairs = _pairs(first, second, seam)
    for one, other in pairs:
        yield Matched((one.run, other.run), (False, False), max(one.notch.slits, other.notch.slits))
    known = {one for pair in pairs for one in pair}
    spread = _spread(seam, ())
    for which, side in enumerate((first, second)):
        for one in side:
            if one in known:
                continue
            there = spread.across(one.run, which)
            runs = (one.run, there) if which == 0 else (there, one.run)
            yield Matched(runs, (which == 1, which == 0), one.notch.slits)


def _pairs(first: Sequence[OwnNotch], second: Sequence[OwnNotch], seam: JoinedSeam) -> list[tuple[OwnNotch, OwnNotch]]:
    """Own notches of both sides that are meant to meet: all in their order, or else those that are near each other."""
    if len(first) == len(second):
        return list(zip(first, second, strict=True))
    pairs: list[tuple[OwnNotch, OwnNotch]] = []
    left = list(second)
    for one in first:
        near = min(left, key=lambda other: abs(one.run - other.run), default=None)
        if near is not None and (_may_meet(one, near, seam) or abs(one.run - near.run) < _MISS):
            pairs.append((one, near))
            left = left[left.index(near) + 1 :]
    return pairs


def _sides_agree(seam: JoinedSeam) -> bool:
    """Whether both sides are as long as declared; where not, that is told, and their notches follow from it."""
    first, second = seam.sides
    return abs(first[-1].after - second[-1].after - seam.ease) <= seam.within + 1e-6


def _may_meet(one: OwnNotch, other: OwnNotch, seam: JoinedSeam) -> bool:
    """Whether the ease of a seam can bring two notches together."""
    least, most = min(0.0, seam.ease) - seam.within, max(0.0, seam.ease) + seam.within
    return least - 1e-6 <= one.run - other.run <= most + 1e-6


def _report_miss(seam: JoinedSeam, one: OwnNotch, other: OwnNotch, values: Evaluator) -> None:
    off = length(abs(one.run - other.run))
    eased = f" beside the ease of {length(seam.ease)}" if seam.ease else ""
    values.fault(
        "notches-miss",
        f"the notches of seam `{seam.name}` miss each other by {off}",
        one.notch.span,
        others=(Label(other.notch.span, f"this one lies {length(other.run)} along the seam"),),
        notes=(
            f"it lies {length(one.run)} along the seam; the sides may be off by {length(seam.within)}{eased}, "
            "measured with darts closed and pleats folded",
        ),
        help="move one of them, or drop one: its partner on the other side is then laid for you",
        severity=Severity.WARNING,
    )


def _report_unlike(seam: JoinedSeam, one: OwnNotch, other: OwnNotch, values: Evaluator) -> None:
    words = [SLIT_WORDS[each.notch.slits] for each in (one, other)]
    values.fault(
        "notches-miss",
        f"a {words[0]} notch of seam `{seam.name}` comes to lie on a {words[1]} one",
        one.notch.span,
        others=(Label(other.notch.span, "the other"),),
        help="is an edge named in the wrong order, or in the wrong place? else cut the same on both sides",
        severity=Severity.WARNING,
    )


# ---- corners of chains


def _corners(seam: JoinedSeam, own: Sequence[Matched]) -> Iterator[Matched]:
    """Where a side turns a corner or goes on to the next piece, and the other side does not show it by a seam too."""
    first, second = seam.sides
    spread = _spread(seam, own)
    joints = [[(one.after, one.piece is other.piece) for one, other in pairwise(side)] for side in (first, second)]
    for which in (0,) if seam.mirrored else (0, 1):
        for run, is_corner in joints[which]:
            there = spread.across(run, which)
            met = next((joint for joint in joints[1 - which] if abs(joint[0] - there) <= _NEAR + seam.within), None)
            if met is not None and (which == 1 or not (is_corner or met[1])):
                continue  # told from the first side, or a seam on both sides
            runs = (run, met[0] if met else there)
            laid = (is_corner, met[1] if met else True)
            if any(abs(one.runs[which] - run) < _NEAR for one in own):
                continue
            yield Matched(runs if which == 0 else (runs[1], runs[0]), laid if which == 0 else (laid[1], laid[0]), 1)


def _gap_ends(seam: JoinedSeam, own: Sequence[Matched]) -> list[Matched]:
    """Both ends of the opening that a seam leaves."""
    if seam.gap is None:
        return []
    spread = _spread(seam, own)
    laid = (True, not seam.mirrored)
    return [Matched((run, spread.across(run, 0)), laid, 1) for run in (seam.gap.low, seam.gap.high)]


def _stops(seam: JoinedSeam, own: Sequence[Matched]) -> Iterator[Matched]:
    """Ends of a seam beyond which an edge goes straight on: nothing else shows where the stitching ends."""
    for at_end, stop in enumerate(stops(seam)):
        runs = (seam.sides[0][-1].after, seam.sides[1][-1].after) if at_end else (0.0, 0.0)
        first, second = (one is not None for one in stop)
        if (first or second) and all(abs(one.runs[0] - runs[0]) >= _NEAR for one in own):
            yield Matched(runs, (first, second and not seam.mirrored), 1)


def stops(seam: JoinedSeam) -> tuple[Stops, Stops]:
    """Of both sides, the edge that goes straight on beyond the start of a seam, and beyond its end."""

    def beyond(at_end: bool) -> Stops:
        edges = [(one.piece.name, one.onward(at_end=at_end)) for one in seam.ends(at_end=at_end)]
        first, second = (None if edge is None or seam.sews(piece, edge.name) else edge for piece, edge in edges)
        return first, second

    return beyond(False), beyond(True)


# ---- what is laid between


def _best(seam: JoinedSeam, given: Sequence[Matched], own: int, taken: _Taken) -> list[Matched]:
    """The notches given and those laid between them, as few and as even as tell this seam from those before."""
    plain: list[Matched] | None = None
    for groups in _choices(seam, given, own):
        if plain is None:
            plain = groups
        if not any(taken.has_like(pattern) for pattern in patterns_of(seam, groups)):
            return groups
    return plain or _in_order(given)


def _choices(seam: JoinedSeam, given: Sequence[Matched], own: int) -> Iterator[list[Matched]]:
    """Ways of notching a seam, the plainest first; the first ``own`` of what is given are the maker's."""
    spread = _spread(seam, given)
    is_back = _backs(seam)
    fixed = [_fixed(side, which, given) for which, side in enumerate(seam.sides)]
    sections = _sections(seam, spread, given[:own])
    longest = max(range(len(sections)), key=lambda i: sections[i].end - sections[i].start)
    for more in range(_MORE):
        due = [one.due + more * (i == longest) for i, one in enumerate(sections)]
        for bump in range(_MOST):
            for shift in _SHIFTS if any(due) else (0.0,):
                laid = [
                    one
                    for section, number in zip(sections, due, strict=True)
                    for one in _laid(seam, section, number, bump, shift, spread, is_back)
                ]
                if _are_clear(laid, fixed):
                    yield _in_order([*given, *laid])


class _Section(Record):
    """A part of the first side between joints of either side (mm), and how many notches are due on it."""

    start: float
    end: float
    due: int


def _sections(seam: JoinedSeam, spread: _Spread, own: Sequence[Matched]) -> list[_Section]:
    first, second = seam.sides
    whole = first[-1].after
    joints = [one.after for one in first[:-1]]
    joints += [
        there
        for one in second[:-1]
        for there in [spread.across(one.after, 1)]
        if all(abs(there - joint) > _NEAR + seam.within for joint in joints)
    ]
    found = []
    for start, end in pairwise([0.0, *sorted(joints), whole]):
        due = 1 + int((end - start) / EACH) if end - start >= LONG_ENOUGH else 0
        there = sum(start < one.runs[0] < end for one in own)
        found.append(_Section(start, end, max(due - there, 0)))
    return found


def _laid(
    seam: JoinedSeam,
    section: _Section,
    number: int,
    bump: int,
    shift: float,
    spread: _Spread,
    is_back: Callable[[float, float], bool],
) -> Iterator[Matched]:
    """Notches spread along a section, all a little nearer its start, so that no side fits upside down."""
    long = section.end - section.start
    for i in range(number):
        run = section.start + long * ((i + 0.8) / (number + 1) + shift)
        there = spread.across(run, 0)
        slits = min((2 if is_back(run, there) else 1) + bump, _MOST)
        yield Matched((run, there), (True, not seam.mirrored), slits)


def _fixed(side: Side, which: int, given: Iterable[Matched]) -> list[float]:
    """The places of a side that notches keep clear of: those given, darts, ends and joints."""
    return [0.0, *(one.runs[which] for one in given), *(one.after for one in side), *closed_at(side)]


def _are_clear(laid: Sequence[Matched], fixed: Sequence[Sequence[float]]) -> bool:
    """Whether notches keep clear of each other and of what is ``fixed`` on both sides."""
    for which, places in enumerate(fixed):
        runs = [one.runs[which] for one in laid]
        if any(abs(run - other) < CLEAR for run in runs for other in places):
            return False
        if any(other - run < CLEAR for run, other in pairwise(runs)):
            return False
    return True


def _in_order(groups: Iterable[Matched]) -> list[Matched]:
    return sorted(groups, key=lambda one: one.runs)


def _backs(seam: JoinedSeam) -> Callable[[float, float], bool]:
    """Whether a place of a seam is one of the back: of its pieces one is called so, and none after the front."""
    first, second = seam.sides
    if len(first) == len(second) == 1:
        everywhere = named_back(first[0].piece, second[0].piece)
        return lambda _run, _there: everywhere
    return lambda run, there: named_back(place_at(first, run)[0].piece, place_at(second, there)[0].piece)
