"""The one exception of this package: what a person can mend about a command, an option or a file of their own."""

from __future__ import annotations


class UsageError(Exception):
    """Options that don't go together; the text says which, and what would."""
