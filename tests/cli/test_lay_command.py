"""Plans as they are written: read again from their drawings, and tested by shapely alone."""

from __future__ import annotations

import re
import shutil
from itertools import combinations
from pathlib import Path

import pytest
import shapely
from shapely.geometry import Polygon

from garmentc.cli.main import main
from tests.output.test_patterns import elements, sampled

ROOT = Path(__file__).parents[2]
NEAR = 0.1  # mm


@pytest.fixture(autouse=True)
def studio(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """The specs of the studio, where plans may be kept."""
    shutil.copytree(ROOT / "specs", tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(garment: str, cloth: str, size: str = "88", *more: str) -> int:
    stock = cloth if ":" in cloth or cloth.endswith(".yaml") else f"specs/cloth:{cloth}"
    chart = ("--sizes", "specs/sizes/women-en13402.yaml", "--size", size)
    return main(["lay", f"specs/{garment}.garment", *chart, "--cloth", stock, "--out", "out", *more])


def polygons(size: str, cloth: str) -> dict[str, Polygon]:
    """The shapes of a true-scale drawing, in its own coordinates (mm, y down)."""
    data = Path("out", size, cloth, "plan.svg").read_bytes()
    found = {}
    for one in elements(data):
        if one.has("cut"):
            (ring,) = sampled(one.attributes["d"])
            found[one.attributes["data-piece"]] = Polygon([(p.real, p.imag) for p in ring])
    return found


def sides(size: str, cloth: str) -> Polygon:
    """The cloth of a drawing, by the lines of its sides."""
    data = Path("out", size, cloth, "plan.svg").read_bytes()
    lines = [one for one in elements(data) if one.attributes.get("data-piece") == "cloth"]
    rings = [sampled(one.attributes["d"])[0] for one in lines if one.tag == "path" and one.attributes.get("data-edge")]
    return Polygon([(p.real, p.imag) for ring in rings for p in ring[:-1]])


def assert_can_be_cut(size: str, cloth: str) -> None:
    shapes = polygons(size, cloth)
    whole = sides(size, cloth).buffer(NEAR)
    for name, shape in shapes.items():
        assert shape.is_valid, name
        assert whole.contains(shape), name
    for (one, first), (other, second) in combinations(shapes.items(), 2):
        assert first.buffer(-NEAR / 2).intersection(second.buffer(-NEAR / 2)).area == pytest.approx(0, abs=1e-6), (
            one,
            other,
        )


@pytest.mark.parametrize("size", ["76", "80", "84", "88", "92", "96", "100"])
def test_tern_lies_on_a_square_of_90_cm_with_its_hem_points_on_corners(size: str) -> None:
    assert run("tern", "ebb", size) == 0
    assert_can_be_cut(size, "ebb")
    cloth = sides(size, "ebb")
    x0, y0, x1, y1 = cloth.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((900, 900), abs=0.01)
    shapes = polygons(size, "ebb")
    assert set(shapes) == {"front", "back", "back_facing", "strap-1", "strap-2"}
    corners = shapely.MultiPoint([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    for name in ("front", "back"):
        assert shapely.MultiPoint(shapes[name].exterior.coords).distance(corners) < NEAR


@pytest.mark.parametrize(
    ("garment", "cloth"),
    [("heron", "slack_water"), ("plover", "causeway"), ("avocet", "spring_tide"), ("curlew", "half_moon")],
)
def test_each_garment_lies_on_a_cloth_of_the_stock(garment: str, cloth: str) -> None:
    assert run(garment, cloth) == 0
    assert_can_be_cut("88", cloth)


@pytest.mark.parametrize(
    ("wide", "high", "fits"), [(60, 67.2, True), (60, 67.4, False), (100, 27.2, True), (30, 97.4, False)]
)
def test_a_rectangle_lies_on_the_bias_of_a_square_exactly_if_its_sides_are_short_enough(
    wide: float, high: float, fits: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    # Elementary geometry: w + h <= s times the square root of 2; here s is 90 cm, so 127.28 cm.
    Path("rag.yaml").write_text('cloth: "Rag"\noutline: {square: 90 cm}\nsides: alike\n', encoding="utf-8")
    Path("specs/kerchief.garment").write_text(
        'garment kerchief "Kerchief"\nedition 1\npiece cloth "Cloth" {\n  cut 1\n  grain bias\n  outline {\n'
        f"    a : (0 cm, 0 cm) -> ({wide} cm, 0 cm)\n    b : ({wide} cm, 0 cm) -> ({wide} cm, {high} cm)\n"
        f"    c : ({wide} cm, {high} cm) -> (0 cm, {high} cm)\n    d : (0 cm, {high} cm) -> (0 cm, 0 cm)\n  }}\n}}\n"
        "finish cloth.a, cloth.b, cloth.c, cloth.d as overedged\n"
        "lay cloth { grain bias within 0 deg }\n",
        encoding="utf-8",
    )
    body = "specs/bodies/maren.yaml"
    command = ["lay", "specs/kerchief.garment", "--body", body, "--cloth", "rag.yaml", "--limit", "5", "--out", "out"]
    assert main(command) == (0 if fits else 1)
    told = capsys.readouterr().err
    assert "a plan was found" in told if fits else "does-not-fit" in told


def test_a_kept_plan_is_used_again_and_gives_the_same_files(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tern", "ebb") == 0
    kept = Path("specs/tern-88-ebb.plan.yaml")
    first = kept.read_bytes(), Path("out/88/ebb/plan.svg").read_bytes()
    capsys.readouterr()
    assert run("tern", "ebb", "88", "--seed", "7") == 0
    assert "holds" in capsys.readouterr().err
    assert (kept.read_bytes(), Path("out/88/ebb/plan.svg").read_bytes()) == first


def test_a_pinned_piece_stays_and_the_rest_is_found_anew(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tern", "ebb") == 0
    kept = Path("specs/tern-88-ebb.plan.yaml")
    moved = re.sub(
        r"\{piece: strap 1.*\}", "{piece: strap 1, at: [1, 12], turn: 0, place: pinned}", kept.read_text("utf-8")
    )
    kept.write_text(moved, encoding="utf-8")
    assert run("tern", "ebb") in (0, 1)  # 1 where something else lay there: it is told, and laid elsewhere
    assert "piece: strap 1, at: [1, 12], turn: 0, place: pinned" in kept.read_text("utf-8")
    assert_can_be_cut("88", "ebb")


def test_a_pinned_piece_off_the_cloth_is_told_at_its_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tern", "ebb") == 0
    kept = Path("specs/tern-88-ebb.plan.yaml")
    text = re.sub(
        r"\{piece: strap 1.*\}", "{piece: strap 1, at: [89, 2], turn: 0, place: pinned}", kept.read_text("utf-8")
    )
    kept.write_text(text, encoding="utf-8")
    before = Path("out/88/ebb/plan.svg").read_bytes()
    capsys.readouterr()
    assert run("tern", "ebb", "88", "--format", "plain") == 1
    line = next(i for i, one in enumerate(text.splitlines(), 1) if "strap 1" in one)
    assert f"tern-88-ebb.plan.yaml:{line}:" in capsys.readouterr().out
    assert kept.read_text("utf-8") == text
    assert Path("out/88/ebb/plan.svg").read_bytes() == before


def test_an_entry_of_no_piece_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tern", "ebb") == 0
    kept = Path("specs/tern-88-ebb.plan.yaml")
    kept.write_text(kept.read_text("utf-8").replace("piece: front,", "piece: frnt,"), encoding="utf-8")
    capsys.readouterr()
    assert run("tern", "ebb", "88", "--format", "plain") == 1
    told = capsys.readouterr().out
    assert "nothing called `frnt` is cut from this cloth" in told
    assert "`front`" in told
    assert "Front lies nowhere" in told


def test_what_can_not_be_is_told_and_nothing_is_written(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tern", "ebb", "128") == 1
    assert "does-not-fit" in capsys.readouterr().err
    assert not Path("out").exists()
    assert not list(Path("specs").glob("*.plan.yaml"))


def test_the_page_says_where_each_piece_lies(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tern", "ebb") == 0
    page = Path("out/88/ebb/plan.md").read_text("utf-8")
    rows = dict(re.findall(r"^\| (\w+) \| [\w ]+ \| ([\d.]+ cm \| [\d.]+ cm) \|$", page, re.MULTILINE))
    cloth = sides("88", "ebb")
    x0, _, _, y1 = cloth.bounds
    points = [tuple(float(one.removesuffix(" cm")) * 10 for one in pair.split(" | ")) for pair in rows.values()]
    assert len(points) == 10
    shapes = [shape.exterior for shape in polygons("88", "ebb").values()]
    for across, up in points:  # each is a corner of a shape, to the millimetre that a tape shows
        at = shapely.Point(x0 + across, y1 - up)
        assert min(shape.distance(at) for shape in shapes) < 0.75


def test_a_round_cloth_is_measured_from_two_pins() -> None:
    assert run("curlew", "skerry") == 0
    assert_can_be_cut("88", "skerry")
    page = Path("out/88/skerry/plan.md").read_text("utf-8")
    assert "From pin P" in page
    assert "180 cm apart" in page


def test_lengths_are_in_inches_if_asked() -> None:
    assert run("tern", "ebb", "88", "--unit", "inch") == 0
    page = Path("out/88/ebb/plan.md").read_text("utf-8")
    assert "35 7/16 in" in page
    assert not re.search(r"\d (cm|mm)\b", page)


def test_a_photo_lies_under_the_plan_by_its_two_points(capsys: pytest.CaptureFixture[str]) -> None:
    (Path("specs/cloth") / "ebb.png").write_bytes(
        bytes.fromhex(
            "89504e470d0a1a0a0000000d4948445200000002000000020100000000d5a4a8bf0000000c4944415408d76368606000"
            "0001840081b5b1a4fb0000000049454e44ae426082"
        )
    )
    cloth = Path("specs/cloth/ebb.yaml")
    pins = "points: [{pixel: [0, 2], at: [0, 0]}, {pixel: [2, 2], at: [90, 0]}]"
    cloth.write_text(cloth.read_text("utf-8") + f"photo: {{file: ebb.png, {pins}}}\n", encoding="utf-8")
    assert run("tern", "ebb") == 0
    svg = Path("out/88/ebb/plan.svg").read_text("utf-8")
    matrix = [float(one) for one in re.search(r'matrix\(([^)]*)\)" opacity', svg)[1].split()]  # type: ignore[index]
    assert matrix[:4] == pytest.approx([450, 0, 0, 450])
    x0, y0, _, y1 = sides("88", "ebb").bounds
    assert (matrix[4], matrix[5] + 900) == pytest.approx((x0, y1), abs=0.01)  # the upper left corner of the photo
    assert matrix[5] == pytest.approx(y0, abs=0.01)
    Path("specs/cloth/ebb.png").unlink()
    capsys.readouterr()
    assert run("tern", "ebb") == 0
    assert "without its photo ebb.png" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--body", "specs/bodies/maren.yaml", "--cloth", "lining=specs/cloth:ebb"], "where NAME is one of main"),
        (["--sizes", "specs/sizes/women-en13402.yaml", "--cloth", "specs/cloth:ebb"], "--size and --sizes together"),
        (["--body", "specs/bodies/maren.yaml", "--cloth", "specs/cloth:eb"], "specs/cloth/eb.yaml"),
    ],
)
def test_wrong_use_is_told(options: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lay", "specs/tern.garment", *options]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("folded", [False, True])
def test_plans_of_cloth_by_the_metre_are_drawn(folded: bool) -> None:
    chart = ("--sizes", "specs/sizes/women-en13402.yaml", "--only", "88")
    how = ("--width", "140 cm", "--limit", "1", *(["--folded"] if folded else []))
    assert (
        main(["by-metre", "specs/avocet.garment", *chart, *how, "--out", "need.csv", "--draw", "out", "--as", "csv"])
        == 0
    )
    drawn = sorted(str(path.parent.relative_to("out/88")) for path in Path("out/88").rglob("plan.svg"))
    assert drawn in ([["."]] if not folded else [["."], ["stretch-1", "stretch-2"]])
    for below in drawn:
        assert_can_be_cut("88", below)
    _, y0, _, y1 = sides("88", drawn[0]).bounds
    assert y1 - y0 == pytest.approx(700 if folded else 1400, abs=0.01)
    page = Path("out/88", drawn[0], "plan.md").read_text("utf-8")
    assert ("Fold it lengthwise in half" in page) is folded
    assert ("its fold on the fold of the cloth" in page) is folded


def test_no_time_gives_no_plan_that_is_not_verified(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("avocet", "spring_tide", "88", "--limit", "0.01") == 1
    assert "no-plan-found" in capsys.readouterr().err
    assert not list(Path("specs").glob("*.plan.yaml"))
