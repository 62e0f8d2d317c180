"""What a reckoning is made of: what was given, figures with their basis, error, validity and source, and facts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from plans.reckoned import Reckoned
from plans.reckoner.units import Unit
from plans.shown import UNKNOWN

Shown = str | Callable[[bool], str]
"""A text, or what makes one: with inches and degF if its argument says so."""


def _shown(shown: Shown, inch: bool) -> str:
    return shown if isinstance(shown, str) else shown(inch)


@dataclass(frozen=True, slots=True)
class Given:
    """Something that was given, or taken for want of it."""

    key: str
    """In the record, with its unit."""
    kept: Any
    """What the record holds."""
    shown: Shown
    """Name and figure: "air 20 degC"."""

    def text(self, inch: bool = False) -> str:
        """What people read."""
        return _shown(self.shown, inch)


def given(key: str, label: str, value: float, unit: Unit) -> Given:
    """A figure that was given, in SI."""
    return Given(key, unit.record(value), lambda inch: f"{label} {unit.text(value, inch)}")


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of the answer, or why there is none."""

    key: str
    """In the record, with its unit."""
    label: str
    reckoned: Reckoned | None
    unit: Unit
    why: str = ""
    """Why there is no figure."""
    spans: bool = False
    """The record holds its least and its most in place of one figure."""

    @property
    def kept(self) -> Any:
        """What the record holds for its key."""
        if self.reckoned is None:
            return None
        return self._ends() if self.spans else self.unit.record(self.reckoned.value)

    def _ends(self) -> list[float] | None:
        known = self.reckoned
        if known is None or known.least is None or known.most is None:
            return None
        return [self.unit.record(known.least), self.unit.record(known.most)]

    @property
    def about(self) -> dict[str, Any]:
        """What the record says about it."""
        known = self.reckoned
        if known is None:
            return {"why": self.why}
        return {
            "basis": known.basis,
            "range": self._ends(),
            "outside": known.outside,
            "validity": known.validity,
            "source": known.source,
        }

    def text(self, inch: bool = False) -> str:
        """The figure with its unit; "--" where there is none."""
        known = self.reckoned
        if known is None:
            return UNKNOWN
        if self.spans and known.least is not None and known.most is not None:
            return self._between(known.least, known.most, inch)
        return self.unit.text(known.value, inch)

    def range_text(self, inch: bool = False) -> str:
        """What it may be in truth: "56.1 s to 71.3 s"; empty where that is not known."""
        known = self.reckoned
        if known is None or self.spans or known.least is None or known.most is None:
            return ""
        return self._between(known.least, known.most, inch)

    def _between(self, least: float, most: float, inch: bool) -> str:
        low, high = self.unit.text(least, inch), self.unit.text(most, inch)
        if low == high:
            return low
        words, others = low.split(), high.split()
        one_unit = len(words) == len(others) == 2 and words[1] == others[1]
        return f"{words[0] if one_unit else low} to {high}"

    @property
    def basis(self) -> str:
        """Modelled or published, and whether it can be believed; empty where there is no figure."""
        known = self.reckoned
        if known is None:
            return ""
        return f"{known.basis} (outside)" if known.outside else known.basis

    @property
    def notes(self) -> tuple[str, str]:
        """Validity, or why there is no figure, and source."""
        known = self.reckoned
        return (self.why, "") if known is None else (known.validity, known.source)


@dataclass(frozen=True, slots=True)
class Fact:
    """A part of the answer that is no single number: a name, a colour, a table."""

    key: str
    label: str
    kept: Any
    """What the record holds."""
    shown: Shown
    basis: str
    validity: str
    source: str

    def text(self, inch: bool = False) -> str:
        """What people read."""
        return _shown(self.shown, inch)

    def range_text(self, inch: bool = False) -> str:  # noqa: ARG002
        """Nothing: a fact has no error."""
        return ""

    @property
    def about(self) -> dict[str, Any]:
        """What the record says about it."""
        return {"basis": self.basis, "validity": self.validity, "source": self.source}

    @property
    def notes(self) -> tuple[str, str]:
        """Validity and source."""
        return self.validity, self.source
