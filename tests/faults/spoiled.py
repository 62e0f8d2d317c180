"""Files that people write, or that a disk spoils, changed at random and given to the program.

What is asked of it then: no traceback, no more than five seconds of a processor, no wait, nothing lost in silence. What
could be read before is read still, or the file, the line or the key that can't be is named.
"""

from __future__ import annotations

import os
import shutil
import tempfile
import tomllib
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, closing, contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import BytesIO, TextIOWrapper
from pathlib import Path
from random import Random
from unittest.mock import patch

from plans.errors import PlansError
from plans.logbook import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.journal.reading_back import read_journal
from plans.units import Units
from tests.faults.hostile import Spoil, spoil, swap_cells, swap_json, swap_json_line, swap_toml
from tests.faults.in_time import TooLong, in_time
from tests.faults.spoiled_home import LESSON, make_home
from tui.cli.main import main

LONGEST = 5.0
"""What takes more of a processor hangs [s]."""
Lost = Callable[[Path, bytes, str, str], str]
"""Says what was lost in silence, or nothing; takes the home, the file before, and what was said on both outputs."""


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
    """Puts values in the place of others; every fourth time stretches of bytes are spoiled instead."""
    lost: Lost
    """Says what was lost in silence."""


def _of_toml(name: str) -> Lost:
    """A file that can't be read, or that has keys that nobody knows, must be named."""

    def lost(home: Path, before: bytes, out: str, err: str) -> str:
        path = home / name
        if path.name in out + err:
            return ""
        try:
            now = tomllib.loads(path.read_bytes().decode("utf-8-sig"))
        except (ValueError, RecursionError):
            return f"{path.name} can't be read, and nobody said so"
        unknown = set(now) - set(tomllib.loads(before.decode()))
        return f"{path.name} has unknown keys, and nobody said so" if unknown else ""

    return lost


def _recording_lost(_home: Path, _before: bytes, out: str, err: str) -> str:
    """Something is made of it, or the row that is wrong is named."""
    return "" if "recording.csv" in err or out.count("\n") > 5 else "nothing was made of it, and nobody said so"


def _sitting_lost(home: Path, _before: bytes, out: str, err: str) -> str:
    """Each sitting is in the list, or its file is named."""
    names = {path.name.partition(".json")[0] for path in (home / "logbook/sittings").iterdir()}
    return "; ".join(f"{name} is neither listed nor named" for name in sorted(names) if name not in out + err)


def _lesson_lost(_home: Path, _before: bytes, out: str, err: str) -> str:
    """What a sitting's own file has is found in any case, as its smith wrote it."""
    del err
    return "" if out.count(LESSON) == 2 else "the lesson is not said, or not as it was written"


def _journal_lost(home: Path, before: bytes, out: str, err: str) -> str:
    """Each line that was not touched is in the log of some sitting, or its journal is named; and no other is."""
    if lost := _sitting_lost(home, before, out, err):
        return lost
    if wrong := _believed(home, before):
        return wrong
    if ".jsonl" in err:
        return ""
    kept = "".join(path.read_text("utf-8", "replace") for path in (home / "logbook/sittings").iterdir())
    (bad,) = [*(home / "logbook").glob("spoiled.jsonl")]
    words = [line for line in bad.read_bytes().split(b"\n")[1:-1] if line in before and line.startswith(b"{")]
    missing = [line for line in words if line.decode()[:-1] not in kept]
    return f"{len(missing)} events that were not touched are gone: {missing[0]!r}" if missing else ""


def _believed(home: Path, before: bytes) -> str:
    """What is read of the spoiled journal and never was written, or nothing."""
    (bad,) = (home / "logbook").glob("spoiled.jsonl")
    whole = home / "logbook/whole.jsonl"
    whole.write_bytes(before)
    try:
        believed = set(read_journal(bad).log) - set(read_journal(whole).log)
    except LogbookError:
        return ""
    return f"believed, and never written: {believed}" if believed else ""


RUN = ("run", "normalize", "--no-screen", "--readings", "@recording.csv")
LOOKS = (
    ("log", "list"),
    ("log", "show", "last"),
    ("log", "show", "last", "--json"),
    ("log", "outcome", "last", "--rating", "3"),
    ("log", "lesson", "list"),
    ("log", "photo", "last"),
    ("log", "export", "last", "--to", "csv"),
    ("log", "export", "last", "--to", "json"),
    ("log", "export", "last", "--to", "html"),
    ("log", "learn", "last"),
    ("review",),
    ("log", "learn", "last", "--keep"),
    ("run", "--go-on", "last", "--no-screen"),
    ("log", "list"),
)
_CHECK = (("plan", "check", "@mine.toml"), ("run", "@mine.toml", *RUN[2:]))
_LEARN = (("log", "learn", "last", "--keep"), RUN)
_LESSONS = (("log", "lesson", "list"), ("log", "lesson", "list", "--plan", "@mine.toml"))
_CUT_OFF = (LOOKS[1], LOOKS[7], *LOOKS[-2:], LOOKS[1])
TARGETS = (
    Target("a plan", "mine.toml", _CHECK, swap_toml, _of_toml("mine.toml")),
    Target("the settings", "heatbook.toml", (RUN, LOOKS[1]), swap_toml, _of_toml("heatbook.toml")),
    Target("the shop file", "shop.toml", _LEARN, swap_toml, _of_toml("shop.toml")),
    Target("a probe profile", "probes/mine.toml", (("probe", "list"),), swap_toml, _of_toml("probes/mine.toml")),
    Target("a recording", "recording.csv", (RUN,), swap_cells, _recording_lost),
    Target("the index of the logbook", "logbook/index.json", LOOKS[:2], swap_json, _sitting_lost),
    Target("the lessons of the logbook", "logbook/lessons.json", _LESSONS, swap_json, _lesson_lost),
    Target("a sitting in the logbook", "logbook/sittings/*.json", LOOKS, swap_json, _sitting_lost),
    Target("a journal", "logbook/sittings/*.jsonl", _CUT_OFF, swap_json_line, _journal_lost),
)


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
    whole = make_home(folder / "whole", cut_off="jsonl" in target.path)
    for time in range(first, first + times):
        random = Random(f"{target.path} {seed} {time}")
        home = folder / "home"
        shutil.rmtree(home, ignore_errors=True)
        shutil.copytree(whole, home)
        path = next(home.glob(target.path))
        before = path.read_bytes()
        content = (spoil if time % 4 == 1 else target.swap)(before, random)
        path.write_bytes(content)
        (home / "logbook" / f"spoiled{path.suffix}").write_bytes(content)
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
            with in_time(LONGEST):
                status = _review(home) if words == ("review",) else main(arguments)
        except TooLong as error:
            status = f"a hang: {error}"
    said = err.buffer.getvalue().decode("utf-8")
    printed = out.buffer.getvalue().decode("utf-8")
    if status not in (0, 1, 2) or "Traceback" in said or "fault of the program" in said or "\x1b" in said + printed:
        return f"`{' '.join(words)}` ended with {status}: {said.strip()[:600]}", printed, said
    return "", printed, said


def _review(home: Path) -> int:
    """What the review shows, without its screen."""
    from tui.review.review_data import read_review
    from tui.review.rows import review_options

    with closing(Logbook(home / "logbook")) as logbook:
        try:
            review = read_review(logbook, "last")
        except PlansError as error:
            print(error)
            return 1
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
