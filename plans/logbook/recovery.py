"""Recovery: every sitting that was cut off is put away, one after the other, while the program goes on."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from threading import Event
from typing import TYPE_CHECKING

from plans.logbook.errors import DamagedError, LogbookError, StoppedError, reason, shown
from plans.logbook.files import JOURNAL
from plans.logbook.store import Store
from plans.logbook.summary import Summary
from plans.record import record

if TYPE_CHECKING:
    from plans.logbook.kept_sitting import WorkOut


@record
class Recovered:
    """A sitting that was cut off, and is in the logbook now."""

    summary: Summary
    """The sitting in one line, as it was put away."""
    damage: tuple[str, ...]
    """What of its journal could not be read, in plain words."""


class Recovery:
    """Puts away every journal that a crash left, the oldest first. A running sitting's is left alone.

    It may run in a thread of its own, while the logbook is read and sittings begin. The logbook's lock is held while
    something is written, and not while figures are worked out: that must keep nobody from the forge.

    Args:
        store: the files of the logbook; what is wrong is said there
        work_out: works out the figures of one; where the sitting is not wanted any more, it may raise `StoppedError`
        tell: told of each that has been put away
        but: id of one that is left as it is, since it will be gone on with at once
    """

    def __init__(self, store: Store, work_out: WorkOut, tell: Callable[[Recovered], None], but: str | None) -> None:
        self._store, self._work_out, self._tell, self._but = store, work_out, tell, but
        self._stopped = Event()
        self._done = False

    @property
    def is_over(self) -> bool:
        """Whether it has ended, or was told to."""
        return self._done or self._stopped.is_set()

    def run(self) -> list[Recovered]:
        """Put away what there is, and return that. A folder that can't be written, or is another program's, is said."""
        recovered = []
        try:
            for name in self._names():
                if name != self._but and (found := self._put_away(name)) is not None:
                    recovered.append(found)
                    self._tell(found)
        finally:
            self._done = True
        return recovered

    def stop(self) -> None:
        """Let it end with the sitting that it is at, or before it has begun."""
        self._stopped.set()

    def wants(self, name: str) -> bool:
        """Whether a sitting is still to be put away: not where it is gone on with, nor once this is stopped."""
        return not self._stopped.is_set() and name not in self._store.turn.running

    def _names(self) -> list[str]:
        if self._stopped.is_set():
            return []
        try:
            with self._store.turn.borrow():
                if elsewhere := self._store.lock.elsewhere:
                    self._store.say(elsewhere)  # the sitting may run there
                    return []
                self._store.sweep()
                return sorted(self._store.ids(JOURNAL) - set(self._store.turn.running))
        except LogbookError as error:
            self._store.say(str(error))
        except OSError as error:
            self._store.say(f"{shown(self._store.folder)} can't be written: {reason(error)}")
        return []

    def _put_away(self, name: str) -> Recovered | None:
        store, path = self._store, self._store.path(name, JOURNAL)
        try:
            if not self.wants(name) or not path.exists():
                return None
            # Mostly nothing was cut off, and a program that begins need not wait for what reads that.
            from plans.logbook.cut_off import piece_together
            from plans.logbook.kept_sitting import WorkedOut
            from plans.logbook.putting_away import put_away, worked_out

            cut = piece_together(store, name)
            worked = WorkedOut(None) if cut.holds_all else worked_out(store, cut.header, cut.log, self._work_out)
            with store.turn.borrow():
                if not self.wants(name) or not cut.is_still(path):
                    return None
                return Recovered(put_away(store, name, cut, worked), cut.damage)
        except StoppedError:
            pass
        except DamagedError as error:
            with suppress(LogbookError, OSError), store.turn.borrow():
                store.say(store.set_aside(path, str(error)))
        except LogbookError as error:
            store.say(str(error))
        except OSError as error:
            store.say(f"sitting {name} can't be put away: {reason(error)}; its journal is kept")
        except Exception as error:  # whatever is wrong with one, the others are put away and the program begins
            store.say(f"sitting {name} can't be put away ({type(error).__name__}: {error}); its journal is kept")
        return None
