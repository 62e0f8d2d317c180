"""Reading the settings: each line that is wrong is said, and what it was to set is as it ships."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final, TypeGuard

from plans.reading import ProbeOn
from plans.sitting import Hands, HandsFree, Volume
from plans.toml import TomlFaults, TomlTable, TomlText, key_text, near_or_all, shown
from plans.units import SETTABLE, Units
from plans.warmth import USUAL_NAMES, HeatNames
from tui.actions import ACTIONS, BY_ID, Action, clashes
from tui.config.own_file import read_own_file
from tui.config.settings import PROFILE, PedalSetting, ProbeSetting, Settings

_SWITCHES: Final = ("blocks", "mute")
_NAMES: Final = (
    "bell",
    "grace_seconds",
    "hands_free",
    "heat_names",
    "keys",
    "pedal",
    "probe",
    "repeat_for",
    "speech",
    "talk",
    "units",
    *_SWITCHES,
)
_NEXT: Final = ("next", "finished.review", "shelf.begin", "log.open")
"""What a pedal's key says, on the screens that know it."""
_PEDAL: Final[dict[str, tuple[str, ...]]] = {
    "key": (),
    "line": ("cts", "dsr"),
    "power": ("rts", "dtr", "none"),
    "port": (),
}
"""The keys of [pedal], each with the words that it may have; none where it may be any text."""
_HEAT_NAMES: Final = 'write "chapman", "taylor" or "stirling"'
_LONGEST_REPEAT: Final = 24 * 3600.0
"""For how long a call may be repeated [s]."""
_NOTHING: Final = "nothing"
"""What `talk` is where nothing is to be said."""


def read_settings(path: Path) -> tuple[Settings, list[str]]:
    """Read the file of settings; it need not be there.

    Returns:
        the settings, and what is wrong with the file: each line says where, what, and what would be right
    """
    file = read_own_file(path)
    if file.trouble:
        return Settings(), [f"{file.trouble}; going by the settings that ship"]
    return _SettingsReader(file.toml).read()


class _SettingsReader:
    """Reads one file."""

    def __init__(self, toml: TomlText) -> None:
        self._faults = TomlFaults(toml, short_keys=True)
        self._top = TomlTable(self._faults, (), toml.values)

    def read(self) -> tuple[Settings, list[str]]:
        switches = {name: self._top.switch(name) is True for name in _SWITCHES}
        pedal = self._pedal()
        settings = Settings(
            keys=self._with_pedal(self._keys(), pedal),
            units=self._top.choice("units", SETTABLE, 'write "metric" or "inch"') or Units.METRIC,
            heat_names=self._top.choice("heat_names", tuple(HeatNames), _HEAT_NAMES) or USUAL_NAMES,
            probe=self._probe(),
            pedal=pedal,
            talk=self._talk(),
            bell=self._top.switch("bell") is not False,
            repeat_for=self._repeat_for(),
            speech=self._speech(),
            hands=Hands(self._hands_free(), self._grace()),
            **switches,
        )
        for name in self._top.values:
            if name not in _NAMES:
                self._faults.say((name,), f"there is no setting {key_text((name,))}", near_or_all(name, _NAMES))
        return settings, [str(fault) for fault in self._faults.found]

    def _hands_free(self) -> HandsFree:
        chosen = self._top.choice("hands_free", tuple(HandsFree), 'write "all", "thermal" or "never"')
        return HandsFree.ALL if chosen is None else chosen

    def _grace(self) -> float | None:
        return self._top.number("grace_seconds", 0, 3600, "write seconds from 0 to 3600, such as 20")

    def _probe(self) -> ProbeSetting | None:
        if "probe" not in self._top.values:
            return None
        value = self._top.values["probe"]
        if not isinstance(value, dict) or not isinstance(value.get("port"), str):
            hint = 'write [probe] and below it port = "/dev/ttyUSB0"'
            self._faults.say(("probe",), "probe names no port", hint)
            return None
        table = TomlTable(self._faults, ("probe",), value)
        if not value["port"].strip():
            table.value("port", "is empty", 'leave [probe] out, or name a port, such as "/dev/ttyUSB0"')
            return None
        known = ("port", "profile", "on")
        for name in value:
            if name not in known:
                self._faults.say(("probe", name), f"probe has no {key_text((name,))}", near_or_all(name, known))
        profile = value.get("profile", PROFILE)
        if not isinstance(profile, str):
            table.shape("profile", f"is {shown(profile)}", "write a name that `heatbook probe list` shows")
            return None
        on = table.choice("on", tuple(ProbeOn), 'write "work" or "fire"') if "on" in value else ProbeOn.WORK
        return None if on is None else ProbeSetting(value["port"], profile, on)

    def _pedal(self) -> PedalSetting | None:
        if "pedal" not in self._top.values:
            return None
        value = self._top.values["pedal"]
        if not isinstance(value, dict):
            hint = 'write [pedal] and below it line = "cts", or key = "f5"'
            self._faults.say(("pedal",), "pedal is no table", hint)
            return None
        table = TomlTable(self._faults, ("pedal",), value)
        good: dict[str, str] = {}
        for name, text in value.items():
            if name not in _PEDAL:
                self._faults.say(("pedal", name), f"pedal has no {key_text((name,))}", near_or_all(name, _PEDAL))
            elif words := _PEDAL[name]:
                word = table.choice(name, words, f"write one of {', '.join(words)}")
                if word is not None:
                    good[name] = word
            elif not _is_text(text):
                table.shape(name, f"is {shown(text)}", "write a text in quotation marks")
            elif name == "key" and text.strip().lower() in KEPT:
                self._faults.say(("pedal", name), f"the pedal can't have the key {text}", "it is kept for the terminal")
            else:
                good[name] = text.strip()
        pedal = PedalSetting(**good)
        if pedal.port and not pedal.line:
            what = "the pedal has a port, but no line that its switch closes"
            self._faults.say(("pedal", "port"), what, 'write line = "cts"')
        return pedal

    def _talk(self) -> Volume | None:
        if "talk" not in self._top.values:
            return Volume.NORMAL
        hint = 'write "few", "normal", "all" or "nothing"'
        chosen = self._top.choice("talk", (*map(str, Volume), _NOTHING), hint)
        return None if chosen == _NOTHING else Volume(chosen or Volume.NORMAL)

    def _repeat_for(self) -> float:
        shipped = Settings().repeat_for
        seconds = self._top.quantity("repeat_for", "time")
        if seconds is None:
            return shipped
        if seconds > _LONGEST_REPEAT:
            hint = 'write a time from "0 s", for never, to "24 h"'
            self._top.value("repeat_for", f"is {shown(self._top.values['repeat_for'])}", hint)
            return shipped
        return seconds

    def _speech(self) -> str:
        value = self._top.values.get("speech", "")
        if isinstance(value, str):
            return value
        self._top.shape("speech", f"is {shown(value)}", 'write a command, such as "espeak-ng -v en -s 150"')
        return ""

    def _keys(self) -> dict[str, str]:
        value = self._top.values.get("keys", {})
        if not isinstance(value, dict):
            hint = 'write [keys] and below it lines such as next = "enter"'
            self._faults.say(("keys",), "keys is no table", hint)
            return {}
        keys = dict(self._good_keys(TomlTable(self._faults, ("keys",), value)))
        for one, other, key in list(clashes(keys)):
            moved = one if one.id in keys else other
            if moved.id in keys:
                stays = other if moved is one else one
                what = f"{moved.id} and {stays.id} would share the key {key}"
                self._faults.say(("keys", moved.id), what, "choose another")
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
                what = f"the pedal sends {key}, which is the key of {other_id}"
                self._faults.say(("pedal", "key"), what, "move that one")
                return keys
        return more

    def _good_keys(self, table: TomlTable) -> Iterator[tuple[str, str]]:
        for name, key in table.values.items():
            if name not in BY_ID:
                what = f"there is no action {key_text((name,))}"
                self._faults.say(("keys", name), what, f"there are {_listed(ACTIONS)}")
            elif not _is_text(key):
                table.shape(name, f"is {shown(key)}", 'write a key such as "x", "space", "f5" or "enter,space"')
            elif refused := sorted({part.strip().lower() for part in key.split(",")} & KEPT):
                what = f"{name} can't have the key {refused[0]}"
                self._faults.say(("keys", name), what, "it is kept for the terminal")
            else:
                yield name, key


def _is_text(value: Any) -> TypeGuard[str]:
    return isinstance(value, str) and bool(value.strip()) and value.isprintable()


KEPT = frozenset({"ctrl+c", "ctrl+q", "ctrl+z", "ctrl+s", "ctrl+p", "f3"})
"""Leaving, the terminal's own, and keys that don't arrive as themselves."""


def _listed(actions: tuple[Action, ...]) -> str:
    return ", ".join(action.id for action in actions)
