"""The program as its user runs it: a recording or a port goes in, and the log that it keeps comes back."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import BytesIO, TextIOWrapper
from pathlib import Path
from typing import Any
from unittest.mock import patch

from tui.cli.main import main

Rows = list[tuple[float, float | None, str]]
"""Seconds, degC or nothing, and a word or none."""


@dataclass(frozen=True)
class Log:
    """What stands in the log of a sitting; times are seconds since it began."""

    id: str
    events: list[dict[str, Any]]
    calls: list[dict[str, Any]]

    def earlier(self, seconds: float) -> Log:
        """The same by a clock that began so many seconds later."""
        shifted = [
            event | {key: event[key] - seconds for key in ("at_seconds", "happened_seconds") if key in event}
            for event in self.events
        ]
        return Log(self.id, shifted, self.calls)

    def phases(self, phase: str, by: str) -> list[tuple[float, float]]:
        """When each phase of this kind that began by itself was told, and what it was dated to."""
        return [
            (event["at_seconds"], event.get("happened_seconds", event["at_seconds"]))
            for event in self.events
            if event["event"] == "phase" and event["phase"] == phase and event["by"] == by
        ]

    def calls_made(self, call: str) -> list[dict[str, Any]]:
        """The calls of a kind."""
        return [event for event in self.events if event["event"] == "call" and event["call"] == call]

    def called(self, call: str) -> list[tuple[float, float]]:
        """When a call was made, and what it was dated to."""
        return [
            (event["at_seconds"], event.get("happened_seconds", event["at_seconds"])) for event in self.calls_made(call)
        ]


class Program:
    """Runs the program; everything it keeps is under one folder.

    Args:
        folder: an empty one
        command: how it is called; by default it answers in this process, which saves half a second each time
    """

    def __init__(self, folder: Path, command: tuple[str, ...] | None = None) -> None:
        self.folder = folder
        self._command = command
        self._environment = os.environ | {"HEATBOOK_HOME": str(folder / "home")}

    def start(self, *arguments: str) -> subprocess.Popen[str]:
        """Start it, words to its standard input, lines from its standard output."""
        pipe = subprocess.PIPE
        command = self._command or (sys.executable, "-m", "tui.cli")
        return subprocess.Popen(
            [*command, *arguments], stdin=pipe, stdout=pipe, stderr=pipe, text=True, env=self._environment
        )

    def ask(self, *arguments: str) -> str:
        """Run it to its end.

        Raises:
            RuntimeError: it failed; the text is what it said.
        """
        if self._command is None:
            return self._ask_here(arguments)
        done = subprocess.run(
            [*self._command, *arguments], capture_output=True, text=True, check=False, env=self._environment
        )
        if done.returncode or done.stderr:
            raise RuntimeError(done.stderr)
        return done.stdout

    def _ask_here(self, arguments: tuple[str, ...]) -> str:
        out, err = (TextIOWrapper(BytesIO(), "utf-8", write_through=True) for _ in range(2))
        with patch.dict(os.environ, self._environment), redirect_stdout(out), redirect_stderr(err):
            status = main(arguments)
        if status or err.buffer.getvalue():
            raise RuntimeError(err.buffer.getvalue().decode("utf-8"))
        return out.buffer.getvalue().decode("utf-8")

    def plan(self, text: str) -> str:
        """Write a plan down; its path."""
        path = self.folder / "plan.toml"
        path.write_text(text)
        return str(path)

    def play(self, plan: str, rows: Rows, hands_free: str = "all") -> Log:
        """Let it follow a plan on a recording."""
        path = self.folder / "readings.csv"
        with path.open("w") as file:
            file.write("seconds,celsius,word\n")
            for at, celsius, word in rows:
                file.write(f"{at:.3f},{'' if celsius is None else format(celsius, '.1f')},{word}\n")
        said = self.ask(
            "run", self.plan(plan), "--no-screen", "--readings", str(path), "--json", "--hands-free", hands_free
        )
        return self.log(json.loads(said.splitlines()[0])["id"])

    def log(self, name: str) -> Log:
        """The log of a sitting, both ways of asking for it held against each other."""
        shown = json.loads(self.ask("log", "show", name, "--json"))
        kept = json.loads(self.ask("log", "export", name, "--to", "json"))
        told = [(event["at_seconds"], event["call"]) for event in kept["events"] if event["event"] == "call"]
        if told != [(call["at_seconds"], call["call"]) for call in shown["calls"]]:
            raise RuntimeError(f"log show and log export tell other calls of {name}")
        return Log(name, kept["events"], shown["calls"])
