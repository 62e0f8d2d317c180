"""Where readings and time come from: a probe, a rehearsal, or only the clock."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

from devices.errors import DeviceError
from plans.reading import Reading
from plans.sitting.events import Said, Tick, Word

if TYPE_CHECKING:
    from serial import Serial

    from devices.clock import Clock
    from devices.link import Link, LinkState
    from devices.profile import Profile
    from plans.plan import Plan
    from plans.sitting.engine import Sitting

Delivered = Reading | Tick | Word | DeviceError
"""What comes from outside: readings and time, what a foot says, and what is wrong with its pedal."""
Deliver = Callable[[Delivered], None]
"""Called from another thread; hands it to the thread that owns the sitting."""
WatchLine = Callable[["Serial"], object]
"""Looks at the control lines of a port that is open."""


class Source(Protocol):
    """What a sitting is fed by."""

    def clock(self) -> float:
        """Seconds since the sitting began."""

    def watch_line(self, watch: WatchLine) -> bool:
        """Have the control lines of its port looked at, from `start` on; whether it has a port."""

    def start(self, deliver: Deliver) -> None:
        """Begin to deliver.

        Raises:
            DeviceError: the probe can't be opened.
        """

    def set_time(self, at: float) -> None:
        """The sitting stands at `at` now [s]: after a break it does not begin at zero."""

    def taken(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        """An entry of time `at` was taken; a rehearsal's smith may answer it through `hear`."""

    def link_state(self) -> LinkState | None:
        """How it stands with the probe; None without one."""

    def close(self) -> None:
        """End it; nothing is delivered any more."""


class ClockSource:
    """No probe: only the clock."""

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
    """A probe on a port."""

    def __init__(self, clock: Clock, port: str, profile: Profile) -> None:
        super().__init__(clock)
        self._port = port
        self.profile = profile
        self._link: Link | None = None
        self._watch: WatchLine | None = None

    def watch_line(self, watch: WatchLine) -> bool:
        self._watch = watch
        return True

    def start(self, deliver: Deliver) -> None:
        from devices.link import Link

        self._link = Link(self._port, self.profile, deliver, self.clock, watch_line=self._watch)
        self._link.start()

    def link_state(self) -> LinkState | None:
        return self._link.state if self._link else None

    def close(self) -> None:
        if self._link:
            self._link.close()


class RehearsalSource:
    """A simulated forge and smith on a real pseudo-terminal, read by the same link as a probe."""

    def __init__(self, plan: Plan, seed: int, speed: float | None) -> None:
        from devices.rehearsal import PROFILE, Rehearsal

        self.rehearsal = Rehearsal(plan, seed, speed)
        self.profile = PROFILE
        self._link: Link | None = None

    def clock(self) -> float:
        return self.rehearsal.clock()

    def watch_line(self, watch: WatchLine) -> bool:
        del watch
        return False

    def start(self, deliver: Deliver) -> None:
        from devices.link import Link

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
