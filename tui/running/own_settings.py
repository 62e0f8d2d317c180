"""What the smith has set, as every screen needs it, with what is wrong with it."""

from __future__ import annotations

import os

from tui.config import Folders, Settings, read_settings, read_shop


def read_own(folders: Folders) -> tuple[Settings, list[str]]:
    """Read the settings, for the terminal that this is, and see whether the shop file can be read.

    Returns:
        the settings, and what is wrong with them or with the shop file, a line each
    """
    settings, messages = read_settings(folders.configuration)
    if os.environ.get("TERM") == "linux":
        settings = settings.in_blocks()
    return settings, [*messages, *read_shop(folders.shop)[1]]
