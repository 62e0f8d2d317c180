"""TinyDB's storage for every file of the logbook: JSON that is replaced whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from tinydb import Storage

from plans.logbook.disk.whole_files import strict_json, to_json
from plans.regular import open_regular
from plans.writing import write_beside


class AtomicJSONStorage(Storage):
    """Reads from the disk at every call and keeps nothing, so a write that failed is forgotten by the next read."""

    def __init__(self, path: str | os.PathLike[str]) -> None:
        super().__init__()
        self._path = Path(path)

    def read(self) -> dict[str, dict[str, Any]] | None:
        """All tables, or None where there is no file yet.

        Raises:
            OSError: the file can't be opened, or is no ordinary one.
            ValueError, RecursionError: it is not what was written (an empty file is corrupt too).
        """
        try:
            with open_regular(self._path) as file:
                text = file.read().decode("utf-8")
        except FileNotFoundError:
            return None
        tables = strict_json.decode(text)
        if not isinstance(tables, dict) or not all(isinstance(table, dict) for table in tables.values()):
            raise ValueError("no tables in it")
        return tables

    def write(self, data: dict[str, dict[str, Any]]) -> None:
        """Replace the file, whole or not at all.

        Raises:
            OSError: it could not be written; the old one is whole.
            ValueError, TypeError: `data` is no JSON; nothing was touched.
        """
        write_beside(self._path, (to_json(data),))
