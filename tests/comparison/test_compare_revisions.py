"""Comparing with what git keeps: everything of a side comes from its revision, and nothing on disk is touched."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from garmentc.cli.main import main
from garmentc.git import GitHost, NoRevision, split_revision
from garmentc.host import DiskHost
from tests.comparison.small import DUNLIN, changed

CHART = str(Path("specs/sizes/women-en13402.yaml").resolve())
SIZES = ["--sizes", CHART, "--only", "84"]
LONG = 'garment stint "Stint, a long bib" varies "dunlin.garment"\nedition 1\nset ease.bust_girth = 6 cm\n'


def git(folder: Path, *words: str) -> str:
    who = ["-c", "user.name=maker", "-c", "user.email=maker@example.org", "-c", "commit.gpgsign=false"]
    done = subprocess.run(["git", "-C", str(folder), *who, *words], capture_output=True, text=True, check=True)
    return done.stdout


@pytest.fixture(scope="module")
def repository(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three commits of a bib 30, 32 and 33 cm deep with a variant of it; on disk the bib is 35 cm deep."""
    folder = tmp_path_factory.mktemp("studio")
    (folder / "specs").mkdir()
    bib, stint = folder / "specs" / "dunlin.garment", folder / "specs" / "stint.garment"
    git(folder, "init", "-q")
    stint.write_text(LONG, encoding="utf-8")
    for deep in (30, 32, 33):
        text = changed(("deep = 30 cm", f"deep = {deep} cm"))
        bib.write_text(text, encoding="utf-8")
        (folder / "top.garment").write_text(text, encoding="utf-8")
        git(folder, "add", "-A")
        git(folder, "commit", "-q", "-m", f"The bib {deep} cm deep")
    git(folder, "tag", "first", "HEAD~2")
    bib.write_text(changed(("deep = 30 cm", "deep = 34 cm")), encoding="utf-8")
    git(folder, "add", "-A")
    bib.write_text(changed(("deep = 30 cm", "deep = 35 cm")), encoding="utf-8")
    return folder


@pytest.fixture
def here(repository: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(repository)
    return repository


@pytest.mark.parametrize(
    ("old", "new", "depths"),
    [
        ("HEAD~1", "specs/dunlin.garment", "320.0 to 350.0"),
        ("HEAD~1:specs/dunlin.garment", "specs/dunlin.garment", "320.0 to 350.0"),
        ("first", "HEAD~1:specs/dunlin.garment", "300.0 to 320.0"),
        ("HEAD~1:specs/dunlin.garment", "HEAD", "320.0 to 330.0"),
        ("specs/dunlin.garment", "first", "350.0 to 300.0"),
        ("HEAD", ":specs/dunlin.garment", "330.0 to 340.0"),
        ("HEAD~2:./top.garment", "./specs/../top.garment", "300.0 to 330.0"),
        ("HEAD~1:top.garment", "specs/dunlin.garment", "320.0 to 350.0"),
        ("first", "specs/stint.garment", "300.0 to 350.0"),
    ],
)
@pytest.mark.usefixtures("here")
def test_each_side_is_read_from_its_revision(
    old: str, new: str, depths: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", old, new, *SIZES]) == 1
    assert f"bib.side: {depths} mm" in capsys.readouterr().out


def test_paths_are_seen_from_where_one_stands(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(here / "specs")
    assert main(["compare", "HEAD:dunlin.garment", "dunlin.garment", *SIZES]) == 1
    assert main(["compare", "HEAD:../top.garment", "HEAD~1", *SIZES]) == 1
    monkeypatch.chdir(here.parent)
    name = f"{here.name}/specs/dunlin.garment"
    assert main(["compare", f"HEAD:{name}", name, *SIZES]) == 1
    assert main(["compare", "HEAD", str(here / "specs" / "dunlin.garment"), *SIZES]) == 1
    out = capsys.readouterr().out
    assert out.count("bib.side: 330.0 to 350.0 mm") == 3
    assert out.count("bib.side: 330.0 to 320.0 mm") == 1


def test_the_repository_is_left_as_it_was(here: Path) -> None:
    def state() -> dict[str, tuple[bytes, int]]:
        return {str(one): (one.read_bytes(), one.stat().st_mtime_ns) for one in here.rglob("*") if one.is_file()}

    before = state()
    assert main(["compare", "HEAD~1", "specs/stint.garment", *SIZES]) == 1
    assert main(["compare", "HEAD~1", ":specs/stint.garment", *SIZES]) == 1
    assert state() == before


@pytest.mark.usefixtures("here")
def test_what_git_does_not_have(capsys: pytest.CaptureFixture[str]) -> None:
    for old, new, told in (
        ("HEAD~9", "specs/dunlin.garment", "'HEAD~9' is no revision"),
        ("--output=x:specs/dunlin.garment", "specs/dunlin.garment", "is no revision"),
        ("HEAD~1", "HEAD", "which file is meant?"),
        ("HEAD:specs/redshank.garment", "HEAD", "there is no such file in revision HEAD"),
        (":specs/redshank.garment", "HEAD", "among what is staged"),
        ("HEAD:specs", "specs/dunlin.garment", "there is no such file"),
        ("HEAD:../elsewhere.garment", "specs/dunlin.garment", "repository"),
    ):
        words = [old, new] if not old.startswith("-") else ["--", old, new]
        assert main(["compare", *SIZES, *words]) == 2, (old, new)
        shown = capsys.readouterr()
        assert told in shown.err, (old, new, shown.err)
        assert shown.out == ""


def test_no_repository_and_no_git(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spec = tmp_path / "dunlin.garment"
    spec.write_text(DUNLIN, encoding="utf-8")
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    with pytest.raises(NoRevision, match="not a git repository"):
        GitHost(DiskHost(), "HEAD", str(spec))
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(NoRevision, match="git can't be run"):
        GitHost(DiskHost(), "HEAD", str(spec))


def test_findings_name_the_revision(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bib = here / "specs" / "dunlin.garment"
    kept = bib.read_text(encoding="utf-8")
    bib.write_text(changed(("wide, 0 cm", "wid, 0 cm")), encoding="utf-8")
    git(here, "stash", "create")
    broken = git(here, "stash", "create").strip()
    bib.write_text(kept, encoding="utf-8")
    assert main(["compare", f"{broken}:specs/dunlin.garment", "specs/dunlin.garment", *SIZES]) == 2
    assert f"{broken}:specs/dunlin.garment:14:" in capsys.readouterr().err


def test_what_is_a_revision() -> None:
    assert split_revision("HEAD~1:specs/tern.garment") == ("HEAD~1", "specs/tern.garment")
    assert split_revision(":specs/tern.garment") == ("", "specs/tern.garment")
    assert split_revision(":/the bib:tern.garment") == (":/the bib", "tern.garment")
    for on_disk in (
        "specs/tern.garment",
        "./odd:name.garment",
        "/odd:name.garment",
        "C:\\specs\\tern.garment",
        "HEAD:",
    ):
        assert split_revision(on_disk) is None
