"""What was exported, read again: rows, a page as a browser would see it, and its pictures."""

from __future__ import annotations

import csv
import re
from html.parser import HTMLParser
from io import StringIO
from xml.etree import ElementTree

from plans.logbook.exports import export
from plans.logbook.kept_sitting import KeptSitting


def rows(kept: KeptSitting) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(export(kept, "csv"))))


class Page(HTMLParser):
    """Notes what a browser would see; void elements end by themselves."""

    VOID = frozenset({"meta"})

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.texts: dict[str, list[str]] = {}
        self.feed(text)
        self.close()
        assert self.open == [], "every element is closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)
            self.texts.setdefault(tag, []).append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        for tag in set(self.open):
            self.texts[tag][-1] += data

    def classes(self, name: str) -> int:
        return sum(name in (attrs.get("class") or "").split() for _, attrs in self.tags)


def pictures(text: str) -> list[ElementTree.Element]:
    found = re.search(r'<div class="strips">(.*?)</div>', text, re.DOTALL)
    assert found
    return list(ElementTree.fromstring(f"<all>{found[1]}</all>"))
