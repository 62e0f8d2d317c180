"""The front of a package: the names that others may use, each loaded when it is first asked for.

A package's `__init__` lists them once, as imports that only type checkers and import linters read:

    if TYPE_CHECKING:
        from plans.sitting.engine import Sitting as Sitting
    else:
        __getattr__ = hand_on(__name__)

Loading all of them at once would be simpler, but the engine alone takes 90 ms to import, and settings that name two
constants beside it are read before the first screen.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from functools import cache
from importlib import import_module
from typing import Any, Final

_IMPORTS: Final = re.compile(r"from (\S+) import (\([^)]*\)|[^\n]+)")
_NAMES: Final = re.compile(r"(\w+) as \w+")


def hand_on(package: str) -> Callable[[str], Any]:
    """The `__getattr__` of a package's front.

    Args:
        package: its `__name__`

    Returns:
        a function from a name to what it stands for; it raises AttributeError for a name that the front does not list
    """

    def attribute(name: str) -> Any:
        module = names_of(package).get(name)
        if module is None:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        value = getattr(import_module(module), name)
        setattr(sys.modules[package], name, value)
        return value

    return attribute


@cache
def names_of(package: str) -> dict[str, str]:
    """The names that a package's front lists, each with the module that it comes from."""
    spec = sys.modules[package].__spec__
    source = spec.loader.get_source(package) if spec is not None else ""  # type: ignore[union-attr]
    listed = (source or "").partition("if TYPE_CHECKING:")[2].partition("\nelse:")[0]
    return {name: module for module, names in _IMPORTS.findall(listed) for name in _NAMES.findall(names)}
