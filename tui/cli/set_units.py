"""The units that the smith has set, for what is printed without a screen."""

from __future__ import annotations

import sys

from plans.units import Units
from tui.cli.streams import printable
from tui.config.folders import folders
from tui.config.settings_reader import read_settings


def set_units() -> Units:
    """The units of the settings file; what is wrong with that file is said on standard error."""
    settings, wrong = read_settings(folders().configuration)
    for message in wrong:
        print(f"heatbook: {printable(message)}", file=sys.stderr)
    return Units.INCH if settings.inch else Units.METRIC
