"""``garmentc new``."""

from __future__ import annotations

import shlex
import sys
from argparse import Namespace
from pathlib import PurePath

from garmentc.cli.codes import CLEAN, FAULT
from garmentc.host import Host
from garmentc.output.write import write_files
from garmentc.project import Wishes, garment_name, project_files


def new_command(host: Host, options: Namespace) -> int:
    """Start a project in a folder, unless a file of it is there already; nothing is ever overwritten."""
    folder = PurePath(options.name)
    try:
        name = garment_name(folder.name)
        title = options.title or name.replace("_", " ").capitalize()
        paper = options.paper or ("letter" if options.unit == "inch" else "a4")
        wishes = Wishes(name, title, options.maker or "", options.unit, paper, options.language)
        files = project_files(host, wishes)
    except ValueError as fault:
        print(f"garmentc: {fault}", file=sys.stderr)
        return FAULT
    taken = [path for path, _ in files if _is_there(host, str(folder / path))]
    if taken:
        shown = ", ".join(taken[:3]) + (f" and {len(taken) - 3} more" if len(taken) > 3 else "")
        told = f"nothing written: {shown} in '{folder}' would be overwritten; choose another name"
        print(f"garmentc: {told}", file=sys.stderr)
        return FAULT
    try:
        write_files(host, str(folder), files)
    except OSError as fault:
        print(f"garmentc: can't write below '{folder}': {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    print(_WORDS.format(folder=folder, name=name, quoted=shlex.quote(str(folder))), end="")
    return CLEAN


_WORDS = """\
{folder} is ready. To see the first page:

  cd {quoted}
  garmentc print {name}.garment --only 88 --out {name}.pdf

Then fill in bodies/me.yaml, change {name}.garment, and read README.md there.
"""


def _is_there(host: Host, path: str) -> bool:
    try:
        host.read(path, 1)
    except FileNotFoundError:
        return False
    except OSError:
        return True
    return True
