"""A rehearsal: forge, smith and probe in lock-step with the program, over a real pseudo-terminal."""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from threading import Condition, Thread, current_thread
from time import monotonic
from typing import TYPE_CHECKING

from devices.profile import Profile, Unit
from devices.rehearsal.forge import Forge
from devices.rehearsal.port import Cable
from devices.rehearsal.smithy import Smithy
from devices.rehearsal.waits import MOMENT
from plans.plan import Plan
from plans.sitting import Said

if TYPE_CHECKING:
    from plans.sitting import Sitting

_ASTRAY_AFTER = 10.0
"""A line that nobody answers for this long, of the machine's own time, is taken to have gone astray [s]."""
_LATE_BY = 1.0
"""Further behind than this, of the machine's own time, nothing is caught up any more [s]."""
_BANNER = b"\r\n"
"""Comes first, because a reader rightly drops the first line after opening, which may be half a one."""


PROFILE = Profile(
    name="rehearsal",
    title="The simulated probe of a rehearsal",
    unit=Unit.CELSIUS,
    silence=inf,
    example="1187.3",
)
"""How the simulated probe of a rehearsal talks.

No silence of it is too long for the link, whose thread keeps the machine's pace and would not notice it at the same
moment twice; the sitting minds silence by rehearsal time."""


class Rehearsal:
    """A simulated forge, smith and probe, on a serial port that a link reads like any other.

    Give `port`, `PROFILE` and `clock` to a link and start it, then `start` the rehearsal. From then on, for every
    moment, a quarter of a second of rehearsal time and more in a long wait, either a reading comes through the link or
    `on_quiet` is called; the program hands what came to its sitting, then calls `answer`. Nothing goes on before it
    has, so the same seed gives the same lines and the same words at the same times, however fast or busy the machine
    is.

    Args:
        plan: what the smith follows
        seed: the same one gives the same rehearsal
        speed: rehearsal seconds in one real second, outside of long waits; None for as fast as can be

    Raises:
        DeviceError: the system has no pseudo-terminal to give.
    """

    def __init__(self, plan: Plan, seed: int, speed: float | None = 1.0) -> None:
        self._smithy = Smithy(plan, seed)
        self._cable = Cable()
        self._thread: Thread | None = None
        # Guards all below, and wakes whoever waits for a change of it.
        self._changed = Condition()
        self._at = 0.0
        self._moments = 0
        """How many moments have gone by: each takes as long, however much of the rehearsal's time goes on in it."""
        self._awaited = False
        """A moment has come that nobody has taken up yet."""
        self._answered = True
        self._closed = False
        self._speed = speed
        self._paced_from = (0.0, 0)

    @property
    def port(self) -> str:
        """Path of the serial port that the simulated probe is on."""
        return self._cable.path

    @property
    def forge(self) -> Forge:
        """The simulated fire and the work in it."""
        return self._smithy.forge

    @property
    def hurries(self) -> bool:
        """Whether a long wait is being run through, faster than the speed has it."""
        return self._smithy.hurries

    def clock(self) -> float:
        """Rehearsal time now [s]; a link's clock, so that a reading carries the time at which its line was sent."""
        return self._at

    @property
    def speed(self) -> float | None:
        """Rehearsal seconds in one real second, outside of long waits; None for as fast as can be. May be set at any
        time.

        Raises:
            ValueError: it is set to zero or below.
        """
        return self._speed

    @speed.setter
    def speed(self, speed: float | None) -> None:
        if speed is not None and not speed > 0:
            raise ValueError("the speed of a rehearsal must be above zero")
        with self._changed:
            self._speed = speed
            self._pace_from_here()
            self._changed.notify_all()

    def start(self, on_quiet: Callable[[float], None]) -> None:
        """Begin the rehearsal, in a thread of its own; the link must have opened the port by now.

        Args:
            on_quiet: called in that thread for each moment [s] at which no reading comes. It may call `answer` itself
                or leave that to another thread, but must not wait for one that might be in `close`.
        """
        self._thread = Thread(target=self._run, args=(on_quiet,), name="rehearsal", daemon=True)
        self._pace_from_here()
        self._thread.start()

    def answer(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        """The sitting has been told of moment `at`: let the smith speak, move the work, and let time go on.

        Does nothing for a moment that has been answered, so one call after each entry of any kind is right.

        Args:
            at: the time of the reading or tick [s]
            sitting: as it stands after that reading or tick
            hear: takes a word as if the smith had pressed a key; it changes the sitting before it returns. A word that
                is refused must not raise here.
        """
        with self._changed:
            if not self._awaited or self._closed or at < self._at:
                return
            self._awaited = False
        try:
            self._smithy.answer(at, sitting, hear)
        finally:
            with self._changed:
                self._answered = True
                self._changed.notify_all()

    def close(self) -> None:
        """End the rehearsal's thread and close the port at once, answered or not; closing twice does no harm.

        Close the link before: to one that still listens, the end of the port is a probe unplugged.
        """
        with self._changed:
            self._closed = True
            self._changed.notify_all()
        thread = self._thread
        if thread is not None and thread is not current_thread():
            thread.join(2.0)
        self._cable.close()

    def _run(self, on_quiet: Callable[[float], None]) -> None:
        self._cable.send(_BANNER)
        while self._wait_for_its_time():
            lines = self._smithy.on()
            at = self._smithy.at
            with self._changed:
                self._at, self._moments = at, self._moments + 1
                self._awaited, self._answered = True, False
            if not lines or not all(self._cable.send(line) for line in lines):
                on_quiet(at)
            while not self._wait_for_answer():
                on_quiet(at)

    def _wait_for_its_time(self) -> bool:
        """Wait until it is time for the next moment; False once closed."""
        with self._changed:
            while not self._closed:
                if self._speed is None:
                    return True
                real, since = self._paced_from
                left = real + (self._moments + 1 - since) * MOMENT / self._speed - monotonic()
                if left < -_LATE_BY:
                    self._pace_from_here()
                if left <= 0:
                    return True
                self._changed.wait(left)
            return False

    def _wait_for_answer(self) -> bool:
        """False when the line seems to have gone astray."""
        with self._changed:
            return self._changed.wait_for(lambda: self._answered or self._closed, _ASTRAY_AFTER)

    def _pace_from_here(self) -> None:
        self._paced_from = (monotonic(), self._moments)
