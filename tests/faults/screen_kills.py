"""The program in a terminal, killed with no warning when it has shown that a word was taken, or just before."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from random import Random

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import work_out
from plans.sitting.events import Said
from tests.terminal import Terminal, environment


def killed_on_screen(folder: Path, kills: int, seed: int = 1) -> Iterator[str | None]:
    """Write a note, and kill the program when it says that it was noted, or at something that it shows before.

    Args:
        folder: an empty one; each kill has a home of its own there
        kills: how often; each starts the program
        seed: of the moments

    Yields:
        For each kill what was wrong afterwards, or None.
    """
    chance = Random(seed)
    for kill in range(kills):
        home, note = folder / str(kill), f"left corner {kill}"
        told = _killed(home, note, chance.choice((None, None, 0, 1, 2)))
        book = Logbook(home / "logbook")
        recovered = book.recover(work_out)
        noted = [event.text for event in book.load("last").log.events if isinstance(event, Said) and event.text]
        wrong = [] if noted == [note] or (not told and not noted) else [f"{noted} were kept"]
        wrong += [str(found.damage) for found in recovered if found.damage] + book.messages
        book.close()
        yield f"kill {kill} of seed {seed}: {'; '.join(wrong)}" if wrong else None


def _killed(home: Path, note: str, early: int | None) -> bool:
    """Kill it when so much has been shown after the note was typed; None when it says so. Whether it was told."""
    command = [sys.executable, "-m", "tui.cli", "run", "normalize"]
    terminal = Terminal(command, environment=environment(HEATBOOK_HOME=str(home)))
    try:
        terminal.until("program advises")
        terminal.read_cautions()
        terminal.press("n")
        terminal.until("enter")
        terminal.press(f"{note}\r")
        if early is None:
            terminal.until("noted")
        else:
            for _ in range(early):
                terminal.read(5)
    finally:
        terminal.close()
    return early is None
