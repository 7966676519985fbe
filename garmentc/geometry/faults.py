"""The one exception for shapes that cannot be made."""

from collections.abc import Sequence

from garmentc.geometry.vector import Point


class GeometryFault(Exception):
    """A construction that has no answer, with the place and the numbers that say why.

    `reason` is a short stable word ("too-tight", "self-crossing", ...), `at` the place (mm),
    `numbers` the quantities concerned by name, and `edges` the indices of the edges concerned
    where the construction knows edges.
    """

    def __init__(
        self,
        reason: str,
        at: Point,
        numbers: dict[str, float] | None = None,
        edges: Sequence[int] = (),
    ) -> None:
        self.reason = reason
        self.at = at
        self.numbers = dict(numbers or {})
        self.edges = tuple(edges)
        super().__init__(reason, at, self.numbers, self.edges)

    def __str__(self) -> str:
        facts = "".join(f", {name} {value:.6g}" for name, value in self.numbers.items())
        edges = f", edges {', '.join(map(str, self.edges))}" if self.edges else ""
        return f"{self.reason} at ({self.at.real:.3f}, {self.at.imag:.3f}){facts}{edges}"

    def on(self, *edges: int) -> "GeometryFault":
        """Return the same fault, said of the given edges."""
        return GeometryFault(self.reason, self.at, self.numbers, edges)
