"""Frozen values with named fields, cheap to declare.

``Record`` is used like ``typing.NamedTuple``, and for a type checker it is one: fields as annotations, defaults, values
by position or by name, unpacking, ``_replace``. Declaring a ``NamedTuple`` compiles code for each class, which adds up
to a tenth of a short run; a ``Record`` is declared for next to nothing and costs a little more for each instance. What
is made by the thousand (segments, spans) stays a ``NamedTuple``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

__all__ = ["Record"]

if TYPE_CHECKING:
    from typing import NamedTuple as Record
else:
    from operator import itemgetter

    try:
        from _collections import _tuplegetter as _field
    except ImportError:

        def _field(index, doc):
            return property(itemgetter(index), doc=doc)

    class _Fields(type):
        """Turns the annotations of a class into its fields."""

        def __new__(cls, name, bases, own):
            names = tuple(own.get("__annotations__", ()))
            defaults = {field: own[field] for field in names if field in own}
            own |= {field: _field(index, None) for index, field in enumerate(names)}
            own |= {"__slots__": (), "__match_args__": names, "_fields": names, "_field_defaults": defaults}
            own["_names"] = frozenset(names)
            return type.__new__(cls, name, bases, own)

    class Record(tuple, metaclass=_Fields):
        """The base of frozen values: each annotation of a class below it is a field."""

        def __new__(cls, *values, **named):
            if len(values) != len(cls._fields) or named:
                values = cls._complete(values, named)
            return tuple.__new__(cls, values)

        @classmethod
        def _complete(cls, values, named):
            names = cls._fields
            if len(values) > len(names):
                raise TypeError(f"{cls.__name__} takes {len(names)} values, not {len(values)}")
            given = {**cls._field_defaults, **dict(zip(names, values, strict=False)), **named}
            if not (named.keys() <= cls._names and named.keys().isdisjoint(names[: len(values)])):
                name = next(name for name in named if name not in cls._names or name in names[: len(values)])
                raise TypeError(f"{cls.__name__}: {name} is {'given twice' if name in cls._names else 'no field'}")
            if len(given) < len(names):
                raise TypeError(f"{cls.__name__} needs {', '.join(name for name in names if name not in given)}")
            return [given[name] for name in names]

        def _replace(self, **changes):
            fields = dict(zip(self._fields, self, strict=True))
            if not changes.keys() <= fields.keys():
                raise TypeError(f"{type(self).__name__} has no {', '.join(changes.keys() - fields.keys())}")
            return tuple.__new__(type(self), (fields | changes).values())

        def _asdict(self):
            return dict(zip(self._fields, self, strict=True))

        def __getnewargs__(self):
            return tuple(self)

        def __repr__(self):
            shown = ", ".join(f"{name}={value!r}" for name, value in zip(self._fields, self, strict=True))
            return f"{type(self).__name__}({shown})"
