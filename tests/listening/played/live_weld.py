"""Weld heats in real time through a pseudo-terminal: thin work, so that it takes minutes and not an hour."""

from __future__ import annotations

import json
import signal
import tempfile
from datetime import datetime
from pathlib import Path
from random import Random
from threading import Thread

from tests.listening.played.cells import WELD, Cell, judged
from tests.listening.played.forge import Forge, Work
from tests.listening.played.judging import Score
from tests.listening.played.live import Line, Pace
from tests.listening.played.program import Program
from tests.listening.played.scenes import COLD_BELOW, WELD_AT, weld_heats
from tests.listening.played.thermometer import Faults, Thermometer

_QUICK = {"bench": 4.0, "least": 3.0, "most": 4.0, "lowest": 870.0, "highest": 900.0}


def play_on_port(heatbook: tuple[str, ...], seed: int, quick: bool) -> tuple[Cell, dict[str, Score]]:
    """Play them to the program in real time; the cell, and how its log was judged.

    When it is to be quick, a sheet that lies there hot already goes in and out.
    """
    if quick:
        cell = Cell("weld", 2.0, Faults(silences=0.0), 1, seed, "port", _QUICK)
    else:
        cell = Cell("weld", 6.0, Faults(2.0, 10.0, lag=0.5), 5, seed, "port")
    chance = Random(seed)
    work = Work(cell.thickness, 900.0) if quick else Work(cell.thickness)
    forge = Forge(work, chance, 1430.0 if quick else 1290.0, limit=COLD_BELOW, target=WELD_AT)
    line = Line()
    thermometer = Thermometer(cell.faults, Random(seed + 1), line.say)
    with tempfile.TemporaryDirectory() as folder:
        program = Program(Path(folder), heatbook)
        arguments = ["--no-screen", "--json", "--probe", "bare-celsius", "--port", line.port, "--hands-free", "all"]
        running = program.start("run", program.plan(WELD % cell.thickness), *arguments)
        assert running.stdout
        assert running.stderr
        if not (first := running.stdout.readline()):
            raise RuntimeError(running.stderr.read())
        name = json.loads(first)["id"]
        Thread(target=running.stdout.read, daemon=True).start()
        pace = Pace()
        forge.watchers += [thermometer, pace]
        weld_heats(forge, int(cell.size), **cell.options)
        running.send_signal(signal.SIGTERM)
        running.wait()
        line.close()
        log = program.log(name)
        shown = json.loads(program.ask("log", "show", name, "--json"))
    ahead = pace.began - datetime.fromisoformat(shown["started"]).timestamp()
    return cell, judged(forge, log.earlier(ahead), thermometer.silences, "strike", tail=4.0)
