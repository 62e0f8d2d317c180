"""Where heatbook keeps things: the platform's folders, or all under HEATBOOK_HOME."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Folders:
    """The folders; none of them need exist."""

    logbook: Path
    plans: Path
    """The smith's own plans."""
    probes: Path
    """The smith's own probe profiles."""
    configuration: Path
    """The file of settings."""

    @property
    def shop(self) -> Path:
        """The shop file, beside the settings."""
        return self.configuration.with_name("shop.toml")


def folders() -> Folders:
    """The folders of whoever runs the program."""
    home = os.environ.get("HEATBOOK_HOME")
    if home:
        data = configuration = Path(home).expanduser()
    else:
        from platformdirs import user_config_path, user_data_path

        data, configuration = user_data_path("heatbook", False), user_config_path("heatbook", False)
    return Folders(
        logbook=data / "logbook",
        plans=data / "plans",
        probes=data / "probes",
        configuration=configuration / "heatbook.toml",
    )
