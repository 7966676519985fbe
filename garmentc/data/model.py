"""Bodies as values: what a draft starts from."""

from __future__ import annotations

from collections.abc import Mapping

from garmentc.record import Record
from garmentc.source import Span


class Measured(Record):
    """One measure of a body in millimetres, where it stands, the unit it was written in, and where its name stands."""

    mm: float
    span: Span
    unit: str = "mm"
    named: Span | None = None


class Body(Record):
    """Measures by name, in the order of the file.

    ``name`` is what people are shown: a person's name or a size. ``span`` is where that name stands and
    ``measures_span`` where the file opens its table of measures. ``origin`` says in words where the figures
    come from: the title of the chart, or the note beside one person's measures. ``is_size`` tells a size of a chart
    from a person.
    """

    name: str
    measures: Mapping[str, Measured]
    span: Span
    measures_span: Span
    origin: str
    is_size: bool = False

    @property
    def shown(self) -> str:
        """A size of a chart as "size 88", a person as "for Ilse"."""
        return f"size {self.name}" if self.is_size else f"for {self.name}"
