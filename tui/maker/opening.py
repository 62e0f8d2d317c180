"""The maker is opened: the smith's shop and rack, and the plan that shall be changed, are read in a thread."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from plans.errors import PlanError
from plans.reader import MOST_BYTES, PlanFile, read_plan, read_rack
from plans.toml import TomlError, read_text, shown_path
from plans.units import Units
from tui.config import Folders, read_shop, reduction_learned, scale_learned
from tui.maker.keeping import kept_unsaved
from tui.maker.screen import MakerScreen
from tui.maker.work import Known, Work

if TYPE_CHECKING:
    from plans.stock import RackBar
    from tui.running import Maker
    from tui.screens import Host


def read_known(folders: Folders, units: Units) -> Known:
    """What is known of the smith; a shop file or a rack that can't be used is left aside, as others say what is wrong.

    Args:
        folders: where his things are kept
        units: in which he works
    """
    return Known(units, read_shop(folders.shop)[0], _rack(folders), reduction_learned, scale_learned)


def _rack(folders: Folders) -> tuple[RackBar, ...]:
    if not folders.rack.exists():
        return ()
    try:
        return read_rack(folders.rack)
    except PlanError:
        return ()


def work_on(known: Known, file: PlanFile | None) -> Work:
    """A new plan on the bench, or one that shall be changed.

    Args:
        known: what is known of the smith
        file: of the plan; None for a new one

    Raises:
        PlanError: it can't be used.
    """
    if file is None:
        return Work(known)
    try:
        text = read_text(file.path, MOST_BYTES)
    except TomlError as error:
        raise PlanError([error.fault]) from None
    read_plan(text, file.name, shown_path(file.path))
    return Work(known, file, text)


async def open_maker(host: Host, asked: Maker) -> None:
    """Show the maker.

    Args:
        host: shows it
        asked: the plan that shall be changed, or that a new one is wanted

    Raises:
        PlanError: the plan that shall be changed can't be used.
    """
    folders, units = host.folders, host.settings.units

    def read() -> tuple[Work, str]:
        work = work_on(read_known(folders, units), asked.file)
        return work, work.begin()

    work, wrong = await asyncio.to_thread(read)
    await host.push_screen(MakerScreen(work, asked))
    if wrong:
        host.say_aside(wrong, wrong=True)
    elif asked.file is None and (kept := kept_unsaved(folders.plans)):
        host.say_aside(f"kept from before, and not written down yet: {', '.join(kept)}; on the shelf, among your own")
