"""Collects what a file declares, by name, before anything is asked what it means."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TypeVar

from garmentc.data.measures import known_measures, near_measures
from garmentc.design import kinds as k
from garmentc.design.functions import CONSTANTS, FUNCTIONS
from garmentc.design.kindcheck import Names
from garmentc.design.model import ChoicePlan, MeasurePlan, ParamPlan, PiecePlan, StripPlan
from garmentc.design.opening import check_opening
from garmentc.design.reused import literal_kind
from garmentc.design.settings import Setting
from garmentc.design.standing import Standing
from garmentc.design.texts import ease_name
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import asked, meant_or_known
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Damaged, File, Statement


class Gathered(Record):
    """The statements of a file, sorted by what they declare; ``twice`` are names that could mean two things.

    ``asked`` are the choices that a ``when`` asks, ``aside`` the statements that do not hold as the choices stand.
    """

    header: nodes.Header | None
    edition: str
    names: Names
    seams: list[nodes.Seam]
    finishes: list[nodes.Finish]
    lays: list[nodes.Lay]
    checks: list[nodes.Check]
    solves: list[nodes.Solve]
    finished: list[nodes.Finished]
    openings: list[nodes.Opening]
    steps: list[nodes.Step]
    orderings: list[nodes.Ordering]
    stitches: list[nodes.Stitch]
    joins: dict[tuple[str, str], nodes.JoinType]
    sections: list[nodes.Section]
    twice: list[Damaged]
    asked: set[str]
    aside: list[Span]


def gather(file: File, settings: Mapping[str, Setting], findings: Findings) -> Gathered:
    """All declarations of a file, with values from outside put in place of its own."""
    return _Gatherer(file, settings, findings).run()


_Node = TypeVar("_Node")


class _Gatherer:
    def __init__(self, file: File, settings: Mapping[str, Setting], findings: Findings) -> None:
        self._file = file
        self._settings = settings
        self._findings = findings
        self._names = Names({}, {}, {}, {}, {}, {}, {}, {})
        self._taken: dict[str, Span] = {}
        self._twice_named: list[Damaged] = []

    def run(self) -> Gathered:
        choices = [statement for statement in self._file.statements if isinstance(statement, nodes.Choice)]
        for choice in choices:
            self._choice(choice)
        standing = Standing(self._file, self._names.choices, self._findings)
        statements = list(standing.statements())
        header, edition = check_opening(self._file, statements, self._findings)
        for statement in statements:
            self._declare(statement)
        for piece in self._names.pieces.values():
            self._nothing_hidden(piece)
        self._settings_fit()
        seams = _of(statements, nodes.Seam)
        steps = _of(statements, nodes.Step)
        order: dict[str, Span] = {strip.name: strip.span for strip in self._names.strips.values()}
        for word in (*(seam.name for seam in seams), *(step.name for step in steps)):
            self._unique(word, order)
        joins: dict[tuple[str, str], nodes.JoinType] = {}
        for join in _of(statements, nodes.JoinType):
            known = joins.setdefault((join.of, join.name.text), join)
            if known is not join:
                self._twice(join.name, known.name.span)
        finished: dict[str, Span] = {}
        for one in _of(statements, nodes.Finished):
            self._unique(one.name, finished)
        return Gathered(
            header,
            edition,
            self._names,
            seams,
            _of(statements, nodes.Finish),
            _of(statements, nodes.Lay),
            _of(statements, nodes.Check),
            _of(statements, nodes.Solve),
            _of(statements, nodes.Finished),
            list(self._names.openings.values()),
            steps,
            _of(statements, nodes.Ordering),
            _of(statements, nodes.Stitch),
            joins,
            _of(statements, nodes.Section),
            self._twice_named,
            standing.asked,
            standing.aside,
        )

    # ---- declarations

    def _declare(self, statement: Statement) -> None:
        if isinstance(statement, nodes.Measure):
            self._measure(statement)
        elif isinstance(statement, nodes.Param):
            self._param(statement.name.text, statement)
        elif isinstance(statement, nodes.Ease):
            self._param(ease_name(statement.name.text), statement)
        elif isinstance(statement, nodes.Choice):
            if not any(statement is top for top in self._file.statements):
                self._error(
                    "when-needs-choice",
                    "a choice can't depend on a choice",
                    statement.span,
                    "move it out of `when`",
                )
        elif isinstance(statement, nodes.Define):
            if self._take(statement.name):
                self._names.values[statement.name.text] = statement
        elif isinstance(statement, nodes.Function):
            if self._take(statement.name):
                self._names.functions[statement.name.text] = statement
            taken: dict[str, Span] = {}
            for parameter in statement.parameters:
                self._unique(parameter.name, taken)
        elif isinstance(statement, nodes.Opening):
            if self._take(statement.name):
                self._names.openings[statement.name.text] = statement
        elif isinstance(statement, nodes.Use):
            self._take(statement.name)
        elif isinstance(statement, nodes.Piece):
            if self._take(statement.name):
                self._names.pieces[statement.name.text] = self._piece(statement)
        elif isinstance(statement, nodes.Strip):
            if self._take(statement.name) and (plan := self._strip(statement)) is not None:
                self._names.strips[plan.name] = plan
        elif isinstance(statement, nodes.Alter | nodes.ReplaceValue | nodes.ReplaceBlock | nodes.Drop | nodes.Extend):
            self._error(
                "nothing-to-vary",
                "this changes a base, and the garment has none",
                statement.span,
                'name the base in the first line: garment NAME "Title" varies "base.garment"',
            )

    def _measure(self, measure: nodes.Measure) -> None:
        name = measure.name.text
        if not self._take(measure.name):
            return
        known = known_measures().get(name)
        if measure.description is not None and measure.kind is not None:
            kind, description = k.NAMED[measure.kind.text], measure.description.text
            if kind != k.LENGTH:
                self._error("wrong-kind", "a body measure is a length", measure.kind.span, "make it a param")
                kind = k.FAULT
        elif known is not None:
            kind, description = k.LENGTH, f"{known.term}: {known.definition}"
        else:
            close = near_measures(name, known_measures())
            self._error(
                "unknown-measure",
                f"`{name}` is not a body measure of ISO 8559-1 that this compiler knows",
                measure.name.span,
                asked(close) or f'describe how it is taken: measure {name} : length "from … to …"',
            )
            self._twice_named += [
                Damaged(one, None, measure.name.span) for one in close
            ]  # used below by its right name
            kind, description = k.FAULT, ""
        self._names.measures[name] = MeasurePlan(name, kind, description, measure.span)

    def _param(self, name: str, node: nodes.Param | nodes.Ease) -> None:
        if isinstance(node, nodes.Ease):
            if name in self._names.params:
                self._twice(node.name, self._names.params[name].span)
                return
            kind = k.LENGTH
        else:
            if not self._take(node.name):
                return
            kind = literal_kind(node.value)
        setting = self._settings.get(name)
        limits = node.range
        self._names.params[name] = ParamPlan(
            name,
            kind,
            setting.value if setting is not None else node.value if node.given is None else node.given,
            limits.least if limits else None,
            limits.most if limits else None,
            node.description.text if node.description else "",
            node.span,
            setting is not None,
        )

    def _choice(self, choice: nodes.Choice) -> None:
        name = choice.name.text
        if not self._take(choice.name):
            return
        options = tuple(option.text for option in choice.options)
        listed: dict[str, Span] = {}
        for option in choice.options:
            self._unique(option, listed)
        value, span = choice.value.text, choice.value.span
        setting = self._settings.get(name)
        if setting is not None:
            value, span = setting.value.span.text.strip(), setting.value.span
        if value not in options:
            self._unknown(span, f"the choice `{name}` has no option `{value}`", value, options)
            value = options[0]
        description = choice.description.text if choice.description else ""
        self._names.choices[name] = ChoicePlan(name, options, value, description, choice.span, setting is not None)

    def _piece(self, piece: nodes.Piece) -> PiecePlan:
        taken: dict[str, Span] = {}
        defines = {d.name.text: d for d in _of(piece.items, nodes.Define) if self._unique(d.name, taken)}
        outlines = _of(piece.items, nodes.Outline)
        for extra in outlines[1:]:
            self._error("two-outlines", "a piece has one outline", extra.span, "put all edges into one")
        edges = {
            edge.name.text: edge
            for outline in outlines[:1]
            for edge in _of(outline.edges, nodes.Edge)
            if self._unique(edge.name, taken)
        }
        parts = {part.name.text: part for part in _of(piece.items, nodes.Grow) if self._unique(part.name, taken)}
        keeps = [keep for keep in _of(piece.items, nodes.Keep) if self._unique(keep.name, taken)]
        places: dict[str, Span] = {}
        marks = [mark for mark in _of(piece.items, nodes.Mark) if self._unique(mark.name, places)]
        guides = [guide for guide in _of(piece.items, nodes.Guide) if self._unique(guide.name, places)]
        lengthens = [line for line in _of(piece.items, nodes.Lengthen) if self._unique(line.name, places)]
        places_of: dict[str, dict[str, Span]] = {"buttons": {}, "buttonholes": {}}
        rows = [row for row in _of(piece.items, nodes.ButtonRow) if self._unique(row.name, places_of[row.kind])]
        cuts = _of(piece.items, nodes.Cut)
        grains = _of(piece.items, nodes.Grain)
        aparts = _of(piece.items, nodes.Apart)
        interfacings = _of(piece.items, nodes.Interfaced)
        self._said_once("piece", cuts, grains, aparts, interfacings)
        head = Span(piece.span.source, piece.span.start, piece.title.span.end)
        return PiecePlan(
            piece.name.text,
            piece.title.text,
            piece.parent.text if piece.parent else None,
            piece.parent.span if piece.parent else piece.name.span,
            cuts[0] if cuts else None,
            grains[0] if grains else None,
            defines,
            edges,
            tuple(keeps),
            parts,
            tuple(self._shapings(piece, taken)),
            tuple(_of(piece.items, nodes.Notch)),
            tuple(marks),
            tuple(guides),
            tuple(lengthens),
            tuple(rows),
            head,
            tuple(_of(piece.items, nodes.Uneven)),
            piece.made,
            bool(aparts),
            interfacings[0] if interfacings else None,
        )

    def _shapings(self, piece: nodes.Piece, named: dict[str, Span]) -> Iterable[nodes.Shaping]:
        """Darts and what else shapes a piece, in the order written; no two darts, tucks or pleats of one name.

        Parts of edges are called unlike what else is ``named`` inside the piece.
        """
        taken: dict[str, Span] = {}
        for item in piece.items:
            if not isinstance(item, nodes.Shaping):
                continue
            name = item.part if isinstance(item, nodes.Pivot | nodes.Divide) else None
            if isinstance(item, nodes.Dart | nodes.Tuck | nodes.Pleats | nodes.Spread):
                name = item.name
            if isinstance(item, nodes.Part):
                if self._unique(item.name, named):
                    yield item
            elif name is None or self._unique(name, taken):
                yield item

    def _nothing_hidden(self, piece: PiecePlan) -> None:
        """A name inside a piece must not hide one of the garment: whoever reads it would think of the other."""
        names = self._names
        block = piece.name.rpartition(".")[0]
        for word in (
            *(define.name for define in piece.defines.values()),
            *(edge.name for edge in piece.edges.values()),
            *(part.name for part in piece.parts.values()),
            *(made.name for made in piece.made_edges.values()),
        ):
            tables: tuple[Mapping[str, object], ...] = (names.values, names.params, names.measures, names.choices)
            whole = f"{block}.{word.text}" if block and word.text not in names.measures else word.text
            if any(whole in table for table in tables):
                self._twice_named.append(Damaged(word.text, piece.name, word.span))
                self._findings.add(
                    Finding(
                        "hidden-name",
                        f"`{word.text}` in piece `{piece.name}` hides the `{word.text}` of the garment",
                        word.span,
                        others=(Label(self._taken[whole], "declared here for the whole garment"),),
                        help="give one of them another name",
                    )
                )

    def _strip(self, strip: nodes.Strip) -> StripPlan | None:
        cuts = _of(strip.items, nodes.Cut)
        lengths = _of(strip.items, nodes.StripLength)
        widths = _of(strip.items, nodes.StripWidth)
        makes = _of(strip.items, nodes.StripMake)
        grains = _of(strip.items, nodes.Grain)
        head = Span(strip.span.source, strip.span.start, strip.title.span.end)
        missing = [
            word
            for word, found in (("cut", cuts), ("length", lengths), ("width", widths), ("make", makes))
            if not found
        ]
        lost = any(damaged.inside == strip.name.text for damaged in self._file.damaged)
        if missing:
            self._twice_named.append(Damaged(strip.name.text, None, head))
            if not lost:
                self._error(
                    "incomplete-strip",
                    f"strip `{strip.name.text}` lacks {' and '.join(f'`{word}`' for word in missing)}",
                    head,
                    "a strip says `cut`, `length`, `width` and `make`",
                )
            return None
        self._said_once("strip", cuts, lengths, widths, makes, grains)
        if cuts[0].fold is not None:
            self._error("wrong-kind", "a strip has no edge to lie on the fold", cuts[0].fold.span, "write `cut 2`")
        for grain in grains:
            if grain.along is not None:
                self._error(
                    "wrong-kind", "the grain of a strip is meant along its length", grain.along.span, "drop `along …`"
                )
        if cuts[0].number < 1:
            self._error("no-cut", "a strip is cut at least once, in a whole number", cuts[0].span, "write `cut 1`")
        make = makes[0]
        if make.way == "tube" and make.stitched is None:
            self._error(
                "incomplete-strip",
                "a tube needs the distance of its stitching",
                make.span,
                "write `make tube stitched 5 mm from edge`",
            )
        if make.way in ("flat", "bought") and make.stitched is not None:
            self._error(
                "wrong-kind",
                f"a {make.way} strip is used as it is, without stitching",
                make.stitched.span,
                f"write `make {make.way}`",
            )
        if make.way == "bought":
            for grain in grains:
                self._error("wrong-kind", "what is bought has no grain on the cloth", grain.span, "drop it")
        return StripPlan(
            strip.name.text,
            strip.title.text,
            cuts[0],
            grains[0] if grains else None,
            lengths[0].value,
            widths[0].value,
            make.way,
            make.stitched,
            head,
            strip.made,
        )

    def _said_once(self, what: str, *kinds: Sequence[nodes.PieceItem | nodes.StripItem]) -> None:
        for items in kinds:
            for again in items[1:]:
                self._error("said-twice", f"this is said twice in one {what}", again.span, "keep one of them")

    def _settings_fit(self) -> None:
        known = [*self._names.params, *self._names.choices]
        for setting in self._settings.values():
            if setting.name not in known:
                if any(lost.name == setting.name.removeprefix("ease.") for lost in self._file.damaged):
                    continue
                headline = f"the spec has no param, ease or choice `{setting.name}`"
                self._unknown(setting.span, headline, setting.name, known)

    # ---- names

    def _take(self, word: nodes.Word) -> bool:
        """Whether a name of the garment is free; if not, a finding."""
        if word.text == "ease" or word.text in FUNCTIONS or word.text in CONSTANTS:
            self._error(
                "reserved-name",
                f"`{word.text}` already means something in the language",
                word.span,
                "choose another",
            )
            self._twice_named.append(Damaged(word.text, None, word.span))
            return False
        return self._unique(word, self._taken)

    def _unique(self, word: nodes.Word, taken: dict[str, Span]) -> bool:
        known = taken.setdefault(word.text, word.span)
        if known is word.span:
            return True
        self._twice(word, known)
        return False

    def _twice(self, word: nodes.Word, known: Span) -> None:
        self._twice_named.append(Damaged(word.text, None, word.span))
        self._findings.add(
            Finding(
                "duplicate-name",
                f"`{word.text}` is already the name of something else here",
                word.span,
                others=(Label(known, "first used here"),),
                help="give one of them another name",
            )
        )

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._error("unknown-name", headline, span, meant_or_known(name, known))

    def _error(self, slug: str, headline: str, span: Span, help: str) -> None:
        self._findings.add(Finding(slug, headline, span, help=help))


def _of(statements: Iterable[object], kind: type[_Node]) -> list[_Node]:
    return [statement for statement in statements if isinstance(statement, kind)]
