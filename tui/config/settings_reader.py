"""Reading the settings: each line that is wrong is said, and what it was to set is as it ships."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from plans.reading import ProbeOn
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.spoken.saying import Volume
from plans.units import Units
from tui.actions import ACTIONS, BY_ID, Action, clashes
from tui.config.own_file import OwnFile, read_own_file
from tui.config.settings import PROFILE, PedalSetting, ProbeSetting, Settings

_SWITCHES = ("blocks", "mute")
_NAMES = ("grace_seconds", "hands_free", "keys", "pedal", "probe", "speech", "talk", "units", *_SWITCHES)
_NEXT = ("next", "finished.review")
"""What a pedal's key says, on the screens that know it."""
_PEDAL = {"line": ("cts", "dsr"), "power": ("rts", "dtr", "none")}


def read_settings(path: Path) -> tuple[Settings, list[str]]:
    """Read the file of settings; it need not be there.

    Returns:
        the settings, and what is wrong with the file: each line says where, what, and what would be right
    """
    file = read_own_file(path)
    if file.trouble:
        return Settings(), [f"{file.trouble}; going by the settings that ship"]
    return _SettingsReader(file).read()


class _SettingsReader:
    """Reads one file."""

    def __init__(self, file: OwnFile) -> None:
        self._file, self._table = file, file.table
        self._wrong: list[str] = []

    def read(self) -> tuple[Settings, list[str]]:
        switches = {name: self._switch(name) for name in _SWITCHES}
        pedal = self._pedal()
        settings = Settings(
            keys=self._with_pedal(self._keys(), pedal),
            units=self._units(),
            probe=self._probe(),
            pedal=pedal,
            talk=self._talk(),
            speech=self._speech(),
            hands=Hands(self._hands_free(), self._grace()),
            **switches,
        )
        for name in self._table:
            if name not in _NAMES:
                self._say((name,), f"there is no setting {name}", f"there are {', '.join(_NAMES)}")
        return settings, self._wrong

    def _units(self) -> Units:
        value = self._table.get("units", Units.METRIC.value)
        if value not in list(Units):
            self._say(("units",), f"units is {value!r}", 'write "metric" or "inch"')
            return Units.METRIC
        return Units(value)

    def _hands_free(self) -> HandsFree:
        value = self._table.get("hands_free", HandsFree.ALL.value)
        if value not in list(HandsFree):
            self._say(("hands_free",), f"hands_free is {value!r}", 'write "all", "thermal" or "never"')
            return HandsFree.ALL
        return HandsFree(value)

    def _grace(self) -> float | None:
        value = self._table.get("grace_seconds")
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= 3600:
            self._say(("grace_seconds",), f"grace_seconds is {value!r}", "write seconds from 0 to 3600, such as 20")
            return None
        return float(value)

    def _switch(self, name: str) -> bool:
        value = self._table.get(name, False)
        if not isinstance(value, bool):
            self._say((name,), f"{name} is {value!r}", "write true or false")
        return value is True

    def _probe(self) -> ProbeSetting | None:
        table = self._table.get("probe")
        if table is None:
            return None
        if not isinstance(table, dict) or not isinstance(table.get("port"), str):
            self._say(("probe",), "probe names no port", 'write [probe] and below it port = "/dev/ttyUSB0"')
            return None
        for name in set(table) - {"port", "profile", "on"}:
            self._say(("probe", name), f"probe has no {name}", "there are port, profile, on")
        profile, on = table.get("profile", PROFILE), table.get("on", "work")
        if not isinstance(profile, str):
            self._say(("probe", "profile"), f"profile is {profile!r}", "write a name that `heatbook probe list` shows")
            return None
        if on not in list(ProbeOn):
            self._say(("probe", "on"), f"on is {on!r}", 'write "work" or "fire"')
            return None
        return ProbeSetting(table["port"], profile, ProbeOn(on))

    def _pedal(self) -> PedalSetting | None:
        table = self._table.get("pedal")
        if table is None:
            return None
        if not isinstance(table, dict):
            self._say(("pedal",), "pedal is no table", 'write [pedal] and below it line = "cts", or key = "f5"')
            return None
        good: dict[str, str] = {}
        for name, value in table.items():
            where = ("pedal", name)
            if name not in ("key", "port", *_PEDAL):
                self._say(where, f"pedal has no {name}", "there are key, line, power, port")
            elif name in _PEDAL and value not in _PEDAL[name]:
                self._say(where, f"{name} is {value!r}", f"write one of {', '.join(_PEDAL[name])}")
            elif not isinstance(value, str) or not value.strip() or not value.isprintable():
                self._say(where, f"{name} is {value!r}", "write a text in quotation marks")
            elif name == "key" and value.strip().lower() in KEPT:
                self._say(where, f"the pedal can't have the key {value}", "it is kept for the terminal")
            else:
                good[name] = value.strip()
        pedal = PedalSetting(**good)
        if pedal.port and not pedal.line:
            self._say(
                ("pedal", "port"), "the pedal has a port, but no line that its switch closes", 'write line = "cts"'
            )
        return pedal

    def _talk(self) -> Volume | None:
        value = self._table.get("talk", Volume.NORMAL.value)
        if value == "nothing":
            return None
        if value not in list(Volume):
            self._say(("talk",), f"talk is {value!r}", 'write "few", "normal", "all" or "nothing"')
            return Volume.NORMAL
        return Volume(value)

    def _speech(self) -> str:
        value = self._table.get("speech", "")
        if not isinstance(value, str):
            self._say(("speech",), f"speech is {value!r}", 'write a command, such as "espeak-ng -v en -s 150"')
            return ""
        return value

    def _keys(self) -> dict[str, str]:
        table = self._table.get("keys", {})
        if not isinstance(table, dict):
            self._say(("keys",), "keys is no table", 'write [keys] and below it lines such as next = "enter"')
            return {}
        keys = dict(self._good_keys(table))
        for one, other, key in list(clashes(keys)):
            moved = one if one.id in keys else other
            if moved.id in keys:
                stays = other if moved is one else one
                self._say(("keys", moved.id), f"{moved.id} and {stays.id} would share the key {key}", "choose another")
                del keys[moved.id]
        return keys

    def _with_pedal(self, keys: dict[str, str], pedal: PedalSetting | None) -> dict[str, str]:
        """The keys with that of the pedal, which says "next" besides those that do already."""
        if pedal is None or not pedal.key:
            return keys
        more = keys | {name: f"{keys.get(name, BY_ID[name].key)},{pedal.key}" for name in _NEXT}
        for one, other, key in clashes(more):
            if key == pedal.key and (one.id in _NEXT or other.id in _NEXT):
                other_id = other.id if one.id in _NEXT else one.id
                self._say(("pedal", "key"), f"the pedal sends {key}, which is the key of {other_id}", "move that one")
                return keys
        return more

    def _good_keys(self, table: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
        for name, key in table.items():
            where = ("keys", name)
            if name not in BY_ID:
                self._say(where, f"there is no action {name}", f"there are {_listed(ACTIONS)}")
            elif not isinstance(key, str) or not key.strip() or not key.isprintable():
                self._say(where, f"{name} is {key!r}", 'write a key such as "x", "space", "f5" or "enter,space"')
            elif refused := sorted({part.strip().lower() for part in key.split(",")} & KEPT):
                self._say(where, f"{name} can't have the key {refused[0]}", "it is kept for the terminal")
            else:
                yield name, key

    def _say(self, where: tuple[str, ...], what: str, right: str) -> None:
        self._wrong.append(self._file.said(where, what, right))


KEPT = frozenset({"ctrl+c", "ctrl+q", "ctrl+z", "ctrl+s", "ctrl+p", "f3"})
"""Leaving, the terminal's own, and keys that don't arrive as themselves."""


def _listed(actions: tuple[Action, ...]) -> str:
    return ", ".join(action.id for action in actions)
