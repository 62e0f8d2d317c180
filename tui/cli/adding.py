"""Adding a command to the command line, or an action to a command."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    Commands = argparse._SubParsersAction[argparse.ArgumentParser]


def added(commands: Commands, name: str, module: str, about: str) -> argparse.ArgumentParser:
    """Add one, and return its parser.

    Args:
        commands: those that it is one of
        name: what is typed
        module: which of tui.cli.commands answers
        about: what it does, without a capital or a full stop, for the help
    """
    parser = commands.add_parser(name, help=about, description=about[0].upper() + about[1:] + ".")
    parser.set_defaults(module=module)
    return parser
