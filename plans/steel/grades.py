"""The grades at hand: what the standard says is in them, and the temperatures that are printed for them."""

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
"""What people put before a designation."""


class What(StrEnum):
    """What a printed temperature is."""

    AC1 = "Ac1"
    AC3 = "Ac3"
    ACM = "Acm"
    MS = "Ms"
    NORMALIZING = "normalizing"
    HARDENING = "hardening"
    TEMPERING = "tempering"


@dataclass(frozen=True, slots=True)
class Published:
    """A temperature as somebody printed it for a grade."""

    what: What
    low: float
    """[K]"""
    high: float
    """Same as `low` where one figure is printed [K]."""
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Grade:
    """A grade of steel."""

    name: str
    system: str
    """Who names it so: AISI/SAE, EN, EN ISO, DIN, JIS."""
    also: tuple[str, ...]
    """Other names of the same grade."""
    near: tuple[str, ...]
    """Grades of other systems that come close; not the same."""
    use: str
    ranges: Mapping[str, tuple[float, float]]
    """Least and most of each element by its symbol [mass %]; a least of 0 is a limit only."""
    usual: Mapping[str, float]
    """What bars mostly hold where the standard is very wide [mass %]."""
    source: str
    """Of the ranges."""
    published: tuple[Published, ...]
    air_hardening: bool
    """Hardens in still air, so that normalizing it would harden it."""

    @property
    def middle(self) -> Composition:
        """What the usual bar, or else the middle of the ranges, holds."""
        middles = {symbol: round((low + high) / 2, 4) for symbol, (low, high) in self.ranges.items()}
        return Composition.of(middles | dict(self.usual))

    def printed(self, what: What) -> tuple[Published, ...]:
        """What is printed of one kind; may be nothing."""
        return tuple(one for one in self.published if one.what is what)


@cache
def all_grades() -> tuple[Grade, ...]:
    """Every grade, in the order of the table: AISI/SAE, then EN, ISO and DIN, then JIS."""
    table = tomllib.loads(files("plans.steel").joinpath("grades.toml").read_text(encoding="utf-8"))
    return tuple(_grade(row, table["sources"]) for row in table["grade"])


def find_grade(name: str) -> Grade:
    """The grade of that name, however it is spelt: "1084", "AISI 1084", "c75s", "1.1248", "W.-Nr. 1.1248".

    Raises:
        SteelError: there is none; the text names what is close.
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
