"""Garments are kept up to date while their files are worked on."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest

from garmentc.cli import watch as module
from garmentc.cli.main import main
from garmentc.doors import Recorder
from garmentc.host import DiskHost
from garmentc.watching import Watched

Change = Callable[[], object]
ROOT = Path(__file__).parents[2]


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("tern.garment", "tern_tunic.garment"):
        shutil.copy(Path("specs") / name, tmp_path)
    shutil.copy("specs/bodies/ilse.yaml", tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def watch(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Callable[..., list[str]]:
    """Runs the command while changes are made one after the other; what it tells first, and after each of them."""

    def run(arguments: Iterable[str], *changes: Change) -> list[str]:
        told: list[str] = []

        def wakes(_: Iterable[str]) -> Iterator[object]:
            for change in changes:
                told.append(capsys.readouterr().err)
                change()
                yield object()
            told.append(capsys.readouterr().err)
            raise KeyboardInterrupt

        monkeypatch.setattr(module, "_wakes", wakes)
        assert main(["watch", *arguments]) == 0
        return told

    return run


def replace(path: Path, old: str, new: str) -> Change:
    def change() -> None:
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")

    return change


def stamps(folder: Path) -> dict[str, int]:
    return {str(path.relative_to(folder)): path.stat().st_mtime_ns for path in folder.rglob("*.*")}


def test_a_change_tells_what_moved_and_writes_only_what_is_new(project: Path, watch: Callable[..., list[str]]) -> None:
    spec, out = project / "tern.garment", project / "out"
    seen: list[dict[str, int]] = []
    first, _, changed, commented = watch(
        ["tern.garment", "--body", "ilse.yaml", "--out", "out", "--patterns-only"],
        lambda: seen.append(stamps(out)),
        replace(spec, "bust_girth = 4 cm", "bust_girth = 6 cm"),
        lambda: (seen.append(stamps(out)), replace(spec, "edition 1", "edition 1 # the first")()),
    )
    assert "1 size in" in first
    assert "watching" in first
    assert "set: ease.bust_girth 40.0 to 60.0 mm" in changed
    new = {name for name in seen[1] if seen[1][name] != seen[0][name]}
    assert {"Ilse/front.svg", "Ilse/all-pieces.svg"} <= new
    assert "Ilse/strap.svg" not in new
    assert "0 of 5 files" in commented
    assert "the same garment, written differently" in commented
    assert stamps(out) == seen[1]


def test_an_error_leaves_the_last_good_state(project: Path, watch: Callable[..., list[str]]) -> None:
    spec, out = project / "tern.garment", project / "out"
    seen: list[dict[str, int]] = []
    _, _, broken, mended = watch(
        ["tern.garment", "--body", "ilse.yaml", "--out", "out", "--patterns-only"],
        lambda: seen.append(stamps(out)),
        replace(spec, "down side_length", "down side_lenght"),
        lambda: (seen.append(stamps(out)), replace(spec, "side_lenght", "side_length + 1 mm")()),
    )
    assert "unknown-name" in broken
    assert "out stays as it was" in broken
    assert seen[0] == seen[1]
    assert "side +1.0 mm" in mended


def test_everything_that_is_read_is_watched(project: Path, watch: Callable[..., list[str]]) -> None:
    _, base, body, gone, back = watch(
        ["tern.garment", "tern_tunic.garment", "--body", "ilse.yaml"],
        replace(project / "tern.garment", "facing_depth = 4 cm", "facing_depth = 5 cm"),
        replace(project / "ilse.yaml", "84.5 cm", "86 cm"),
        lambda: (project / "ilse.yaml").rename(project / "away.yaml"),
        lambda: (project / "away.yaml").rename(project / "ilse.yaml"),
    )
    for told in (base, body):
        assert "tern.garment: 1 size" in told
        assert "tern_tunic.garment: 1 size" in told
    assert "facing_depth" in base
    assert "bust" in body
    assert gone.count("file-unreadable") == 4  # of both garments, each with its page
    assert back.count("not changed") == 2


def test_only_the_garment_concerned_is_compiled(project: Path, watch: Callable[..., list[str]]) -> None:
    _, told, nothing = watch(
        ["tern.garment", "tern_tunic.garment", "--body", "ilse.yaml"],
        replace(project / "tern_tunic.garment", "34 cm", "33 cm"),
        lambda: None,
    )
    assert "tern.garment: 1 size" not in told
    assert "tern_tunic.garment: 1 size" in told
    assert nothing == ""


def test_folders_of_new_files_are_watched_too(
    project: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    asked: list[list[str]] = []

    def wakes(folders: Iterable[str]) -> Iterator[object]:
        asked.append(list(folders))
        if len(asked) == 2:
            raise KeyboardInterrupt
        replace(project / "tern_tunic.garment", '"tern.garment"', '"base/tern.garment"')()
        yield object()

    monkeypatch.setattr(module, "_wakes", wakes)
    assert main(["watch", "tern_tunic.garment", "--body", "ilse.yaml"]) == 0
    assert asked == [["."], [".", "base"]]
    assert "file-unreadable" in capsys.readouterr().err


def test_a_fault_of_the_compiler_does_not_end_it(
    project: Path, watch: Callable[..., list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: object) -> None:
        raise ZeroDivisionError("no way")

    real = Watched.round
    _, broken, back = watch(
        ["tern.garment", "--body", "ilse.yaml"],
        lambda: (monkeypatch.setattr(Watched, "round", fail), replace(project / "ilse.yaml", "84.5", "85")()),
        lambda: monkeypatch.setattr(Watched, "round", real),
    )
    assert "fault of garmentc: ZeroDivisionError: no way" in broken
    assert "1 size" in back


def test_wrong_use(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["watch", "tern.garment", "--only", "88"]) == 2
    assert "--sizes" in capsys.readouterr().err


def test_a_save_wakes(tmp_path: Path) -> None:
    spec = tmp_path / "tern.garment"
    spec.write_text("one", encoding="utf-8")
    recorder = Recorder(DiskHost())
    recorder.read(str(spec))
    wakes = module._wakes([str(tmp_path), str(tmp_path / "none")])
    save = threading.Timer(0.05, spec.write_text, ["two"])
    save.start()
    next(wakes)
    save.join()
    assert recorder.is_stale()


def test_a_large_file_is_not_always_stale(tmp_path: Path) -> None:
    large = tmp_path / "large"
    large.write_bytes(b"#" * 5000)
    recorder = Recorder(DiskHost())
    recorder.read(str(large), 100)
    assert not recorder.is_stale()


def test_the_workshop_is_followed_when_it_comes_changes_and_goes(
    project: Path, watch: Callable[..., list[str]]
) -> None:
    workshop, label = project / "workshop.yaml", project / "out/Ilse/all-pieces.svg"
    seen: list[str] = []

    def then(change: Change) -> Change:
        return lambda: (seen.append(label.read_text("utf-8")), change())

    _, come, worse, better, _ = watch(
        ["tern.garment", "--body", "ilse.yaml", "--out", "out", "--patterns-only"],
        then(lambda: workshop.write_text('workshop: "Estuary"\nunit: inch\n', encoding="utf-8")),
        then(lambda: workshop.write_text('workshop: "Estuary"\nunit: ells\n', encoding="utf-8")),
        then(lambda: workshop.write_text('workshop: "Estuary"\nunit: cm\n', encoding="utf-8")),
        then(workshop.unlink),
    )
    assert "files new or changed" in come
    assert "ells" in worse
    assert "files new or changed" in better
    seen.append(label.read_text("utf-8"))
    cm, inch, kept, again, gone = seen
    assert cm == again == gone
    assert inch == kept != cm


def test_kept_plans_are_verified_when_the_garment_the_cloth_or_the_plan_changes(
    project: Path, watch: Callable[..., list[str]]
) -> None:
    (project / "stock").mkdir()
    shutil.copy(ROOT / "specs/cloth/ebb.yaml", project / "stock")
    assert main(["lay", "tern.garment", "--body", "ilse.yaml", "--cloth", "stock:ebb"]) == 0
    plan, cloth = project / "tern-Ilse-ebb.plan.yaml", project / "stock/ebb.yaml"
    kept = plan.read_text("utf-8")
    first, grown, back, small, moved = watch(
        ["tern.garment", "--body", "ilse.yaml", "--cloth", "stock:ebb"],
        replace(project / "tern.garment", "side_length = 16 cm", "side_length = 22 cm"),
        replace(project / "tern.garment", "side_length = 22 cm", "side_length = 16 cm"),
        replace(cloth, "square: 90 cm", "square: 70 cm"),
        lambda: (
            cloth.write_text(cloth.read_text("utf-8").replace("70 cm", "90 cm"), encoding="utf-8"),
            plan.write_text(kept.replace("piece: front, at: [", "piece: front, at: [1"), encoding="utf-8"),
        ),
    )
    assert "on ebb: the kept plan holds" in first
    assert "can't be cut any more" in grown
    assert "on ebb: the kept plan holds" in back
    assert "can't be cut any more" in small
    assert "can't be cut any more" in moved
