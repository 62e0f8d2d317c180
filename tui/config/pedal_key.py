"""Keeping the key that a pedal sends, in the settings."""

from __future__ import annotations

import json
from pathlib import Path

from tui.config.errors import UsageError
from tui.config.own_file import read_own_file, write_own_file


def keep_pedal_key(path: Path, key: str) -> None:
    """Write the pedal's key into the settings, or in the place of the one that stands there; all else stays.

    Args:
        path: of the settings; their folder need not be there
        key: as the terminal calls it

    Raises:
        UsageError: what stands there is no TOML, or the key can't be told from the rest.
        OSError: it can't be written; the file is as it was.
    """
    file = read_own_file(path)
    if file.trouble:
        raise UsageError(f"{file.trouble}; mend it, then learn the pedal again")
    # A JSON string of a key's name is a TOML string as well.
    line = f"key = {json.dumps(key)}"
    lines = file.text.splitlines()
    pedal = file.table.get("pedal", {})
    if "pedal" not in file.table:
        lines += ["", "[pedal]", line]
    elif isinstance(pedal, dict) and "key" in pedal:
        lines[file.lines[("pedal", "key")] - 1] = line
    else:
        lines.insert(file.lines[("pedal",)], line)
    kept = pedal if isinstance(pedal, dict) else {}
    write_own_file(file, lines, {**file.table, "pedal": {**kept, "key": key}}, f"[pedal] {line}")
