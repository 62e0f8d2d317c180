"""What a person can mend about a steel."""

from __future__ import annotations

from plans.errors import PlansError


class SteelError(PlansError):
    """A grade or a composition can't be used. Its text says what, where, and what would be right."""
