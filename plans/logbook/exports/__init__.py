"""A sitting written out for other programs and for paper: as rows, as a document, as a page."""

from __future__ import annotations

from pathlib import Path

from plans.logbook.exports.beside_page import to_beside_page as to_beside_page
from plans.logbook.exports.document import to_document_text
from plans.logbook.exports.frame import framed as framed
from plans.logbook.exports.page import to_page
from plans.logbook.exports.reading import read_exported as read_exported
from plans.logbook.exports.rows import to_rows
from plans.logbook.exports.writing import in_markup as in_markup, on_paper as on_paper
from plans.logbook.kept_sitting import KeptSitting
from plans.units import Units

_FORMS = ("csv", "json", "html")


def export(
    kept: KeptSitting,
    form: str,
    units: Units = Units.METRIC,
    title: str = "",
    photographs: Path | None = None,
) -> str:
    """The sitting as text; to be written as UTF-8, with no newline changed.

    Args:
        kept: the sitting, with its figures worked out
        form: "csv" (`rows`), "json" (`document`) or "html" (`page`)
        units: that the page shows every figure in; rows and documents are metric, with the unit in their names
        title: of the page, in place of what the sitting is called; empty for that
        photographs: the folder of the copies of its photographs, which are within the page; None for their names alone

    Raises:
        ValueError: there is no such form.
    """
    if form not in _FORMS:
        raise ValueError(f"a sitting can be exported as {', '.join(_FORMS)}, not as {form!r}")
    if form == "html":
        return to_page(kept, units, title, photographs)
    return to_rows(kept) if form == "csv" else to_document_text(kept)
