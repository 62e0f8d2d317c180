"""A sitting as CSV: a row for each reading, word, phase and call, in order, with one line of headings.

| column | what it holds |
| --- | --- |
| `seconds` | since the sitting began |
| `celsius` | what the probe said; in a row of a reading that has none, why: "lost: unplugged", "missing" |
| `word` | what the smith said: `next`, `undo`, `note the weld took`, `tick step 2 item 3` |
| `step`, `heat`, `phase` | what was going on; a phase's own row stands where it begins |
| `call` | what was called out to the smith |
| `skin_celsius`, `middle_celsius` | what the warm model had the work at |
| `steel_missing` | in the row of a word that measured: share of the plan's steel that was not there, below 0 for more |

What was measured when the sitting was over stands at its end, as the words that would have said it there.

While the probe is silent for longer than it may be there is a row a second for the warm model too, wherever it changes.

The file is a recording as `heatbook run PLAN --readings FILE.csv` takes it: what the probe and the smith said goes in
again, and heats and calls come out the same. Where the probe was in the fire, `--probe-on fire` must be said again.
No text begins with a character that a spreadsheet would take for a formula.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from io import StringIO
from math import inf, isnan
from typing import Final

from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.steel_there import steel_found
from plans.reading import Reading
from plans.sitting import Begun, Called, Entry, Patience, Said, State, WentOn, Word, fold
from plans.text import plain
from plans.trace import Trace
from plans.units import celsius

COLUMNS: Final = (
    "seconds",
    "celsius",
    "word",
    "step",
    "heat",
    "phase",
    "call",
    "skin_celsius",
    "middle_celsius",
    "steel_missing",
)
"""The headings of the columns, in order."""
_PLAIN = re.compile(r"[A-Za-z]")
"""How a fault begins that is taken for neither a number nor a formula."""
_NO_FAULT = frozenset({"nan", "null", "none"})
"""What stands for a temperature that is missing, whatever the fault was."""

_Row = list[str | int]


def to_rows(kept: KeptSitting) -> str:
    """The sitting as CSV, a newline after each row."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(_Rows(kept))
    return text.getvalue()


class _Rows:
    """Goes through log and modelled trace side by side."""

    def __init__(self, kept: KeptSitting) -> None:
        self._log, self._later = kept.log, kept.measured_later
        self._plan = plan_if_known(kept.header)
        self._state = State()
        self._model = _Model(kept.skin, kept.middle)
        self._patience = Patience()

    def __iter__(self) -> Iterator[_Row]:
        for entry in self._log:
            if isinstance(entry, WentOn) and entry.paused_since is not None and not self._state.paused:
                # The same as a pause that was said then, for whoever runs these rows again.
                yield from self._meanwhile(entry.paused_since)
                yield self._row(entry.paused_since, word=Word.PAUSE.value)
            yield from self._meanwhile(entry.at)
            self._model.go_to(entry.at)
            yield from self._entry(entry)
        yield from self._meanwhile(inf)
        if not self._model.told:
            yield self._row(self._model.at)
        end = max(self._log.last_at, self._model.at)
        for one in self._later.standing if self._later is not None else ():
            yield from self._entry(Said(end, Word.MEASURED, one.as_word))

    def _meanwhile(self, until: float) -> Iterator[_Row]:
        """The warm model's own rows before `until` [s]."""
        while self._model.next_at < until:
            self._model.go_on()
            silent = self._patience.heard_at is None or self._patience.is_over(self._model.at)
            if silent and self._model.changed:
                yield self._row(self._model.at)

    def _entry(self, entry: Entry) -> Iterator[_Row]:
        match entry:
            case Reading(at=at, kelvin=kelvin):
                self._patience.hear(at)  # one without a temperature too: its row tells the warm model as well
                yield self._row(at, _fault(entry) if kelvin is None else _number(celsius(kelvin), 1))
            case Said(word=Word.MEASURED):
                # The row tells what came of the figures.
                fold(self._state, entry)
                yield self._row(entry.at, word=_word(entry), missing=self._missing())
            case Said():
                yield self._row(entry.at, word=_word(entry))
                fold(self._state, entry)
            case Begun() | WentOn():
                fold(self._state, entry)
                yield self._row(entry.at)
            case Called():
                fold(self._state, entry)
                yield self._row(entry.at, call=entry.call.value)
            case _:
                fold(self._state, entry)

    def _missing(self) -> str:
        """Share of the planned steel that is not there by what was measured last; empty where that is not known."""
        one = self._state.measurements[-1]
        if self._plan is None or one.step >= len(self._plan.steps):
            return ""
        there = steel_found(one, self._state.measurements, self._plan)
        return "" if there is None else _number(there.missing, 4)

    def _row(self, at: float, reading: str = "", word: str = "", call: str = "", missing: str = "") -> _Row:
        place: _Row = ["", "", ""]
        if self._state.begins:
            place = [self._state.step + 1, self._state.heat, self._state.phase.value]
        return [_number(at, 3), reading, word, *place, call, *self._model.tell(), missing]


class _Model:
    """Where the warm model has come to."""

    def __init__(self, skin: Trace, middle: Trace) -> None:
        self._skin, self._middle = skin, middle
        self._count = min(len(skin), len(middle))
        self._passed = 0
        self._told = ["", ""]
        self._told_at = -inf

    @property
    def at(self) -> float:
        """Time of the point that was reached [s]."""
        return self._skin.times[self._passed - 1] if self._passed else 0.0

    @property
    def next_at(self) -> float:
        """Time of the next point [s]; infinite when there is none."""
        return self._skin.times[self._passed] if self._passed < self._count else inf

    def go_on(self) -> None:
        self._passed += 1

    def go_to(self, at: float) -> None:
        """Pass over every point up to and with this time [s]."""
        while self.next_at <= at:
            self._passed += 1

    @property
    def changed(self) -> bool:
        """Whether a row would say something else than the row before it."""
        return self._now() != self._told

    @property
    def told(self) -> bool:
        """Whether there was a row since the point that was reached."""
        return self._told_at >= self.at

    def tell(self) -> list[str]:
        """Skin and middle for a row [degC], empty where they are not known."""
        self._told, self._told_at = self._now(), self.at
        return self._told

    def _now(self) -> list[str]:
        if not self._passed:
            return ["", ""]
        kelvins = (trace.kelvins[self._passed - 1] for trace in (self._skin, self._middle))
        return ["" if isnan(kelvin) else _number(celsius(kelvin), 1) for kelvin in kelvins]


def _number(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _fault(reading: Reading) -> str:
    """Why there is none, in words that are read again as a fault."""
    fault = plain(reading.fault or "").strip() or "missing"
    is_word = _PLAIN.match(fault) and fault.lower() not in _NO_FAULT
    return fault if is_word else f"fault {fault}"


def _word(said: Said) -> str:
    """The word as it would be typed, with what stands behind it."""
    if not said.word.has_text:
        return said.word.value
    return f"{said.word.value} {plain(said.text).strip() or '?'}"
