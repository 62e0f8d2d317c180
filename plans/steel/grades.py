"""The grades of steel that are known here, with what their standards say is in them and what is printed for them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any, Final

from plans.steel.composition import Composition
from plans.steel.errors import SteelError
from plans.units import kelvin

SYSTEMS: Final = re.compile(
    r"^(?:aisi|sae|astm|uns|en|iso|din|jis|werkstoffnummer|werkstoffnr|wnr|mat(?:erial)?(?:no|nr)|grade|steel)+(?=[a-z]*\d)"
)
"""The names of standards and the words that people put before a designation, such as "AISI" or "W.-Nr."."""


class What(StrEnum):
    """Which critical temperature, or which treatment, a figure is printed for."""

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


@dataclass(frozen=True, slots=True)
class Published:
    """One temperature, or one range, as somebody printed it for a grade."""

    what: What
    """Which critical temperature it is, or which treatment it is for."""
    low: float
    """The temperature, or the low end of the range [K]."""
    high: float
    """The high end of the range; equals `low` where one temperature is printed [K]."""
    source: str
    """The maker's sheet or the handbook that prints it."""
    note: str = ""
    """What the source says besides, such as into what to quench; may be empty."""


@dataclass(frozen=True, slots=True)
class Grade:
    """A grade of steel: its names, its composition, and what is printed for it."""

    name: str
    """Its designation, e.g. "1084" or "C75S"."""
    system: str
    """The system of names that `name` is from: AISI/SAE, EN, EN ISO, DIN or JIS."""
    also: tuple[str, ...]
    """Other names of the same grade."""
    near: tuple[str, ...]
    """Grades of other systems that come close, but are not the same."""
    use: str
    """Uses of the grade, in a few words."""
    ranges: Mapping[str, tuple[float, float]]
    """Least and most of each element by its chemical symbol [mass %]; where the least is 0 only the most is limited."""
    usual: Mapping[str, float]
    """What bars mostly hold of the elements for which the standard is very wide, by chemical symbol [mass %]."""
    source: str
    """The standard or the sheet that `ranges` are from."""
    published: tuple[Published, ...]
    """The temperatures that are printed for it; may be empty."""
    air_hardening: bool
    """Whether it hardens in still air, so that normalizing would harden it."""

    @property
    def middle(self) -> Composition:
        """The composition that a bar of this grade is taken to have: what is usual, else the middle of each range."""
        middles = {symbol: round((low + high) / 2, 4) for symbol, (low, high) in self.ranges.items()}
        return Composition.of(middles | dict(self.usual))

    def printed(self, what: What) -> tuple[Published, ...]:
        """The printed temperatures of one kind, in the order of the table; empty where none is printed."""
        return tuple(one for one in self.published if one.what is what)


@cache
def all_grades() -> tuple[Grade, ...]:
    """Every grade that is known here: those of AISI/SAE first, then of EN, ISO and DIN, then of JIS."""
    table = tomllib.loads(files("plans.steel").joinpath("grades.toml").read_text(encoding="utf-8"))
    return tuple(_grade(row, table["sources"]) for row in table["grade"])


def find_grade(name: str) -> Grade:
    """The grade of a name, however it is spelt: "1084", "AISI 1084", "c75s", "1.1248", "W.-Nr. 1.1248".

    Raises:
        SteelError: no grade has that name; the text names those that come close.
    """
    known = _names()
    grade = known.get(_plain(name))
    if grade is not None:
        return grade
    raise SteelError(f'no steel is called "{name.strip()}" here: {_hint(name)}')


def _hint(name: str) -> str:
    plain = _plain(name)
    beside = [grade.name for grade in all_grades() if plain and plain in map(_plain, grade.near)]
    if beside:
        return f"it comes close to {' and '.join(beside[:2])}, which are; or give its composition"
    close = get_close_matches(plain, _names(), n=4, cutoff=0.6)
    meant = list(dict.fromkeys(_names()[key].name for key in close))[:3]
    if meant:
        return f"did you mean {' or '.join(meant)}? Or give its composition"
    return "give its composition, e.g. C 0.75 %, Mn 0.6 %"


def _plain(name: str) -> str:
    """A designation without spaces, dots, dashes and the name of its system."""
    return SYSTEMS.sub("", re.sub(r"[^0-9a-z]", "", name.lower()))


@cache
def _names() -> dict[str, Grade]:
    """Every spelling that is known, made plain. A grade's own name wins over another's second name."""
    names: dict[str, Grade] = {}
    for of in (_own_name, _other_names):
        for grade in all_grades():
            for name in of(grade):
                names.setdefault(_plain(name), grade)
    return names


def _own_name(grade: Grade) -> Iterator[str]:
    yield grade.name


def _other_names(grade: Grade) -> Iterator[str]:
    yield from grade.also


def _grade(row: dict[str, Any], sources: dict[str, str]) -> Grade:
    return Grade(
        name=row["name"],
        system=row["system"],
        also=tuple(row.get("also", ())),
        near=tuple(row["near"]),
        use=row["use"],
        ranges={symbol: (float(low), float(high)) for symbol, (low, high) in row["mass_percent"].items()},
        usual={symbol: float(share) for symbol, share in row.get("usual", {}).items()},
        source=sources[row["source"]],
        published=tuple(
            Published(
                What(one["what"]),
                kelvin(one["celsius"][0]),
                kelvin(one["celsius"][1]),
                sources[one["source"]],
                one.get("note", ""),
            )
            for one in row.get("published", ())
        ),
        air_hardening=row.get("air_hardening", False),
    )
