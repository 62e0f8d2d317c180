"""What a long sitting costs: no more for a reading late than early, little memory, and quick to go on with."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from statistics import median

from tests.cost.row import Row

TURNS = 3
BEGINNING = """
import time
from math import sin
from plans.reader import find_plan
from plans.reading import ProbeOn, Reading
from plans.sitting import Hands, HandsFree, Said, Sitting, Tick, Word, WordError

def megabytes():
    return int(open("/proc/self/statm").read().split()[1]) * 4096 / 1e6

def heats(seconds, every):
    "Readings of a bar that is four minutes in a fire at 1290 degC and less than one outside, again and again."
    kelvin, at, number = 293.0, 3.0, 0
    while at < seconds:
        if at % 300 < 255:
            kelvin += (1563 - kelvin) / 45 * every
        else:
            kelvin -= (kelvin - 293) * 0.0085 * every
        number += 1
        yield at, kelvin + 2 * sin(number * 7.3)
        at += every
"""
LONG = (
    BEGINNING
    + """
sitting = Sitting(find_plan("normalize", None), ProbeOn.WORK, Hands(HandsFree.ALL))
sitting.open()
for at in (0.0, 1.0, 2.0):
    sitting.take(Said(at, Word.NEXT))

def feed(first, last):
    began = time.process_time()
    for index in range(first, last):
        sitting.take(Reading(2 + index / 10, 1150 + 10 * sin(index / 70)))
    return time.process_time() - began

feed(0, 2000)
early, before = feed(2000, 6000), megabytes()
feed(6000, 96000)
after, late = megabytes(), feed(96000, 100000)
print(early / 4000, late / 4000, (after - before) * 288000 / 90000)
"""
)
"""Readings at 10 Hz; 288,000 of them are eight hours."""
GOING_ON = (
    BEGINNING
    + """
import json
from plans.trace import as_logged

plan = find_plan("kitchen-billet", None)
smith = Sitting(plan, ProbeOn.WORK, Hands(HandsFree.NEVER))
events = [*smith.open(), *smith.take(Said(1.0, Word.ON)), *smith.take(Said(2.0, Word.ON))]
for heat in range(96):
    for at, word in ((3.0, Word.IN), (255.0, Word.OUT)):
        try:
            events += smith.take(Said(heat * 300 + at, word))
        except WordError:
            events += smith.take(Said(heat * 300 + at, Word.NEXT))
readings = [as_logged(Reading(*reading)) for reading in heats(8 * 3600.0, 0.1)]
log = sorted([*events, *readings], key=lambda entry: entry.at)
lines = [f"[{entry.at * 1000:.0f}, {entry.kelvin * 10 - 2731.5:.0f}]" for entry in readings]
began = time.process_time()
for line in lines:
    json.loads(line)
theirs = time.process_time() - began
began = time.process_time()
Sitting(plan, ProbeOn.WORK, Hands(HandsFree.ALL)).replay(log)
print(time.process_time() - began, theirs)
"""
)
"""The replay of eight hours at 10 Hz, and reading as many lines of JSON."""
RECORDING = (
    BEGINNING
    + """
import csv, os, sys, tempfile
from contextlib import redirect_stdout
from pathlib import Path
from tui.cli.main import main

folder = Path(tempfile.mkdtemp())
os.environ["HEATBOOK_HOME"] = str(folder / "home")

def rows(seconds):
    "Five heats an hour and a third, or rather a fire in which the work lies most of the time, as where one waits."
    kelvin, at, number = 293.0, 3.0, 0
    while at < seconds:
        kelvin += (1563 - kelvin) / 45 / 4 if at % 2400 < 2340 else (293 - kelvin) * 0.0085 / 4
        number += 1
        yield at, kelvin + 2 * sin(number * 7.3)
        at += 0.25

def recorded(name, entries):
    path = folder / name
    with path.open("w") as file:
        file.write("seconds,celsius,word\\n0,,on\\n1,,on\\n2,,on\\n")
        for at, kelvin in entries:
            file.write(f"{at:.2f},{kelvin - 273.15:.1f},\\n")
    return path

def play(path):
    sys.argv = ["heatbook", "run", "kitchen-billet", "--readings", str(path)]
    began = time.process_time()
    with (folder / "printed").open("w") as printed, redirect_stdout(printed):
        assert main() == 0
    return time.process_time() - began

def read(path):
    began = time.process_time()
    for _ in range(10):
        with path.open(newline="") as file:
            rows = csv.reader(file)
            next(rows)
            count = sum(bool(float(row[0]) + float(row[1] or 0)) for row in rows)
    return (time.process_time() - began) / 10, count

play(recorded("short.csv", rows(60.0)))
few, many = recorded("few.csv", rows(12000.0)), recorded("many.csv", heats(3600.0, 0.25))
before, found = megabytes(), []
for path in (few, many):
    theirs, count = read(path)
    found += [play(path) / count, theirs / count]
print(*found)
"""
)
"""Recordings at 4 Hz played from a file, and reading their rows as numbers: few heats in them, and one every 5 min."""
GROWTH = (
    RECORDING.partition("before, found")[0]
    + """
import gc

play(few)
gc.collect()
before = megabytes()
play(recorded("longer.csv", rows(50000.0)))
gc.collect()
after = megabytes()
print((after - before) / (50000 - 12000) / 4 * 1e6, 16.0)
"""
)
"""What 152,000 rows more leave behind, for a million [MB]."""


def rows() -> Iterator[Row]:
    """A reading late and early, what memory grows by in eight hours, a recording, and going on."""
    early, late, megabytes = _figures(LONG)
    yield Row("sitting, reading 100,000", late, "reading 4,000", early, 1.5)
    # 4.3 times 4.6 MB are the 20 MB that eight hours may take.
    yield Row("sitting, growth in eight hours at 10 Hz", megabytes, "the numbers alone", 288_000 * 16 / 1e6, 4.3, "MB")
    ours, theirs = _figures(GOING_ON)
    yield Row("sitting, going on with eight hours at 10 Hz", ours, "as many lines read as JSON", theirs, 10.0)
    # 114 times 0.58 us are 15,000 rows a second.
    few, few_read, many, many_read = _figures(RECORDING)
    yield Row("sitting, a row of a recording with few heats", few, "a row read as numbers", few_read, 114.0)
    yield Row("sitting, a row of one with a heat every 5 min", many, "a row read as numbers", many_read, 300.0)
    ours, theirs = _figures(GROWTH)
    yield Row("sitting, growth over a million rows", ours, "the numbers alone", theirs, 4.0, "MB")


def _figures(program: str) -> list[float]:
    """The medians of the figures that a program prints."""
    runs = []
    for _ in range(TURNS):
        done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
        runs.append([float(figure) for figure in done.stdout.split()])
    return [median(column) for column in zip(*runs, strict=True)]
