"""What a long sitting costs: no more for a reading late than early, and little memory."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from statistics import median

from tests.cost.row import Row

TURNS = 3
LONG = """
import time
from math import sin
from plans.reader import find_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from plans.sitting.hands import Hands, HandsFree

sitting = Sitting(find_plan("normalize", None), ProbeOn.WORK, Hands(HandsFree.ALL))
sitting.open()
for at in (0.0, 1.0, 2.0):
    sitting.take(Said(at, Word.NEXT))

def feed(first, last):
    began = time.process_time()
    for index in range(first, last):
        sitting.take(Reading(2 + index / 10, 1150 + 10 * sin(index / 70)))
    return time.process_time() - began

def megabytes():
    return int(open("/proc/self/statm").read().split()[1]) * 4096 / 1e6

feed(0, 2000)
early, before = feed(2000, 6000), megabytes()
feed(6000, 96000)
after, late = megabytes(), feed(96000, 100000)
print(early / 4000, late / 4000, (after - before) * 288000 / 90000)
"""
"""Readings at 10 Hz; 288,000 of them are eight hours."""


def rows() -> Iterator[Row]:
    """A reading late and early, and what memory grows by in eight hours."""
    runs = []
    for _ in range(TURNS):
        done = subprocess.run([sys.executable, "-c", LONG], check=True, capture_output=True, text=True)
        runs.append([float(figure) for figure in done.stdout.split()])
    early, late, megabytes = map(median, zip(*runs, strict=True))
    yield Row("sitting, reading 100,000", late, "reading 4,000", early, 1.5)
    yield Row("sitting, growth in eight hours at 10 Hz", megabytes, "20 MB", 20.0, 1.0, "MB")
