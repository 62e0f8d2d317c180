"""A probe that misbehaves in every phase of a sitting: a flood, a trickle, no line end, escapes, a plug pulled out."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tty
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from queue import Empty, SimpleQueue
from threading import Event, Thread
from time import monotonic, sleep
from typing import Any

from plans.logbook import Logbook
from plans.phase import PhaseKind
from plans.reader import find_plan
from tests.terminal import Terminal, environment

RATE = 5000
"""Lines a second of a board that prints without delay through a USB port of its own; 115,200 baud carry 1,600."""
ANSWERED = 1.0
"""A word, or a key, must be answered by then [s]."""
_PLAN = "drawknife"
_PROGRAM = (sys.executable, "-m", "tui.cli")
_MOST_A_SECOND = 30
"""So many readings a second may be in the log, with some room."""
_MOST_MEMORY = 20_000
"""By so much may the memory grow [kB]."""
_TICK = 0.002
_LASTS = 3.0
"""How long it goes on before a key is pressed: what was not taken piles up meanwhile [s]."""
_BACK = 2.0
"""A probe that was plugged in again must be back by then [s]."""
_ASKED = 5.0
"""A word that begins nothing, and is not refused, is said again after this [s]."""
_BELIEVED = 2.5
"""So long a probe must have spoken to be believed; before that it is not lost, and not back as soon [s]."""
_PATIENCE = 20.0


class Plug:
    """A probe's end of a cable, at a path that stays the same when it is pulled out and put in again."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.put_in()

    def put_in(self) -> None:
        self.ours, self._theirs = os.openpty()
        tty.setraw(self._theirs)
        os.set_blocking(self.ours, False)
        self.path.symlink_to(os.ttyname(self._theirs))

    def pull_out(self) -> None:
        self.path.unlink()
        for end in (self.ours, self._theirs):
            os.close(end)

    def send(self, data: bytes) -> None:
        """What the cable has no room for is lost, as on a real one."""
        try:
            os.write(self.ours, data)
        except BlockingIOError:
            return


def _reading(number: int) -> bytes:
    return b"%.1f\r\n" % (900 + number % 7 / 10)


TROUBLES: Mapping[str, Callable[[int], bytes]] = {
    "flood": lambda tick: b"".join(map(_reading, range(round(tick * _TICK * RATE), round((tick + 1) * _TICK * RATE)))),
    "trickle": lambda tick: (b"900.1\r\n" * 2)[tick % 7 : tick % 7 + 1],
    "no line end": lambda _: b"9" * 40,
    "escapes": lambda _: b"\x1b[2J\x1b]0;owned\x07\x9b31m\xff\x00\r\n" * 3,
    "unplugged": lambda _: b"",
}
"""What the probe says in each tick of a trouble."""


@contextmanager
def talking(plug: Plug, trouble: str) -> Iterator[None]:
    """The probe is in trouble for as long as this lasts; a plug that was pulled out is put in again at the end."""
    enough = Event()

    def talk() -> None:
        began, tick = monotonic(), 0
        while not enough.is_set():
            while began + tick * _TICK <= monotonic():
                plug.send(TROUBLES[trouble](tick))
                tick += 1
            sleep(_TICK)

    if trouble == "unplugged":
        plug.pull_out()
        yield
        plug.put_in()
        return
    speaker = Thread(target=talk)
    speaker.start()
    try:
        yield
    finally:
        enough.set()
        speaker.join()
        plug.send(b"\r\n")


class _Sitting:
    """The program without a screen, its words written and its lines read."""

    def __init__(self, home: Path, port: Path) -> None:
        arguments = ("run", _PLAN, "--no-screen", "--json", "--hands-free", "never", "--port", str(port))
        here = environment(HEATBOOK_HOME=str(home))
        pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.STDOUT}
        self.process = subprocess.Popen([*_PROGRAM, *arguments], env=here, **pipes)  # type: ignore[call-overload]
        self._lines: SimpleQueue[bytes] = SimpleQueue()
        self.odd: list[bytes] = []
        """Lines that are not as they ought to be."""
        self._reader = Thread(target=self._read)
        self._reader.start()

    def _read(self) -> None:
        for line in self.process.stdout:
            self._lines.put(line)

    def say(self, word: str) -> None:
        self.process.stdin.write(word.encode() + b"\n")
        self.process.stdin.flush()

    def hear(self, seconds: float, *events: str, **wanted: object) -> dict[str, Any] | None:
        """Read on to the record of one of these events that has these values, for so long at most."""
        give_up = monotonic() + seconds
        while (left := give_up - monotonic()) > 0:
            try:
                line = self._lines.get(timeout=left)
            except Empty:
                break
            try:
                record: dict[str, Any] = json.loads(line)
            except ValueError:
                self.odd.append(line)
                continue
            if record.get("event") in events and wanted.items() <= record.items():
                return record
        return None

    def memory(self) -> int:
        """What it takes [kB]."""
        status = Path(f"/proc/{self.process.pid}/status").read_text()
        return int(status.partition("VmRSS:")[2].split()[0])

    def go_on(self, word: str) -> PhaseKind:
        """Say a word until a phase begins by it: it is asked whether it is meant, if the last one began just now."""
        for _ in range(50):
            self.say(word)
            if (begun := self.hear(_ASKED, "phase", "refused")) and "phase" in begun:
                return PhaseKind(begun["phase"])
        raise AssertionError(f"{word} does not go on")


def flooded(folder: Path) -> Iterator[str | None]:
    """Each trouble in each kind of phase, while words are said.

    Args:
        folder: an empty one

    Yields:
        For each phase and trouble, and for the log at the end, what was wrong, or None.
    """
    plug = Plug(folder / "probe")
    sitting = _Sitting(folder / "home", plug.path)
    began, memory, count, seen = monotonic(), 0, 0, set[PhaseKind]()
    try:
        first = sitting.hear(_PATIENCE, "phase")
        phase = PhaseKind(first["phase"]) if first else None
        with talking(plug, "trickle"):
            sleep(_BELIEVED)
        for number, step in enumerate(find_plan(_PLAN, None).steps):
            while phase is not None:
                for trouble in () if phase in seen else TROUBLES:
                    count += 1
                    yield _suffered(sitting, plug, f"{trouble} in {phase.value}", count, trouble)
                    memory = memory or sitting.memory()
                seen.add(phase)
                if {one.kind for one in step.phases} <= seen:
                    break
                phase = sitting.go_on("next")
            if number + 1 < len(find_plan(_PLAN, None).steps):
                phase = sitting.go_on("on")
        grown = sitting.memory() - memory
        yield f"the memory grew by {grown} kB" if grown > _MOST_MEMORY else None
        took = monotonic() - began
        sitting.process.terminate()
        yield None if sitting.hear(2.0, "put away") else "told to end, it had not put the log away in two seconds"
        yield None if sitting.process.wait(_PATIENCE) == 0 else f"it ended with {sitting.process.returncode}"
        yield _log_is_whole(folder / "home", count, took)
        yield f"said: {sitting.odd[:3]}" if sitting.odd else None
    except (AssertionError, OSError) as error:
        yield f"the sitting does not go on: {error}"
    finally:
        sitting.process.kill()
        sitting.process.communicate()
        plug.pull_out()


def _suffered(sitting: _Sitting, plug: Plug, what: str, number: int, trouble: str) -> str | None:
    """Say a note while the probe is in trouble; a plug that is put in again must be found within two seconds."""
    with talking(plug, trouble):
        sleep(0.4)
        sitting.say(f"note {number}")
        if sitting.hear(ANSWERED, "word", text=str(number)) is None:
            return f"{what}: a word was not answered in {ANSWERED:g} s"
    if trouble != "unplugged":
        return None
    with talking(plug, "flood"):
        if sitting.hear(_BACK, "call", call="probe back") is None:
            return f"{what}: the probe was not back {_BACK:g} s after it was plugged in"
    return None


def _log_is_whole(home: Path, notes: int, seconds: float) -> str | None:
    logbook = Logbook(home / "logbook")
    try:
        log = logbook.load("last").log
    finally:
        logbook.close()
    told = [event for event in log.events if getattr(event, "word", None) == "note"]
    if len(told) != notes:
        return f"{len(told)} of {notes} notes are in the log"
    readings = len(log.readings)
    return f"{readings} readings in {seconds:.0f} s" if readings > _MOST_A_SECOND * seconds else None


def flooded_screen(folder: Path) -> Iterator[str | None]:
    """Each trouble on the live screen, while keys are pressed.

    Args:
        folder: an empty one

    Yields:
        For each trouble, and for the end, what was wrong, or None.
    """
    plug = Plug(folder / "probe")
    command = [*_PROGRAM, "run", "normalize", "--port", str(plug.path)]
    terminal = Terminal(command, environment=environment(HEATBOOK_HOME=str(folder / "home")))
    try:
        terminal.read_cautions()
        for number, trouble in enumerate(TROUBLES):
            with talking(plug, trouble):
                sleep(_LASTS)
                pressed = monotonic()
                terminal.press("m")
                terminal.until("the bell on again" if number % 2 else "the bell off")
                took = monotonic() - pressed
                yield None if took <= ANSWERED else f"{trouble}: a key was answered after {took:.1f} s"
        with talking(plug, "flood"):
            sleep(_LASTS)
            told = monotonic()
            terminal.process.terminate()
            status, took = terminal.end(), monotonic() - told
        yield None if status == 0 and took <= 2.0 else f"told to end in a flood: status {status} after {took:.1f} s"
    except (TimeoutError, EOFError) as error:
        yield f"on the screen: {error}"
    finally:
        terminal.close()
        plug.pull_out()
