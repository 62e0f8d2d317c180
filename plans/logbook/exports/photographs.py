"""The photographs of a sitting on its page: the copies within the page itself, so that it stands alone."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from plans.logbook.afterwards import Photograph, Photographs
from plans.logbook.errors import LogbookError
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.lines import PHOTOGRAPHS_HEADING, photograph_place
from plans.logbook.photo_files import is_whole, read_photo
from plans.plan import Plan
from plans.prose import in_units
from plans.units import Units

_LARGEST: Final = 8 << 20
"""No larger picture goes into a page [bytes]."""
_LARGEST_OF_ALL: Final = 24 << 20
"""So large are those of a page together at most [bytes]."""
_TYPES: Final = {"jpg": "image/jpeg", "png": "image/png", "webp": "image/webp", "gif": "image/gif"}
"""What browsers show, by the ending of a copy's name; HEIC is shown by few."""


def photograph_list(photographs: Photographs | None, folder: Path | None, plan: Plan | None, units: Units) -> list[str]:
    """The photographs under their heading, in the order in which they were added; nothing where there are none.

    A picture that was not copied, is too large for a page, or that a browser does not show stands there by its name.

    Args:
        photographs: of the sitting
        folder: where the copies are; None where nobody knows
        plan: that was followed; None where it can't be read
        units: that every figure is shown in
    """
    standing = () if photographs is None else photographs.standing
    if not standing:
        return []
    return [
        f'<section class="photographs"><h2>{PHOTOGRAPHS_HEADING}</h2>',
        *_figures(standing, folder, plan, units),
        "</section>",
    ]


def _figures(standing: tuple[Photograph, ...], folder: Path | None, plan: Plan | None, units: Units) -> Iterator[str]:
    room = _LARGEST_OF_ALL
    for one in standing:
        said = in_markup(on_paper(_said(one, plan, units)))
        name = in_markup(one.name)
        data, why = _data(one, folder, room)
        if data is None:
            told = f"{name}: {said}" if said else name
            yield f'<figure class="named"><figcaption>{told} ({why})</figcaption></figure>'
            continue
        room -= len(data)
        kind = _TYPES[str(one.copy).rpartition(".")[2]]
        source = f"data:{kind};base64,{base64.b64encode(data).decode('ascii')}"
        image = f'<img src="{source}" alt="{said or name}">'
        yield f"<figure>{image}<figcaption>{said or name}</figcaption></figure>"


def _said(one: Photograph, plan: Plan | None, units: Units) -> str:
    """The step that it shows, and what was said of it: "Step 2, Draw it out: even scale"."""
    place = photograph_place(one).capitalize()
    if one.step is not None and plan is not None and one.step < len(plan.steps):
        place += f", {in_units(plan.steps[one.step].title, units)}"
    return ": ".join(part for part in (place, one.note) if part)


def _data(one: Photograph, folder: Path | None, room: int) -> tuple[bytes | None, str]:
    """The bytes of a picture that goes into the page, and else why it does not."""
    if one.copy is None or folder is None:
        return None, "not copied"
    if one.copy.rpartition(".")[2] not in _TYPES:
        return None, "of a kind that few browsers show"
    if one.size > min(_LARGEST, room):
        return None, "too large for this page"
    try:
        data = read_photo(folder / one.copy)
    except LogbookError:
        return None, "its copy is not there"
    if not is_whole(one.copy, data) or len(data) > min(_LARGEST, room):
        return None, "its copy is damaged"
    return data, ""
