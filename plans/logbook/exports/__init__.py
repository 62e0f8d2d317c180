"""A sitting written out for other programs and for paper: as rows, as a document, as a page."""

from __future__ import annotations

from plans.logbook.exports.document import to_document_text
from plans.logbook.exports.page import to_page
from plans.logbook.exports.rows import to_rows
from plans.logbook.kept_sitting import KeptSitting

_FORMS = {"csv": to_rows, "json": to_document_text, "html": to_page}


def export(kept: KeptSitting, form: str) -> str:
    """The sitting as text; to be written as UTF-8, with no newline changed.

    Args:
        kept: the sitting, with its figures worked out
        form: "csv" (`rows`), "json" (`document`) or "html" (`page`)

    Raises:
        ValueError: there is no such form.
    """
    if form not in _FORMS:
        raise ValueError(f"a sitting can be exported as {', '.join(_FORMS)}, not as {form!r}")
    return _FORMS[form](kept)
