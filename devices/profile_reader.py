"""Profiles out of TOML files: those that ship, and those in a folder of the smith's own."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from math import isfinite
from pathlib import Path
from typing import Any

from devices.decode import Decoder
from devices.errors import DeviceError
from devices.pattern import parse_pattern
from devices.profile import Profile, Unit
from plans.text import clean

SHIPPED = Path(__file__).parent / "profiles"
_PARITIES = ("none", "even", "odd", "mark", "space")
_QUANTITY = re.compile(r"\s*([-+]?[0-9]+(?:\.[0-9]+)?)\s*(degC|degF|K|s|min)\s*")
_BIGGEST_FILE = 100_000


def profile_names(folder: Path | None = None) -> list[str]:
    """The names of the profiles at hand, those of the smith's own `folder` among them, sorted."""
    return sorted(_files(folder))


def find_profile(name: str, folder: Path | None = None) -> Profile:
    """The profile of that name, or in that .toml file; one in `folder` goes before one that ships.

    Raises:
        DeviceError: there is none, or its file is wrong.
    """
    if name.endswith(".toml"):
        return read_profile(Path(name))
    files = _files(folder)
    if name not in files:
        raise DeviceError(
            f'probe profile "{clean(name)}"',
            "there is none of that name",
            f"There are {', '.join(sorted(files))}; or give the path of a .toml file.",
        )
    return read_profile(files[name])


def read_profile(path: Path) -> Profile:
    """The profile in a file.

    Raises:
        DeviceError: the file can't be read, or a key in it is wrong; the text names file and key.
    """
    try:
        with path.open("rb") as file:
            data = file.read(_BIGGEST_FILE + 1)
        if len(data) > _BIGGEST_FILE:
            raise DeviceError(str(path), "the file is far too large for a profile", "Give the path of a profile.")
        table = tomllib.loads(data.decode("utf-8"))
    except OSError as error:
        raise DeviceError(str(path), f"can't be read ({error.strerror})", "Check the path of the profile.") from error
    except UnicodeDecodeError as error:
        raise DeviceError(str(path), "is not UTF-8 text", "Save it as UTF-8.") from error
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise DeviceError(str(path), f"is not TOML: {clean(str(error), 120)}", "Mend that line.") from error
    return _Reader(path, table).profile()


def _files(folder: Path | None) -> dict[str, Path]:
    files = {path.stem: path for path in SHIPPED.glob("*.toml")}
    if folder is not None:
        files |= {path.stem: path for path in folder.glob("*.toml")}
    return files


class _Reader:
    """Takes keys out of one table, and minds those that nobody took."""

    def __init__(self, path: Path, table: dict[str, Any]) -> None:
        self._path = path
        self._table = table

    def profile(self) -> Profile:
        self._refuse_unknown()
        if self._take("kind", _text, "text") != "text":
            raise self._wrong("kind", 'only "text" is known')
        unit = Unit(self._choice("unit", tuple(Unit)))
        pattern = self._take("pattern", _forms, ())
        usual = Profile("", "", unit)
        profile = Profile(
            name=self._path.stem,
            title=self._take("title", _text),
            unit=unit,
            baud=self._take("baud", _whole(50, 4_000_000), usual.baud),
            bytesize=self._take("bytesize", _whole(5, 8), usual.bytesize),
            parity=self._choice("parity", _PARITIES, usual.parity),
            stopbits=self._take("stopbits", _stopbits, usual.stopbits),
            pattern=pattern,
            decimal_comma=self._take("decimal_comma", _yes_or_no, not pattern),
            lowest=self._take("lowest", _temperature, usual.lowest),
            highest=self._take("highest", _temperature, usual.highest),
            jump=self._take("jump", _difference, usual.jump),
            faults=self._take("faults", _faults, ()),
            silence=self._take("silence", _seconds, usual.silence),
            skip_first=self._take("skip_first", _yes_or_no, usual.skip_first),
            example=self._take("example", _text, ""),
        )
        if not profile.lowest < profile.highest:
            raise self._wrong("highest", "it must be hotter than lowest")
        if profile.example and Decoder(profile).decode(profile.example.encode()).is_junk:
            raise self._wrong("example", "the profile can't read its own example; compare it with pattern")
        return profile

    def _refuse_unknown(self) -> None:
        known = sorted((set(Profile.__dataclass_fields__)) - {"name"})
        for key in self._table:
            if key not in known:
                raise self._wrong(clean(key), f"there is no such key; there are {', '.join(known)}")

    def _take(self, key: str, read: Callable[[Any], Any], usual: Any = ...) -> Any:
        if key not in self._table:
            if usual is ...:
                raise self._wrong(key, "it is missing and has no usual value")
            return usual
        try:
            return read(self._table[key])
        except ValueError as error:
            raise self._wrong(key, str(error)) from error

    def _choice(self, key: str, choices: tuple[str, ...], usual: Any = ...) -> str:
        value = self._take(key, _text, usual)
        if value not in choices:
            raise self._wrong(key, f'it is "{clean(value)}", and can be {", ".join(choices)}')
        return str(value)

    def _wrong(self, key: str, what: str) -> DeviceError:
        return DeviceError(f"{self._path}: {key}", what, "Mend the profile.")


def _text(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        raise ValueError('it must be text in quotes, as in "degC"')
    if not value.isprintable():
        raise ValueError("it must have no control characters in it")
    return value


def _forms(value: Any) -> tuple[str, ...]:
    forms = tuple(_text(form) for form in (value if isinstance(value, list) else [value]))
    if not forms:
        raise ValueError("the list is empty; leave the key out where a line is a bare number")
    for form in forms:
        parse_pattern(form)
    return forms


def _yes_or_no(value: Any) -> bool:
    if not isinstance(value, bool):
        raise ValueError("it must be true or false, without quotes")
    return value


def _whole(lowest: int, highest: int) -> Callable[[Any], int]:
    def read(value: Any) -> int:
        if not isinstance(value, int) or isinstance(value, bool) or not lowest <= value <= highest:
            raise ValueError(f"it must be a whole number from {lowest} to {highest}, without quotes")
        return value

    return read


def _stopbits(value: Any) -> float:
    if isinstance(value, bool) or value not in (1, 1.5, 2):
        raise ValueError("it must be 1, 1.5 or 2, without quotes")
    return float(value)


def _quantity(value: Any, units: tuple[str, ...], sample: str) -> tuple[float, str]:
    match = _QUANTITY.fullmatch(value) if isinstance(value, str) else None
    if match is None or match[2] not in units or not isfinite(float(match[1])):
        raise ValueError(f'it must be a number and its unit in quotes ({", ".join(units)}), as in "{sample}"')
    return float(match[1]), match[2]


def _temperature(value: Any) -> float:
    number, unit = _quantity(value, tuple(Unit), "1200 degC")
    kelvin = Unit(unit).to_kelvin(number)
    if kelvin < 0:
        raise ValueError("it is below absolute zero")
    return kelvin


def _difference(value: Any) -> float:
    number, unit = _quantity(value, tuple(Unit), "300 K")
    if number <= 0:
        raise ValueError("it must be above zero")
    return Unit(unit).difference(number)


def _seconds(value: Any) -> float:
    number, unit = _quantity(value, ("s", "min"), "5 s")
    seconds = number * 60 if unit == "min" else number
    if not 0.5 <= seconds <= 3600:
        raise ValueError("it must lie between half a second and an hour")
    return seconds


def _faults(value: Any) -> tuple[tuple[str, str], ...]:
    if not isinstance(value, dict):
        raise ValueError('it must be a table, as in [faults] and below it "OL" = "open circuit"')
    for sent, means in value.items():
        if not sent.strip() or not isinstance(means, str) or not means.strip() or not means.isprintable():
            raise ValueError(f'"{clean(sent)}" must be followed by what it means in quotes, as in "open circuit"')
    return tuple(value.items())
