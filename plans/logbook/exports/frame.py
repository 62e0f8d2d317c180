"""What is round every page: it stands alone, and a browser has nothing to fetch or to run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from plans.logbook.exports.writing import in_markup, on_paper


def framed(title: str, style: str, body: Iterable[str], *, pictures: bool = False) -> Iterator[str]:
    """A whole page of HTML, line by line.

    Args:
        title: what a browser shows above it, as plain text
        style: its style sheet
        body: what stands in it, as markup
        pictures: whether pictures are in it, which hold their own bytes
    """
    yield '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    # Whatever a plan or a note may hold, a browser has nothing to fetch or to run here.
    may = "; img-src data:" if pictures else ""
    policy = f"default-src 'none'; style-src 'unsafe-inline'{may}"
    yield f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield '<meta name="generator" content="heatbook">'
    yield f"<title>{in_markup(on_paper(title))}</title>\n<style>{style}</style>\n</head>\n<body>"
    yield from body
    yield "</body>\n</html>"
