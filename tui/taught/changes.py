"""What is done to the shop file from the screen of what sittings teach, and taking that back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TypeVar

from plans.logbook.lines import shown_spread
from plans.logbook.taught import FactorFigure, Row
from plans.units import Units
from tui.config import LearnedFactor, ShopText, UsageError, alone_in, forget, keep_factors, look_up_anew, recall

_Told = TypeVar("_Told")


class ShopChanges:
    """Keeps and forgets what sittings teach, and remembers the shop file as it was before each change.

    Args:
        path: of the shop file; it need not be there
        units: those that are set, for what is told
    """

    def __init__(self, path: Path, units: Units) -> None:
        self._path, self._units = path, units
        self._done: list[tuple[str, ShopText, ShopText]] = []
        """Of each change what it was, and the file before and after it."""

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back."""
        return bool(self._done)

    def keep(self, row: Row, now: datetime) -> str:
        """Write the factor of a row into the shop file.

        Args:
            row: one with a key and a factor
            now: with its offset

        Returns:
            what to tell the smith

        Raises:
            UsageError, OSError: it can't be written; the file is as it was.
        """
        figure = row.figure
        if not row.key or not isinstance(figure, FactorFigure):
            raise UsageError("there is no factor here to be kept: the warm model goes by cooling and contact alone")
        about = f"on {now:%Y-%m-%d} from {row.rests}: {row.name} {figure.text}"
        # As it is shown, so that nobody wonders which of the two holds.
        factor = LearnedFactor(row.key, round(figure.value, 2), round(shown_spread(figure.spread), 2), about)
        name = row.called(self._units)
        self._change(f"{name} kept", lambda: keep_factors(self._path, [factor]))
        return f"{name}: sittings go by {figure.text} from now on"

    def forget(self, row: Row, now: datetime) -> str:
        """Have what sittings taught of a row until now count no more; what is returned and raised is as in `keep`."""
        name = row.called(self._units)
        by_hand = self._change(f"{name} forgotten", lambda: forget(self._path, row.id, row.key, now))
        stays = f"; {by_hand} was set by hand, and stays" if by_hand else ""
        return f"{name}: forgotten; only sittings that begin from now on tell of it{stays}"

    def recall(self, row: str) -> str:
        """Have all that sittings taught of a row count again; what is returned and raised is as in `keep`."""
        self._change(f"{row} counting again", lambda: recall(self._path, row))
        return f"{row}: all its sittings count again"

    def undo(self) -> str:
        """Take the last change back: the shop file is as it was before it; what is returned is as in `keep`.

        Raises:
            UsageError: the file was changed by others since; it is left as it is.
            OSError: it can't be written; the file is as it was.
        """
        what, before, after = self._done[-1]
        with alone_in(self._path.parent):
            if ShopText.read(self._path) != after:
                self._done.clear()
                raise UsageError(f"{self._path} was changed since; nothing was taken back")
            before.write(self._path)
        self._done.pop()
        look_up_anew()
        return f"no longer: {what}"

    def _change(self, what: str, change: Callable[[], _Told]) -> _Told:
        with alone_in(self._path.parent):  # else what another heatbook writes would be taken back with it
            before = ShopText.read(self._path)
            told = change()
            self._done.append((what, before, ShopText.read(self._path)))
        look_up_anew()
        return told
