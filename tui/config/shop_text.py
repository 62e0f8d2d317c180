"""The shop file as it stands, letter by letter, to be put back."""

from __future__ import annotations

from pathlib import Path

from plans.record import record
from tui.config.own_file import write_own_file


@record
class ShopText:
    """The bytes of a shop file; None where there is none."""

    data: bytes | None

    @classmethod
    def read(cls, path: Path) -> ShopText:
        """Read it.

        Raises:
            OSError: it can't be read.
        """
        try:
            return cls(path.read_bytes())
        except FileNotFoundError:
            return cls(None)

    def write(self, path: Path) -> None:
        """Put it back, whole or not at all.

        Raises:
            OSError: it can't be written; the file is as it was.
        """
        if self.data is None:
            path.unlink(missing_ok=True)
        else:
            write_own_file(path, self.data)
