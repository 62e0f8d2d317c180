"""A question on the command line, to whoever sits there."""

from __future__ import annotations

import sys

from tui.config import UsageError


def wanted(what: str, yes: bool, otherwise: str) -> bool:
    """Whether something is to be done: asked where somebody sits there.

    Args:
        what: it is, as a question without its mark: "Take this plan in"
        yes: whether that was said already, by --yes
        otherwise: what is said where it is not done: "nothing is taken in"

    Raises:
        UsageError: nobody sits there, and --yes was not said.
    """
    if yes:
        return True
    if not sys.stdin.isatty():
        raise UsageError(f"{otherwise}: say --yes to {what[0].lower()}{what[1:]}")
    print(f"{what}? y or n: ", end="", flush=True)
    if sys.stdin.readline().strip().lower() in ("y", "yes"):
        return True
    print(otherwise)
    return False
