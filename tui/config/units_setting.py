"""The units that the smith has set, for a command that needs nothing else of the settings."""

from __future__ import annotations

from plans.units import Units
from tui.config.folders import user_folders


def units_set() -> Units:
    """The units of the settings file; metric where there is no file, or where what it says of them can't be used.

    What is wrong with the file is said by the commands that go by all of it.
    """
    path = user_folders().configuration
    if not path.exists():
        return Units.METRIC  # reading settings takes longer than all of a short command
    from tui.config.settings_reader import read_settings

    return read_settings(path)[0].units
