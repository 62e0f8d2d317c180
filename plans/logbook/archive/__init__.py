"""A logbook as one file: packed, taken in, and what of it can't be read."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.archive.file import is_plan_file as is_plan_file, read_whole_file as read_whole_file
    from plans.logbook.archive.packing import Packed as Packed, pack as pack
    from plans.logbook.archive.taking_in import (
        CheckShop as CheckShop,
        Unpacked as Unpacked,
        take_in as take_in,
        unpack as unpack,
    )
else:
    __getattr__ = hand_on(__name__)
