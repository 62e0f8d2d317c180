"""Keeping the key that a pedal sends, in the settings."""

from __future__ import annotations

import json
from pathlib import Path

from plans.toml import changed
from tui.config.own_file import change_own_file


def keep_pedal_key(path: Path, key: str) -> None:
    """Write the pedal's key into the settings, or in the place of the one that stands there; all else stays.

    Args:
        path: of the settings; their folder need not be there
        key: as the terminal calls it

    Raises:
        UsageError: what stands there is no TOML, or something else has the key's place.
        OSError: it can't be written; the file is as it was.
    """
    instead = f"[pedal] and below it key = {json.dumps(key)}"
    change_own_file(path, lambda toml: changed(toml, ("pedal", "key"), key), instead, "learn the pedal again")
