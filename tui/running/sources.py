"""Where readings and time come from: a probe, a recording, a rehearsal, or only the clock."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from devices import DeviceError
from plans.reading import Reading
from plans.shown import show_clock
from plans.sitting import Said, Tick, Word
from plans.trace import Trace

if TYPE_CHECKING:
    from serial import Serial

    from devices import Clock, Entry, Link, LinkState, Profile
    from plans.plan import Plan
    from plans.sitting import Sitting

_PART = 4096
"""So many readings of a recording lie together."""
_NAMED = 3
"""So many things that are wrong with its readings are named."""

Delivered = Reading | Tick | Word | DeviceError
"""What comes from outside: readings and time, what a foot says, and what is wrong with its pedal."""
Deliver = Callable[[Delivered], None]
"""Called from another thread; hands it to the thread that owns the sitting."""
WatchLine = Callable[["Serial"], object]
"""Looks at the control lines of a port that is open."""


class Source(Protocol):
    """What a sitting is fed by: it delivers readings and time, from threads of its own, and says what time it is."""

    def clock(self) -> float:
        """Time of the sitting now: seconds since it began [s]."""

    def watch_line(self, watch: WatchLine) -> bool:
        """Have the control lines of its port looked at, as by a pedal; to be called before `start`.

        Args:
            watch: called again and again with the open port

        Returns:
            whether it has a port with such lines; False where `watch` will never be called
        """

    def start(self, deliver: Deliver) -> None:
        """Open what it reads, and begin to deliver.

        Args:
            deliver: called from another thread with each reading, and with time where there is none

        Raises:
            DeviceError: the probe can't be opened, or the recording can't be used.
        """

    def set_time(self, at: float) -> None:
        """Set its clock: the sitting stands at `at` now [s], which after a break is not zero."""

    def taken(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        """Hear that the sitting has taken an entry; a rehearsal's smith may answer it.

        Args:
            at: time of the entry [s]
            sitting: as it stands after that
            hear: takes what the smith says
        """

    def link_state(self) -> LinkState | None:
        """How it stands with the link to the probe; None without a probe."""

    @property
    def lag(self) -> float:
        """How far its probe is behind what it sits on: a time constant, as far as that is known [s]."""
        return 0.0

    def close(self) -> None:
        """End it: nothing is delivered any more, and its port is free. Closing twice does no harm."""


class ClockSource(Source):
    """Only the clock: a sitting without a probe.

    Args:
        clock: seconds that never run backward, from any zero; the sitting's own time begins when this is made
    """

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._zero = clock()

    def clock(self) -> float:
        return self._clock() - self._zero

    def watch_line(self, watch: WatchLine) -> bool:
        del watch
        return False

    def start(self, deliver: Deliver) -> None:
        pass

    def set_time(self, at: float) -> None:
        self._zero = self._clock() - at

    def taken(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        pass

    def link_state(self) -> LinkState | None:
        return None

    def close(self) -> None:
        pass


class ProbeSource(ClockSource):
    """A probe on a port, read by a link in a thread of its own.

    Args:
        clock: seconds that never run backward, from any zero
        port: where the probe is plugged in, as the system calls it
        profile: how the probe talks
    """

    def __init__(self, clock: Clock, port: str, profile: Profile) -> None:
        super().__init__(clock)
        self._port = port
        self.profile = profile
        """How the probe talks."""
        self._link: Link | None = None
        self._watch: WatchLine | None = None

    def watch_line(self, watch: WatchLine) -> bool:
        self._watch = watch
        return True

    def start(self, deliver: Deliver) -> None:
        from devices import Link

        self._link = Link(self._port, self.profile, deliver, self.clock, watch_line=self._watch)
        self._link.start()

    def link_state(self) -> LinkState | None:
        return self._link.state if self._link else None

    @property
    def lag(self) -> float:
        return self.profile.lag

    def close(self) -> None:
        if self._link:
            self._link.close()


class RecordingSource(ClockSource):
    """A recording in place of a probe, on its own clock; its rows are asked for one by one, nothing is delivered.

    The file is read once, to its end, so that a row that is wrong is found out before there is a sitting.

    Args:
        path: of the recording
    """

    def __init__(self, path: Path) -> None:
        self._at = 0.0
        super().__init__(lambda: self._at)
        self.path = path
        """Where the recording is."""
        self._rows: deque[Trace | Said | Tick] = deque()
        """What was read and not asked for yet: readings, `_PART` of them together at most, words and time."""
        self._read = False
        self._count, self._first_fault = 0, 0.0
        self._faults: Counter[str] = Counter()

    def has_readings(self) -> bool:
        """Whether there is a reading in it; one that has only words is of a sitting without a probe.

        Raises:
            DeviceError: it can't be read, or a row is wrong; the text says which.
        """
        self._read_once()
        return any(isinstance(part, Trace) for part in self._rows)

    @property
    def unread(self) -> str:
        """How many of its readings are no temperatures, and why, in a sentence; empty where all are, or before it was
        read."""
        if not self._faults:
            return ""
        count = sum(self._faults.values())
        why = ", ".join(f"{number} {fault}" for fault, number in self._faults.most_common(_NAMED))
        others = "" if len(self._faults) <= _NAMED else ", and others"
        none = "is no temperature" if count == 1 else "are no temperatures"
        where = f"the first at {show_clock(self._first_fault)}"
        return (
            f"{self.path}: {count} of {self._count} readings {none} ({why}{others}), {where}; the log has them as such"
        )

    def start(self, deliver: Deliver) -> None:
        """Read it, if that was not done yet.

        Raises:
            DeviceError: it can't be read, or a row is wrong; the text says which.
        """
        del deliver
        self._read_once()

    def _read_once(self) -> None:
        from devices import read_recording

        if self._read:
            return
        self._rows.clear()
        self._faults.clear()
        self._count = 0
        for entry in read_recording(self.path):
            if not isinstance(entry, Reading):
                self._rows.append(entry)
                continue
            self._count += 1
            if entry.fault is not None:
                self._first_fault = self._first_fault if self._faults else entry.at
                self._faults[entry.fault] += 1
            part = self._rows[-1] if self._rows else None
            if not isinstance(part, Trace) or len(part) == _PART:
                self._rows.append(part := Trace())
            part.append(entry.at, entry.kelvin, entry.fault)
        self._read = True

    def entries(self) -> Iterator[Entry]:
        """Its rows, in order, each of them once: what was given is let go. The clock goes on to the time of each."""
        while self._rows:
            part = self._rows.popleft()
            for entry in part if isinstance(part, Trace) else (part,):
                self._at = entry.at
                yield entry


class RehearsalSource(Source):
    """A simulated forge and smith on a real pseudo-terminal, read by the same link as a probe.

    Args:
        plan: what the simulated smith follows
        seed: the same seed gives the same rehearsal
        speed: rehearsal seconds in one second; None for as fast as it can

    Raises:
        DeviceError: the system has no pseudo-terminal to give.
    """

    def __init__(self, plan: Plan, seed: int, speed: float | None) -> None:
        from devices.rehearsal import PROFILE, Rehearsal

        self.rehearsal = Rehearsal(plan, seed, speed)
        """The forge that does not exist; its speed may be changed as it runs."""
        self.profile = PROFILE
        """How the simulated probe talks."""
        self._link: Link | None = None

    def clock(self) -> float:
        return self.rehearsal.clock()

    def watch_line(self, watch: WatchLine) -> bool:
        del watch
        return False

    def start(self, deliver: Deliver) -> None:
        from devices import Link

        self._link = Link(self.rehearsal.port, self.profile, deliver, self.clock)
        self._link.start()
        self.rehearsal.start(lambda at: deliver(Tick(at)))

    def set_time(self, at: float) -> None:
        pass  # a rehearsal begins at its own zero

    def taken(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        self.rehearsal.answer(at, sitting, hear)

    def link_state(self) -> LinkState | None:
        return self._link.state if self._link else None

    def close(self) -> None:
        # The link first: a cable that ends under it would be taken for a probe pulled out.
        if self._link:
            self._link.close()
        self.rehearsal.close()
