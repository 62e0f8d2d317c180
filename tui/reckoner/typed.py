"""Reading what people type into a reckoning. Nothing heavy is imported before something has been typed."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable
from math import isfinite
from typing import TYPE_CHECKING, Any, TypeVar

from plans.errors import PlansError
from plans.units import Units

if TYPE_CHECKING:
    from devices.thermocouple import Kind
    from plans.quantity_grammar import Dimension
    from plans.shapes import Section

Reader = Callable[[str], Any]
"""From a text to a figure in SI; a `PlansError` says what is wrong with it and what would be right."""

_UNIT = re.compile(r"""[^\W\d_]+$|["″'′]$""")
"""The unit at the end of a length."""
_SHAPE = r"(?:\s*(?:round|square|octagon|hexagon))?\s*$"
_INCHES = re.compile(rf"""(?:in|inch|inches|ft|foot|feet|["″'′]){_SHAPE}""")
_MILLIMETRES = re.compile(rf"(?:m|mm|cm){_SHAPE}")
_FAHRENHEIT = re.compile(r"(?:F|℉)\s*$")
_CELSIUS = re.compile(r"(?:C|℃|K)\s*$")


Word = TypeVar("Word", bound=str)


class TypedError(PlansError):
    """A text can't be read; says what would be right."""


def quantity(dimension: Dimension) -> Reader:
    """Reads a quantity with its unit, into SI."""

    def read(text: str) -> float:
        from plans.quantities import parse

        return parse(text, dimension)

    return read


def lengths(text: str) -> tuple[float, ...]:
    """Read lengths with commas between them, into metres; one without a unit has that of the next: "12, 25 mm"."""
    from plans.quantities import parse

    found: list[float] = []
    unit = ""
    for part in reversed(text.split(",")):
        bare = part.strip()
        if (last := _UNIT.search(bare)) is not None:
            unit = last[0]
        elif bare and unit:
            bare = f"{bare} {unit}"
        found.append(parse(bare, "length"))
    return tuple(reversed(found))


def section(text: str) -> Section:
    """Read a cross-section."""
    from plans.quantities import parse_section

    return parse_section(text)


def words(text: str) -> str:
    """Take a text as it is, without odd spaces."""
    return " ".join(text.split())


def _plain(text: str, unit: str, example: str) -> float:
    """A number, its unit written or not."""
    bare = text.strip().removesuffix(unit).strip() if unit else text.strip()
    try:
        number = float(bare)
    except ValueError:
        number = float("nan")
    if not isfinite(number) or "_" in bare:
        raise TypedError(f'"{text.strip()[:40]}" is no number; write {example}')
    return number


def mass_percent(text: str) -> float:
    """Read a share of the mass in per cent, "0.8" or "0.8 %"."""
    number = _plain(text, "%", "a share of the mass in per cent, e.g. 0.8")
    if not 0 <= number <= 100:
        raise TypedError(f"{number:g} %: a share of the mass lies between 0 and 100 %")
    return number


def millivolts(text: str) -> float:
    """Read millivolts, "41.276" or "41.276 mV", into volts."""
    return _plain(text, "mV", "millivolts, e.g. 41.276") / 1000


def number(text: str) -> float:
    """Read a bare number."""
    return _plain(text, "", "a number, e.g. 18")


def count(text: str) -> int:
    """Read a whole number."""
    value = _plain(text, "", "a whole number, e.g. 2")
    if value != int(value):
        raise TypedError(f"{value:g}: give a whole number")
    return int(value)


def one_of(choices: Collection[Word]) -> Reader:
    """Reads one of some words, whole or its beginning, in any case."""

    def read(text: str) -> Word:
        begun = [one for one in choices if one.startswith(words(text).lower())]
        if len(begun) != 1:
            raise TypedError(f'"{text.strip()[:40]}": say {", ".join(sorted(choices))}')
        return begun[0]

    return read


def couple(text: str) -> Kind:
    """Read the letter of a thermocouple."""
    from devices import DeviceError
    from devices.thermocouple import kind_of

    try:
        return kind_of(text)
    except DeviceError as error:
        raise TypedError(f"{error.what}. {error.do}") from None


def units_of(typed: Iterable[str], units: Units) -> Units:
    """The units to answer in: for each kind of quantity those that it was typed in, inches and degF before others.

    Args:
        typed: the texts
        units: those for a kind of quantity that no text tells of
    """
    texts = list(typed)

    def told(yes: re.Pattern[str], no: re.Pattern[str], otherwise: bool) -> bool:
        if any(yes.search(text) for text in texts):
            return True
        return otherwise and not any(no.search(text) for text in texts)

    return Units.of(
        inches=told(_INCHES, _MILLIMETRES, units.inches),
        fahrenheit=told(_FAHRENHEIT, _CELSIUS, units.fahrenheit),
    )
