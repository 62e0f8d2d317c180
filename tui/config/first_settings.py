"""Writing the settings for the first time: what was answered at the first start."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from plans.toml import Scalar, TomlText, changed, parse_toml
from tui.config.own_file import change_own_file
from tui.config.settings import Settings

_ASKED: Final = "Asked at the first start; the README tells of all settings."


def keep_first_settings(path: Path, settings: Settings) -> None:
    """Write what the first start asks for: units, sound, and the probe where there is one.

    Args:
        path: of the settings, which are not there yet; nor need their folder be
        settings: as they were answered

    Raises:
        UsageError, OSError: they can't be written; the file is as it was.
    """
    values: list[tuple[tuple[str, ...], Scalar]] = [
        (("units",), settings.units.value),
        (("mute",), settings.mute),
        (("talk",), "nothing" if settings.talk is None else settings.talk.value),
    ]
    if settings.probe is not None:
        values += [(("probe", "port"), settings.probe.port), (("probe", "on"), settings.probe.on.value)]

    def with_answers(toml: TomlText) -> str:
        above = ""
        for keys, value in values:
            below = above if len(keys) == 1 or keys[-1] == "on" else ""
            note = _ASKED if keys == ("units",) else ""
            toml = parse_toml(changed(toml, keys, value, note, below), toml.file)
            above = keys[-1]
        return toml.text

    change_own_file(path, with_answers, "the settings")
