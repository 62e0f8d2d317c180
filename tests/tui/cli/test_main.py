"""The command line as a whole: fast to answer, plain when it is used wrongly, quiet when nobody listens."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path
from typing import Any

import pytest

from tui.cli.main import main, start

Heatbook = Callable[..., Any]
PROGRAM = (sys.executable, "-m", "tui.cli")
HEAVY = {"textual", "rich", "pint", "tinydb", "serial", "importlib.metadata"}

LOADED = """
import sys
from tui.cli.main import main
status = main(sys.argv[1:])
print(status, *sorted(sys.modules), file=sys.stderr)
"""


@pytest.fixture(autouse=True)
def buffered(monkeypatch: pytest.MonkeyPatch) -> None:
    """Output goes out at the end, as it does unless somebody says otherwise."""
    monkeypatch.delenv("PYTHONUNBUFFERED", raising=False)


def test_version(heatbook: Heatbook) -> None:
    done = heatbook("--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"heatbook {version('heatbook')}\n", "")


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("demo",),
        ("run",),
        ("plan",),
        ("plan", "check"),
        ("log",),
        ("log", "export"),
        ("probe",),
        ("probe", "watch"),
    ],
)
def test_help(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*words, "--help"]) == 0
    said = capsys.readouterr()
    assert said.out.startswith(f"usage: heatbook {' '.join(words)}".rstrip())
    assert "None" not in said.out
    assert said.err == ""


@pytest.mark.parametrize(
    ("words", "allowed"),
    [
        (("--help",), set()),
        (("run", "--help"), set()),
        (("--version",), {"importlib.metadata"}),
        (("log", "list"), {"tinydb"}),
        (("plan", "list"), set()),
        (("probe", "list"), {"serial"}),
    ],
)
def test_nothing_is_loaded_that_is_not_needed(words: tuple[str, ...], allowed: set[str]) -> None:
    done = subprocess.run([sys.executable, "-c", LOADED, *words], capture_output=True, text=True, check=True)
    status, *modules = done.stderr.split()
    assert status == "0"
    assert HEAVY & set(modules) <= allowed


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("forge",), "invalid choice"),
        (("--nonsense",), "--nonsense"),
        (("plan",), "ACTION"),
        (("plan", "check"), "PLAN"),
        (("plan", "copy", "drawknife"), "FILE"),
        (("log", "show"), "ID"),
        (("log", "export", "last"), "--to"),
        (("log", "export", "last", "--to", "pdf"), "invalid choice"),
        (("probe", "watch"), "--port"),
        (("run", "normalize", "--probe-on", "anvil"), "invalid choice"),
        (("demo", "--speed", "0"), "above zero"),
        (("demo", "--speed", "nan"), "above zero"),
        (("demo", "--speed", "fast"), "above zero"),
        (("demo", "--seed", "x"), "invalid int"),
        (("demo", "--json"), "--unattended"),
        (("run", ""), "PLAN: it is empty"),
        (("run", "normalize", "--port", ""), "--port: it is empty"),
        (("run", "normalize", "--port="), "--port: it is empty"),
        (("run", "normalize", "--readings", " "), "--readings: it is empty"),
        (("run", "--go-on", ""), "--go-on: it is empty"),
        (("log", "show", ""), "ID: it is empty"),
        (("plan", "copy", "drawknife", ""), "FILE: it is empty"),
    ],
)
def test_wrong_usage_ends_with_2_and_says_what(
    words: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 2
    found = capsys.readouterr()
    assert found.out == ""
    assert said in found.err


def test_wrong_usage_is_the_programs_exit_status(heatbook: Heatbook) -> None:
    done = heatbook("forge")
    assert (done.returncode, done.stdout) == (2, "")
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("words", [(), ("log",), ("run", "normalize"), ("demo",)])
def test_the_screen_needs_a_terminal(heatbook: Heatbook, words: tuple[str, ...]) -> None:
    done = heatbook(*words)
    assert done.returncode == 1
    assert "standard input and standard error are none" in done.stderr
    assert "--no-screen" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    "words",
    [("--help",), ("--version",), ("plan", "list"), ("plan", "list", "--json"), ("log", "list"), ("probe", "list")],
)
def test_nobody_listens(words: tuple[str, ...]) -> None:
    """As in `heatbook plan list | head -1`, when head has gone before anything is printed."""
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run([*PROGRAM, *words], stdout=write, stderr=subprocess.PIPE, text=True, check=False)
    os.close(write)
    assert (done.returncode, done.stderr) == (1, "")


def test_no_output_at_all() -> None:
    done = subprocess.run(
        ["sh", "-c", '"$@" >&- 2>&-; echo $?', "sh", *PROGRAM, "plan", "list"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert (done.stdout, done.stderr) == ("0\n", "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("words", [("--help",), ("plan", "list")])
def test_output_that_is_full(words: tuple[str, ...]) -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run([*PROGRAM, *words], stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (done.returncode, done.stderr) == (1, "heatbook: standard output: No space left on device\n")


def test_home_may_be_a_file(heatbook: Heatbook, tmp_path: Path) -> None:
    home = tmp_path / "file"
    home.write_text("")
    done = heatbook("log", "list", HEATBOOK_HOME=str(home))
    assert "Traceback" not in done.stderr
    assert done.returncode in (0, 1)
    assert re.fullmatch(r"(heatbook: .*\n)*", done.stderr)
    assert heatbook("plan", "list", HEATBOOK_HOME=str(home)).returncode == 0


def test_interrupted_before_anything_can_say_so_it_just_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    handlers: list[object] = []
    status: list[int] = []

    def begun() -> int:
        handlers.append(signal.getsignal(signal.SIGINT))
        assert main(["--version"]) == 0
        handlers.append(signal.getsignal(signal.SIGINT))
        return 3

    monkeypatch.setattr("tui.cli.main.main", begun)
    monkeypatch.setattr(os, "_exit", status.append)
    start()
    assert handlers == [signal.SIG_DFL, signal.default_int_handler]
    assert status == [3]
