"""The smith's settings and shop file, for a command without a screen: what is wrong in them goes to standard error."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from plans.shop import Shop
from plans.text import printable
from plans.units import Units
from tui.config import Folders, Settings, read_settings, read_shop


def settings_in(places: Folders) -> Settings:
    """Read the settings, and say on standard error what is wrong with them."""
    settings, wrong = read_settings(places.configuration)
    say_wrong(wrong)
    return settings


def units_in(places: Folders) -> Units:
    """The units of the settings; what is wrong in them is said on standard error."""
    if not places.configuration.exists():
        return Units.METRIC  # reading settings takes longer than all of a short command
    return settings_in(places).units


def shop_in(places: Folders) -> Shop:
    """Read the shop file, and say on standard error what is wrong with it."""
    shop, wrong = read_shop(places.shop)
    say_wrong(wrong)
    return shop


def say_wrong(lines: Iterable[str]) -> None:
    """Say on standard error what is wrong with a file of the smith's own, a line each."""
    for line in lines:
        print(f"heatbook: {printable(line)}", file=sys.stderr)
