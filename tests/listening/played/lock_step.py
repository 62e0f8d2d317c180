"""Weld heats through a pseudo-terminal and the program's own link, with the forge's clock handed in to it."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from queue import SimpleQueue
from random import Random

from devices.profile_reader import find_profile
from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Said, Tick, Word
from plans.sitting.hands import Hands, HandsFree
from tests.listening.played.cells import WELD, Cell, judged
from tests.listening.played.forge import Forge, Watcher, Work
from tests.listening.played.judging import Score
from tests.listening.played.live import Line
from tests.listening.played.program import Program
from tests.listening.played.scenes import COLD_BELOW, WELD_AT, weld_heats
from tests.listening.played.thermometer import Faults, Thermometer
from tui.running.sources import Delivered, ProbeSource

PATIENCE = 20.0
"""How long a line may take through the port before something is wrong [s]."""


class _Desk(Watcher):
    """Takes what the link delivers of each line before the forge goes on, and tells the sitting the time."""

    def __init__(self, line: Line, sitting: LoggedSitting, inbox: SimpleQueue[Delivered]) -> None:
        self._line, self._sitting, self._inbox = line, sitting, inbox

    def say(self, at: float, celsius: float | None) -> None:
        self._line.say(at, celsius)
        reading = self._inbox.get(timeout=PATIENCE)
        assert isinstance(reading, Reading)
        self._sitting.take(reading)

    def look(self, forge: Forge) -> None:
        if forge.at % 0.25 < forge.moment:
            self._sitting.take(Tick(forge.at))


def play_in_lock_step(folder: Path, seed: int) -> tuple[Cell, dict[str, Score]]:
    """Play them as fast as the program takes them; the cell, and how its log was judged.

    Args:
        folder: an empty one
        seed: of the forge and its probe
    """
    cell = Cell("weld", 6.0, Faults(2.0, 10.0, lag=0.5), 2, seed, "port")
    forge = Forge(Work(cell.thickness), Random(seed), limit=COLD_BELOW, target=WELD_AT)
    line, inbox, program = Line(), SimpleQueue[Delivered](), Program(folder)
    source = ProbeSource(lambda: forge.at, line.port, find_profile("bare-celsius"))
    logbook = Logbook(folder / "home" / "logbook")
    plan = read_plan(WELD % cell.thickness, "weld", "weld.toml")
    now = datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC)
    sitting = LoggedSitting.begin(logbook, plan, now, ProbeOn.WORK, Hands(HandsFree.ALL), port=line.port)
    sitting.take(Said(0.0, Word.ACKNOWLEDGE))
    source.start(inbox.put)
    line.say(0.0, 20.0)  # the first line, which may be half of one, counts for nothing
    desk = _Desk(line, sitting, inbox)
    thermometer = Thermometer(cell.faults, Random(seed + 1), desk.say)
    forge.watchers += [thermometer, desk]
    weld_heats(forge, int(cell.size))
    source.close()
    line.close()
    sitting.take(Said(forge.at, Word.FINISH))
    name = sitting.put_away().id
    logbook.close()
    return cell, judged(forge, program.log(name), thermometer.silences, "strike")
