"""Pastes, taken out of what comes from a terminal: whatever stands in one, none of it is ever a key."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum, auto
from typing import Final

from textual.events import Paste

_START: Final = "\x1b[200~"
_END: Final = "\x1b[201~"
_NO_KEY = len("\x1b[2")
"""So much of a start is no key that anybody has pressed, but a sequence of which the rest is still to come."""
_LOST = 2.0
"""What has not come after this is taken as lost, or no key would be heard any more [s]."""
_PAUSE = 0.5
"""What is left of a paste whose end was taken as lost ends with a pause of this [s]."""
_LONGEST = 1 << 20
"""More of a paste is left out [characters]."""


class _Comes(Enum):
    KEYS = auto()
    PASTE = auto()
    LEFT = auto()
    """What is left of a paste that has been handed on without its end."""


class Pastes:
    """Tells bracketed pastes from keys, in a stream that may be cut, and stand still, anywhere."""

    def __init__(self) -> None:
        self._comes = _Comes.KEYS
        self._begun = ""
        """The end of what has come, as far as it may be the beginning of the mark that is looked for."""
        self._gathered: list[str] = []
        self._room = _LONGEST

    @property
    def patience(self) -> float | None:
        """Call `stalled` when nothing has come for so long [s]; None while all has come that must."""
        if self._comes is _Comes.KEYS:
            return _LOST if len(self._begun) >= _NO_KEY else None
        return _LOST if self._comes is _Comes.PASTE else _PAUSE

    def take(self, text: str) -> Iterator[str | Paste]:
        """What has come, as pastes and as what was typed around them.

        What reads the typed may have had some of the mark that a paste starts with: it has to begin anew after a paste.
        """
        while text:
            known, text = len(self._begun), self._begun + text
            keys = self._comes is _Comes.KEYS
            mark = _START if keys else _END
            before, found, text = text.partition(mark)
            self._begun = "" if found else _beginning(before, mark)
            if keys:
                # An escape ends what was typed by half before it.
                if typed := (before + found[:1])[known:]:
                    yield typed
            else:
                self._gather(before.removesuffix(self._begun))
            if found:
                if self._comes is _Comes.PASTE:
                    yield self._whole()
                self._comes = _Comes.PASTE if keys else _Comes.KEYS

    def stalled(self) -> Iterator[Paste]:
        """Wait no longer: a paste is handed on as far as it has come; what still comes of it is none of the keys."""
        if self._comes is _Comes.PASTE:
            yield self._whole()
            self._comes = _Comes.LEFT
        elif self._comes is _Comes.LEFT:
            self._comes, self._begun = _Comes.KEYS, ""

    def _gather(self, text: str) -> None:
        if self._comes is _Comes.PASTE and text and self._room:
            self._gathered.append(text[: self._room])
            self._room -= len(self._gathered[-1])

    def _whole(self) -> Paste:
        # What is no text would be obeyed by a terminal that it is shown on.
        text = "".join(self._gathered).replace("\x00", "").replace("\x1b", "")
        self._gathered, self._room = [], _LONGEST
        return Paste(text)


def _beginning(text: str, mark: str) -> str:
    """The end of a text, as far as it is the beginning of a mark."""
    return next((mark[:size] for size in range(len(mark) - 1, 0, -1) if text.endswith(mark[:size])), "")
