"""All plans at hand, read; the program lists their files, and reads each as it is come to."""

from __future__ import annotations

from pathlib import Path

from plans.reader import ShelfPlan, files_at_hand, read_entry


def shelf_plans(own_folder: Path | None) -> list[ShelfPlan]:
    """All plans at hand, by name; one that can't be used is there with its error.

    Args:
        own_folder: the smith's own plans; it need not be there
    """
    return [read_entry(file) for file in files_at_hand(own_folder)]
