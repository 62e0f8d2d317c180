"""A pedal that is a switch on the control lines of a serial port: the probe's own port, or one for itself."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from enum import StrEnum
from errno import EINVAL, ENOTTY
from threading import Event, Thread, current_thread
from typing import TYPE_CHECKING

from devices.clock import Clock
from devices.errors import DeviceError
from devices.finder import PortInfo, find_ports
from devices.pedal import Switch
from devices.port import BROKEN, close_port, open_port
from devices.profile import Profile, Unit
from devices.reopening import Reopening
from plans.sitting import Word
from plans.text import clean

if TYPE_CHECKING:
    from serial import Serial

POLL_EVERY = 0.02
"""Time from one look at the pedal's line to the next [s]."""
_JOIN = 2.0
"""How long `close` waits for the thread [s]."""
_NO_PROBE = Profile("pedal", "A pedal", Unit.CELSIUS)
"""Nothing is read or sent, so that no setting of the port matters."""


class ControlLine(StrEnum):
    """The line into the serial port that a pedal's switch closes."""

    CTS = "cts"
    """Clear to send, pin 8 of a nine-pin plug."""
    DSR = "dsr"
    """Data set ready, pin 6 of a nine-pin plug."""


class Power(StrEnum):
    """The line out of the serial port that feeds a pedal's switch."""

    RTS = "rts"
    """Request to send, pin 7 of a nine-pin plug."""
    DTR = "dtr"
    """Data terminal ready, pin 4 of a nine-pin plug."""


class PedalWatch:
    """Looks at a pedal's switch on a port that is open: a probe's (as `watch_line` of a `Link`) or a `PedalLine`'s.

    Args:
        deliver: called with each word that the foot says, in the thread that looks
        clock: what presses are timed by [s]
        line: the line that the switch closes
        power: the line that feeds the switch; None where it has a supply of its own
        tell: called once, in the thread that looks, if the port has no control lines
    """

    def __init__(
        self,
        deliver: Callable[[Word], None],
        clock: Clock,
        line: ControlLine = ControlLine.CTS,
        power: Power | None = Power.RTS,
        tell: Callable[[DeviceError], None] | None = None,
    ) -> None:
        self._deliver = deliver
        self._clock = clock
        self._line = line
        self._power = power
        self._tell = tell
        self._device: Serial | None = None
        self._switch = Switch()
        self._looked_at = 0.0
        self.trouble: DeviceError | None = None
        """Why no word will ever come from this pedal, its port having no control lines; None while all is well."""

    def __call__(self, device: Serial) -> bool:
        """Look at the pedal's line on this port, if the last look is long enough ago (`POLL_EVERY`).

        Returns:
            whether the port is still there; nothing is raised when it has gone away
        """
        at = self._clock()
        # A little sooner than due, or every second call of a timer that is as slow would be for nothing.
        too_soon = device is self._device and at - self._looked_at < 0.7 * POLL_EVERY
        if self.trouble is not None or too_soon:
            return True
        try:
            if device is not self._device:
                self._begin(device)
            closed = bool(getattr(device, self._line.value))
        except BROKEN as error:
            if not isinstance(error, OSError) or error.errno not in (ENOTTY, EINVAL):
                return False
            self.trouble = _no_lines(device)
            if self._tell is not None:
                self._tell(self.trouble)
            return True
        self._looked_at = at
        word = self._switch.see(at, closed)
        if word is not None:
            self._deliver(word)
        return True

    def _begin(self, device: Serial) -> None:
        """Another port, or the same one opened again: what the foot did before is forgotten."""
        self._device, self._switch = device, Switch()
        if str(device.port).startswith("socket:"):  # it has none, but pyserial makes some up
            raise OSError(ENOTTY, "no control lines")
        if self._power is not None:
            setattr(device, self._power.value, True)


class PedalLine:
    """A pedal with a port of its own, looked at in a thread. It is found again after it was unplugged.

    Args:
        port: path or name, as for `devices.port.open_port`
        deliver: called in the thread with each word that the foot says; it must not wait for the thread that calls
            `close`
        clock: what presses are timed by [s]
        line: the line that the switch closes
        power: the line that feeds the switch; None where it has a supply of its own
        tell: called in the thread when the pedal is lost, once until it is back
        ports: what is plugged in, asked when the port opens and when it is lost
        opener: opens the port that it is given, or raises a DeviceError
    """

    def __init__(
        self,
        port: str,
        deliver: Callable[[Word], None],
        clock: Clock,
        line: ControlLine = ControlLine.CTS,
        power: Power | None = Power.RTS,
        tell: Callable[[DeviceError], None] | None = None,
        ports: Callable[[], list[PortInfo]] = find_ports,
        opener: Callable[[str], Serial] = lambda port: open_port(port, _NO_PROBE),
    ) -> None:
        self._port = port
        self._watch = PedalWatch(deliver, clock, line, power)
        self._tell = tell
        self._reopening = Reopening(port, opener, ports)
        self._stop = Event()
        self._thread: Thread | None = None
        self._bug: Exception | None = None
        self._told = False

    def start(self) -> None:
        """Open the port, before this returns, and begin to look at the pedal's line in a thread.

        Raises:
            DeviceError: the port can't be opened, or has no control lines; the text says why and what to do.
        """
        device = self._reopening.open()
        self._watch(device)
        if self._watch.trouble is not None:
            close_port(device)
            raise self._watch.trouble
        self._thread = Thread(target=self._run, args=(device,), name="pedal", daemon=True)
        self._thread.start()

    def close(self) -> None:
        """End the thread, which closes the port; takes two seconds at most. Closing twice does no harm.

        Raises:
            Exception: what `deliver` or `tell` raised, which ended the thread; only the first `close` raises it.
        """
        self._stop.set()
        if self._thread is not None and self._thread is not current_thread():
            self._thread.join(_JOIN)
        bug, self._bug = self._bug, None
        if bug is not None:
            raise bug

    def _run(self, device: Serial | None) -> None:
        try:
            while not self._stop.is_set():
                if device is None:
                    with suppress(DeviceError):
                        device = self._reopening.reopen(self._stop)
                elif self._watch(device):
                    if self._watch.trouble is not None:  # what was plugged in again is something else
                        if self._tell is not None:
                            self._tell(self._watch.trouble)
                        return
                    self._told = False
                    self._reopening.settle()
                    self._stop.wait(POLL_EVERY)
                else:
                    close_port(device)
                    device = None
                    self._say_lost()
        except Exception as error:
            self._bug = error  # for `close`: a traceback must not be written across the screen
        finally:
            if device is not None:
                close_port(device)

    def _say_lost(self) -> None:
        if self._tell is not None and not self._told:
            self._told = True
            do = "Plug its adapter in again; until then say next with a key."
            self._tell(DeviceError(clean(self._port, 200), "the pedal is unplugged", do))


def _no_lines(device: Serial) -> DeviceError:
    what = "it has no control lines, so that no pedal can be connected to it"
    return DeviceError(clean(str(device.port), 200), what, "Connect the pedal to a real serial port or a USB adapter.")
