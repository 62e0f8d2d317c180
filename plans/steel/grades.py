"""The grades of steel that are known here: what their standards say is in them, and what is stated for them by whom."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any

from plans.record import record
from plans.steel.composition import Composition
from plans.units import kelvin


class What(StrEnum):
    """Which critical temperature, or which treatment, a figure is stated for."""

    AC1 = "Ac1"
    """Where austenite begins to form on heating."""
    AC3 = "Ac3"
    """Where the last ferrite is gone on heating."""
    ACM = "Acm"
    """Where the last cementite is dissolved on heating."""
    MS = "Ms"
    """Where martensite begins to form on cooling."""
    NORMALIZING = "normalizing"
    """The range to normalize from."""
    HARDENING = "hardening"
    """The range to quench from."""
    TEMPERING = "tempering"
    """The range to temper in."""


@record
class Source:
    """Where a figure of the table is from, and whether it was read there."""

    text: str
    """Maker or standard, document, year as far as it is known."""
    looked_up: bool
    """Whether the figure was read there; if not, it is from memory of what stands there."""

    def __str__(self) -> str:
        """The source as people read it; says so where the figure is from memory."""
        return self.text if self.looked_up else f"{self.text}, from memory"


@record
class Stated:
    """One temperature, or one range, as somebody states it for a grade."""

    what: What
    """Which critical temperature it is, or which treatment it is for."""
    low: float
    """The temperature, or the low end of the range [K]."""
    high: float
    """The high end of the range; equals `low` where one temperature is stated [K]."""
    source: Source
    """The maker's sheet or the handbook that states it."""
    note: str = ""
    """What the source says besides, such as into what to quench; may be empty."""


@record
class Grade:
    """A grade of steel: its names, its composition, and what is stated for it."""

    name: str
    """Its designation, e.g. "1084" or "C75S"."""
    system: str
    """The system of names that `name` is from: AISI/SAE, EN, EN ISO, DIN, JIS, UNS, or "trade name"."""
    also: tuple[str, ...]
    """Other names of the same grade."""
    near: tuple[str, ...]
    """Grades of other systems that come close, but are not the same."""
    use: str
    """Uses of the grade, in a few words."""
    ranges: Mapping[str, tuple[float, float]]
    """Least and most of each element by its chemical symbol [mass %]; where the least is 0 only the most is limited."""
    source: Source
    """The standard or the sheet that `ranges` are from."""
    remembered: tuple[str, ...]
    """Chemical symbols of those in `ranges` that are from memory, though the others were looked up in `source`."""
    usual: Mapping[str, float]
    """What bars mostly hold of the elements for which the standard is very wide, by chemical symbol [mass %]."""
    usual_source: Source | None
    """Who says what is usual; None where `usual` is empty."""
    stated: tuple[Stated, ...]
    """The temperatures that are stated for it; may be empty."""
    air_hardening: bool
    """Whether it hardens in still air, so that normalizing would harden it."""
    no_brittle_range: Source | None
    """Who says that it has no range in which a temper makes it brittle; None where nobody does."""

    @property
    def middle(self) -> Composition:
        """The composition that a bar of this grade is taken to have: what is usual, else the middle of each range."""
        middles = {symbol: round((low + high) / 2, 4) for symbol, (low, high) in self.ranges.items()}
        return Composition.of(middles | dict(self.usual))

    def stated_for(self, what: What) -> tuple[Stated, ...]:
        """The stated temperatures of one kind, in the order of the table; empty where none is stated."""
        return tuple(one for one in self.stated if one.what is what)


@cache
def all_grades() -> tuple[Grade, ...]:
    """Every grade that is known here: by AISI/SAE first, then by EN, ISO and DIN, by JIS, and by trade names."""
    table = tomllib.loads(Path(__file__).with_name("grades.toml").read_text(encoding="utf-8"))
    sources = {key: Source(text, looked_up=True) for key, text in table["looked_up"].items()}
    sources |= {key: Source(text, looked_up=False) for key, text in table["from_memory"].items()}
    return tuple(_grade(row, sources) for row in table["grade"])


def _grade(row: dict[str, Any], sources: Mapping[str, Source]) -> Grade:
    return Grade(
        name=row["name"],
        system=row["system"],
        also=tuple(row.get("also", ())),
        near=tuple(row["near"]),
        use=row["use"],
        ranges={symbol: (float(low), float(high)) for symbol, (low, high) in row["mass_percent"].items()},
        source=sources[row["source"]],
        remembered=tuple(row.get("remembered", ())),
        usual={symbol: float(share) for symbol, share in row.get("usual", {}).items()},
        usual_source=sources[row["usual_source"]] if "usual_source" in row else None,
        stated=tuple(
            Stated(
                What(one["what"]),
                kelvin(one["celsius"][0]),
                kelvin(one["celsius"][1]),
                sources[one["source"]],
                one.get("note", ""),
            )
            for one in row.get("stated", ())
        ),
        air_hardening=row.get("air_hardening", False),
        no_brittle_range=sources[row["no_brittle_range"]] if "no_brittle_range" in row else None,
    )
