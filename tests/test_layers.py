"""Imports go one way: a module may use its own folder and what stands before it in the list."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import garmentc

PACKAGE = Path(garmentc.__file__).parent
ORDER = [
    ("record",),
    ("source", "numbers", "shipped"),
    ("host", "spread"),
    ("git",),
    ("states", "doors", "aside"),
    ("geometry",),
    ("packing",),
    ("diagnostics",),
    ("reading",),
    ("syntax",),
    ("format",),
    ("data",),
    ("design",),
    ("draft",),
    ("assembly",),
    ("cloth",),
    ("grade",),
    ("comparison",),
    ("output",),
    ("pipeline",),
    ("laying",),
    ("api", "batch", "project", "watching"),
    ("cli",),
    ("__main__",),
]
RANK = {name: rank for rank, names in enumerate(ORDER) for name in names}
MODULES = sorted(PACKAGE.rglob("*.py"))


def imported(module: Path) -> set[str]:
    tree = ast.parse(module.read_text(encoding="utf-8"))
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
        elif isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
    return found


def home(module: Path) -> str:
    return module.relative_to(PACKAGE).parts[0].removesuffix(".py")


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_go_one_way(module: Path) -> None:
    if home(module) == "__init__":
        return
    for name in imported(module):
        if name.startswith("garmentc."):
            other = name.split(".")[1]
            assert other == home(module) or RANK[other] < RANK[home(module)], f"{module} imports {name}"


def test_geometry_knows_no_garment() -> None:
    for module in (PACKAGE / "geometry").glob("*.py"):
        others = {name for name in imported(module) if name.startswith("garmentc.")}
        assert all(name.startswith("garmentc.geometry") for name in others), module


def test_one_door_to_shapely_and_to_the_machine() -> None:
    users = {module.name for module in MODULES if any(name.split(".")[0] == "shapely" for name in imported(module))}
    assert users == {"region.py"}
    for module in MODULES:
        if module.name not in ("host.py", "shipped.py", "spread.py", "aside.py"):
            assert not imported(module) & {"os", "tempfile", "shutil", "time", "datetime"}, module
    users = {module.name for module in MODULES if "subprocess" in imported(module)}
    assert users == {"git.py"}


def test_modules_are_small() -> None:
    for module in MODULES:
        lines = len(module.read_text(encoding="utf-8").splitlines())
        assert lines <= 600, f"{module} has {lines} lines: is there a seam to cut along?"


def test_main_path_imports_nothing_heavy() -> None:
    program = (
        "import sys; from garmentc.cli.main import main;"
        "code = main(['build', 'specs/tern.garment', '--sizes', 'specs/sizes/women-en13402.yaml', '--out', sys.argv[1]]);"
        "print(code, sorted(m for m in ('scipy', 'numpy', 'shapely', 'pint', 'jsonschema', 'pydyf', 'uharfbuzz', 'ezdxf', 'lark', 'spyrrow', 'highspy') if m in sys.modules))"
    )
    import tempfile

    with tempfile.TemporaryDirectory() as out:
        done = subprocess.run(
            [sys.executable, "-c", program, out],
            cwd=PACKAGE.parent,
            capture_output=True,
            text=True,
            check=False,
        )
    assert done.stdout.strip() == "0 []", done.stdout + done.stderr


def test_top_level_holds_what_is_agreed() -> None:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=PACKAGE.parent, capture_output=True, text=True, check=False
    ).stdout.split()
    top = {name.split("/")[0] for name in listed if not name.startswith(".")}
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "garmentc", "grammar", "specs", "tests", "LICENSE"}
    assert top <= agreed
