"""Profiles out of TOML files: those that ship, and those in a folder of the smith's own."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final, TypeVar

from devices.decode import Decoder
from devices.errors import DeviceError
from devices.pattern import parse_pattern
from devices.profile import Profile, Unit
from plans.errors import Fault
from plans.text import clean
from plans.toml import LONGEST_LINE, KeyPath, TomlError, TomlFaults, TomlTable, TomlText, kind_of, read_toml, shown

SHIPPED: Final = Path(__file__).parent / "profiles"
"""The folder of the profiles that ship."""

_MOST_BYTES: Final = 100_000
_KEYS: Final = tuple(sorted(set(Profile.__dataclass_fields__) - {"name"}))
_REQUIRED: Final = {"title": 'title = "A label, the temperature, C"', "unit": 'unit = "degC"'}
_PARITIES: Final = ("none", "even", "odd", "mark", "space")

_Value = TypeVar("_Value")


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
        DeviceError: the file can't be read, or a key in it is wrong; the text names file, line and key.
    """
    try:
        toml = read_toml(path, _MOST_BYTES)
    except TomlError as error:
        raise _wrong(error.fault) from None
    return _profile(toml, path.stem)


def _files(folder: Path | None) -> dict[str, Path]:
    files = {path.stem: path for path in SHIPPED.glob("*.toml")}
    if folder is not None:
        files |= {path.stem: path for path in folder.glob("*.toml")}
    return files


def _profile(toml: TomlText, name: str) -> Profile:
    faults = TomlFaults(toml)
    table = TomlTable(faults, (), toml.values)
    table.check_keys(_KEYS, _REQUIRED, "is unknown: there is no such key")
    table.choice("kind", ("text",), 'write "text", which is the only one so far, or leave the key out')
    usual = Profile("", "", Unit.CELSIUS)
    pattern = _forms(table)
    profile = Profile(
        name=name,
        title=table.line("title", LONGEST_LINE, "write text in quotes") or "",
        unit=table.choice("unit", tuple(Unit)) or usual.unit,
        baud=_or(table.count("baud", 4_000_000, 50, bare=True), usual.baud),
        bytesize=_or(table.count("bytesize", 8, 5, bare=True), usual.bytesize),
        parity=_or(table.choice("parity", _PARITIES), usual.parity),
        stopbits=_stopbits(table, usual.stopbits),
        pattern=pattern,
        decimal_comma=_or(table.switch("decimal_comma", "write true or false, without quotes"), not pattern),
        lowest=_or(table.quantity("lowest", "temperature"), usual.lowest),
        highest=_or(table.quantity("highest", "temperature"), usual.highest),
        jump=_jump(table, usual.jump),
        faults=_faults(table),
        silence=_silence(table, usual.silence),
        lag=_lag(table, usual.lag),
        skip_first=_or(table.switch("skip_first", "write true or false, without quotes"), usual.skip_first),
        example=_example(table),
    )
    if not faults.found and not profile.lowest < profile.highest:
        table.value("highest", "is not hotter than lowest", "it must be hotter than lowest: raise it, or lower that")
    if not faults.found and profile.example and Decoder(profile).decode(profile.example.encode()).is_junk:
        table.value("example", "is a line that the profile can't read", "compare it with pattern")
    if faults.found:
        raise _wrong(min(faults.found, key=lambda fault: fault.line or 0))
    return profile


def _wrong(fault: Fault) -> DeviceError:
    place = fault.file if fault.line is None else f"{fault.file}:{fault.line}"
    said = f"{fault.key} {fault.what}" if fault.key else fault.what
    do = "Check the path of the profile." if fault.line is None else "Mend the profile."
    return DeviceError(place, f"{said}; {fault.hint}" if fault.hint else said, do)


def _or(value: _Value | None, usual: _Value) -> _Value:
    return usual if value is None else value


def _as_sent(table: TomlTable, at: KeyPath, value: Any) -> str | None:
    """A text as the probe sends it: with its spaces, which count, but nothing that does not print."""
    if not isinstance(value, str):
        table.shape(at, f"is {kind_of(value)}", "write text in quotes")
    elif not value.strip():
        table.shape(at, "is empty", "write text in quotes, or leave the key out")
    elif not value.isprintable():
        table.shape(at, "holds control characters", "take them out")
    else:
        return value
    return None


def _forms(table: TomlTable) -> tuple[str, ...]:
    """The forms that a line can have, one or a list of them; none where it is a bare number."""
    value = table.values.get("pattern")
    if value is None:
        return ()
    if value == []:
        table.shape("pattern", "is empty", "leave the key out where a line is a bare number")
    forms = []
    for index, item in enumerate(value if isinstance(value, list) else [value]):
        at: KeyPath = ("pattern", index) if isinstance(value, list) else ("pattern",)
        form = _as_sent(table, at, item)
        try:
            parse_pattern(form or "{value}")
        except ValueError as error:
            table.value(at, f"is wrong: {error}", "")
        forms.append(form or "")
    return tuple(forms)


def _example(table: TomlTable) -> str:
    return _as_sent(table, ("example",), table.values["example"]) or "" if "example" in table.values else ""


def _stopbits(table: TomlTable, usual: float) -> float:
    value = table.values.get("stopbits", usual)
    if isinstance(value, bool) or value not in (1, 1.5, 2):
        table.shape("stopbits", f"is {shown(value)}", "write 1, 1.5 or 2, without quotes")
        return usual
    return float(value)


def _jump(table: TomlTable, usual: float) -> float:
    jump = table.quantity("jump", "temperature difference")
    if jump is not None and jump <= 0:
        table.value("jump", "is zero", 'it must be above zero, as in "300 K"')
    return _or(jump, usual)


def _silence(table: TomlTable, usual: float) -> float:
    seconds = table.quantity("silence", "time", "its units are s, min or h")
    if seconds is not None and not 0.5 <= seconds <= 3600:
        table.value("silence", f"is {seconds:g} s", "it must lie between half a second and an hour")
    return _or(seconds, usual)


def _lag(table: TomlTable, usual: float) -> float:
    seconds = table.quantity("lag", "time", 'its units are s, min or h, as in "8 s"')
    if seconds is not None and not 0 <= seconds <= 120:
        table.value("lag", f"is {seconds:g} s", "it must lie between zero and two minutes")
    return _or(seconds, usual)


def _faults(table: TomlTable) -> tuple[tuple[str, str], ...]:
    part = table.table("faults", 'write a table, [faults] and below it "OL" = "open circuit"')
    if part is None:
        return ()
    for sent, means in part.values.items():
        if not sent.strip() or not isinstance(means, str) or not means.strip() or not means.isprintable():
            part.shape(sent, "tells nothing", 'write what is sent, and what it means in quotes: "OL" = "open circuit"')
    return tuple(part.values.items())
