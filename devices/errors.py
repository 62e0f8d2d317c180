"""The one exception of this package: what a person can mend about a probe, a port, a profile or a recording."""

from __future__ import annotations


class DeviceError(Exception):
    """Something about a probe, a port, a profile or a recording is wrong, and a person can mend it.

    As text it says where, what, and what to do about it, in words fit for the smith.

    Args:
        where: the port, or the file with its line or key
        what: what is wrong there, without a full stop
        do: what to do about it, as a whole sentence
    """

    def __init__(self, where: str, what: str, do: str) -> None:
        super().__init__(f"{where}: {what}. {do}")
        self.where = where
        """The port, or the file with its line or key."""
        self.what = what
        """What is wrong there, without a full stop."""
        self.do = do
        """What to do about it, as a whole sentence."""
