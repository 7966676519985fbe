"""Where the files that travel with the compiler lie, in a checkout and in an installed wheel alike."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).parent


def grammar_file(name: str) -> str:
    """Path of a file of the ``grammar`` folder (the wheel carries it inside the package)."""
    inside = _PACKAGE / "grammar" / name
    return str(inside if inside.exists() else _PACKAGE.parent / "grammar" / name)


def sizes_file(name: str) -> str:
    """Path of a size chart of the ``specs`` folder (the wheel carries it inside the package)."""
    inside = _PACKAGE / "specs" / "sizes" / name
    return str(inside if inside.exists() else _PACKAGE.parent / "specs" / "sizes" / name)


def library_file(name: str) -> str:
    """Path of a file of the shipped library."""
    return str(_PACKAGE / "library" / name)


def page_file(slug: str) -> str:
    """Path of the page that explains a finding."""
    return str(_PACKAGE / "diagnostics" / "pages" / f"{slug}.md")


def page_slugs() -> list[str]:
    """All slugs that have a page, sorted."""
    return sorted(page.stem for page in (_PACKAGE / "diagnostics" / "pages").glob("*.md"))


def library_names(folder: str) -> list[str]:
    """The names of the ``.garment`` files in a folder of the shipped library, sorted."""
    return sorted(file.stem for file in (_PACKAGE / "library" / folder).glob("*.garment"))


def is_shipped(path: str) -> bool:
    """Whether a path is that of a file that travels with the compiler."""
    folders = (_PACKAGE / "library", _PACKAGE / "grammar", _PACKAGE.parent / "grammar")
    return ".." not in Path(path).parts and any(folder in Path(path).parents for folder in folders)


def program_mark() -> str:
    """Tells this state of the compiler and its library from any other on this machine: when its files were changed."""
    from hashlib import sha256

    folders = (_PACKAGE, Path(grammar_file("")))
    files = sorted(file for folder in folders for file in folder.rglob("*") if file.suffix not in ("", ".pyc"))
    facts = [f"{file} {file.stat().st_size} {file.stat().st_mtime_ns}" for file in files]
    return sha256("\n".join(facts).encode()).hexdigest()
