"""Files that are whole or not there at all, and one writer at a time."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.disk.atomic_json import AtomicJSONStorage as AtomicJSONStorage
    from plans.logbook.disk.copying import check_copied as check_copied, is_copy_of as is_copy_of
    from plans.logbook.disk.lock import Lock as Lock
    from plans.logbook.disk.whole_files import (
        UNREADABLE as UNREADABLE,
        numbered as numbered,
        remove as remove,
        set_aside as set_aside,
        strict_json as strict_json,
        to_json as to_json,
    )
else:
    __getattr__ = hand_on(__name__)
