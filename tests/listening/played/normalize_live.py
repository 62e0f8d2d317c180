"""Three falling normalizing heats in real time on a port, for a program that runs in a terminal beside it.

    python -m tests.listening.played.normalize_live --after 60 --soak 310 --truth truth.json

prints the port first. It stays there when the last cycle is over, until it is interrupted.
"""

from __future__ import annotations

import argparse
import json
from dataclasses import asdict
from pathlib import Path
from random import Random

from tests.listening.played.forge import Forge, Work
from tests.listening.played.live import Line, Pace
from tests.listening.played.scenes import normalizing
from tests.listening.played.thermometer import Faults, Thermometer


def main() -> None:
    """Play it."""
    parser = argparse.ArgumentParser(description="Three normalizing heats in real time on a port.")
    parser.add_argument("--after", type=float, default=60.0, help="seconds on the bench first")
    parser.add_argument("--soak", type=float, default=310.0, help="seconds at heat")
    parser.add_argument("--thickness", type=float, default=6.0, help="of the work, mm")
    parser.add_argument("--lag", type=float, default=2.0, help="time constant of the thermocouple, s")
    parser.add_argument("--hertz", type=float, default=4.0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--truth", type=Path, required=True, help="where to write what really happened")
    chosen = parser.parse_args()
    line, chance = Line(), Random(chosen.seed)
    print(line.port, flush=True)
    pace = Pace()
    forge = Forge(Work(chosen.thickness), chance, sag=60.0)
    thermometer = Thermometer(Faults(lag=chosen.lag, hertz=chosen.hertz), Random(chosen.seed + 1), line.say)
    forge.watchers += [thermometer, pace]
    forge.go(chosen.after)
    normalizing(forge, 3, (900.0, 845.0, 790.0), chosen.soak)
    record = {"began": pace.began, "silences": thermometer.silences} | asdict(forge.truth)
    chosen.truth.write_text(json.dumps(record, indent=1))
    print("done", flush=True)
    while True:
        forge.go(60.0)


if __name__ == "__main__":
    main()
