"""Calls spoken aloud by whatever speech command the machine has, one at a time, while nobody waits for them."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
import unicodedata
from collections.abc import Iterable, Sequence
from contextlib import suppress
from threading import Condition, Thread

from devices.clock import Clock
from plans.record import record
from plans.sitting import Kind, Saying, Urgency

LONGEST_TEXT = 160
"""A sentence is spoken up to this length, and what it has beyond that is left out [characters]."""
PATIENCE = 20.0
"""A speech command that takes longer than this for one sentence hangs, and is ended [s]."""
_LOOK_EVERY = 0.05
"""How often it is looked whether the command has ended [s]."""
_JOIN = 2.0
"""How long `close` waits for the thread [s]."""
_IN_WORDS = frozenset(" .,:;!?'%/")


def speakable(text: str) -> str:
    """The text as words alone, so that a speech command takes it for nothing else; empty if there are none.

    What comes out is `LONGEST_TEXT` characters long at most. It begins with a letter or a digit, and so can't be an
    option; brackets and angles, which some programs obey, and control characters are gone.
    """
    kept = "".join(char if char in _IN_WORDS or unicodedata.category(char)[0] in "LMN" else " " for char in text)
    words = " ".join(kept.split())
    start = next((index for index, char in enumerate(words) if char.isalnum()), len(words))
    return words[start:][:LONGEST_TEXT].rstrip()


@record
class _Waiting:
    saying: Saying
    since: float


class Voice:
    """Says sentences aloud, in a thread of its own.

    Of each kind the newest waits; the most urgent is said first, an alarm cuts off what is less urgent, and what has
    waited too long to be true is dropped. Without a command, or where it can't be started or has no sound card, it is
    silent, which is no error.

    Args:
        command: the speech command and its arguments without the text, as from `find_command`; may be empty
        clock: what waiting is measured by [s]
        patience: how long one sentence may take [s]
    """

    def __init__(self, command: Sequence[str], clock: Clock = time.monotonic, patience: float = PATIENCE) -> None:
        self._command = tuple(command)
        self._clock = clock
        self._patience = patience
        self._thread: Thread | None = None
        # Guards all below, and tells the thread when any of it changes.
        self._changed = Condition()
        self._waiting: dict[Kind, _Waiting] = {}
        self._muted = False
        self._closed = False
        self._speaking = False

    @property
    def available(self) -> bool:
        """Whether there is a command to speak with."""
        return bool(self._command)

    @property
    def muted(self) -> bool:
        """Whether the voice is silent, but for what is said through that. Setting it cuts off what is being said, and
        forgets what waits."""
        return self._muted

    @muted.setter
    def muted(self, muted: bool) -> None:
        with self._changed:
            self._muted = muted
            self._waiting = {kind: one for kind, one in self._waiting.items() if one.saying.through_mute}
            self._changed.notify_all()

    def say(self, sayings: Iterable[Saying]) -> None:
        """Say these sentences as soon as may be; returns at once, and may be called from any thread."""
        if not self._command:
            return
        with self._changed:
            if self._closed:
                return
            now = self._clock()
            for saying in sayings:
                if self._muted and not saying.through_mute:
                    continue
                # Taken out first, so that among equally urgent ones it stands last.
                self._waiting.pop(saying.kind, None)
                self._waiting[saying.kind] = _Waiting(saying, now)
            if self._waiting and self._thread is None:
                self._thread = Thread(target=self._run, name="voice", daemon=True)
                self._thread.start()
            self._changed.notify_all()

    def forget(self) -> None:
        """Drop all sentences that wait to be said; one that is being said is said to its end."""
        with self._changed:
            self._waiting.clear()

    def finish(self, patience: float) -> None:
        """Wait until all that waits has been said, for `patience` at most [s]."""
        with self._changed:
            self._changed.wait_for(lambda: self._closed or not (self._waiting or self._speaking), patience)

    def close(self) -> None:
        """Fall silent for good and end the thread; takes two seconds at most. Closing twice does no harm."""
        with self._changed:
            self._closed = True
            self._waiting.clear()
            self._changed.notify_all()
            thread = self._thread
        if thread is not None:
            thread.join(_JOIN)

    # All below runs in the thread.

    def _run(self) -> None:
        while (saying := self._next()) is not None:
            text = speakable(saying.text)
            if text:
                self._speak(text, saying)
            with self._changed:
                self._speaking = False
                self._changed.notify_all()

    def _next(self) -> Saying | None:
        """Wait for the next sentence; None when it is over."""
        with self._changed:
            while not self._closed:
                self._drop_stale()
                if self._waiting:
                    first = max(self._waiting.values(), key=lambda waiting: waiting.saying.urgency)
                    self._speaking = True
                    return self._waiting.pop(first.saying.kind).saying
                self._changed.wait()
        return None

    def _drop_stale(self) -> None:
        now = self._clock()
        for kind, waiting in list(self._waiting.items()):
            if now - waiting.since > waiting.saying.good_for:
                del self._waiting[kind]

    def _speak(self, text: str, saying: Saying) -> None:
        try:
            process = subprocess.Popen(
                [*self._command, text],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                # A group of its own: the terminal's Ctrl+C does not reach it, and what it starts ends with it.
                start_new_session=True,
            )
        except (OSError, ValueError):  # gone, or an argument that the system can't take
            return
        give_up = self._clock() + self._patience
        with self._changed:
            while process.poll() is None and not self._cut_off(saying) and self._clock() < give_up:
                self._changed.wait(_LOOK_EVERY)
        if process.poll() is None:
            _end(process)
        # Never two at once: the next one waits even for a process that its sound card will not let go.
        with self._changed:
            while process.poll() is None and not self._closed:
                self._changed.wait(_LOOK_EVERY)
        if self._closed:
            with suppress(subprocess.TimeoutExpired):
                process.wait(_JOIN / 2)

    def _cut_off(self, saying: Saying) -> bool:
        """Whether what is being said must give way: to an alarm, or to silence."""
        alarm = any(waiting.saying.urgency is Urgency.ALARM for waiting in self._waiting.values())
        muted = self._muted and not saying.through_mute
        return muted or self._closed or (alarm and saying.urgency is not Urgency.ALARM)


def _end(process: subprocess.Popen[bytes]) -> None:
    """End a process that has not been waited for, and all that it started."""
    with suppress(OSError):
        if sys.platform == "win32":
            process.kill()
        else:
            os.killpg(process.pid, signal.SIGKILL)
