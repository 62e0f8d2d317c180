"""`heatbook log learn`: what a sitting tells of the shop, kept for those that come."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable
from functools import partial
from math import exp
from pathlib import Path
from typing import Any

import pytest

Ask = Callable[..., Any]
COOLING = Path(__file__).parents[2] / "cooling.toml"


def _fallen(fall: float, since: float) -> float:
    return 905.0 - fall * since


@pytest.fixture
def played(ask: Ask, tmp_path: Path) -> Callable[..., str]:
    """Plays a recording of normalizing heats that fall by so many degC/s outside the fire; gives the sitting's id."""

    def play(*falls: float, plan: str = "normalize") -> str:
        rows, at = ["seconds,celsius,word", "0,,next"], 0.0

        def feel(seconds: float, celsius: Callable[[float], float]) -> None:
            nonlocal at
            for count in range(1, round(seconds * 4) + 1):
                rows.append(f"{at + count / 4},{celsius(count / 4):.1f},")
            at += seconds

        for fall in falls:
            rows.append(f"{at},,next")
            feel(100.0, lambda since: 905.0 - 400 * 0.9**since)
            rows.append(f"{at},,out")
            feel(18.0, partial(_fallen, fall))
        path = tmp_path / "recording.csv"
        path.write_text("\n".join(rows) + "\n")
        done = ask("run", plan, "--readings", str(path), "--hands-free", "never")
        assert (done.returncode, done.stderr) == (0, "")
        return str(json.loads(ask("log", "list", "--json").stdout)[0]["id"])

    return play


def test_it_says_what_it_would_keep_and_keeps_nothing(ask: Ask, played: Callable[..., str], home: Path) -> None:
    name = played(6.0, 6.6)
    done = ask("log", "learn", name)
    assert (done.returncode, done.stderr) == (0, "")
    factor, how = done.stdout.splitlines()
    assert factor.startswith("cooling factor 1.")
    assert factor.endswith("from 2 stays; the shop file says 1.00")
    assert how == f"keep it: heatbook log learn {name} --keep"
    assert factor in ask("log", "show", name).stdout
    assert not (home / "shop.toml").exists()


def test_what_is_kept_is_what_the_next_sitting_goes_by(ask: Ask, played: Callable[..., str], home: Path) -> None:
    name = played(6.0, 6.6)
    told = json.loads(ask("log", "learn", "last", "--json").stdout)
    assert (told["shop_file_cooling_factor"], told["kept"]) == (1.0, False)
    factor = told["learned"]["cooling_factor"]
    assert told["learned"]["stays_fitted"] == 2

    done = ask("log", "learn", "last", "--keep")
    assert done.returncode == 0
    assert f"kept in {home / 'shop.toml'}" in done.stdout
    text = (home / "shop.toml").read_text()
    assert f"cooling_factor = {factor}\n" in text
    assert name in text
    again = json.loads(ask("log", "learn", "last", "--keep", "--json").stdout)
    assert (again["shop_file_cooling_factor"], again["kept"]) == (factor, True)
    assert again["learned"] == told["learned"]

    played(6.0)
    shown = json.loads(ask("log", "show", "last", "--json").stdout)
    assert shown["learned"]["cooling_factor_in_force"] == factor
    assert json.loads(ask("log", "export", "last", "--to", "json").stdout)["shop"] == {
        "cooling_factor": factor,
        "cooling_standard_error": told["learned"]["cooling_factor_standard_error"],
        "contact_factor": 1.0,
        "contact_standard_error": None,
        "scale_factor": None,
        "fire": None,
    }
    line = ask("log", "learn", name).stdout.splitlines()[0]
    assert line.endswith(f"; went by 1.00, shop file now {factor:.2f}")


BOTH = """
heatbook = 1
title = "Draw and normalize"
about = "Two heats on the anvil, two in the air."

[[step]]
title = "Draw"
kind = "draw"
fire = "1150 degC"
heat_to = "1100 degC"
keep_above = "900 degC"
soak = "60 s"
heats = 2
section = "25 x 8 mm"

[[step]]
title = "Normalize"
kind = "normalize"
fire = "1150 degC"
heat_to = "1100 degC"
soak = "60 s"
heats = 2

[step.air]
until = "480 degC"
"""


@pytest.fixture
def forged(ask: Ask, tmp_path: Path) -> Callable[[], dict[str, Any]]:
    """Plays two heats on the anvil and two in the air, by Newton's law of cooling; gives what the log says of it."""

    def forge() -> dict[str, Any]:
        plan, path, rows, at = tmp_path / "both.toml", tmp_path / "both.csv", ["seconds,celsius,word"], 0.0
        plan.write_text(BOTH)

        def feel(seconds: float, celsius: Callable[[float], float]) -> None:
            nonlocal at
            for count in range(1, round(seconds * 4) + 1):
                rows.append(f"{at + count / 4},{celsius(count / 4):.1f},")
            at += seconds

        # Seconds in which 63 % of the way to the room is gone.
        for constant in (80.0, 84.0, 112.0, 115.0):
            if constant == 112.0:
                rows.append(f"{at},,next")
            rows.append(f"{at},,next")
            feel(100.0, lambda since: 1110.0 - 600 * 0.9**since)
            rows.append(f"{at},,out")
            feel(20.0, partial(_newton, constant))
        path.write_text("\n".join(rows) + "\n")
        done = ask("run", str(plan), "--readings", str(path), "--hands-free", "never")
        assert (done.returncode, done.stderr) == (0, "")
        told: dict[str, Any] = json.loads(ask("log", "export", "last", "--to", "json").stdout)
        return told

    return forge


def _newton(constant: float, since: float) -> float:
    return float(20.0 + 1090.0 * exp(-since / constant))


def test_both_factors_are_kept_and_the_next_sitting_has_narrower_ranges(
    ask: Ask, forged: Callable[[], dict[str, Any]], home: Path
) -> None:
    told = forged()
    learned = told["learned"]
    assert (learned["stays_fitted"], learned["contact_stays_fitted"]) == (2, 2)
    shop = {
        "cooling_factor": learned["cooling_factor"],
        "cooling_standard_error": learned["cooling_factor_standard_error"],
        "contact_factor": learned["contact_factor"],
        "contact_standard_error": learned["contact_factor_standard_error"],
    }
    assert None not in shop.values()

    done = ask("log", "learn", "last", "--keep")
    assert done.returncode == 0
    *stays, cooling, contact, kept = done.stdout.splitlines()
    assert [line.partition(":")[0] for line in stays] == [f"hammer time, step 1, heat {heat}" for heat in (1, 2)]
    assert cooling.startswith(f"cooling factor {shop['cooling_factor']:.2f} +- ")
    assert contact.startswith(f"contact factor {shop['contact_factor']:.2f} +- ")
    assert kept == (
        f"kept in {home / 'shop.toml'}: sittings go by the cooling factor {shop['cooling_factor']:.2f} and the contact "
        f"factor {shop['contact_factor']:.2f} from now on"
    )
    assert tomllib.loads((home / "shop.toml").read_text()) == shop

    again = forged()
    assert again["shop"] == {**shop, "scale_factor": None, "fire": None}
    for found in ("cooling_factor", "contact_factor"):
        assert again["learned"][found] == pytest.approx(shop[found], rel=0.01), "it does not hang on what was kept"
        assert again["learned"][f"{found}_in_force"] == shop[found]
    for before, after in zip(learned["stays"][:2], again["learned"]["stays"][:2], strict=True):
        assert stay_width(after) < 0.5 * stay_width(before)
        for stay in (before, after):
            least, most = (stay[f"hammer_time_forecast_{end}_seconds"] for end in ("least", "most"))
            # By Newton's law it loses a little less at first than by radiation, which is what is fitted.
            assert least - 0.5 < stay["hammer_time_measured_seconds"] < most + 0.5


def stay_width(stay: dict[str, Any]) -> float:
    """How wide the range of its forecast is, as a share of it."""
    least, likely, most = (stay[f"hammer_time_forecast_{end}seconds"] for end in ("least_", "", "most_"))
    return float((most - least) / likely)


def test_a_sitting_from_before_air_and_contact_were_told_apart_is_worked_out_anew(
    ask: Ask, forged: Callable[[], dict[str, Any]], home: Path
) -> None:
    name = forged()["id"]
    path = home / "logbook" / "sittings" / f"{name}.json"
    now = json.loads(ask("log", "learn", name, "--json").stdout)["learned"]
    kept = json.loads(path.read_text())
    (document,) = next(iter(kept.values())).values()
    old = document["figures"]["learned"]
    for key in [key for key in old if key.startswith("contact")]:
        del old[key]
    path.write_text(json.dumps(kept))
    assert "factor of air and anvil" in ask("log", "show", name).stdout
    assert json.loads(ask("log", "learn", name, "--json").stdout)["learned"] == now


def test_a_single_stay_can_not_tell_how_far_off_it_is(ask: Ask, played: Callable[..., str]) -> None:
    played(6.0)
    assert "from one stay, its spread unknown" in ask("log", "learn", "last").stdout


def test_one_that_tells_nothing(ask: Ask, played: Callable[..., str], home: Path) -> None:
    played()
    done = ask("log", "learn", "last")
    assert done.returncode == 0
    assert "tells nothing of the shop: no probe on the work" in done.stdout
    done = ask("log", "learn", "last", "--keep")
    assert (done.returncode, done.stdout) == (1, "")
    assert "tells nothing of the shop" in done.stderr
    played(0.1)
    assert "not felt cooling for long enough" in ask("log", "learn", "last", "--keep").stderr
    assert not (home / "shop.toml").exists()


@pytest.mark.slow
def test_a_rehearsal_goes_by_what_ships_and_is_not_the_smiths_shop(ask: Ask, home: Path) -> None:
    home.mkdir()
    (home / "shop.toml").write_text("cooling_factor = 2.5\n")
    shown = json.loads(ask("demo", "--plan", str(COOLING), "--unattended", "--json").stdout)
    assert shown["learned"]["cooling_factor"] is not None
    assert shown["learned"]["cooling_factor_in_force"] == 1.0
    done = ask("log", "--rehearsals", "learn", "last", "--keep")
    assert done.returncode == 1
    assert "is a rehearsal" in done.stderr
    assert (home / "shop.toml").read_text() == "cooling_factor = 2.5\n"


def test_a_sitting_from_before_is_worked_out_now(ask: Ask, played: Callable[..., str], home: Path) -> None:
    name = played(6.0, 6.6)
    path = home / "logbook" / "sittings" / f"{name}.json"
    before = json.loads(ask("log", "learn", name, "--json").stdout)["learned"]
    kept = json.loads(path.read_text())
    (document,) = next(iter(kept.values())).values()
    del document["figures"]["learned"], document["shop"]
    path.write_text(json.dumps(kept))
    assert "How the skin cooled" not in ask("log", "show", name).stdout
    assert json.loads(ask("log", "learn", name, "--json").stdout)["learned"] == before


@pytest.mark.parametrize("command", [("log", "learn", "last"), ("log", "show", "last")])
def test_a_shop_file_that_is_wrong_is_told(
    ask: Ask, played: Callable[..., str], home: Path, command: tuple[str, ...]
) -> None:
    played(6.0)
    (home / "shop.toml").write_text("\ncooling_factor = 7\n")
    done = ask(*command)
    assert done.returncode == 0
    assert f"{home / 'shop.toml'}:2: cooling_factor is 7" in done.stderr
