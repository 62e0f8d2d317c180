"""A home with one file of every kind that the program reads, whole: to be spoiled."""

from __future__ import annotations

from contextlib import closing, suppress
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from plans.logbook import Grain, KeptSitting, Logbook, Outcome, Photograph, Photographs, SittingLessons, Tie
from plans.logbook.logged_sitting import LoggedSitting
from plans.plan import StepKind
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting import Hands, HandsFree, Said, Word, WordError

SETTINGS = """
units = "inch"
hands_free = "all"
grace_seconds = 20
blocks = false
talk = "normal"
[keys]
next = "enter,space"
[pedal]
key = "f9"
[probe]
port = "/dev/ttyUSB0"
profile = "bare-celsius"
on = "work"
"""
SHOP = "cooling_factor = 1.12\ncooling_standard_error = 0.04\ncontact_factor = 0.9\n"
PROFILE = """
title = "A label, the temperature, C"
example = "t: 125.745 C"
pattern = "t: {value} C"
unit = "degC"
baud = 115200
lag = "2 s"
"""
PLAN = """
heatbook = 1
title = "A trial"

[[step]]
title = "Draw"
kind = "draw"
fire = "1200 degC"
heat_to = "1150 degC"
keep_above = "900 degC"
burn_above = "1280 degC"
flux_at = "1000 degC"
soak = "5 s"
heats = 2
section = "40 x 12 mm"
reach = "40 x 6 mm"
layers = 7

[[step]]
title = "Harden"
kind = "harden"
fire = "850 degC"
heat_to = "800 degC"
soak = "5 s"

[step.quench]
medium = "oil at {55 degC}"
for = "10 s"
"""
LESSON = "quench it tip first"
"""Stands in the sitting, and before each step that hardens."""
RECORDING = "seconds,celsius,word\n0,20,next\n" + "".join(
    f"{second},{20 + 9 * second},{'note hot' if second == 60 else ''}\n" for second in range(1, 120)
)


def make_home(home: Path, cut_off: bool = False) -> Path:
    """A home with one file of every kind, and a sitting in its logbook or, if it was cut off, its journal."""
    (home / "probes").mkdir(parents=True)
    for name, text in (
        ("mine.toml", PLAN),
        ("heatbook.toml", SETTINGS),
        ("shop.toml", SHOP),
        ("probes/mine.toml", PROFILE),
        ("recording.csv", RECORDING),
    ):
        (home / name).write_text(text, encoding="utf-8")
    with closing(Logbook(home / "logbook")) as logbook:
        _sitting(logbook, cut_off=cut_off)
    return home


def _sitting(logbook: Logbook, cut_off: bool) -> None:
    """A sitting with events of every kind, gone on with once and left before its end."""
    plan, started = read_plan(PLAN, "trial", "trial.toml"), datetime.now().astimezone() - timedelta(seconds=200)
    hands = Hands(HandsFree.ALL, None)
    logged = LoggedSitting.begin(logbook, plan, started, ProbeOn.WORK, hands, profile="plain", port="/dev/ttyX")
    at = 0.0

    def feel(to: float, seconds: int, start: float) -> None:
        nonlocal at
        for count in range(1, 2 * seconds + 1):
            at += 0.5
            celsius = start + (to - start) * count / (2 * seconds)
            fault = "open circuit" if count == 7 else None
            logged.take(Reading(at, None if fault else celsius + 273.15, fault))

    def say(*words: Word | str) -> None:
        for word in words:
            with suppress(WordError):
                logged.take(Said(at, word) if isinstance(word, Word) else Said(at, Word.NOTE, word))

    say(Word.ACKNOWLEDGE, Word.NEXT)
    feel(1160, 35, 20)
    say(Word.FLUX)
    feel(1100, 3, 1160)
    say(Word.FLUX)
    feel(1165, 8, 1100)
    say("it took", Word.OUT)
    feel(850, 25, 1165)
    say(Word.REPEAT, Word.IN, Word.UNDO, Word.REDO)
    logged.put_away()
    logged = LoggedSitting.go_on(logbook, "last", started + timedelta(seconds=at + 30), ProbeOn.WORK, hands)
    at = logged.sitting.now
    say(Word.IN)
    feel(1150, 20, 850)
    say(Word.OUT, Word.EARLIER)
    feel(900, 15, 1150)
    say(Word.PAUSE)
    feel(800, 4, 900)
    say(Word.RESUME, Word.ON, Word.NEXT)
    feel(810, 12, 780)
    say(Word.OUT, "a line", Word.OUT)
    feel(790, 2, 810)
    if cut_off:
        logged.flush()
        return
    name = logged.put_away().id
    logbook.amend(name, lambda kept: _said_of(kept, started))
    assert logbook.recall()  # which writes the file that has them all


def _said_of(kept: KeptSitting, now: datetime) -> KeptSitting:
    """The sitting with an outcome, with a lesson of each sort, one of them no longer said, and with photographs."""
    tie = Tie(StepKind.DRAW, steel="1084", plan="A trial")
    lessons = SittingLessons(said=("20250101-100000-knife.1",)).learned(LESSON, Tie(StepKind.HARDEN), 0, now, "a-trial")
    lessons = lessons.learned("less", tie, 0, now, "a-trial").changed(
        2, lambda one: replace(one, retired=now, changed=now)
    )
    outcome = Outcome(warp=0.001, twist_degrees=2.0, cracked=True, grain=Grain.FINE, rating=4, changed=now)
    sha256 = "0123456789abcdef" * 4
    photograph = Photograph(0, "/home/blade.png", "0123456789abcdef.png", 0, "even scale", now, 80, sha256)
    photographs = Photographs().added(photograph).without(1, now).added(photograph)
    return replace(kept, lessons=lessons, outcome=outcome, photographs=photographs)
