"""What a reckoning is made of: what was given, figures with their basis, error, validity and source, and facts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from plans.reckoned import Reckoned
from plans.reckoner.kinds import FigureKind, Large
from plans.record import record
from plans.units import UNKNOWN, Shown, Units


@record
class Given:
    """Something that was given to a reckoning, or taken for want of it."""

    key: str
    """Name in the record, with the unit: "air_celsius"."""
    kept: Any
    """What the record holds under that name."""
    shown: Shown
    """Name and figure for people: "air 20 degC"."""

    def text(self, units: Units = Units.METRIC) -> str:
        """Name and figure as people read them, in the units that are set."""
        return units.text(self.shown)


def given(key: str, label: str, value: float, kind: FigureKind) -> Given:
    """A figure that was given to a reckoning.

    Args:
        key: its name in the record, with the unit
        label: its name for people
        value: the figure in SI
        kind: how it is kept and read
    """
    return Given(key, kind.record(value), lambda units: f"{label} {kind.text(value, units)}")


@record
class Figure:
    """One figure of the answer, or why there is none."""

    key: str
    """Name in the record, with the unit: "skin_celsius"."""
    label: str
    """Name for people: "skin then"."""
    reckoned: Reckoned | None
    """The figure in SI, with its error; None where there is none."""
    kind: FigureKind
    """How the figure is kept and read."""
    why: Shown = ""
    """Why there is no figure; empty where there is one."""
    spans: bool = False
    """Whether the record holds the least and the most that it may be in place of one figure."""

    @property
    def kept(self) -> Any:
        """What the record holds for its key."""
        if self.reckoned is None:
            return None
        return self._ends() if self.spans else self.kind.record(self.reckoned.value)

    def _ends(self) -> list[float] | None:
        known = self.reckoned
        if known is None or known.least is None or known.most is None:
            return None
        return [self.kind.record(known.least), self.kind.record(known.most)]

    @property
    def about(self) -> dict[str, Any]:
        """What the record says about the figure: basis, range, validity and source, or why there is none."""
        known = self.reckoned
        if known is None:
            return {"why": Units.METRIC.text(self.why)}
        return {
            "basis": known.basis,
            "range": self._ends(),
            "outside": known.outside,
            "validity": Units.METRIC.text(known.validity),
            "source": Units.METRIC.text(known.source),
        }

    def text(self, units: Units = Units.METRIC) -> str:
        """The figure as people read it, with its unit; "--" where there is none."""
        known = self.reckoned
        if known is None:
            return UNKNOWN
        if self.spans and known.least is not None and known.most is not None:
            return self._between(known.least, known.most, units)
        return self.kind.text(known.value, units)

    def large(self, units: Units = Units.METRIC) -> Large:
        """The figure to be read from afar, its unit apart; "--" where there is none."""
        known = self.reckoned
        if known is None:
            return Large(UNKNOWN, "")
        if self.spans and known.least is not None and known.most is not None:
            low, high = self.kind.large(known.least, units), self.kind.large(known.most, units)
            return low if low == high else Large(f"{low.figure}-{high.figure}", high.unit)
        return self.kind.large(known.value, units)

    def range_text(self, units: Units = Units.METRIC) -> str:
        """Between what the figure may lie in truth: "56.1 s to 71.3 s"; empty where that is not known."""
        known = self.reckoned
        if known is None or self.spans or known.least is None or known.most is None:
            return ""
        return self._between(known.least, known.most, units)

    def _between(self, least: float, most: float, units: Units) -> str:
        low, high = self.kind.text(least, units), self.kind.text(most, units)
        if low == high:
            return low
        words, others = low.split(), high.split()
        one_unit = len(words) == len(others) == 2 and words[1] == others[1]
        return f"{words[0] if one_unit else low} to {high}"

    @property
    def stands_on(self) -> str:
        """Modelled or published, and whether it can be believed, as people read it; empty where there is no figure."""
        known = self.reckoned
        if known is None:
            return ""
        return _as_read(known.basis) + (", outside its range" if known.outside else "")

    def notes(self, units: Units = Units.METRIC) -> tuple[str, str]:
        """The figure's validity, or why there is none, in the units that are set; and its source."""
        known = self.reckoned
        return (units.text(self.why), "") if known is None else (units.text(known.validity), units.text(known.source))


@record
class Fact:
    """A part of the answer that is no single number: a name, a colour, a table."""

    key: str
    """Name in the record: "oxide_colour"."""
    label: str
    """Name for people: "oxide colour"."""
    kept: Any
    """What the record holds under its name."""
    shown: Shown
    """The fact itself as people read it."""
    basis: str
    """What it stands on: modelled, published, or as given."""
    validity: Shown
    """Where it holds and what it leaves out, in words for the smith."""
    source: str
    """The paper, book or standard; empty where there is none to name."""
    word: str = ""
    """The fact in a word, to be read from afar; empty where that is the fact itself."""

    def text(self, units: Units = Units.METRIC) -> str:
        """The fact as people read it, in the units that are set."""
        return units.text(self.shown)

    def large(self, units: Units = Units.METRIC) -> Large:
        """The fact to be read from afar; it has no unit."""
        return Large(self.word or self.text(units), "")

    def range_text(self, units: Units = Units.METRIC) -> str:  # noqa: ARG002
        """An empty text: a fact, other than a `Figure`, has no error."""
        return ""

    @property
    def stands_on(self) -> str:
        """Its basis as people read it."""
        return _as_read(self.basis)

    @property
    def about(self) -> dict[str, Any]:
        """What the record says about the fact: basis, validity and source."""
        return {"basis": self.basis, "validity": Units.METRIC.text(self.validity), "source": self.source}

    def notes(self, units: Units = Units.METRIC) -> tuple[str, str]:
        """The fact's validity in the units that are set, and its source."""
        return units.text(self.validity), self.source


def _as_read(basis: str) -> str:
    """A basis in plain words, where the record's are not."""
    return "remembered, not looked up" if basis == "from memory" else basis


def given_list(key: str, label: str, values: Sequence[float], kind: FigureKind) -> Given:
    """Several figures that were given to a reckoning under one name.

    Args:
        key: their name in the record, with the unit
        label: their name for people
        values: the figures in SI
        kind: how each is kept and read
    """
    kept = [kind.record(value) for value in values]
    return Given(key, kept, lambda units: f"{label} {_in_a_row(values, kind, units)}")


def listed(
    key: str, label: str, values: Sequence[float], kind: FigureKind, basis: str, validity: Shown, source: str
) -> Fact:
    """Several figures of one kind as one part of the answer; the record holds them as a list.

    Args:
        key: its name in the record, with the unit
        label: its name for people
        values: the figures in SI
        kind: how each is kept and read
        basis: what they stand on
        validity: where they hold and what they leave out
        source: the paper, book or standard
    """
    kept = [kind.record(value) for value in values]
    return Fact(key, label, kept, lambda units: _in_a_row(values, kind, units), basis, validity, source)


def _in_a_row(values: Sequence[float], kind: FigureKind, units: Units) -> str:
    """Figures with their unit once, where they share it: "10, 30 mm"."""
    texts = [kind.text(value, units) for value in values]
    parted = [text.rpartition(" ") for text in texts]
    if len({unit for _, _, unit in parted}) == 1 and all(number for number, _, _ in parted):
        return f"{', '.join(number for number, _, _ in parted)} {parted[0][2]}"
    return ", ".join(texts) or UNKNOWN
