"""The error for a steel that can't be used, which the smith can mend."""

from __future__ import annotations

from plans.errors import PlansError


class SteelError(PlansError):
    """A grade, a composition, a temperature or a time that steel can't have; its text says what would be right."""
