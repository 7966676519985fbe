"""Every edge is sewn, finished, folded or the cloth's own, once; allowances follow from how it is sewn."""

import math
from collections.abc import Iterable

import pytest

from garmentc.assembly.model import CutPiece
from garmentc.geometry.outline import Outline
from tests.language.small import Fault, assembled, faults, found, panel

TYPES = """
seam type joined "Joined" { allowance 1 cm }
seam type ended "Joined, ends square" { allowance 15 mm; corner square }
finish type turned "Turned" { hem = 2 cm; allowance hem; folds hem }
finish type twice "Turned twice" { hem = 15 mm; tuck = 8 mm; allowance hem + tuck; folds hem, tuck }
finish type wide "Wide" { allowance 30 mm }
"""


def near(value: complex, within: float = 1e-6) -> object:
    return pytest.approx(value, abs=within)


def cut(text: str, name: str = "panel") -> CutPiece:
    (piece,) = [one for one in assembled(text).pieces if one.drafted.name == name]
    return piece


def width_at(outline: Outline, height: float) -> float:
    """How wide an outline is at a height in mm."""
    return outline.width_at(complex(0, height), 1 + 0j)


def extents(outline: Outline) -> list[float]:
    """Left, right, lower and upper end of an outline."""
    points = [edge.point_at(edge.length * i / 20) for edge in outline.edges for i in range(21)]
    across, up = [one.real for one in points], [one.imag for one in points]
    return [min(across), max(across), min(up), max(up)]


def finishes(kinds: Iterable[tuple[str, str]]) -> str:
    return "".join(f"finish panel.{edge} as {kind}\n" for edge, kind in kinds)


# ---- accounting


def test_each_raw_edge_is_told_with_its_length_and_what_to_write() -> None:
    one, other = found(panel(finish="finish panel.lower, panel.upper as pinked\n"))
    assert (one.slug, one.span.text) == ("raw-edge", "ending : b -> c")
    assert one.notes == ("it is 30 cm long",)
    assert "finish panel.ending as" in one.help
    assert (other.slug, other.span.text) == ("raw-edge", "opening : d -> a")


@pytest.mark.parametrize("size", [None, "88"])
def test_raw_edges_are_told_once_with_a_body_and_without(size: str | None) -> None:
    """Of a piece taken from another too; what a line may have cut off is only known with a body."""
    below = 'piece other "Other" from panel { cut 1 on fold opening }\n'
    below += 'piece half "Half" from panel { keep above level(a up 10 cm) as low }\n'
    below += "finish other.lower, other.ending as pinked\n"
    below += "finish half.low, half.ending, half.upper, half.opening as pinked\n"
    grown = "grow rear across upper keep above level(a up 22 cm) as low"
    finish = "finish panel.lower, panel.ending, panel.rear.low, panel.rear.ending, panel.rear.opening as pinked\n"
    told = found(panel(grown, below=below, finish=finish), size=size)
    assert [(one.slug, one.headline.split(" is left")[0]) for one in told] == [
        ("raw-edge", "edge `upper` of `other`"),
        ("raw-edge", "edge `opening` of `panel`"),
    ]
    assert all("as …" in one.help for one in told)


def test_a_check_without_a_body_does_not_guess_what_a_line_leaves() -> None:
    text = panel("keep above level(a up 10 cm) as low", finish="finish panel.ending, panel.upper as pinked\n")
    assert found(text, size=None) == []
    assert len(found(text)) == 2


def test_an_edge_used_twice_is_told_where_it_is_used_again() -> None:
    below = "finish panel.upper as overedged\nseam s joins panel.ending with panel.opening as plain\n"
    twice = found(panel(below=below))
    assert [(one.slug, one.span.text) for one in twice] == [
        ("edge-used-twice", "panel.ending"),
        ("edge-used-twice", "panel.opening"),
        ("edge-used-twice", "panel.upper"),
    ]
    for one in twice:
        (first,) = one.others
        assert first.span.text == one.span.text and first.span.start != one.span.start


def test_an_edge_named_twice_in_one_finish_is_used_twice() -> None:
    below = "finish panel.lower, panel.ending, panel.upper, panel.opening, panel.lower as pinked\n"
    assert faults(panel(finish=below)) == [Fault("edge-used-twice", 13, "panel.lower")]


def test_an_edge_on_the_fold_needs_nothing_and_takes_nothing() -> None:
    kinds = [("lower", "pinked"), ("ending", "pinked"), ("upper", "pinked")]
    text = panel(finish=finishes(kinds)).replace("cut 1", "cut 1 on fold opening")
    assert found(text) == []
    (fault,) = found(text + "finish panel.opening as pinked\n")
    assert (fault.slug, fault.span.text) == ("edge-used-twice", "panel.opening")
    assert "fold" in fault.headline


def test_a_fold_inside_a_piece_is_no_edge() -> None:
    grown = "grow facing across upper keep above level((0 cm, 22 cm)) as low"
    names = ["lower", "ending", "opening", "facing.ending", "facing.opening", "facing.low", "upper"]
    text = panel(grown, finish=finishes((name, "pinked") for name in names))
    (fault,) = found(text)
    assert (fault.slug, fault.span.text) == ("edge-is-fold", "panel.upper")


def test_edges_of_grown_and_kept_parts_are_accounted_for() -> None:
    grown = "grow facing across upper keep above level((0 cm, 22 cm)) as low"
    text = panel(grown, finish=finishes([("lower", "pinked"), ("ending", "pinked"), ("opening", "pinked")]))
    raw = [one.headline for one in found(text) if one.slug == "raw-edge"]
    assert sorted(one.split("`")[1] for one in raw) == ["facing.ending", "facing.low", "facing.opening"]


# ---- the cloth's own edge


@pytest.mark.parametrize(
    ("grain", "lower", "slugs"),
    [
        ("straight", "a -> b", []),
        ("cross", "a -> b", []),
        ("bias", "a -> b", ["found-not-along-thread"]),
        ("straight along lower", "a -> b", []),
        ("straight along diagonal", "a -> b", ["found-not-along-thread"]),
        ("straight", "a -> b arc hollow 1 mm", ["found-not-along-thread"]),
        ("straight", "a -> b arc hollow 0.01 mm", []),
    ],
)
def test_the_cloths_own_edge_runs_along_a_thread(grain: str, lower: str, slugs: list[str]) -> None:
    kinds = [("lower", "found"), ("ending", "pinked"), ("upper", "pinked"), ("opening", "pinked")]
    text = panel("diagonal = line(a, c)", finish=finishes(kinds))
    text = text.replace("grain straight", f"grain {grain}").replace("lower : a -> b", f"lower : {lower}")
    assert [one.slug for one in found(text)] == slugs


@pytest.mark.parametrize(("rise", "slugs"), [("0.1 mm", []), ("1 mm", ["found-not-along-thread"])])
def test_how_far_off_the_thread_is_told(rise: str, slugs: list[str]) -> None:
    """A rise of 1 mm over 20 cm is 0.3 degrees."""
    kinds = [("lower", "found"), ("ending", "pinked"), ("upper", "pinked"), ("opening", "pinked")]
    text = panel(finish=finishes(kinds)).replace("b = (20 cm, 0 cm)", f"b = (20 cm, {rise})")
    told = found(text)
    assert [one.slug for one in told] == slugs
    assert all("0.3 deg off" in one.notes[0] and "grain straight" in one.notes[0] for one in told)


# ---- allowances


def test_each_edge_takes_what_its_seam_or_finish_takes() -> None:
    kinds = [
        ("lower", "wide"),
        ("ending", "pinked"),
        ("upper", "wide { set allowance = 5 mm }"),
        ("opening", "overedged"),
    ]
    piece = cut(panel(below=TYPES, finish=finishes(kinds)))
    assert extents(piece.cut_line) == [near(0.0), near(200.0), near(-30.0), near(305.0)]
    assert {edge: use.allowance for edge, use in piece.uses.items()} == {
        "lower": 30.0,
        "ending": 0.0,
        "upper": 5.0,
        "opening": 0.0,
    }


def test_what_a_type_computes_follows_what_is_set() -> None:
    kinds = [
        ("lower", "twice { set hem = 3 cm; set tuck = 1 cm }"),
        *((e, "pinked") for e in ("ending", "upper", "opening")),
    ]
    piece = cut(panel(below=TYPES, finish=finishes(kinds)))
    use = piece.uses["lower"]
    assert use.join is not None
    assert (use.allowance, use.join.folds) == (40.0, (30.0, 10.0))


def test_the_shipped_french_seam_adds_its_passes_up() -> None:
    """Stitching 9 mm and then 6 mm from the fold uses up 15 mm; set to 3/8 and 1/4 in, five eighths."""
    for settings, allowance in (("", 15.0), ("{ set first = 3/8 in; set second = 1/4 in }", 5 / 8 * 25.4)):
        seam = f"seam s joins panel.ending with panel.opening as french {settings}\n"
        made = assembled(panel(below=seam, finish="finish panel.lower, panel.upper as pinked\n"))
        join = made.seams[0].join
        passes = [work.width for work in join.work if work.word == "pass"]
        assert sum(passes) == near(allowance) and join.allowance == near(allowance)
        (piece,) = made.pieces
        assert extents(piece.cut_line)[:2] == [near(-allowance), near(200.0 + allowance)]


def test_the_cut_line_lies_an_allowance_outside_a_curve() -> None:
    kinds = [("lower", "pinked"), ("ending", "wide"), ("upper", "pinked"), ("opening", "pinked")]
    text = panel(below=TYPES, finish=finishes(kinds)).replace("b -> c", "b -> c arc bulge 3 cm")
    piece = cut(text)
    drawn = piece.drafted.edge("ending")
    assert drawn is not None
    (edge,) = [one for one in piece.edges if one.edge == "ending"]
    for share in (0.1, 0.35, 0.5, 0.8):
        at = edge.path.point_at(edge.path.length * share)
        assert drawn.path.nearest(at)[1] == near(30.0, 0.011)


def test_the_cut_line_goes_round_edge_by_edge() -> None:
    kinds = [("lower", "wide"), ("ending", "wide"), ("upper", "turned"), ("opening", "twice")]
    piece = cut(panel(below=TYPES, finish=finishes(kinds)))
    assert [one.edge for one in piece.edges] == [one.name for one in piece.drafted.edges]
    assert piece.cut_line.area > piece.drafted.outline.area
    parts = [path for one in piece.edges for path in (one.path, one.corner) if path is not None]
    assert sum(path.length for path in parts) == near(sum(edge.length for edge in piece.cut_line.edges))


def test_a_corner_between_two_seams_is_mitred() -> None:
    """In a right-angled corner the borders of 3 cm meet 3 cm out both ways."""
    piece = cut(panel(below=TYPES, finish=finishes((e, "wide") for e in ("lower", "ending", "upper", "opening"))))
    assert piece.cut_line.area == near(260.0 * 360.0)


def sloping(below: str, finish: str, lean: str = "4 cm") -> str:
    """The panel with its ending leaning outward toward the hem."""
    text = panel(below=TYPES + below, finish=finish)
    return text.replace("b = (20 cm, 0 cm)", f"b = (20 cm + {lean}, 0 cm)")


@pytest.mark.parametrize("lean", ["4 cm", "-3 cm", "10 cm"])
@pytest.mark.parametrize("side", ["pinked", "wide"])
def test_a_hem_matches_the_piece_once_it_is_turned_up(lean: str, side: str) -> None:
    """As far below the hem line as above it the cut piece is as wide, so that the turned-up edge fits."""
    kinds = [("lower", "turned"), ("ending", side), ("upper", "pinked"), ("opening", side)]
    piece = cut(sloping("", finishes(kinds), lean))
    for depth in (1.0, 8.0, 19.5):
        assert width_at(piece.cut_line, -depth) == near(width_at(piece.cut_line, depth), 0.01)
    assert extents(piece.cut_line)[2] == near(-20.0)


def test_a_hem_turned_twice_matches_layer_upon_layer() -> None:
    """15 mm turned up, 8 mm tucked in: a line 15 + s below comes to lie 15 - s above the hem line."""
    kinds = [("lower", "twice"), ("ending", "wide"), ("upper", "pinked"), ("opening", "pinked")]
    piece = cut(sloping("", finishes(kinds)))
    for depth in (2.0, 14.0):
        assert width_at(piece.cut_line, -depth) == near(width_at(piece.cut_line, depth), 0.01)
    for tucked in (1.0, 4.0, 7.5):
        assert width_at(piece.cut_line, -15.0 - tucked) == near(width_at(piece.cut_line, 15.0 - tucked), 0.01)
    assert extents(piece.cut_line)[2] == near(-23.0)


def test_a_hem_matches_a_curved_side() -> None:
    kinds = [("lower", "turned"), ("ending", "pinked"), ("upper", "pinked"), ("opening", "pinked")]
    text = sloping("", finishes(kinds)).replace("b -> c", "b -> c arc hollow 1 cm")
    piece = cut(text)
    for depth in (1.0, 10.0, 19.0):
        assert width_at(piece.cut_line, -depth) == near(width_at(piece.cut_line, depth), 0.1)


def test_a_hem_on_the_fold_ends_on_the_fold() -> None:
    kinds = [("lower", "turned"), ("ending", "pinked"), ("upper", "pinked")]
    text = panel(below=TYPES, finish=finishes(kinds)).replace("cut 1", "cut 1 on fold opening")
    piece = cut(text)
    assert extents(piece.cut_line) == [near(0.0), near(200.0), near(-20.0), near(300.0)]
    assert piece.cut_line.area == near(200.0 * 320.0)


def test_square_ends_of_a_seam_do_not_stick_out() -> None:
    """Ended square, the strip of a leaning seam stays beside its own stitching line."""
    kinds = [("lower", "wide"), ("upper", "wide"), ("opening", "pinked")]
    other = """piece other "Other" { cut 1; grain straight
  outline { slant : panel.ending; up : panel.c -> (30 cm, 30 cm); down : (30 cm, 30 cm) -> panel.b } }
finish other.up, other.down as pinked
"""
    for kind in ("joined", "ended"):
        text = sloping(f"{other}seam s joins panel.ending with other.slant as {kind}\n", finishes(kinds))
        text = text.replace("(30 cm, 30 cm)", "(40 cm, 15 cm)")
        piece = cut(text)
        (edge,) = [one for one in piece.edges if one.edge == "ending"]
        drawn = piece.drafted.edge("ending")
        assert drawn is not None
        along = [
            ((at - drawn.path.start) * (drawn.path.chord / drawn.path.length).conjugate()).real
            for at in (edge.path.start, edge.path.end)
        ]
        beyond = max(-min(along), max(along) - drawn.path.length)
        assert beyond > 0
        width = piece.uses["ending"].allowance
        across = [
            abs(((at - drawn.path.start) * (drawn.path.chord / drawn.path.length).conjugate()).imag)
            for at in (edge.path.start, edge.path.end)
        ]
        assert across == [near(width), near(width)]


@pytest.mark.parametrize(("allowance", "slugs"), [("9 cm", []), ("12 cm", ["allowance-too-tight"])])
def test_a_hollow_tighter_than_its_allowance_is_told(allowance: str, slugs: list[str]) -> None:
    """Outside a hollow of 10.05 cm radius lies the centre: there is no line 12 cm out."""
    below = TYPES + f'finish type vast "Vast" {{ allowance {allowance} }}\n'
    kinds = [("lower", "pinked"), ("ending", "pinked"), ("upper", "vast"), ("opening", "pinked")]
    text = panel(below=below, finish=finishes(kinds))
    text = text.replace("upper : c -> d", "upper : c -> d arc hollow radius 10.05 cm")
    assert [one.slug for one in found(text)] == slugs


def test_allowances_that_run_into_each_other_are_told() -> None:
    """A slot 2 cm wide has no room for two allowances of 3 cm."""
    text = f"""garment knot "Knot"
edition 1
piece panel "Panel" {{
  cut 1
  grain straight
  outline {{
    lower : (0 cm, 0 cm) -> (20 cm, 0 cm)
    ending : (20 cm, 0 cm) -> (20 cm, 30 cm)
    shoulder : (20 cm, 30 cm) -> (11 cm, 30 cm)
    down : (11 cm, 30 cm) -> (11 cm, 10 cm)
    across_slot : (11 cm, 10 cm) -> (9 cm, 10 cm)
    climb : (9 cm, 10 cm) -> (9 cm, 30 cm)
    collar : (9 cm, 30 cm) -> (0 cm, 30 cm)
    opening : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
}}
{TYPES}
finish panel.down, panel.climb as wide
finish panel.lower, panel.ending, panel.shoulder, panel.across_slot, panel.collar, panel.opening as pinked
"""
    told = found(text)
    assert len(told) == 1 and told[0].slug in ("allowance-self-crossing", "allowance-too-short", "allowance-no-meeting")


def test_no_allowance_is_negative_and_folds_use_it_up() -> None:
    kinds = [("lower", "LOWER"), ("ending", "pinked"), ("upper", "pinked"), ("opening", "pinked")]
    for lower, slug in {
        "wide { set allowance = -1 mm }": "negative-allowance",
        "turned { set allowance = 3 cm }": "folds-unlike-allowance",
        "turned { set hem = 0 mm }": "impossible-folds",
        "twice { set tuck = 16 mm }": "impossible-folds",
    }.items():
        told = found(panel(below=TYPES, finish=finishes(kinds).replace("LOWER", lower)))
        assert [one.slug for one in told] == [slug], lower


def test_checks_of_a_type_are_held_where_it_is_used() -> None:
    finish = "finish panel.lower as double_turned_hem { set tuck = 16 mm }\n"
    finish += "finish panel.ending, panel.upper, panel.opening as pinked\n"
    (fault,) = found(panel(finish=finish))
    assert fault.slug == "check-fails"
    assert fault.span.text.startswith("finish panel.lower")
    assert fault.notes == ("16 mm against 15 mm: 1 mm apart",)


def test_a_piece_and_its_mirror_image_have_one_cut_line() -> None:
    one = cut(panel())
    pair = cut(panel().replace("cut 1", "cut pair"))
    assert [edge.path for edge in one.edges] == [edge.path for edge in pair.edges]


def test_the_corner_limit_keeps_tips_short() -> None:
    """A tip of 20 degrees would carry its allowance almost six widths out; it is cut off before that."""
    text = f"""garment knot "Knot"
edition 1
piece panel "Panel" {{
  cut 1
  grain straight
  outline {{
    lower : (0 cm, 0 cm) -> (30 cm, 0 cm)
    ending : (30 cm, 0 cm) -> (0 cm, {30 * math.tan(math.radians(20)):.6f} cm)
    opening : (0 cm, {30 * math.tan(math.radians(20)):.6f} cm) -> (0 cm, 0 cm)
  }}
}}
{TYPES}
finish panel.lower, panel.ending, panel.opening as wide
"""
    left, right, _, _ = extents(cut(text).cut_line)
    assert left == near(-30.0)
    assert 330.0 < right < 300.0 + 30.0 / math.sin(math.radians(10)) - 1.0


@pytest.mark.parametrize("lean", ["0 mm", "2 cm", "-8 cm", "-5 mm", "-2 cm", "-4 cm", "-6 cm"])
def test_a_hem_that_runs_almost_straight_on_from_a_seam(lean: str) -> None:
    """An armhole hem above a side seam: the corner is nearly flat, so the allowances go on from one to the other."""
    text = f"""garment knot "Knot"
edition 1
piece panel "Panel" {{
  cut 1
  grain straight
  tip = (20 cm + {lean}, 35 cm)
  outline {{
    lower : (0 cm, 0 cm) -> (20 cm, 0 cm)
    ending : (20 cm, 0 cm) -> (20 cm, 15 cm)
    armhole : (20 cm, 15 cm) -> tip
    upper : tip -> (0 cm, 35 cm)
    opening : (0 cm, 35 cm) -> (0 cm, 0 cm)
  }}
}}
finish type side "Side" {{ allowance 16 mm }}
finish panel.ending as side
finish panel.armhole as double_turned_hem {{ set hem = 8 mm; set tuck = 6 mm }}
finish panel.lower, panel.upper, panel.opening as pinked
"""
    assert [one.headline for one in found(text)] == []
