"""garmentc, a compiler for garments: drafting rules in, true-scale patterns and sewing sheets out.

``load``, ``check``, ``build`` and ``compare`` are the whole of it for other programs; ``garmentc/api.py`` says what
they take and give. They are loaded when first asked for, so that the command starts without them.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from garmentc.api import Built, Checked, Compared, Garment, Person, build, check, compare, load

__version__ = "0.1.0"
__all__ = ["Built", "Checked", "Compared", "Garment", "Person", "__version__", "build", "check", "compare", "load"]


def __getattr__(name: str) -> Any:
    if name in __all__:
        from garmentc import api

        return getattr(api, name)
    raise AttributeError(f"module 'garmentc' has no attribute '{name}'")


def __dir__() -> list[str]:
    return __all__
