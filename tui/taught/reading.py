"""What sittings teach, and what of it was forgotten, as it stands now in the logbook and in the shop file."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from plans.logbook import Logbook
from plans.logbook.taught import Looked, Row, evidence_of, taught
from plans.record import record
from tui.config import read_shop_and_forgotten
from tui.running import news_of


@record
class TaughtNow:
    """What is shown."""

    rows: tuple[Row, ...]
    """What the sittings that count teach."""
    forgotten: dict[str, datetime]
    """By the id of a row, until when it was forgotten."""
    messages: tuple[str, ...]
    """What is wrong with the logbook or the shop file."""


def read_taught(logbook: Logbook, shop: Path) -> TaughtNow:
    """Read what the sittings of a logbook teach; none of their traces is looked at.

    Args:
        logbook: has the sittings
        shop: the shop file; it need not be there

    Raises:
        LogbookError: the logbook's folder can't be read.
    """
    every = evidence_of(logbook.teaching())
    settled, forgotten, wrong = read_shop_and_forgotten(shop)
    return TaughtNow(tuple(taught(Looked(every, settled, forgotten, every))), forgotten, (*news_of(logbook), *wrong))
