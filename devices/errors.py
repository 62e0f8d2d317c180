"""The one exception of this package: what a person can mend about a probe, a port, a profile or a recording."""

from __future__ import annotations


class DeviceError(Exception):
    """Says what is wrong, where, and what to do about it, in words fit for the smith."""

    def __init__(self, where: str, what: str, do: str) -> None:
        super().__init__(f"{where}: {what}. {do}")
        self.where = where
        """The port, or the file with its line or key."""
        self.what = what
        """What is wrong there; no full stop."""
        self.do = do
        """What to do; a whole sentence."""
