"""``python -m garmentc`` is the same as ``garmentc``."""

import sys

from garmentc.cli.main import start

sys.exit(start())
