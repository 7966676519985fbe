"""A short mark of a spec and of bodies, by which a paper pattern and the files it came from are matched later."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping

from garmentc.assembly.model import Assembly
from garmentc.design.model import Design
from garmentc.numbers import decimal

_LONG = 4  # characters of each half


def spec_mark(design: Design) -> str:
    """A mark of the texts that a design was read from; names of files and folders do not count."""
    spans = [plan.span for plans in (design.measures, design.params, design.choices) for plan in plans.values()]
    spans += [plan.span for plans in (design.pieces, design.strips, design.seams) for plan in plans.values()]
    spans += [plan.span for plans in (design.finishes, design.checks, design.finished) for plan in plans]
    texts = {design.source.text, *(span.source.text for span in spans)}
    return _mark(sorted(texts))


def body_facts(assembly: Assembly) -> Mapping[str, str]:
    """What a body and the settings from outside give a draft: its name, measures and values, as text."""
    draft = assembly.draft
    measures = {name: decimal(draft.body.measures[name].mm) for name in draft.design.measures}
    params = {f"param {name}": decimal(value) for name, value in draft.params.items()}
    return {"name": draft.body.name, **measures, **params}


def fingerprint(spec: str, bodies: Iterable[Mapping[str, str]]) -> str:
    """Two groups of letters and digits: the mark of the spec, then that of what all bodies give."""
    facts = [f"{name}={value}" for body in bodies for name, value in sorted(body.items())]
    return f"{spec}-{_mark(facts)}"


def _mark(texts: Iterable[str]) -> str:
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()[:_LONG]
