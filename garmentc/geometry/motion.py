"""Rigid motions of the plane: shifts, turns, mirrorings and what they compose to."""

from dataclasses import dataclass

from garmentc.geometry.vector import Point, heading, unit


@dataclass(frozen=True, slots=True)
class Motion:
    """The motion z -> turn * z + shift, or turn * conj(z) + shift when mirrored.

    `turn` is a unit complex number, so lengths and angles keep their size.
    """

    turn: complex
    shift: complex
    mirrored: bool

    @classmethod
    def identity(cls) -> "Motion":
        """Return the motion that moves nothing."""
        return cls(1 + 0j, 0j, False)

    @classmethod
    def shift_by(cls, v: complex) -> "Motion":
        """Return the shift by a vector (mm)."""
        return cls(1 + 0j, complex(v), False)

    @classmethod
    def turn_about(cls, p: Point, angle: float) -> "Motion":
        """Return the turn about p by an angle (radians, positive anticlockwise)."""
        turn = heading(angle)
        return cls(turn, p - turn * p, False)

    @classmethod
    def mirror_in(cls, p: Point, direction: complex) -> "Motion":
        """Return the mirroring in the line through p along a direction; ValueError if that is zero."""
        turn = unit(direction) ** 2
        return cls(turn, p - turn * p.conjugate(), True)

    def apply(self, p: Point) -> Point:
        """Return where the motion takes a point."""
        return self.turn * (p.conjugate() if self.mirrored else p) + self.shift

    def apply_vector(self, v: complex) -> complex:
        """Return where the motion takes a vector: as a point, without the shift."""
        return self.turn * (v.conjugate() if self.mirrored else v)

    def then(self, other: "Motion") -> "Motion":
        """Return the motion that does this one first and the other after it."""
        return Motion(other.apply_vector(self.turn), other.apply(self.shift), self.mirrored != other.mirrored)

    def inverse(self) -> "Motion":
        """Return the motion that undoes this one."""
        if self.mirrored:
            return Motion(self.turn, -self.turn * self.shift.conjugate(), True)
        back = self.turn.conjugate()
        return Motion(back, -back * self.shift, False)
