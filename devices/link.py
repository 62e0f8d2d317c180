"""A probe on a port, read in a thread: readings to whoever wants them, across unplugging and plugging in again."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from threading import Event, Lock, Thread, current_thread
from types import TracebackType
from typing import TYPE_CHECKING

from devices.clock import Clock
from devices.decode import LONGEST_LINE, Decoder, LineSplitter
from devices.doubt import Doubt
from devices.errors import DeviceError
from devices.finder import PortInfo, find_ports
from devices.link_state import Count, LinkPhase, LinkState
from devices.port import BROKEN, close_port, is_address, open_port, read_there
from devices.profile import Profile
from devices.reopening import Reopening
from devices.slots import Slots
from plans.reading import Reading

if TYPE_CHECKING:
    from serial import Serial

_LOOKED_AT = 200
"""So many lines of what was read at once are looked at, the newest; beyond 4000 a second they are only counted."""
_BREATH = 0.005
"""What comes after half a line, or junk, is given so long to gather, and is not read byte by byte [s]."""
_WATCH_EVERY = 0.02
"""How long one read waits while there is a line to watch [s]."""
_JOIN = 2.0
"""How long `close` waits for the thread [s]."""


class Link:
    """Reads a probe in a thread of its own and hands on what it says; as a context manager, from `start` to `close`.

    Every line that is a reading or a fault is handed on as one `Reading`; junk is only counted. Of a probe that says
    more than about twenty a second the medians are handed on (`Slots`), and how many are taken together is counted.
    A probe that is unplugged, that says nothing for the profile's `silence`, or only junk, is handed on once, as a
    `Reading` whose fault begins with "lost"; the first reading after that says that it is back.

    Args:
        port: path, name or network address, as for `devices.port.open_port`
        profile: how the probe talks
        deliver: called in the reader thread with each reading. It should pass the reading on, as by posting a message,
            and return; it must not wait for the thread that calls `close`
        clock: what readings are stamped by, and silence is measured by [s]
        ports: what is plugged in, asked when the port opens and when it is lost
        watch_line: called in the reader thread with the open port, about fifty times a second, for what is on its
            control lines, such as a pedal. It must not raise what a port that has gone away raises
    """

    def __init__(
        self,
        port: str,
        profile: Profile,
        deliver: Callable[[Reading], None],
        clock: Clock,
        ports: Callable[[], list[PortInfo]] = find_ports,
        watch_line: Callable[[Serial], object] | None = None,
    ) -> None:
        self._asked_for = port
        self._profile = profile
        self._deliver = deliver
        self._clock = clock
        self._watch_line = watch_line
        self._stop = Event()
        self._thread: Thread | None = None
        self._bug: Exception | None = None
        # Used by the reader thread alone.
        self._heard_at = 0.0
        self._bytes_since = 0
        self._junk_since = 0
        self._told = ""
        self._reopening = Reopening(port, self._open, ports)
        self._slots = Slots()
        self._doubt = Doubt(profile.jump)
        # Guards what `state` shows.
        self._lock = Lock()
        self._decoder = Decoder(profile)
        self._phase = LinkPhase.OPENING
        self._port = port
        self._description = ""
        self._lines = 0
        self._count = Count()
        self._trouble = ""

    @property
    def state(self) -> LinkState:
        """How it stands with the link now; may be asked from any thread."""
        with self._lock:
            rate, thinned_to = self._count.rates
            return LinkState(
                phase=self._phase,
                port=self._port,
                description=self._description,
                lines=self._lines,
                junk=self._decoder.junk_count,
                last_junk=self._decoder.last_junk,
                rate=rate,
                trouble=self._trouble,
                merged=self._count.merged,
                thinned_to=thinned_to,
            )

    def start(self) -> None:
        """Open the port, before this returns, and begin to read it in a thread.

        Raises:
            DeviceError: the port can't be opened; the text says why and what to do.
        """
        device = self._reopening.open()
        self._opened()
        self._thread = Thread(target=self._run, args=(device,), name="probe reader", daemon=True)
        self._thread.start()

    def close(self) -> None:
        """End the thread, which closes the port; takes two seconds at most. Closing twice does no harm.

        Raises:
            Exception: what `deliver` or `watch_line` raised, which ended the reading; only the first `close` raises it.
        """
        self._stop.set()
        if self._thread is not None and self._thread is not current_thread():
            self._thread.join(_JOIN)
        with self._lock:
            self._phase = LinkPhase.CLOSED
        bug, self._bug = self._bug, None
        if bug is not None:
            raise bug

    def __enter__(self) -> Link:
        self.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    # All below runs in the reader thread, except that `start` opens the port before there is one.

    def _run(self, device: Serial | None) -> None:
        try:
            while not self._stop.is_set():
                if device is None:
                    device = self._reopen()
                    continue
                self._listen(device)
                close_port(device)
                device = None
        except Exception as error:
            # A traceback must not be written across the screen: `close` hands the error on.
            self._bug = error
            with self._lock:
                self._phase, self._trouble = LinkPhase.LOST, "the program failed at a reading"
        finally:
            if device is not None:
                close_port(device)

    def _listen(self, device: Serial) -> None:
        """Read until the port is gone or the link is closed."""
        splitter = LineSplitter(self._profile.skip_first)
        if self._watch_line is not None:
            with suppress(*BROKEN):
                device.timeout = _WATCH_EVERY
        gathering = False
        while not self._stop.is_set():
            if self._watch_line is not None:
                self._watch_line(device)
            held = self._slots.wait
            pause = held if held is not None else _BREATH if gathering else 0.0
            if pause:
                self._stop.wait(min(pause, _WATCH_EVERY) if self._watch_line is not None else pause)
            try:
                data = read_there(device, wait=held is None)
            except BROKEN:
                self._hand_on(self._slots.rest())
                self._lose("connection ended" if is_address(self._asked_for) else "unplugged", LinkPhase.LOST)
                return
            gathering = bool(data) and not self._hear(splitter.feed(data), len(data))
            self._hand_on(self._slots.due(self._clock()))
            self._mind_silence()

    def _hear(self, lines: list[bytes], size: int) -> bool:
        """Take in what was read; whether there was a reading in it."""
        at = self._clock()
        self._bytes_since += size
        newest = lines[-_LOOKED_AT:]
        with self._lock:
            judged = [self._decoder.decode(line) for line in newest]
            self._lines += len(lines)
            readings = [Reading(at, one.kelvin, one.fault) for one in judged if not one.is_junk]
            if readings:
                self._trouble = ""
                # Those that were not looked at are taken to be like the others.
                self._count.heard(len(readings) * len(lines) // len(newest))
        if readings:
            self._heard_at, self._told = at, ""
            self._bytes_since = self._junk_since = 0
            self._reopening.settle()
            self._slots.hold(readings)
        else:
            self._junk_since += len(lines)
        return bool(readings)

    def _hand_on(self, readings: list[Reading]) -> None:
        """Hand on what was said, and note for how many readings it stands."""
        if not readings:
            return
        with self._lock:
            self._count.handed_on(self._clock(), len(readings))
        for reading in readings:
            self._tell(self._doubt.judge(reading))

    def _mind_silence(self) -> None:
        if self._clock() - self._heard_at > self._profile.silence:
            # Part of a line is no speech yet: the rest of it may be on its way.
            speaks = self._junk_since or self._bytes_since > LONGEST_LINE
            manner = "unreadable" if speaks else "silent"
            self._lose(f"{manner} for {self._profile.silence:g} s", LinkPhase.OPEN)

    def _lose(self, why: str, phase: LinkPhase) -> None:
        """Note why there are no readings, and tell it unless that was the last thing told."""
        with self._lock:
            self._phase, self._trouble = phase, why
            self._count.forget()
        if why != self._told:
            self._told = why
            self._tell(Reading(self._clock(), None, f"lost: {why}"))

    def _tell(self, reading: Reading) -> None:
        if not self._stop.is_set():
            self._deliver(reading)

    def _reopen(self) -> Serial | None:
        try:
            device = self._reopening.reopen(self._stop)
        except DeviceError as error:
            with self._lock:
                self._trouble = error.what
            return None
        if device is not None:
            self._opened()
        return device

    def _open(self, port: str) -> Serial:
        device = open_port(port, self._profile)
        self._heard_at = self._clock()
        self._bytes_since = self._junk_since = 0
        return device

    def _opened(self) -> None:
        adapter = self._reopening.adapter
        with self._lock:
            self._phase, self._port, self._trouble = LinkPhase.OPEN, self._reopening.port, ""
            self._description = adapter.description if adapter else ""
