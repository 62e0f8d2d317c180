"""What the copies of a plan are called: as the plan is, with a number behind its name and its title."""

from __future__ import annotations

import re
from typing import Final

NUMBERED_NAME: Final = re.compile(r"(.+?)-([2-9]|[1-9]\d)")
"""The name of a copy: that of the plan, and its number."""
_NUMBERED_TITLE: Final = re.compile(r"(.+), \d+")


def is_copy_of(name: str, plan: str) -> bool:
    """Whether a plan is called as another or as a copy of it, by their names."""
    return _without(NUMBERED_NAME, name) == _without(NUMBERED_NAME, plan)


def is_titled_as(title: str, plan: str) -> bool:
    """Whether a plan has the title of another or of a copy of it: "A knife, 2" has that of "A knife"."""
    return _without(_NUMBERED_TITLE, title) == _without(_NUMBERED_TITLE, plan)


def _without(numbered: re.Pattern[str], text: str) -> str:
    found = numbered.fullmatch(text)
    return found[1] if found else text
