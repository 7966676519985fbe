"""Every fault of a document against its schema, each at its place in the text."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator, ValidationError
from jsonschema.validators import extend

from garmentc.data.nodes import Items, Leaf, Node, Table, Unclear
from garmentc.data.words import quoted, short
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.suggest import did_you_mean
from garmentc.numbers import decimal
from garmentc.shipped import grammar_file
from garmentc.source import Span

_MOST_FAULTS = 200
_KINDS = {"plan": "a plan", "workshop": "a workshop", "body": "a body", "chart": "a size chart", "cloth": "a cloth"}
_DECIMAL_COMMA = re.compile(r"\s*(\d+),(\d+)(?![,\d])(.{0,20})$")
_GIVEN = {
    "plan": "give it with `--plan`",
    "workshop": "leave it where it is, it is found by itself",
    "body": "give it with `--body`",
    "chart": "give it with `--sizes`",
    "cloth": "give it with `--cloth`",
}
_BOUNDS = {
    "minLength": "it is empty",
    "maxLength": "it has more than {limit} characters",
    "minItems": "it is an empty list",
    "minProperties": "it is an empty table",
    "exclusiveMinimum": "it is not above {limit}",
    "maximum": "it is above {limit}",
}


def schema_text(name: str) -> Any:
    """A shipped JSON Schema as JSON values."""
    return json.loads(Path(grammar_file(f"schemas/{name}")).read_text(encoding="utf-8"))


def report_faults(root: Node, schema_name: str, findings: Findings) -> None:
    """Report what is wrong with a document, at most 200 faults; unclear places have had their finding already.

    Findings: ``wrong-file``, ``wrong-kind``, ``missing-field``, ``unknown-field``, ``bad-value``,
    ``repeated-item``, and the slugs that the schema itself gives (``x-slug``): ``bad-length``, ``bad-name``.
    """
    schema = schema_text(schema_name)
    if _mistaken_kind(root, schema, findings):
        return
    faults = islice(_Validator(schema).iter_errors(_json(root)), _MOST_FAULTS)
    found = [finding for fault in faults for finding in _findings(root, fault)]
    for finding in sorted(found, key=lambda one: (one.span.start, one.span.end, one.slug))[:_MOST_FAULTS]:
        findings.add(finding)


def _mistaken_kind(root: Node, schema: Any, findings: Findings) -> bool:
    """Whether this is a document of another kind: then its own faults are not worth listing."""
    if not isinstance(root, Table) or schema["required"][0] in root.entries:
        return False
    wanted = schema["required"][0]
    other = next((name for name in _KINDS if name in root.entries), None)
    if other is None:
        return False
    findings.add(
        Finding(
            "wrong-file",
            f"this file holds {_KINDS[other]}, not a {schema['title']}",
            root.entries[other].key,
            help=f"{_GIVEN[other]}, or begin the file with `{wanted}:`",
        )
    )
    return True


def _json(node: Node) -> Any:
    match node:
        case Leaf(value):
            return value
        case Items(nodes):
            return [_json(below) for below in nodes]
        case Table(entries):
            return {name: _json(entry.node) for name, entry in entries.items()}
        case _:
            return None


def _repeated_items(_validator: Any, wanted: bool, items: Any, _schema: Any) -> Iterator[ValidationError]:
    """``uniqueItems`` for texts, in linear time and one fault for each repeated text."""
    if not wanted or not isinstance(items, list):
        return
    seen: set[str] = set()
    for at, item in enumerate(items):
        if isinstance(item, str) and item in seen:
            yield ValidationError("repeated", path=[at])
        elif isinstance(item, str):
            seen.add(item)


_Validator = extend(Draft202012Validator, {"uniqueItems": _repeated_items})  # type: ignore[no-untyped-call]


def _findings(root: Node, fault: ValidationError) -> Iterator[Finding]:
    path = list(fault.absolute_path)
    span, node = _locate(root, path)
    if isinstance(node, Unclear):
        return
    schema: Any = fault.schema
    instance: Any = fault.instance
    expected = f"a {schema.get('title', 'value').lower()}"
    advice = schema.get("description", "")
    where = _words(path)
    if fault.validator == "required" and isinstance(node, Table):
        missing = [name for name in schema["required"] if name not in node.entries]
        yield Finding(
            "missing-field",
            f"{where} has no {quoted(missing)}",
            span,
            label=f"{quoted(missing)} missing",
            help=" ".join(f"Add `{name}`: {schema['properties'][name]['description']}" for name in missing),
        )
    elif fault.validator == "additionalProperties" and isinstance(node, Table):
        known = list(schema["properties"])
        for name, entry in node.entries.items():
            if name not in known:
                yield Finding(
                    "unknown-field",
                    f"{where} has no field `{short(name)}`",
                    entry.key,
                    label="not known here",
                    help=did_you_mean(name, known) or f"known here: {', '.join(known)}",
                )
    elif fault.validator == "uniqueItems":
        repeated = _shown(instance[path[-1]])
        yield Finding(
            "repeated-item",
            f"{repeated} is listed twice",
            span,
            label="listed again here",
            help="keep one of the two",
        )
    elif "propertyNames" in fault.absolute_schema_path and isinstance(node, Table):
        yield Finding(
            schema["x-slug"],
            f"{_shown(instance)} is not {expected}",
            node.entries[instance].key,
            label=f"{expected} is due here",
            help=advice,
        )
    else:
        fallback = "wrong-kind" if fault.validator == "type" else "bad-value"
        bound = _bound(fault)
        yield Finding(
            schema.get("x-slug", fallback),
            f"{where} is not {expected}: {bound}" if bound else f"{where} is {_shown(instance)}, not {expected}",
            span,
            label=f"{expected} is due here",
            help=_decimal_advice(instance) or advice,
        )


def _decimal_advice(value: Any) -> str:
    """How a number with a decimal comma is written; empty for anything else."""
    found = _DECIMAL_COMMA.match(value) if isinstance(value, str) else None
    return f"decimals have a point: write {found[1]}.{found[2]}{found[3]}" if found else ""


def _bound(fault: ValidationError) -> str:
    """Which bound of the schema a value breaks, in words; empty for other faults."""
    limit: Any = fault.validator_value
    words = _BOUNDS.get(str(fault.validator), "")
    if fault.validator in ("minItems", "maxItems") and fault.instance:
        given: Any = fault.instance
        return f"it has {len(given)} of them"
    return words.format(limit=decimal(limit)) if "{limit}" in words else words


def _locate(root: Node, path: Iterable[str | int]) -> tuple[Span, Node]:
    """Where a path into the document leads, and what stands there."""
    span, node = root.span, root
    for step in path:
        if isinstance(node, Table) and isinstance(step, str):
            entry = node.entries[step]
            span, node = entry.span, entry.node
        elif isinstance(node, Items) and isinstance(step, int):
            node = node.nodes[step]
            span = node.span
    return span, node


def _words(path: list[str | int]) -> str:
    """A path for people: the file, the measure, the third value of a measure."""
    steps = [step for step in path if step not in ("measures", "values")] or path[-1:]
    if not steps:
        return "the file"
    *outer, last = steps
    inside = f" of `{outer[-1]}`" if outer else ""
    return f"value {last + 1}{inside}" if isinstance(last, int) else f"`{last}`{inside}"


def _shown(value: Any) -> str:
    match value:
        case None:
            return "empty"
        case bool():
            return f"the truth value {str(value).lower()}"
        case float():
            return f"the number {decimal(value, 6)}"
        case str() if not value.strip():
            return "blank"
        case str():
            return f"`{short(value)}`"
        case list():
            return "a list"
        case _:
            return "a table"
