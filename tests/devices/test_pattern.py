"""Forms of lines."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from devices.pattern import parse_pattern


@pytest.mark.parametrize(
    ("form", "line", "found"),
    [
        ("{value}", "20.5", "20.5"),
        ("{value}", "  20.5 ", "20.5"),
        ("t:{value}", "t:   20.5", "20.5"),
        ("t: {value}", "t:20.5", "20.5"),
        ("{value} C", "20.5   C", "20.5"),
        ("{value} C", "20.5C", None),
        ("{value} C", "20.5 C and more", None),
        ("t: {value} C", "u: 20.5 C", None),
        ("{skip};{value}", "1.5;20.5", "20.5"),
        ("{skip} {value}", "1.5 20.5", "20.5"),
        ("{skip}t={value}", "a=1 t=20.5", "20.5"),
        ("{skip},{value},{skip}", "1,20.5,", "20.5"),
        ("{skip},{value},{skip}", "1,20.5", None),
        ("{{{value}}}", "{20.5}", "20.5"),
        ("t {value}", "", None),
    ],
)
def test_lines_of_a_form(form: str, line: str, found: str | None) -> None:
    assert parse_pattern(form).match(line) == found


@pytest.mark.parametrize(
    ("form", "says"),
    [
        ("", "one {value}"),
        ("t: C", "one {value}"),
        ("{value},{value}", "one {value}"),
        ("{value}{skip}", "plain text between"),
        ("{skip}{value}", "plain text between"),
        ("{temp}", "no field {temp}"),
        ("{seconds};{value}", "no field {seconds}, only {value} and {skip}"),
        ("{}", "no field {}"),
        ("{value", 'single "{" at character 1'),
        ("t} {value}", 'single "}" at character 2'),
    ],
)
def test_forms_that_are_refused(form: str, says: str) -> None:
    with pytest.raises(ValueError, match=r".") as caught:
        parse_pattern(form)
    assert says in str(caught.value)


NO_FIELD = st.text("abc:;= ", min_size=1, max_size=5).filter(str.strip)


@given(st.lists(NO_FIELD, min_size=2, max_size=8), st.integers(0, 6), st.floats(-50, 2000).map("{:.2f}".format))
def test_what_is_put_in_is_found(plain: list[str], place: int, number: str) -> None:
    place %= len(plain) - 1
    fields = ["{value}" if index == place else "{skip}" for index in range(len(plain) - 1)]
    form = plain[0] + "".join(field + words for field, words in zip(fields, plain[1:], strict=True))
    line = form.replace("{value}", number).replace("{skip}", "-")
    assert parse_pattern(form).match(line) == number


@given(st.text("a,{} ", max_size=40), st.text("a, 1", max_size=256))
def test_any_form_is_refused_or_matches_in_good_time(form: str, line: str) -> None:
    try:
        pattern = parse_pattern(form.replace("a", "{value}", 1))
    except ValueError:
        return
    pattern.match(line)


def test_a_form_that_would_drive_a_regular_expression_mad() -> None:
    form = "{skip}a" * 100 + "{value}b"
    assert parse_pattern(form).match("a" * 256) is None
