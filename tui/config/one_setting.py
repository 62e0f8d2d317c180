"""A single thing that the smith has set, for a command that needs nothing else of the settings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.shop import Shop
from plans.units import Units
from plans.warmth import USUAL_NAMES, HeatNames
from tui.config.folders import user_folders

if TYPE_CHECKING:
    from tui.config.settings import Settings


def units_set() -> Units:
    """The units of the settings file; metric where there is no file, or where what it says of them can't be used.

    What is wrong with the file is said by the commands that go by all of it.
    """
    settings = _settings()
    return Units.METRIC if settings is None else settings.units


def heat_names_set() -> HeatNames:
    """The names of heats of the settings file; the usual ones where there is no file, or what it says can't be used."""
    settings = _settings()
    return USUAL_NAMES if settings is None else settings.heat_names


def shop_set() -> Shop:
    """What the shop file says of the shop; as it ships where there is no file, or where what it says can't be used."""
    path = user_folders().shop
    if not path.exists():
        return Shop()
    from tui.config.shop_file import read_shop

    return read_shop(path)[0]


def _settings() -> Settings | None:
    path = user_folders().configuration
    if not path.exists():
        return None  # reading settings takes longer than all of a short command
    from tui.config.settings_reader import read_settings

    return read_settings(path)[0]
