"""The whole draft by hand of one garment for one body, as a document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.output.byhand.matching import Matched, matched_seams
from garmentc.output.byhand.model import Curve, HandPiece, HandStep
from garmentc.output.byhand.picture import pictures
from garmentc.output.byhand.plan import plan_piece
from garmentc.output.byhand.ruler import Ruler, said
from garmentc.output.byhand.wording import sentence_of, table_of
from garmentc.output.fingerprint import body_facts, fingerprint, spec_mark
from garmentc.output.sheet.document import Block, Checklist, Document, Figure, Heading, Items, Paragraph, Table
from garmentc.output.texts.cut import cut_text, size_text, strip_text
from garmentc.output.texts.speech import INCH, Speech, Voice


def hand_document(assembly: Assembly, speech: Speech) -> Document:
    """The instructions, piece by piece, and what the rounding does to the seams."""
    ruler = Ruler(speech.first.inches)
    plans = [(piece, plan_piece(piece, assembly.seams, ruler)) for piece in assembly.pieces]
    return _Writer(assembly, speech, ruler, plans).document()


class _Writer:
    def __init__(
        self, assembly: Assembly, speech: Speech, ruler: Ruler, plans: Sequence[tuple[CutPiece, HandPiece]]
    ) -> None:
        self.assembly, self.speech, self.ruler, self.plans = assembly, speech, ruler, plans
        design = assembly.draft.design
        self.size = size_text([assembly.draft.body.name], assembly.draft.body.is_size, speech)
        self.mark = fingerprint(spec_mark(design), [body_facts(assembly)])

    def document(self) -> Document:
        say = self.speech.say
        blocks = [*self._before()]
        for piece, plan in self.plans:
            blocks += self._piece(piece, plan)
        blocks += self._seams(matched_seams(self.assembly, [plan for _, plan in self.plans]))
        title = say("hand_title", title=self.assembly.draft.design.title, size=self.size)
        return Document(title, tuple(blocks), self.speech.first.language, say("hand_parts"))

    def _before(self) -> Iterator[Block]:
        say, design = self.speech.say, self.assembly.draft.design
        yield Heading(2, say("hand_before"))
        yield Paragraph(say("hand_about", name=design.name, edition=design.edition, size=self.size, mark=self.mark))
        yield Paragraph(say("hand_tools"))
        yield Paragraph(say("hand_ways"))
        key = "hand_rounding_inch" if self.ruler.inches else "hand_rounding_cm"
        moved = max(plan.moved for _, plan in self.plans)
        yield Paragraph(self.speech.each(lambda voice: voice.say(key, moved=_small(moved, voice))))
        yield Paragraph(say("hand_cautions"))
        if self.assembly.strips:
            yield Heading(2, say("hand_strips"))
            each = self.speech.each
            strips = self.assembly.strips
            yield Items(tuple(each(lambda voice, strip=strip: strip_text(strip.drafted, voice)) for strip in strips))  # type: ignore[misc]

    def _piece(self, piece: CutPiece, plan: HandPiece) -> Iterator[Block]:
        design, drafted = self.assembly.draft.design, piece.drafted
        each = self.speech.each
        cut = each(lambda voice: cut_text(drafted, voice))
        yield Heading(2, f"{drafted.title}, {cut}")
        steps = plan.steps
        for number, (step, picture) in enumerate(
            zip(steps, pictures(plan, self.speech.say("hand_picture")), strict=True), 1
        ):
            yield Heading(3, f"{number}. {self.speech.say(step.key, name=step.name)}")
            yield Figure(picture)
            yield from self._actions(step)
        yield Heading(3, f"{len(steps) + 1}. {self.speech.say('hand_label')}")
        written = each(
            lambda voice: voice.say(
                "hand_write",
                title=design.title,
                piece=drafted.title,
                size=self.size,
                cut=cut_text(drafted, voice),
                edition=design.edition,
                mark=self.mark,
            )
        )
        yield Checklist((written, self.speech.say("hand_cut_out")))

    def _actions(self, step: HandStep) -> Iterator[Block]:
        """What is done, as a list that is broken where a table belongs."""
        lines: list[str] = []
        for action in step.actions:
            lines.append(self.speech.each(lambda voice, action=action: sentence_of(action, voice)))  # type: ignore[misc]
            if isinstance(action, Curve):
                yield Checklist(tuple(lines))
                yield self._table(action)
                lines = []
        if lines:
            yield Checklist(tuple(lines))

    def _table(self, curve: Curve) -> Table:
        say = self.speech.say
        unit = "unit_inch" if self.ruler.inches else "unit_cm"
        names = {"start": curve.start.name, "end": curve.end.name}
        caption = self.speech.each(lambda voice: voice.say("hand_table", **names, unit=voice.say(unit)))
        keys, rows = table_of(curve, self.speech.first)
        return Table(caption, tuple(map(say, keys)), rows, narrow=True)

    def _seams(self, seams: Sequence[Matched]) -> Iterator[Block]:
        if not seams:
            return
        say, first = self.speech.say, self.speech.first
        yield Heading(2, say("hand_seams"))
        most = max(seam.apart for seam in seams)
        yield Paragraph(self.speech.each(lambda voice: voice.say("hand_seams_text", most=_small(most, voice))))
        keys = ("hand_seam", "hand_first", "hand_first_drawn", "hand_second", "hand_second_drawn", "hand_apart")
        rows = tuple(
            (
                seam.title,
                *(said(mm, first) for mm in (seam.first, seam.first_drawn, seam.second, seam.second_drawn)),
                _small(seam.apart, first),
            )
            for seam in seams
        )
        yield Table(say("hand_seams_table"), tuple(map(say, keys)), rows)


def _small(mm: float, voice: Voice) -> str:
    """A small distance, finer than a ruler shows."""
    if voice.inches:
        return f"{voice.number(mm / INCH, 2)} in"
    return f"{voice.number(mm, 1)} mm"
