"""Files that people write, or that a disk spoils, changed at random and given to the program.

What is asked of it then: no traceback, no wait of more than five seconds, nothing lost in silence. What could be read
before is read still, or the file, the line or the key that can't be is named.
"""

from __future__ import annotations

import os
import shutil
import signal
import tempfile
import tomllib
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, closing, contextmanager, redirect_stderr, redirect_stdout, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from io import BytesIO, TextIOWrapper
from pathlib import Path
from random import Random
from types import FrameType
from unittest.mock import patch

import plans
from plans.errors import PlansError
from plans.logbook import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting import Hands, HandsFree, Said, Word, WordError
from plans.units import Units
from tests.faults.hostile import Spoil, spoil, swap_cells, swap_json, swap_json_line, swap_toml
from tui.cli.main import main

SHELF = Path(plans.__file__).parent / "shelf"
LONGEST = 5.0
"""What takes longer hangs [s]."""
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
RECORDING = "seconds,celsius,word\n0,20,next\n" + "".join(
    f"{second},{20 + 9 * second},{'note hot' if second == 60 else ''}\n" for second in range(1, 120)
)


@dataclass(frozen=True, slots=True)
class Target:
    """A file that is spoiled, and what the program is then asked."""

    name: str
    """In words."""
    path: str
    """Where it lies, from the home folder; `*` for whatever is there."""
    commands: tuple[tuple[str, ...], ...]
    """What is asked, one after the other; a word that begins with `@` is a path from the home folder."""
    swap: Spoil
    """Puts values in the place of others; every second time stretches of bytes are spoiled."""
    lost: Callable[[Path, bytes, str, str], str]
    """What was lost in silence, or nothing; of the home, the file before, and what was said on both outputs."""


def _names_file(home: Path, target: str, said: str) -> bool:
    return any(path.name.partition(".json")[0] in said for path in home.glob(target))


def _toml_lost(home: Path, path: Path, before: bytes, err: str) -> str:
    """A file that can't be read, or that has keys with other values than may be, must be named."""
    if path.name in err or path.name in err.replace("?", ""):
        return ""
    try:
        now = tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except (ValueError, RecursionError):
        return f"{path.name} can't be read, and nobody said so"
    was = tomllib.loads(before.decode())
    return "" if set(now) <= set(was) else f"{path.name} has unknown keys, and nobody said so"


def _of_toml(name: str) -> Callable[[Path, bytes, str, str], str]:
    return lambda home, before, out, err: _toml_lost(home, home / name, before, out + err)


def _recording_lost(home: Path, before: bytes, out: str, err: str) -> str:
    """A row that is in the file is in the log, or the row is named."""
    if "recording.csv" in err or out.count("\n") > 5:
        return ""
    return "nothing was made of it, and nobody said so"


def _sitting_lost(home: Path, before: bytes, out: str, err: str) -> str:
    """Each sitting is in the list, or its file is named."""
    names = {path.name.partition(".json")[0] for path in (home / "logbook/sittings").iterdir()}
    return "".join(f"{name} is neither listed nor named; " for name in names if name not in out + err)


def _journal_lost(home: Path, before: bytes, out: str, err: str) -> str:
    """Each line that was not touched is in the log, or the file is named."""
    return _sitting_lost(home, before, out, err)


RUN = ("run", "normalize", "--no-screen", "--readings", "@recording.csv")
LOOKS = (
    ("log", "list"),
    ("log", "show", "last"),
    ("log", "show", "last", "--json"),
    ("log", "export", "last", "--to", "csv"),
    ("log", "export", "last", "--to", "json"),
    ("log", "export", "last", "--to", "html"),
    ("log", "learn", "last"),
    ("review",),
    ("log", "learn", "last", "--keep"),
    ("run", "--go-on", "last", "--no-screen"),
    ("log", "list"),
)
TARGETS = (
    Target("a plan", "mine.toml", (("plan", "check", "@mine.toml"), ("run", "@mine.toml", *RUN[2:])), swap_toml, _of_toml("mine.toml")),
    Target("the settings", "heatbook.toml", (RUN, ("log", "show", "last")), swap_toml, _of_toml("heatbook.toml")),
    Target("the shop file", "shop.toml", (("log", "learn", "last", "--keep"), RUN), swap_toml, _of_toml("shop.toml")),
    Target("a probe profile", "probes/mine.toml", (("probe", "list"),), swap_toml, _of_toml("probes/mine.toml")),
    Target("a recording", "recording.csv", (RUN,), swap_cells, _recording_lost),
    Target("the index of the logbook", "logbook/index.json", (("log", "list"), ("log", "show", "last")), swap_json, _sitting_lost),
    Target("a sitting in the logbook", "logbook/sittings/*.json", LOOKS, swap_json, _sitting_lost),
    Target("a journal", "logbook/sittings/*.jsonl", (LOOKS[1], LOOKS[5], *LOOKS[-2:], LOOKS[1]), swap_json_line, _journal_lost),
)  # fmt: skip


def spoiled(target: Target, folder: Path, times: int, seed: int = 1, first: int = 0) -> Iterator[str | None]:
    """Spoil one file again and again, and ask the program.

    Args:
        target: which file
        folder: an empty one
        times: how often
        seed: of what is spoiled
        first: which time to begin with

    Yields:
        For each time what was wrong with how the program took it, or None.
    """
    whole = _home(folder / "whole", journal="jsonl" in target.path)
    for time in range(first, first + times):
        random = Random(f"{target.path} {seed} {time}")
        home = folder / "home"
        shutil.rmtree(home, ignore_errors=True)
        shutil.copytree(whole, home)
        path = next(home.glob(target.path))
        before = path.read_bytes()
        path.write_bytes((spoil if time % 4 == 1 else target.swap)(before, random))
        if path.parent.name == "sittings" and time % 3 == 0:
            (home / "logbook/index.json").unlink()  # then every sitting is read for the list
        wrong, said = [], ["", ""]
        for words in target.commands:
            told, out, err = _asked(home, words)
            said = [said[0] + out, said[1] + err]
            if told:
                wrong.append(told)
        if lost := target.lost(home, before, *said):
            wrong.append(f"lost in silence: {lost}")
        yield f"{target.name}, {time} of seed {seed}: {'; '.join(wrong)}" if wrong else None


def _home(home: Path, journal: bool) -> Path:
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
        told_sitting(logbook, cut_off=journal)
    return home


def told_sitting(logbook: Logbook, cut_off: bool = False) -> None:
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
    else:
        logged.put_away()


class Hang(BaseException):
    """The program took too long."""


@contextmanager
def _in_time() -> Iterator[None]:
    """What is done within has `LONGEST`, and is broken off then."""

    def too_long(number: int, frame: FrameType | None) -> None:
        raise Hang(f"{frame.f_code.co_filename}:{frame.f_lineno}" if frame is not None else "")

    before = signal.signal(signal.SIGALRM, too_long)
    signal.setitimer(signal.ITIMER_REAL, LONGEST)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _asked(home: Path, words: Sequence[str]) -> tuple[str, str, str]:
    """Give a command.

    Returns:
        what was wrong with how it ended, or nothing; and what was said on standard output and on standard error
    """
    arguments = [str(home / word[1:]) if word.startswith("@") else word for word in words]
    out, err = (TextIOWrapper(BytesIO(), "utf-8", write_through=True) for _ in range(2))
    status: int | str
    with ExitStack() as stack:
        stack.enter_context(patch.dict(os.environ, {"HEATBOOK_HOME": str(home)}))
        # Where reports of faults go: not into the machine's own folder.
        stack.enter_context(patch.object(tempfile, "tempdir", str(home)))
        stack.enter_context(redirect_stdout(out))
        stack.enter_context(redirect_stderr(err))
        stack.enter_context(_no_input())
        try:
            with _in_time():
                status = _review(home) if words == ("review",) else main(arguments)
        except Hang as error:
            status = f"hang, in {error}"
    said = err.buffer.getvalue().decode("utf-8")
    printed = out.buffer.getvalue().decode("utf-8")
    if status not in (0, 1, 2) or "Traceback" in said or "fault of the program" in said or "\x1b" in said + printed:
        return f"`{' '.join(words)}` ended with {status}: {said.strip()[:600]}", printed, said
    return "", printed, said


def _review(home: Path) -> int:
    """What the review shows, without its screen."""
    from tui.review.review_data import read_review
    from tui.review.rows import column_heads, review_options

    with closing(Logbook(home / "logbook")) as logbook:
        try:
            review = read_review(logbook, "last")
        except PlansError as error:
            print(error)
            return 1
        column_heads(review, Units.METRIC)
        review_options(review, Units.METRIC)
    return 0


@contextmanager
def _no_input() -> Iterator[None]:
    """Standard input is at its end."""
    kept, nothing = os.dup(0), os.open(os.devnull, os.O_RDONLY)
    os.dup2(nothing, 0)
    try:
        yield
    finally:
        os.dup2(kept, 0)
        os.close(kept)
        os.close(nothing)
