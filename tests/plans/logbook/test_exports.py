"""Which forms a sitting can be exported in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.logbook.exports import export

Tell = Callable[..., Any]


def test_there_is_no_other_form(tell: Tell) -> None:
    with pytest.raises(ValueError, match="csv, json, html"):
        export(tell().kept(), "pdf")
