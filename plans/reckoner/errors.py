"""The error for a question that the reckoner can't answer, which the smith can mend."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import ParamSpec, TypeVar

from plans.billets import BilletError
from plans.errors import PlansError
from plans.steel import SteelError

_P = ParamSpec("_P")
_T = TypeVar("_T")


class ReckonError(PlansError):
    """Something that was given can't be reckoned with; its text says what, why, and what would be right.

    Args:
        given: name of what was given, e.g. "from"
        why: what is wrong with it, and what would be right
    """

    def __init__(self, given: str, why: str) -> None:
        super().__init__(f"{given}: {why}")
        self.given = given
        """Name on the command line and the screen of what can't be reckoned with, e.g. "from"."""
        self.why = why
        """What is wrong with it, and what would be right."""


def blamed(given: str, work: Callable[_P, _T], *arguments: _P.args, **named: _P.kwargs) -> _T:
    """Call a function of the steel package, and lay what it has against its arguments to something that was given.

    Args:
        given: name of what was given, for the error
        work: the function
        *arguments: what to call it with
        **named: what else to call it with

    Raises:
        ReckonError: the function raised a `SteelError`; it has the same text.
    """
    try:
        return work(*arguments, **named)
    except SteelError as error:
        raise ReckonError(given, str(error)) from None


@contextmanager
def as_asked() -> Iterator[None]:
    """Hand on what the billets have against what they were given, which has the same name there as it is asked by.

    Raises:
        ReckonError: a `BilletError` was raised; it has the same text.
    """
    try:
        yield
    except BilletError as error:
        raise ReckonError(error.given, error.why) from None
