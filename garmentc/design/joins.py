"""Seam types, finishes and their stitches: those of the spec first, then the shipped ones, each read when asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar

from garmentc.design import kinds as k
from garmentc.design.gather import Gathered
from garmentc.design.kindcheck import TOP, KindChecker, Scope
from garmentc.design.library import Library
from garmentc.design.model import LEVEL, CheckPlan, JoinPlan, LinePlan, SectionPlan, StitchPlan
from garmentc.design.texts import GIVEN_NAMES, placeholders
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes


class JoinTypes:
    """All seam types and finishes that a garment uses or declares, by kind and name.

    ``drawn`` says that the pictures of the shipped ones are wanted too; ``check`` resolves a rule of a type.
    """

    def __init__(
        self,
        found: Gathered,
        library: Library,
        checker: KindChecker,
        check: Callable[[nodes.Check, Scope], CheckPlan],
        findings: Findings,
        *,
        drawn: bool,
    ) -> None:
        self._found = found
        self._library = library
        self._checker = checker
        self._check = check
        self._findings = findings
        self._drawn = drawn
        self.plans: dict[tuple[str, str], JoinPlan] = {}
        self.stitches: dict[str, StitchPlan] = {}

    def declared(self) -> None:
        """Resolve what the spec declares itself, used or not."""
        for of, name in self._found.joins:
            self.join(of, self._found.joins[of, name].name)
            if (of, name) == ("finish", "found"):
                self._error(
                    "reserved-name",
                    "`found` always means the cloth's own edge, along a thread and with nothing added",
                    self._found.joins[of, name].name.span,
                    help="give this finish another name",
                )
        for section in self._found.sections:
            self.join(section.of, section.name)

    def join(self, of: str, word: nodes.Word) -> JoinPlan | None:
        """The seam type or finish of this name; None, and a finding, when there is none."""
        name = word.text
        if (of, name) in self.plans:
            return self.plans[of, name]
        own = self._found.joins.get((of, name))
        node = own or self._library.join_type(of, name, self._findings)
        if node is None:
            if not self._checker.is_lost(name):
                known = [own for kind, own in self._found.joins if kind == of]
                what = "seam type" if of == "seam" else "finish"
                known += self._library.names(of)
                self._unknown(word.span, f"there is no {what} `{name}`", name, known)
            return None
        sections: Sequence[nodes.Section] = [
            one for one in self._found.sections if (one.of, one.name.text) == (of, name)
        ]
        if not sections and own is None and self._drawn:
            sections = self._library.sections(of, name, self._findings)
        plan = self._plan(node, sections)
        self.plans[of, name] = plan
        return plan

    def _plan(self, node: nodes.JoinType, sections: Iterable[nodes.Section]) -> JoinPlan:
        items = node.items
        defines = {item.name.text: item for item in items if isinstance(item, nodes.Define)}
        for given in items:  # these two can be asked for and set like the type's own definitions
            if isinstance(given, nodes.Allowance):
                defines["allowance"] = nodes.Define(given.span, nodes.Word("allowance", given.span), given.value)
            elif isinstance(given, nodes.Binding):
                defines["binding"] = nodes.Define(given.span, nodes.Word("binding", given.span), given.width)
        scope = Scope(None, defines, f"{node.of} type {node.name.text}")
        self._types_lines(items)
        folds = _last(items, nodes.Folds)
        work = tuple(item for item in items if isinstance(item, nodes.Pass | nodes.Action))
        checks = tuple(self._check(item, scope) for item in items if isinstance(item, nodes.Check))
        for define in defines.values():
            self._checker.expect(define.value, k.LENGTH, scope, f"`{define.name.text}`")
        for item in work:
            if isinstance(item, nodes.Pass):
                self._checker.expect(item.width, k.LENGTH, scope, "the width of a pass")
                self._stitch(item.stitch)
            self._text_names(item.text, defines)
        for expr in folds.depths if folds else ():
            self._checker.expect(expr, k.LENGTH, scope, "a width")
        iso = _last(items, nodes.ClassItem)
        corner = _last(items, nodes.Corner)
        turning = _last(items, nodes.Turning)
        return JoinPlan(
            node.name.text,
            node.of,
            node.title.text,
            iso.text.text if iso else "",
            turning.word if turning else "",
            corner.word if corner else LEVEL,
            folds.depths if folds else (),
            defines,
            work,
            tuple(name.text for item in items if isinstance(item, nodes.Tools) for name in item.names),
            checks,
            node.span,
            tuple(self._section(section, scope) for section in sections),
        )

    def _section(self, section: nodes.Section, scope: Scope) -> SectionPlan:
        """A picture of a type cut across: its widths are lengths, its levels plain numbers."""
        for line in section.lines:
            for point in line.points:
                self._checker.expect(point.x, k.LENGTH, scope, "how far a line of a section goes")
                self._checker.expect(point.y, (k.COUNT, k.RATIO), scope, "a level of a section")
        return SectionPlan(
            section.title.text,
            tuple(
                LinePlan(line.word, "" if line.name is None else line.name.text, line.points, line.goes_on)
                for line in section.lines
            ),
        )

    def _types_lines(self, items: Iterable[nodes.TypeItem]) -> None:
        """Each width of a type has a name of its own, and the other lines stand once."""
        for kind in (nodes.ClassItem, nodes.Turning, nodes.Allowance, nodes.Corner, nodes.Folds, nodes.Binding):
            said_once([item for item in items if isinstance(item, kind)], self._findings)
        known: dict[str, Span] = {}
        for item in items:
            if isinstance(item, nodes.Define) and known.setdefault(item.name.text, item.name.span) != item.name.span:
                self._twice(item.name, known[item.name.text])

    def _twice(self, word: nodes.Word, known: Span) -> None:
        self._error(
            "duplicate-name",
            f"`{word.text}` is already the name of something else here",
            word.span,
            others=(Label(known, "first used here"),),
            help="give one of them another name",
        )

    def _text_names(self, text: nodes.Text, defines: Mapping[str, nodes.Define]) -> None:
        if text.text.count("{") != text.text.count("}"):
            self._error(
                "unclosed-placeholder",
                "a name in braces is not closed in this text",
                text.span,
                help="write it as {name}",
            )
        for name in placeholders(text.text):
            if name not in defines and name not in GIVEN_NAMES:
                known = [*defines, *GIVEN_NAMES]
                self._unknown(text.span, f"the text asks for `{{{name}}}`, which has no value", name, known)

    def _stitch(self, code: nodes.Word) -> None:
        if not self.stitches:
            own: dict[str, Span] = {}
            for stitch in self._found.stitches:
                if own.setdefault(stitch.code, stitch.span) != stitch.span:
                    self._twice(nodes.Word(stitch.code, stitch.span), own[stitch.code])
            for stitch in (*self._library.stitches(self._findings), *self._found.stitches):
                self._checker.expect(stitch.thread, k.RATIO, TOP, "the thread of a stitch")
                self.stitches[stitch.code] = StitchPlan(stitch.code, stitch.title.text, stitch.thread)
        if code.text not in self.stitches:
            self._error(
                "unknown-name",
                f"there is no stitch {code.text}",
                code.span,
                help=f"there are {', '.join(self.stitches)} (numbers of ISO 4915)",
            )

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._error("unknown-name", headline, span, help=meant_or_known(name, known))

    def _error(self, slug: str, headline: str, span: Span, help: str = "", others: tuple[Label, ...] = ()) -> None:
        self._findings.add(Finding(slug, headline, span, "", others, (), help))


def said_once(items: Sequence[nodes.TypeItem | nodes.SeamItem], findings: Findings) -> None:
    """Report what is said again."""
    for again in items[1:]:
        first = Label(items[0].span, "first said here")
        findings.add(Finding("said-twice", "this is said twice", again.span, others=(first,), help="keep one of them"))


_Item = TypeVar("_Item")


def _last(items: Iterable[object], kind: type[_Item]) -> _Item | None:
    found = [item for item in items if isinstance(item, kind)]
    return found[-1] if found else None
