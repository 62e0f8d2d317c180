"""Lines out of bytes, and temperatures out of lines."""

from __future__ import annotations

from dataclasses import replace
from math import isfinite
from typing import Any

import pytest
from hypothesis import given, strategies as st

from devices.decode import LONGEST_LINE, Decoded, Decoder, LineSplitter
from devices.profile import Profile, Unit
from devices.profile_reader import find_profile, profile_names

BARE = Profile("bare", "A number a line", Unit.CELSIUS)

# Bytes as probes send them, with ends of lines, digits and nonsense far more often than chance would have it.
PIECES = [
    b"\r",
    b"\n",
    b"\r\n",
    b"\0",
    b"1023.5",
    b"-",
    b",",
    b";",
    b"t: ",
    b" C",
    b"e",
    b"nan",
    b"inf",
    b"1e999",
    b"\x1b[",
]
STREAMS = st.lists(st.sampled_from([*PIECES, b"9" * 200]) | st.binary(max_size=20), max_size=40).map(b"".join)


@pytest.mark.parametrize(
    ("data", "lines"),
    [
        (b"1\n2\n", [b"1", b"2"]),
        (b"1\r2\r", [b"1", b"2"]),
        (b"1\r\n2\r\n", [b"1", b"2"]),
        (b"\n\n1\n\r\n", [b"1"]),
        (b"1\n2", [b"1"]),
        (b"\x001\x00\x002\x00\n", [b"12"]),
        (b"x" * LONGEST_LINE + b"\n1\n", [b"x" * LONGEST_LINE, b"1"]),
        (b"x" * (LONGEST_LINE + 1), [b"x" * (LONGEST_LINE + 1)]),
        (b"x" * 5000 + b"\n1\n", [b"x" * (LONGEST_LINE + 1), b"1"]),
    ],
)
def test_lines_are_cut(data: bytes, lines: list[bytes]) -> None:
    assert LineSplitter().feed(data) == lines


@pytest.mark.parametrize("data", [b"3.5\n21\n", b"\n21\n", b"3.5\r\n21\n", b"x" * 5000 + b"\r21\r"])
def test_the_first_line_is_dropped_when_asked(data: bytes) -> None:
    assert LineSplitter(skip_first=True).feed(data) == [b"21"]


@given(STREAMS, st.lists(st.integers(1, 50)), st.booleans())
def test_chunks_make_no_difference(stream: bytes, sizes: list[int], skip_first: bool) -> None:
    whole = LineSplitter(skip_first).feed(stream)
    splitter = LineSplitter(skip_first)
    chunked: list[bytes] = []
    rest = stream
    for size in sizes:
        chunked += splitter.feed(rest[:size])
        rest = rest[size:]
    chunked += splitter.feed(rest)
    assert chunked == whole


@given(STREAMS)
def test_lines_are_never_too_long_or_empty(stream: bytes) -> None:
    for line in LineSplitter().feed(stream):
        assert 0 < len(line) <= LONGEST_LINE + 1
        assert not set(line) & {0, 10, 13}


@pytest.mark.parametrize(
    ("line", "celsius"),
    [
        (b"1023.5", 1023.5),
        (b"  1023.5 ", 1023.5),
        (b"+1.023E+03", 1023),
        (b"-5", -5),
        (b".5", 0.5),
        (b"25.", 25),
        (b"1023,5", 1023.5),
        (b"-0,25", -0.25),
        (b"1023,125", 1023.125),
        (b"20,125", 20.125),
    ],
)
def test_bare_numbers(line: bytes, celsius: float) -> None:
    decoded = Decoder(BARE).decode(line)
    assert decoded.kelvin == pytest.approx(celsius + 273.15)
    assert decoded.fault is None


@pytest.mark.parametrize(
    "line",
    [
        b"hello",
        b"",
        b"nan",
        b"-inf",
        b"Infinity",
        b"1e999",
        b"1_000",
        b"0x10",
        b"12 34",
        b"71 F",
        b"1,023.5",
        b"1,0,2",
        b"--5",
        b"1e",
        "\u0661\u0662".encode(),
        b"\xb2\xb3",
        b"\x1b[31m20",
        # A little over one degree, or a little over a thousand with a mark between the thousands.
        b"1,023",
        b"5" * (LONGEST_LINE + 1),
    ],
)
def test_junk_is_no_temperature(line: bytes) -> None:
    decoder = Decoder(BARE)
    assert decoder.decode(line).is_junk
    assert decoder.junk_count == 1


@pytest.mark.parametrize("line", [b"-201", b"9999.999", b"9.9E37", b"1e300", b"-300", b"5" * LONGEST_LINE])
def test_what_no_probe_can_mean_is_out_of_range(line: bytes) -> None:
    assert Decoder(BARE).decode(line) == Decoded(fault="out of range")


def test_the_ends_of_the_range_are_believed() -> None:
    decoder = Decoder(replace(BARE, lowest=273.15, highest=1373.15))
    assert [decoder.decode(line).fault for line in (b"-0.1", b"0", b"1100", b"1100.1")] == [
        "out of range",
        None,
        None,
        "out of range",
    ]


@pytest.mark.parametrize(
    ("sent", "line"),
    [("OL", b"OL"), ("OL", b" ol "), ("-201", b"-201.0"), ("-201", b"-2.01e2"), ("9.9E37", b"+9.90000000E+37")],
)
def test_faults_in_band(sent: str, line: bytes) -> None:
    decoder = Decoder(replace(BARE, faults=((sent, "open circuit"),)))
    assert decoder.decode(line) == Decoded(fault="open circuit")
    assert decoder.junk_count == 0


def test_a_number_near_a_sentinel_is_a_temperature() -> None:
    decoder = Decoder(replace(BARE, faults=(("850", "power-on value"),)))
    assert decoder.decode(b"850.000").fault == "power-on value"
    assert decoder.decode(b"850.1").kelvin == pytest.approx(1123.25)


@pytest.mark.parametrize(
    ("unit", "line", "kelvin"),
    [
        # Fixed points: ice, steam, and absolute zero (definitions of the scales).
        (Unit.FAHRENHEIT, b"32", 273.15),
        (Unit.FAHRENHEIT, b"212", 373.15),
        (Unit.FAHRENHEIT, b"-459.67", 0.0),
        (Unit.CELSIUS, b"100", 373.15),
        (Unit.KELVIN, b"373.15", 373.15),
    ],
)
def test_units(unit: Unit, line: bytes, kelvin: float) -> None:
    decoded = Decoder(replace(BARE, unit=unit, lowest=-1.0)).decode(line)
    assert decoded.kelvin == pytest.approx(kelvin, abs=1e-9)


@pytest.mark.parametrize(
    ("form", "line", "celsius"),
    [
        ("C = {value}", b"C = 1023.50", 1023.5),
        ("Temperature: {value} C, {skip}", b"Temperature: 22 C, 71 F", 22),
        ("t: {value} C", b"t: 125.745 C", 125.745),
        ("{skip},{skip},{value},{skip}", b"1,21.5,1023.5,0", 1023.5),
        ('{{"t": {value}, {skip}}}', b'{"t": 22.5, "ok": true}', 22.5),
        ("{value} °C", "22.5 °C".encode(), 22.5),
        ("{value} °C", b"22.5 \xb0C", 22.5),
    ],
)
def test_lines_seen_in_the_wild(form: str, line: bytes, celsius: float) -> None:
    decoder = Decoder(replace(BARE, pattern=(form,), decimal_comma=False))
    assert decoder.decode(line).kelvin == pytest.approx(celsius + 273.15)


def test_the_first_form_that_gives_a_reading_counts() -> None:
    decoder = Decoder(replace(BARE, pattern=("{skip},{value}", "{skip},{value},{skip}"), decimal_comma=False))
    assert decoder.decode(b"1,20.5").kelvin == pytest.approx(293.65)
    assert decoder.decode(b"1,20.5,7").kelvin == pytest.approx(293.65)
    assert decoder.decode(b"1,20.5,7,9").kelvin == pytest.approx(293.65)
    assert decoder.decode(b"1").is_junk
    assert decoder.junk_count == 1


def test_a_whole_line_may_be_the_fault() -> None:
    decoder = Decoder(replace(BARE, pattern=("t: {value} C",), faults=(("sensor error", "open circuit"),)))
    assert decoder.decode(b"Sensor Error") == Decoded(fault="open circuit")
    assert decoder.decode(b"t: sensor error C") == Decoded(fault="open circuit")


def test_behind_the_probes_own_clock() -> None:
    decoder = Decoder(find_profile("stamped"))
    kelvin: Any = pytest.approx(1296.65)
    assert decoder.decode(b"12.25;1023.5") == Decoded(kelvin=kelvin)
    assert decoder.decode(b"12.5;open") == Decoded(fault="open circuit")


@pytest.mark.parametrize("line", [b"12.25", b"12.25;", b"1023.5", b"12.25;1012.50;1023.5"])
def test_half_a_line_behind_a_clock_is_junk(line: bytes) -> None:
    """Whatever was cut off or ran together, no figure is taken that is not whole."""
    assert Decoder(find_profile("stamped")).decode(line).is_junk


def test_the_last_junk_is_kept_clean() -> None:
    decoder = Decoder(BARE, keep=2)
    for line in (b"gone", b"\x1b]0;title\x07", "\u202eevil\u200b\x9b".encode(), b"y" * 300):
        decoder.decode(line)
    assert decoder.junk_count == 4
    assert decoder.last_junk == ("?evil??", "y" * 57 + "...")


@given(STREAMS, st.sampled_from(profile_names()))
def test_no_bytes_whatever_make_anything_but_a_believable_temperature(stream: bytes, name: str) -> None:
    profile = find_profile(name)
    decoder = Decoder(profile)
    for line in LineSplitter(profile.skip_first).feed(stream):
        decoded = decoder.decode(line)
        if decoded.kelvin is not None:
            assert isfinite(decoded.kelvin)
            assert profile.lowest <= decoded.kelvin <= profile.highest
    assert all(text.isprintable() and len(text) <= 60 for text in decoder.last_junk)
