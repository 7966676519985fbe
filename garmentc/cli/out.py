"""Where the one file or text of a command goes."""

from __future__ import annotations

import sys
from argparse import Namespace

from garmentc.host import Host


def write_file(host: Host, path: str, data: bytes) -> bool:
    """Write a file; False, and said so, when that can't be done."""
    try:
        host.write(path, data)
    except OSError as fault:
        print(f"garmentc: can't write '{path}': {fault.strerror or fault}", file=sys.stderr)
        return False
    return True


def show(host: Host, options: Namespace, text: str) -> bool:
    """Write a text to the file of ``--out``, else to standard output; False, and said so, when that can't be done."""
    if options.out is not None:
        return write_file(host, options.out, text.encode())
    sys.stdout.write(text)
    return True
