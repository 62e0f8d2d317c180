"""Standard output of a sitting: lines that go out beside it, so that nobody who is slow, full or gone holds it up."""

from __future__ import annotations

import os
import sys
from collections import deque
from contextlib import suppress
from threading import Condition, Thread
from time import sleep
from types import TracebackType

from tui.cli.streams import below_buffer

_HELD = 10_000
"""So many lines wait to be written."""
_PATIENCE = 2.0
"""How long leaving waits for the next line to go out [s]."""
_UNTAKEN = "nobody takes what is said"


class Outlet:
    """Writes lines to standard output in a thread of its own; a context manager that begins and ends it.

    Where they can't be written, as on a full disk or to a program that has gone, that is said once on standard error,
    and what is said from then on is dropped. Where nobody reads them, they wait.

    Args:
        patient: once ten thousand lines wait, hold up who says more, as from a recording; otherwise that counts as
            trouble like any other
    """

    def __init__(self, patient: bool = False) -> None:
        self.patient = patient
        """Whether who says too much is held up; may be changed at any time."""
        self.failed = False
        """Whether anything that was said has not been written."""
        self._encoding = sys.stdout.encoding or "utf-8"
        self._out, self._errors = below_buffer(sys.stdout), below_buffer(sys.stderr)
        self._complaint: Thread | None = None
        # Reentrant, since a signal may come while its own thread is in here.
        self._changed = Condition()
        self._waiting: deque[str] = deque()
        self._writing = 0
        self._closed = False

    def __enter__(self) -> Outlet:
        sys.stdout.flush()
        Thread(target=self._run, name="standard output", daemon=True).start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def line(self, text: str) -> None:
        """Say a line, given without its end; it may be called from any thread."""
        with self._changed:
            self._changed.wait_for(lambda: self.failed or not self.patient or len(self._waiting) < _HELD)
            if self.failed or self._closed:
                return
            if len(self._waiting) >= _HELD:
                self._fail(_UNTAKEN)
                return
            self._waiting.append(text)
            self._changed.notify_all()

    def close(self) -> None:
        """Wait until all is written, as long as something is; then end. Closing twice does no harm."""
        with self._changed:
            while self._left and not self.failed:
                if not self._one_more_goes_out():
                    self._fail(_UNTAKEN)
            self._closed = True
            self._changed.notify_all()
        if self._complaint is not None:
            self._complaint.join(_PATIENCE)

    @property
    def _left(self) -> int:
        return len(self._waiting) + self._writing

    def _one_more_goes_out(self) -> bool:
        before = self._left
        return self._changed.wait_for(lambda: self.failed or self._left < before, _PATIENCE)

    def _fail(self, why: str) -> None:
        """Give up; to be called with the lock held."""
        self.failed = True
        self._waiting.clear()
        self._changed.notify_all()
        # It may go where the output goes, and block there.
        self._complaint = Thread(target=self._complain, args=(why,), name="standard error", daemon=True)
        self._complaint.start()

    def _complain(self, why: str) -> None:
        text = f"heatbook: standard output: {why}; the sitting goes on and is logged, but nothing more is said here"
        with suppress(OSError, ValueError):
            self._errors.write((text + os.linesep).encode())

    # All below runs in the thread.

    def _run(self) -> None:
        while (text := self._next()) is not None:
            try:
                self._write((text + os.linesep).encode(self._encoding, "backslashreplace"))
            except (OSError, ValueError) as error:
                gone = isinstance(error, BrokenPipeError)
                why = "nobody reads it any more" if gone else getattr(error, "strerror", None) or str(error)
                with self._changed:
                    if not self.failed:
                        self._fail(why)

    def _next(self) -> str | None:
        """Wait for the next line; None when there will be none."""
        with self._changed:
            self._writing = 0
            self._changed.notify_all()
            self._changed.wait_for(lambda: self._waiting or self._closed)
            if not self._waiting:
                return None
            self._writing = 1
            return self._waiting.popleft()

    def _write(self, data: bytes) -> None:
        while data:
            written = self._out.write(data)
            if written is None:  # it was made not to block, and is full
                sleep(0.05)
            data = data[written or 0 :]
