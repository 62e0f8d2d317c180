"""Which command speaks; looked for before there is anything to say, so that it loads nothing of what speaks."""

from __future__ import annotations

import shlex
import shutil

from devices.errors import DeviceError
from plans.text import clean

_COMMANDS = (
    # In English, whatever the machine's own language is.
    ("espeak-ng", "-v", "en"),
    ("espeak", "-v", "en"),
    ("say",),
    ("spd-say", "--wait", "--language", "en"),
)
"""Known speech commands, the best first; each takes the text as its last argument and ends when it is spoken."""


def find_command(configured: str = "") -> tuple[str, ...]:
    """The speech command to use.

    Args:
        configured: a command that the smith would rather have, as it is typed in a shell ("espeak-ng -v en-us -s 150");
            empty to have one looked for

    Returns:
        path of the command and its arguments, all but the text; empty where the machine has none

    Raises:
        DeviceError: the configured command is not there, or can't be read.
    """
    if not configured.strip():
        found = ((shutil.which(name), more) for name, *more in _COMMANDS)
        return next(((path, *more) for path, more in found if path), ())
    try:
        name, *arguments = shlex.split(configured)
    except ValueError:
        what = "the speech command has a quotation mark without its partner"
        raise DeviceError(clean(configured), what, "Mend it, or leave it out to have one looked for.") from None
    path = shutil.which(name)
    if path is None:
        do = "Install it, write another, or leave it out to have one looked for."
        raise DeviceError(clean(name), "there is no such speech command", do)
    return (path, *arguments)
