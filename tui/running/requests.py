"""What the screen is asked to open, and what it leaves to be said when it closes. Imports nothing heavy."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from plans.plan import Plan
    from plans.reading import ProbeOn
    from tui.running.sources import Source


@dataclass(frozen=True, slots=True)
class Shelf:
    """The plans at hand."""


@dataclass(frozen=True, slots=True)
class LogList:
    """The sittings that were kept."""


@dataclass(frozen=True, slots=True)
class Reckoner:
    """The reckoner."""


@dataclass(frozen=True, slots=True)
class Review:
    """One sitting that was kept."""

    id: str
    """Its id, the beginning of it, or `last`."""


@dataclass(frozen=True, slots=True)
class RunRequest:
    """A sitting to run: a new one of `plan`, or the one called `go_on` to be gone on with.

    The two functions are called in a thread, after the screen has shown itself, so that what they import and read keeps
    nobody waiting.
    """

    source: Callable[[Plan], Source]
    """Makes what feeds the sitting. May raise DeviceError, as its `start` may."""
    plan: Callable[[], Plan] | None = None
    """Reads the plan. May raise PlanError."""
    go_on: str | None = None
    """Id of an unfinished sitting."""
    probe_on: ProbeOn | None = None
    profile: str = ""
    """How the probe talks, for the log."""
    port: str = ""
    hands_free: str | None = None
    """What may end a phase by itself: "all", "thermal" or "never"; None goes by the settings."""
    seed: int | None = None
    """Of a rehearsal; None for a real sitting."""


First = Shelf | LogList | Reckoner | Review | RunRequest


@dataclass(frozen=True, slots=True)
class Outcome:
    """What is to be said when the screen has gone and the terminal is restored."""

    said: tuple[str, ...] = ()
    """Lines for standard output: where the sitting is kept, how to go on."""
    errors: tuple[str, ...] = ()
    """Lines for standard error."""
    status: int = 0
    """Exit status: 0 done, 1 failed."""
