"""What a person can mend about a question to the reckoner."""

from __future__ import annotations

from collections.abc import Callable
from typing import ParamSpec, TypeVar

from plans.errors import PlansError
from plans.steel.errors import SteelError

_P = ParamSpec("_P")
_T = TypeVar("_T")


class ReckonError(PlansError):
    """Something that was given can't be reckoned with; says what would be right."""

    def __init__(self, given: str, why: str) -> None:
        super().__init__(f"{given}: {why}")
        self.given = given
        """Which of the things given it is, by its name on the command line and the screen."""
        self.why = why
        """What is wrong with it, and what would be right."""


def blamed(given: str, work: Callable[_P, _T], *arguments: _P.args, **named: _P.kwargs) -> _T:
    """Do some work; what the steel package has against it is laid to what was given."""
    try:
        return work(*arguments, **named)
    except SteelError as error:
        raise ReckonError(given, str(error)) from None
