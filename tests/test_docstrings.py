"""What others may use explains itself: an editor shows the docstring and nothing else."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

_ROOT = Path(__file__).parents[1]
_PACKAGES = ("plans", "devices", "tui")
_FRAMEWORKS = (
    "on_",
    "action_",
    "compose",
    "render",
    "key_",
    "get_",
    "watch_",
    "notify_",
    "refresh",
    "discover",
    "search",
    "__",
)
"""What Textual calls: its documentation tells what these are."""
_RIDDLES = ("So too", "The same", "Likewise", "As ", "Of ", "And ", "Nor ", "Else")
"""Beginnings of a sentence that leans on another, which isn't shown beside it."""


def _modules() -> list[Path]:
    return sorted(file for package in _PACKAGES for file in (_ROOT / package).rglob("*.py"))


def _text_after(body: list[ast.stmt], index: int) -> str | None:
    """The docstring of an attribute: the string that stands below it."""
    after = body[index + 1] if index + 1 < len(body) else None
    if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant) and isinstance(after.value.value, str):
        return after.value.value
    return None


def _is_record(node: ast.ClassDef) -> bool:
    """Whether a class is a dataclass or a named tuple."""
    marks = [ast.unparse(part) for part in (*node.decorator_list, *node.bases)]
    return any("dataclass" in mark or "NamedTuple" in mark for mark in marks)


def _attributes(module: ast.Module) -> Iterator[tuple[str, int, str | None]]:
    """Each public attribute of each public record: its name, its line, its docstring."""
    for node in ast.walk(module):
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_") and _is_record(node):
            for index, part in enumerate(node.body):
                if not isinstance(part, ast.AnnAssign) or not isinstance(part.target, ast.Name):
                    continue
                if not part.target.id.startswith("_"):
                    yield f"{node.name}.{part.target.id}", part.lineno, _text_after(node.body, index)


def _public(body: list[ast.stmt]) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef]:
    for node in body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield node


def _definitions(module: ast.Module) -> Iterator[tuple[str, int, str | None]]:
    """Each public class and function, and each method that is no override: its name, its line, its docstring."""
    for node in _public(module.body):
        yield node.name, node.lineno, ast.get_docstring(node)
        if isinstance(node, ast.ClassDef) and not node.bases:
            for method in _public(node.body):
                setter = any(ast.unparse(mark).endswith(".setter") for mark in method.decorator_list)
                if not setter and not method.name.startswith(_FRAMEWORKS):
                    yield f"{node.name}.{method.name}", method.lineno, ast.get_docstring(method)


def _module(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8"))


@pytest.mark.parametrize("package", _PACKAGES)
def test_every_attribute_of_a_public_record_says_what_it_is(package: str) -> None:
    bare = [
        f"{file.relative_to(_ROOT)}:{line}: {name}"
        for file in _modules()
        if file.is_relative_to(_ROOT / package)
        for name, line, text in _attributes(_module(file))
        if not text
    ]
    assert not bare, "these need a docstring below them: " + "; ".join(bare)


@pytest.mark.parametrize("package", _PACKAGES)
def test_every_public_name_has_a_docstring_that_stands_alone(package: str) -> None:
    bad = [
        f"{file.relative_to(_ROOT)}:{line}: {name}"
        for file in _modules()
        if file.is_relative_to(_ROOT / package)
        for name, line, text in (
            *_definitions(_module(file)),
            *((n, k, t) for n, k, t in _attributes(_module(file)) if t),
        )
        if not text or text.startswith(_RIDDLES)
    ]
    assert not bad, "these have none, or one that leans on another: " + "; ".join(bad)
