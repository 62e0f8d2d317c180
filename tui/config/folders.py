"""Where heatbook keeps things: the platform's folders, or all under HEATBOOK_HOME."""

from __future__ import annotations

import os
from pathlib import Path

from plans.record import record


@record
class Folders:
    """Where one smith's things are kept; none of the folders and files need exist."""

    logbook: Path
    """Folder of the logbook: the sittings that were kept."""
    plans: Path
    """Folder of the smith's own plans."""
    probes: Path
    """Folder of the smith's own probe profiles."""
    configuration: Path
    """Path of the file of settings."""

    @property
    def rehearsals(self) -> Path:
        """Folder of the rehearsals: a logbook of their own, so that they wait for no sitting and fill no log."""
        return self.logbook.with_name("rehearsals")

    @property
    def rack(self) -> Path:
        """Path of the file that says what bars the smith has, beside the settings."""
        return self.configuration.with_name("rack.toml")

    @property
    def shop(self) -> Path:
        """Path of the shop file, beside the settings."""
        return self.configuration.with_name("shop.toml")


def user_folders() -> Folders:
    """The folders of whoever runs the program: the platform's own, or all under HEATBOOK_HOME where that is set."""
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
