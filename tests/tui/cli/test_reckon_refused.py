"""What the reckoner's command line says to what can't be reckoned."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import suppress
from typing import Any

import pytest
from hypothesis import given, strategies as st

from plans.errors import PlansError
from plans.units import Units
from tui.cli.main import main
from tui.reckoner.questions import QUESTIONS

Reckon = Callable[..., dict[str, Any]]
Say = Callable[..., list[str]]


@pytest.mark.parametrize(
    ("words", "option", "right"),
    [
        ("cooling --section 1048 --from 1250C --to 900C", "--section", "25 x 10 mm"),
        ("cooling --section 25mm --from 1250C --to 900C", "--section", "round 25mm"),
        ("cooling --section 25x0mm --from 1250C --to 900C", "--section", "larger than zero"),
        ("cooling --section 0.001x1mm --from 1250C --to 900C", "--section", "0.1 mm"),
        ("cooling --section 25x10mm --from 1250 --to 900C", "--from", "1250 degC"),
        ("cooling --section 25x10mm --from 1250C --to 25mm", "--to", "that is a length"),
        ("cooling --section 25x10mm --from 900C --to 1250C", "--to", "below the 900 degC (1652 degF)"),
        ("cooling --section 25x10mm --from 900C --to 21C", "--to", "above the air's 20 degC"),
        ("cooling --section 25x10mm --from 2000C --to 900C", "--from", "steel melts"),
        ("cooling --section 25x10mm --from 1250C --to 900C --length 0mm", "--length", "100 m"),
        ("cooling --section 25x10mm --from 1250C --to 900C --emissivity 8", "--emissivity", "between 0 and 1"),
        ("cooling --section 25x10mm --from 1250C --to 900C --convection 10", "--convection", "20 W/m^2/K"),
        ("cooling --section 25x10mm --from 1250C --to 900C --air=-300C", "--air", "absolute zero"),
        ("cooling --section 25x10mm --from 1250C", "--to", "required"),
        ("soak --section 25x10mm --fire 1000C --middle 1200C", "--middle", "below the fire's 1000 degC"),
        ("soak --section 25x10mm --fire 5000C --middle 1200C", "--fire", "up to 2000 degC"),
        ("soak --section 900x900mm --fire 800C --middle 780C --emissivity 0 --convection 1W/m2K", "--middle", "48 h"),
        ("steel", "GRADE", "--c 0.75"),
        ("steel 1048", "1048", "it comes close to 1045 (C 0.465 %)"),
        ("steel 1084 --mn 0.4", "--mn", "not both"),
        ("steel --mn 0.4", "--c", "0.75"),
        ("steel --c much", "--c", "e.g. 0.8"),
        ("steel --c -0.8", "--c", "between 0 and 100"),
        ("steel --c 3", "--c", "cast iron"),
        ("steel --c 3 --cr 12", "--c", "give less"),
        ("steel --c 0.8 --cr 60", "--cr", "check the shares"),
        ("steel 1084 --at 800", "--at", "1250 degC"),
        ("steel 1084 --at 2000C", "--at", "steel melts"),
        ("carbon --at 1200C --for 10min", "--carbon", "--layer"),
        ("carbon --carbon 80 --at 1200C --for 10min", "--carbon", "from 0 to 2 %"),
        ("carbon --carbon 0 --at 1200C --for 10min", "--carbon", "none to lose"),
        ("carbon --carbon 0.8 --at 1200C --for 10", "--for", "4 min"),
        ("carbon --carbon 0.8 --at 1200C --for 0s", "--for", "above zero"),
        ("carbon --carbon 0.8 --at 1200C --for 10min --share 1", "--share", "0.95"),
        ("carbon --carbon 0.8 --at 1200C --for 10min --thickness 0mm", "--thickness", "0.1 mm"),
        ("carbon --layer 0mm --at 1100C --for 60s", "--layer", "above zero"),
        ("carbon --layer 1mm --at 1100C --for 60s --share 0.5", "--share", "--layer"),
        ("scale --at 1200C", "--for", "required"),
        ("scale --at 1200C --for 1000000h", "--for", "four months"),
        ("temper --at 200C --for 2h", "--carbon", "0.8"),
        ("temper --carbon 0.8 --at 900C --for 2h", "--at", "up to 727 degC"),
        ("temper --carbon 0.8 --at 200C --for 1ms", "--for", "from 1 s"),
        ("temper --carbon 0.8 --at 200C --for 2h --holds 1.5", "--holds", "whole number"),
        ("temper --carbon 0.8 --at 200C --for 2h --holds 0", "--holds", "from 1 to 10"),
        ("temper --constant 1 --at 200C --for 2h", "--constant", "15 to 20"),
        ("temper --carbon 0.8 --at 200C --for 2h --instead-at 60C", "--instead-at", "nearer"),
        ("temper --carbon 0.8 --at=-20degC --for 2h", "--at", "from 50 degC (122 degF) up to 727 degC"),
        ("temper --carbon 0.8 --at 0K --for 2h", "--at", "from 50 degC (122 degF) up to 727 degC"),
        ("temper --carbon 0.8 --at 200C --for 2h --instead-at 0K", "--instead-at", "from 50 degC"),
        ("scale --at 0K --for 2h", "--at", "above absolute zero"),
        ("cooling --section 25x10mm --from 0K --to 0K", "--from", "above absolute zero"),
        ("temper --carbon 0.8 --at 700C --for 900h --instead-for 1s", "--instead-for", "longer"),
        ("glow --at 4000C", "--at", "up to 2727 degC"),
        ("glow --at 0K", "--at", "above absolute zero"),
        ("glow --at hot", "--at", "1250 degC"),
        ("glow --at -20C", "--at", "--at=-20degC"),
        ("thermocouple --type Q --mv 1", "--type", "K, N, S, R, B, J"),
        ("thermocouple --type K", "--mv", "41.276"),
        ("thermocouple --type K --mv 1 --at 20C", "--mv", "not both"),
        ("thermocouple --type K --mv 100", "--mv", "54.886 mV"),
        ("thermocouple --type K --mv inf", "--mv", "41.276"),
        ("thermocouple --type B --mv 0.1", "--mv", "250 to 1820 degC"),
        ("thermocouple --type J --at 1300C", "--at", "-210 to 1200 degC"),
        ("thermocouple --type K --mv 1 --cold-junction 2000C", "--cold-junction", "where its wires end"),
        ("glow --nonsense 3 --at 20C", "--nonsense", "unrecognized"),
        ("forge", "WHAT", "invalid choice"),
        ("", "reckon what", "thermocouple"),
    ],
)
def test_what_is_wrong_is_named_with_what_would_be_right(
    capsys: pytest.CaptureFixture[str], words: str, option: str, right: str
) -> None:
    # A grade that is not here is like a file that is not there; all else is wrong use.
    assert main(["reckon", *words.split()]) == (1 if words == "steel 1048" else 2)
    found = capsys.readouterr()
    assert found.out == ""
    said = " ".join(found.err.split())
    assert option in said
    assert right in said
    assert "Traceback" not in said
    assert "fault of the program" not in said


TYPED = (
    *("", "0", "-1", "1e99", "nan", "0 K", "1e9 degC", "1200 degC", "1 mm", "1e-9 mm", "9e9 m", "1/0 in", "10 min"),
    *("0.8", "41.276", "K", "1084", "round 25 mm", "25 x 10 mm", "20 W/m^2/K", "\x1b[31m"),
)


@given(
    name=st.sampled_from(sorted(QUESTIONS)),
    texts=st.lists(
        st.one_of(st.none(), st.none(), st.just(""), st.sampled_from(TYPED), st.text(max_size=12)),
        min_size=18,
        max_size=18,
    ),
)
def test_whatever_is_typed_is_answered_or_refused(name: str, texts: list[str | None]) -> None:
    question = QUESTIONS[name]
    # None stands for the field's own example, so that some questions are whole but for one odd answer.
    pairs = zip(question.fields, texts, strict=False)
    typed = {field.name: Units.METRIC.text(field.example) if text is None else text for field, text in pairs}
    with suppress(PlansError):
        found = question.ask(typed)
        json.dumps(found.record, allow_nan=False)
        assert all(line.isprintable() for units in Units for line in found.lines(units))


def test_odd_characters_do_not_reach_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["reckon", "steel", "\x1b[31m1084\x07"]) == 1
    said = capsys.readouterr().err
    assert "\x1b" not in said
    assert "\x07" not in said
