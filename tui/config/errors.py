"""The one exception of this package: what a person can mend about a command, an option or a file of their own."""

from __future__ import annotations


class UsageError(Exception):
    """A command, an option or a file of the smith's own can't be used; the text says what, where, and what to do."""
