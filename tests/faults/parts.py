"""The parts of `python -m tests.faults`: what is done to heatbook, each kind a row of the table.

To add one, put a line into `PARTS`: its name, and for each row what is done and a function that does it in an empty
folder, giving for each case what was wrong or None.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.faults.big import long_note, many_notes, many_sittings
from tests.faults.clocks import JUMPS, Jump, clocks
from tests.faults.command_kills import COMMANDS, Command, killed_in
from tests.faults.disks import disks
from tests.faults.floods import flooded, flooded_screen
from tests.faults.kills import killed_while_putting_away, killed_while_writing
from tests.faults.played import played
from tests.faults.power_cuts import power_cuts
from tests.faults.programs import programs
from tests.faults.properties import properties
from tests.faults.rehearsal_kills import killed_while_rehearsing
from tests.faults.resizes import SCREENS, resizes
from tests.faults.row import Row
from tests.faults.screen_kills import killed_on_screen
from tests.faults.spoiled import TARGETS, Target, spoiled
from tests.faults.terminals import PLACES, Place, endings
from tests.faults.torn import cut_anywhere, doubled_behind, spoiled_anywhere, zeroed_behind


@dataclass(frozen=True, slots=True)
class Much:
    """How much is to be tried."""

    kills: int
    """Kills of each kind."""
    times: int
    """How often each kind of file is spoiled."""
    seed: int
    """Of moments, bytes and traces."""
    short: bool
    """Whether a few of each will do."""

    @property
    def entries(self) -> int:
        """Of a journal that is torn."""
        return 10 if self.short else 100


Cases = Callable[[Path, Much], Iterable[str | None]]
Part = Callable[[Much], Iterable[Row]]


def _part(*rows: tuple[str, Cases]) -> Part:
    """A part whose rows each have a folder of their own."""

    def done(much: Much) -> Iterator[Row]:
        for what, cases in rows:
            with TemporaryDirectory() as folder:
                found = list(cases(Path(folder), much))
            yield Row(what, len(found), tuple(told for told in found if told is not None))

    return done


def _killed(command: Command) -> Cases:
    return lambda at, much: killed_in(command, at, much.kills)


def _spoiled(target: Target) -> Cases:
    return lambda at, much: spoiled(target, at, much.times, much.seed)


def _jumps(jump: Jump) -> Cases:
    return lambda at, much: clocks(at, jump, every=8 if much.short else 1)


def _ended(place: Place) -> Cases:
    return lambda at, _: endings(at, place)


def _resized(name: str) -> Cases:
    return lambda at, _: resizes(at, name)


PARTS: dict[str, Part] = {
    "kills": _part(
        ("killed while a journal is written", lambda at, much: killed_while_writing(at, much.kills, much.seed)),
        ("killed before each step of putting away", lambda at, _: killed_while_putting_away(at)),
        ("killed during a rehearsal", lambda at, much: killed_while_rehearsing(at, much.kills, much.seed)),
        ("killed on the screen", lambda at, much: killed_on_screen(at, much.kills, much.seed)),
        *((f"killed in: {command.name}", _killed(command)) for command in COMMANDS),
    ),
    "torn": _part(
        ("a journal cut at each byte", lambda at, much: cut_anywhere(at, much.entries)),
        ("zeroes behind each byte of a journal", lambda at, much: zeroed_behind(at, much.entries)),
        ("a journal's end twice, from each byte", lambda at, much: doubled_behind(at, much.entries)),
        ("a journal spoiled", lambda at, much: spoiled_anywhere(at, 100, much.times, much.seed)),
    ),
    "spoiled": _part(*((f"spoiled: {target.name}", _spoiled(target)) for target in TARGETS)),
    "disks": _part(
        ("the power cut", lambda at, much: power_cuts(at, much.kills, much.seed)),
        ("a disk full, unwritable or gone", lambda at, _: disks(at)),
        ("three programs on one logbook", lambda at, much: programs(at, 1 if much.short else 15)),
    ),
    "big": _part(
        ("a thousand or ten thousand notes", lambda at, much: many_notes(at, 1_000 if much.short else 10_000)),
        ("a note of a megabyte", lambda at, _: long_note(at)),
        ("hundreds or thousands of sittings", lambda at, much: many_sittings(at, 200 if much.short else 2_000)),
    ),
    "clocks": _part(*((jump.name, _jumps(jump)) for jump in JUMPS)),
    "resizes": _part(*((f"resized: {name}", _resized(name)) for name in SCREENS)),
    "floods": lambda much: (
        []
        if much.short
        else _part(
            ("what a probe can do, in every phase", lambda at, _: flooded(at)),
            ("the same on the screen", lambda at, _: flooded_screen(at)),
        )(much)
    ),
    "terminals": lambda much: (
        [] if much.short else _part(*((f"the terminal's end: {place.name}", _ended(place)) for place in PLACES))(much)
    ),
    "properties": lambda much: [] if much.short else [properties()],
    "played": lambda much: [] if much.short else played(much.seed),
}
"""By name. The last four take long, and the suite has a little of each: the short set leaves them out."""
