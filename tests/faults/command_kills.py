"""Every command that touches the disk, killed with no warning before each thing that it does there.

Each kill is a fork of this process, so that it costs no start of a program: the child answers the command and dies
before the open, write, rename or removal whose number it was given, or in the middle of that write.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import BytesIO, TextIOWrapper
from math import exp
from pathlib import Path
from stat import S_ISREG
from typing import Any, NoReturn
from unittest.mock import patch

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import work_out
from plans.logbook.photo_files import is_whole
from tests.faults.told import Told, from_first_word, kept_in, told_in
from tests.png import png
from tui.cli.main import main

PLAN = Path(__file__).parents[1] / "tui" / "figures.toml"
"""A plan that has every phase."""
SHORT = Path(__file__).parents[1] / "oven.toml"
"""A plan whose rehearsal is short."""
COOLING = SHORT.with_name("cooling.toml")
"""A plan with one heat that cools in the air."""
_WORDS = ("next", "note half of it", "next", "next", "undo", "repeat", "pause", "resume", *["next", "next"] * 14)
RECORDING = "seconds,celsius,word\n" + "".join(f"{10 * n},,{word}\n" for n, word in enumerate(_WORDS))
COOLED = "seconds,celsius,word\n0,905,next\n" + "".join(
    [f"{second},905,\n" for second in range(1, 30)]
    + ["30,905,out\n"]
    + [f"{30 + second},{20 + 885 * exp(-second / 150):.1f},\n" for second in range(1, 120)]
)
_READINGS = ("run", "@every-phase.toml", "--readings", "@recording.csv", "--hands-free", "never", "--json")
_CHANGES = {"open", "os.rename", "os.remove", "os.mkdir", "os.chmod", "os.link", "os.rmdir", "os.truncate"}
"""Audit events of what changes a disk; `open` may read only, which makes a kill more and no fewer."""


@dataclass(frozen=True, slots=True)
class Command:
    """What is asked of the program, in a home where a sitting was finished and another was cut off."""

    name: str
    words: tuple[str, ...]
    """A word that begins with `@` is a path from the home folder, `CUT` is the sitting that was cut off."""
    typed: str = ""
    """What standard input holds."""
    logbook: str = ""
    """The logbook that it begins a sitting in and tells of, if it does."""


COMMANDS = (
    Command("run, told by words", ("run", "@every-phase.toml", "--no-screen", "--json"), "\n".join(_WORDS), "logbook"),
    Command("run, on a recording", _READINGS, "", "logbook"),
    Command("run, gone on with", ("run", "--go-on", "CUT", "--no-screen", "--json"), "next\nnote on\nfinish\n"),
    Command("demo", ("demo", "--unattended", "--plan", "@short.toml", "--json"), "", "rehearsals"),
    Command("log list", ("log", "list")),
    Command("log show", ("log", "show", "last")),
    Command("log learn", ("log", "learn", "last", "--keep")),
    *(
        Command(f"log export, {form}", ("log", "export", "last", "--to", form, "--out", f"@out.{form}"))
        for form in ("csv", "json", "html")
    ),
    Command("log mark", ("log", "mark", "last", "gift")),
    Command("log photo", ("log", "photo", "last", "@edge.png", "--copy")),
    Command("log delete", ("log", "delete", "last")),
    Command("plan copy", ("plan", "copy", "normalize", "@mine.toml")),
)


def killed_in(command: Command, folder: Path, most: int = 100_000) -> Iterator[str | None]:
    """Kill a command before each thing that it does to the disk, until one run gets through.

    Args:
        command: which
        folder: an empty one
        most: so many kills at most, spread over the whole of its run

    Yields:
        For each kill what was wrong afterwards, or None.
    """
    whole, done = folder / "whole", folder / "done"
    _prepare(whole)
    shutil.copytree(whole, done)
    things = _run(command, done)
    before, after = _files(whole), _files(done)
    seen = folder / "seen"
    shutil.copytree(whole, seen)
    sittings = _sittings(Logbook(seen / "logbook"))
    for number in sorted({round(part * things / most) for part in range(most)} if things > most else range(things)):
        home = folder / "home"
        shutil.copytree(whole, home)
        _run(command, home, number)
        wrong = list(_wrong(command, home, before, after, sittings))
        shutil.rmtree(home)
        yield f"{command.name}, before {number} of {things}: {'; '.join(wrong)}" if wrong else None


def _prepare(home: Path) -> None:
    home.mkdir()
    for name, text in (
        ("every-phase.toml", PLAN.read_text("utf-8")),
        ("short.toml", SHORT.read_text()),
        ("recording.csv", RECORDING),
        ("cooling.toml", COOLING.read_text()),
        ("cooled.csv", COOLED),
    ):
        (home / name).write_text(text, encoding="utf-8")
    cut_off = Command("", _READINGS)
    things = _run(cut_off, home)
    shutil.rmtree(home / "logbook")
    _run(cut_off, home, things * 2 // 3)
    (journal,) = (home / "logbook" / "sittings").glob("*.jsonl")
    aside = journal.rename(home / journal.name)  # or the next sitting would put it away
    _run(Command("", ("run", "@cooling.toml", "--readings", "@cooled.csv")), home)
    for name, grey in (("blade.png", 9), ("edge.png", 200)):
        (home / name).write_bytes(png(grey))
    _run(Command("", ("log", "photo", "last", "@blade.png", "--copy")), home)
    aside.rename(journal)


def _run(command: Command, home: Path, left: int | None = None) -> int:
    """Answer it in a child; with a number it dies before that thing. How many things it did, unless it died."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _answer(command, home, left, writing)
    os.close(writing)
    with os.fdopen(reading) as counted:
        things = counted.read()
    _, status = os.waitpid(child, 0)
    if left is None and status:
        raise RuntimeError(f"{command.name}: {(home / 'stderr').read_text()}")
    return int(things or 0)


def _answer(command: Command, home: Path, left: int | None, count: int) -> NoReturn:
    """In the child: the command, its standard streams files in the home folder."""
    status = 1
    try:
        typed = home / "stdin"
        typed.write_text(command.typed)
        os.environ["HEATBOOK_HOME"] = str(home)
        for descriptor, name, flags in ((0, "stdin", os.O_RDONLY), (1, "stdout", 0), (2, "stderr", 0)):
            opened = os.open(home / name, flags or os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(opened, descriptor)
            os.close(opened)
        sys.stdout, sys.stderr = (os.fdopen(which, "w", encoding="utf-8", closefd=False) for which in (1, 2))
        done = _dying(str(home), left)
        status = main([_word(home, word) for word in command.words])
        sys.stdout.flush()
        sys.stderr.flush()
        os.write(count, str(done()).encode())
    finally:
        os._exit(status)


def _word(home: Path, word: str) -> str:
    if word == "CUT":
        return next((home / "logbook" / "sittings").glob("*every-phase.json*")).stem
    return str(home / word[1:]) if word.startswith("@") else word


def _dying(home: str, left: int | None) -> Callable[[], int]:
    """From now on count what is done to the disk, and die before the thing whose number is given."""
    done = 0
    write = os.write

    def step() -> bool:
        """Whether this is the one."""
        nonlocal done
        done += 1
        return done - 1 == left

    def hear(event: str, arguments: tuple[Any, ...]) -> None:
        if event in _CHANGES and str(arguments[0]).startswith(home) and step():
            os.kill(os.getpid(), signal.SIGKILL)

    def half(descriptor: int, data: bytes) -> int:
        if S_ISREG(os.fstat(descriptor).st_mode):
            if step():
                os.kill(os.getpid(), signal.SIGKILL)
            if step():
                write(descriptor, bytes(data)[: len(data) // 2])
                os.kill(os.getpid(), signal.SIGKILL)
        return write(descriptor, data)

    sys.addaudithook(hear)
    os.write = half  # type: ignore[assignment]
    return lambda: done


def _wrong(
    command: Command, home: Path, before: dict[str, bytes], after: dict[str, bytes], sittings: dict[str, Told]
) -> Iterator[str]:
    """What a smith would miss who starts heatbook again."""
    for name, old in (("logbook", sittings), ("rehearsals", {})):
        if (home / name).is_dir():
            yield from _logbook_wrong(Logbook(home / name), old, _said(home) if name == command.logbook else [])
    for name, content in after.items():
        if name.startswith(("logbook/", "rehearsals/")):
            continue
        found = (home / name).read_bytes() if (home / name).exists() else None
        if found not in (before.get(name), content):
            yield f"{name} is neither as it was nor as it was to be"
    status, said = _asked(home, ("log", "list", "--json"))
    if status or said:
        yield f"log list ended with {status}: {said}"


def _logbook_wrong(book: Logbook, old: dict[str, Told], told: Told) -> Iterator[str]:
    kept = _sittings(book)
    for name, events in old.items():
        if name not in kept:
            yield f"{name} is gone"
        elif kept[name][: len(events)] != events:
            yield f"{name} has lost some of its events"
    new = [name for name in kept if name not in old]
    events = from_first_word(told)
    if events and (not new or from_first_word(kept[new[0]])[: len(events)] != events):
        yield f"{len(events)} events were told, and the log has others"
    yield from _photographs_wrong(book, kept)
    yield from book.messages


def _photographs_wrong(book: Logbook, kept: Iterable[str]) -> Iterator[str]:
    """Which copies that a sitting names are not there, or not whole."""
    for name in kept:
        photographs = book.load(name).photographs
        for one in () if photographs is None else photographs.standing:
            copy = book.photographs(name) / (one.copy or "")
            if not copy.is_file() or not is_whole(copy.name, copy.read_bytes()):
                yield f"the copy of photograph {one.number} of {name} is not there, or not whole"


def _sittings(book: Logbook) -> dict[str, Told]:
    """The events of every sitting, after what a crash left was put away and what was deleted brought back."""
    damaged = [recovered.summary.id for recovered in book.recover(work_out) if recovered.damage]
    for gone in book.deleted():
        book.restore(gone.id)
    kept = {summary.id: kept_in(book.load(summary.id, work_out).log) for summary in book.summaries()}
    book.close()
    return {name: [] if name in damaged else events for name, events in kept.items()}


def _said(home: Path) -> Told:
    with (home / "stdout").open(encoding="utf-8") as lines:
        return told_in(lines)


def _files(home: Path) -> dict[str, bytes]:
    """What lies in a home, but for the child's own streams."""
    found = {}
    for path in home.rglob("*"):
        name = str(path.relative_to(home))
        if path.is_file() and name not in ("stdin", "stdout", "stderr"):
            found[name] = path.read_bytes()
    return found


def _asked(home: Path, words: Sequence[str]) -> tuple[int, str]:
    """Give a command in this process: its status, and what it said on standard error."""
    out, err = (TextIOWrapper(BytesIO(), "utf-8", write_through=True) for _ in range(2))
    with patch.dict(os.environ, {"HEATBOOK_HOME": str(home)}), redirect_stdout(out), redirect_stderr(err):
        status = main(words)
    return status, err.buffer.getvalue().decode("utf-8")
