"""Undo and redo of a plan that is edited."""

from __future__ import annotations

from plans.record import record


@record
class History:
    """The texts of a plan, from the first to the last, and which of them stands."""

    text: str
    """The one that stands."""
    before: tuple[str, ...] = ()
    """Those before it, the oldest first."""
    after: tuple[str, ...] = ()
    """Those that were undone, the next one first."""

    def to(self, text: str) -> History:
        """After one more edit, which takes what was undone away; the same history where nothing has changed."""
        return self if text == self.text else History(text, (*self.before, self.text))

    def undone(self) -> History:
        """One edit back; the same history where there is none before."""
        if not self.before:
            return self
        return History(self.before[-1], self.before[:-1], (self.text, *self.after))

    def redone(self) -> History:
        """One edit forth again; the same history where none was undone."""
        if not self.after:
            return self
        return History(self.after[0], (*self.before, self.text), self.after[1:])
