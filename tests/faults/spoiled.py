"""Files that people write, or that a disk spoils, changed at random and given to the program."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import BytesIO, TextIOWrapper
from pathlib import Path
from random import Random
from unittest.mock import patch

import plans
from tui.cli.main import main

SHELF = Path(plans.__file__).parent / "shelf"
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
profile = "bare-celsius"
on = "work"
"""
PROFILE = """
title = "A label, the temperature, C"
example = "t: 125.745 C"
pattern = "t: {value} C"
unit = "degC"
baud = 115200
"""
RECORDING = "seconds,celsius,word\n0,20,next\n" + "".join(
    f"{second},{20 + 9 * second},{'note hot' if second == 60 else ''}\n" for second in range(1, 120)
)
ODD = (b"-1", b"1e999", b"NaN", b'"', b"[]", b"{", b"9" * 400, b"\x1b[2J", b"\xff", b"\0", b"=", b"\n", "–".encode())


@dataclass(frozen=True, slots=True)
class Target:
    """A file that is spoiled, and what the program is then asked."""

    name: str
    """In words."""
    path: str
    """Where it lies, from the home folder; `*` for whatever is there."""
    commands: tuple[tuple[str, ...], ...]
    """What is asked, one after the other; a word that begins with `@` is a path from the home folder."""


_RUN = ("run", "normalize", "--no-screen", "--readings", "@recording.csv")
TARGETS = (
    Target("a plan", "mine.toml", (("plan", "check", "@mine.toml"),)),
    Target("the settings", "heatbook.toml", (_RUN,)),
    Target("the shop file", "shop.toml", (_RUN, ("log", "learn", "last"))),
    Target("a probe profile", "probes/mine.toml", (("probe", "list"),)),
    Target("a recording", "recording.csv", (_RUN,)),
    Target("the index of the logbook", "logbook/index.json", (("log", "list"), ("log", "show", "last"))),
    Target(
        "a sitting in the logbook",
        "logbook/sittings/*.json",
        (("log", "show", "last"), ("log", "export", "last", "--to", "html"), ("log", "list")),
    ),
)


def spoil(content: bytes, random: Random) -> bytes:
    """The same with one to three stretches of it cut, changed, doubled, exchanged or written over."""
    for _ in range(random.randint(1, 3)):
        at = random.randrange(len(content) + 1)
        end = min(len(content), at + random.choice((1, 1, 3, 20, 200)))
        match random.choice(("cut", "leave out", "change", "twice", "odd", "odd", "exchange")):
            case "cut":
                content = content[:at]
            case "leave out":
                content = content[:at] + content[end:]
            case "change":
                content = content[:at] + random.randbytes(end - at) + content[end:]
            case "twice":
                content = content[:end] + content[at:end] + content[end:]
            case "odd":
                content = content[:at] + random.choice(ODD) + content[end:]
            case _:
                lines = content.split(b"\n")
                one, other = random.randrange(len(lines)), random.randrange(len(lines))
                lines[one], lines[other] = lines[other], lines[one]
                content = b"\n".join(lines)
    return content


def spoiled(target: Target, folder: Path, times: int, seed: int = 1) -> Iterator[str | None]:
    """Spoil one file again and again, and ask the program.

    Args:
        target: which file
        folder: an empty one
        times: how often
        seed: of what is spoiled

    Yields:
        For each time what was wrong with how the program took it, or None.
    """
    whole = _home(folder / "whole")
    random = Random(f"{target.path} {seed}")
    for time in range(times):
        home = folder / "home"
        shutil.rmtree(home, ignore_errors=True)
        shutil.copytree(whole, home)
        path = next(home.glob(target.path))
        path.write_bytes(spoil(path.read_bytes(), random))
        wrong = [told for words in target.commands if (told := _asked(home, words))]
        yield f"{target.name}, {time} of seed {seed}: {'; '.join(wrong)}" if wrong else None


def _home(home: Path) -> Path:
    """A home with one file of every kind, and a sitting in its logbook."""
    (home / "probes").mkdir(parents=True)
    (home / "mine.toml").write_bytes((SHELF / "drawknife.toml").read_bytes())
    for name, text in (
        ("heatbook.toml", SETTINGS),
        ("shop.toml", "cooling_factor = 1.12\n"),
        ("probes/mine.toml", PROFILE),
        ("recording.csv", RECORDING),
    ):
        (home / name).write_text(text, encoding="utf-8")
    if trouble := _asked(home, _RUN, statuses=(0,)):
        raise RuntimeError(trouble)
    return home


def _asked(home: Path, words: Sequence[str], statuses: tuple[int, ...] = (0, 1, 2)) -> str:
    """Give a command; what was wrong with how it ended, or nothing."""
    arguments = [str(home / word[1:]) if word.startswith("@") else word for word in words]
    out, err = (TextIOWrapper(BytesIO(), "utf-8", write_through=True) for _ in range(2))
    with ExitStack() as stack:
        stack.enter_context(patch.dict(os.environ, {"HEATBOOK_HOME": str(home)}))
        # Where reports of faults go: not into the machine's own folder.
        stack.enter_context(patch.object(tempfile, "tempdir", str(home)))
        stack.enter_context(redirect_stdout(out))
        stack.enter_context(redirect_stderr(err))
        status = main(arguments)
    said = err.buffer.getvalue().decode("utf-8")
    if status not in statuses or "Traceback" in said or "fault of the program" in said or "\x1b" in said:
        return f"`{' '.join(words)}` ended with {status}: {said.strip()}"
    return ""
