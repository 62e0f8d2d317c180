"""Everything that the reckoner can be asked, by groups: by its name, and read with its file when it is asked for.

Who answers is imported when something is asked, and not before.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module
from typing import Final

from tui.reckoner.question import Question

_FILES: Final[dict[str, dict[str, tuple[str, ...]]]] = {
    "heat": {"heat": ("cooling", "soak", "glow", "thermocouple")},
    "steel": {"steel": ("steel", "carbon", "scale", "skin", "temper")},
    "stock": {
        "stock": ("weight", "draw", "stock"),
        "billets": ("layers", "twist", "composite", "laminate", "notch", "wander"),
    },
    "bench": {"bench": ("squeeze", "heats", "forged", "bevels", "profile")},
}
"""By group, the files beside this one and the questions in each, where the question "cooling" is called COOLING."""

GROUPS: Final[dict[str, tuple[str, ...]]] = {
    group: tuple(name for names in files.values() for name in names) for group, files in _FILES.items()
}
"""The names of the questions by what they are about, in the order in which they are shown."""


class _Questions(Mapping[str, Question]):
    """Questions by their names; one is not read before it is looked up."""

    def __init__(self) -> None:
        self._files = {name: file for files in _FILES.values() for file, names in files.items() for name in names}

    def __getitem__(self, name: str) -> Question:
        found: Question = getattr(import_module(f"{__name__}.{self._files[name]}"), name.upper())
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)


QUESTIONS: Final[Mapping[str, Question]] = _Questions()
"""Every question by its name."""
