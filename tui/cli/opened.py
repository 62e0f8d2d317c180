"""The logbook as a command without a screen opens it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from tui.cli.own_files import say_wrong
from tui.cli.progress import Progress
from tui.config import Folders

if TYPE_CHECKING:
    from plans.logbook import Logbook


@contextmanager
def opened(places: Folders, rehearsals: bool = False) -> Iterator[Logbook]:
    """Open a logbook, and close it in the end; what it has to say by then is said on standard error.

    What takes long meanwhile is told there as it goes on, where that is a terminal.

    Args:
        places: where it is
        rehearsals: whether that of the rehearsals is meant, which are kept apart
    """
    from plans.logbook import Logbook, LogbookError

    logbook = Logbook(places.rehearsals if rehearsals else places.logbook)
    logbook.tell_progress(Progress(sys.stderr))
    try:
        yield logbook
    except LogbookError as error:
        # It is said when the command ends by it, and may have been a message before.
        logbook.messages[:] = [message for message in logbook.messages if message != str(error)]
        raise
    finally:
        say_wrong(logbook.messages)
        logbook.close()
