"""What a person can mend: the errors of this package, each saying what, where, and what to do."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from typing import Final

from plans.record import record

SHOWN: Final = 20
"""How many faults of one file are told in full; any more are only counted."""


class PlansError(Exception):
    """The base of every error of this package that a person can mend; its text can be shown as it stands."""


class FaultKind(StrEnum):
    """How much must be understood to find a fault in a file."""

    FILE = "file"
    """The file can't be read, or its text is no TOML."""
    SHAPE = "shape"
    """Keys, types and the syntax of quantities: what the JSON Schema finds too."""
    VALUE = "value"
    """What only arithmetic or the sense of a plan shows, such as limits in the wrong order."""
    WARNING = "warning"
    """What can't be right, though the plan can be followed, such as steel that comes from nowhere."""
    NOTE = "note"
    """What may well be meant, and should be known."""


BESIDE: Final = frozenset({FaultKind.WARNING, FaultKind.NOTE})
"""The kinds that keep no plan from being followed; each is named where the fault is told."""


@record
class Fault:
    """One thing that is wrong in a file that a person wrote: a plan, a probe profile, settings."""

    file: str
    """The path of the file, as it is shown."""
    line: int | None
    """The line, from 1; None where the fault is in no line, as with a file that isn't there."""
    where: str
    """The part of a plan, e.g. `step 6 "Draw out the blade"`; empty for the top of the file."""
    key: str
    """The key at fault, e.g. `keep_above`, `air.until`, `fire[2]`; empty where there is none, or `what` names it."""
    what: str
    """What is wrong: goes on from the key where there is one, e.g. `is 1400 degC, hotter than the fire`."""
    hint: str
    """What would be right, e.g. `lower it or raise the fire`; empty where `what` says so already."""
    kind: FaultKind
    """How much must be understood to find it."""

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        place += f": {self.kind.value}" if self.kind in BESIDE else ""
        head = f"{place}: {self.where}: " if self.where else f"{place}: "
        said = f"{self.key} {self.what}" if self.key else self.what
        return f"{head}{said}; {self.hint}" if self.hint else head + said


class PlanError(PlansError):
    """A plan can't be used. Its text names file, line, key and what would be right, one fault a line."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(faults, key=lambda fault: fault.line or 0))
        """Everything that is wrong with the plan, by line."""
        super().__init__(self.faults)

    def __str__(self) -> str:
        lines = [str(fault) for fault in self.faults[:SHOWN]]
        if len(self.faults) > SHOWN:
            lines.append(f"... and {len(self.faults) - SHOWN} more")
        return "\n".join(lines)
