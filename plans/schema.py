"""The JSON Schema of plan files, for editors and for whoever writes plans by program."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any


def schema() -> dict[str, Any]:
    """The schema (JSON Schema 2020-12) as it ships; a new copy at each call."""
    loaded: dict[str, Any] = json.loads(Path(__file__).with_name("plan.schema.json").read_text("utf-8"))
    return loaded
