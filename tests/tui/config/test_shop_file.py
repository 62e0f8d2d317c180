"""The shop file: read with all that can be wrong in it, and written so that nothing else in it is lost."""

from __future__ import annotations

from dataclasses import fields
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from plans.shop import FIRE_KEY, KEYS, FireAir, FuelRate, Shop
from tui.config.errors import UsageError
from tui.config.folders import user_folders
from tui.config.shop_file import LearnedFactor, forget, keep_factors, read_shop, recall

LEARNED = "on 2026-11-25 from sitting 20261125-091502-drawknife"


def keep_cooling(path: Path, value: float, spread: float | None = None) -> None:
    keep_factors(path, [LearnedFactor("cooling_factor", value, spread, LEARNED)])


def keep_both(path: Path, cooling: tuple[float, float | None], contact: tuple[float, float | None]) -> None:
    keep_factors(
        path,
        [
            LearnedFactor("cooling_factor", *cooling, LEARNED),
            LearnedFactor("contact_factor", *contact, LEARNED),
        ],
    )


def test_it_stands_beside_the_settings(home: Path) -> None:
    assert user_folders().shop == home / "shop.toml"


def test_without_a_file_the_shop_is_as_it_ships(tmp_path: Path) -> None:
    assert read_shop(tmp_path / "shop.toml") == (Shop(), [])


@pytest.mark.parametrize("factor", [0.3, 1.0, 1.117, 3.0])
def test_what_is_kept_is_read_again(tmp_path: Path, factor: float) -> None:
    path = tmp_path / "not" / "there" / "shop.toml"
    keep_cooling(path, factor)
    assert read_shop(path) == (Shop(factor), [])
    assert path.read_text() == f"# Learned {LEARNED}\ncooling_factor = {factor:g}\n"
    assert [one.name for one in path.parent.iterdir()] == ["shop.toml"]


def test_another_one_takes_its_place_and_what_the_smith_wrote_stays(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text("# Back door open from May on\n\n# Learned once\ncooling_factor = 1.4 # too much?\n# end\n")
    keep_cooling(path, 1.12)
    assert path.read_text() == (f"# Back door open from May on\n\n# Learned {LEARNED}\ncooling_factor = 1.12\n# end\n")
    path.write_text("# mine\n[oil]\nname = 'old'\n")
    keep_cooling(path, 0.9)
    assert read_shop(path)[0] == Shop(0.9)
    assert path.read_text().endswith("# mine\n[oil]\nname = 'old'\n")


def test_both_factors_and_how_far_off_they_may_be_are_read_again(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    keep_both(path, (1.12, 0.031), (1.8, 0.25))
    assert read_shop(path) == (Shop(1.12, 0.031, 1.8, 0.25), [])
    assert path.read_text() == (
        f"# Learned {LEARNED}\ncooling_factor = 1.12\ncooling_standard_error = 0.031\n"
        f"# Learned {LEARNED}\ncontact_factor = 1.8\ncontact_standard_error = 0.25\n"
    )
    written = [line.split()[0] for line in path.read_text().splitlines() if not line.startswith("#")]
    assert written == [name for name in KEYS if name in written]


def test_every_figure_of_a_shop_has_a_key() -> None:
    numbers = sorted(one.name for one in fields(Shop) if one.name not in (FIRE_KEY, "fuel"))
    assert sorted(key.attribute for key in KEYS.values()) == numbers
    for name, key in KEYS.items():
        assert (key.spread_of is None) == name.endswith("_factor")
        for end in (key.least, key.most):
            figures: dict[str, Any] = {key.attribute: end}
            assert getattr(Shop(**figures), key.attribute) == end


def test_how_the_fire_is_set_is_one_of_three_words(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text('fire = "rich"\nscale_factor = 0.3\n')
    assert read_shop(path) == (Shop(fire=FireAir.RICH, scale_factor=0.3), [])
    path.write_text('fire = "reach"\n')
    shop, (wrong,) = read_shop(path)
    assert shop == Shop()
    assert "rich" in wrong
    assert "shop.toml:1:" in wrong


def test_a_factor_is_put_beside_what_stands_there_already(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text("# Back door open\ncooling_factor = 1.4\n# end\n")
    keep_factors(path, [LearnedFactor("contact_factor", 2.0, 0.3, LEARNED)])
    assert read_shop(path) == (Shop(1.4, None, 2.0, 0.3), [])
    assert path.read_text() == (
        "# Back door open\ncooling_factor = 1.4\n"
        f"# Learned {LEARNED}\ncontact_factor = 2\ncontact_standard_error = 0.3\n# end\n"
    )


def test_the_standard_error_of_another_value_does_not_stay(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    keep_both(path, (1.12, 0.03), (1.8, 0.25))
    keep_cooling(path, 1.3, None)
    assert read_shop(path) == (Shop(1.3, None, 1.8, 0.25), [])
    assert "cooling_standard_error" not in path.read_text()


def test_a_standard_error_beside_a_wrong_factor_counts_for_nothing(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text("cooling_factor = 40\ncooling_standard_error = 0.01\ncontact_factor = 2\n")
    shop, wrong = read_shop(path)
    assert shop == Shop(contact_factor=2.0)
    assert len(wrong) == 1
    path.write_text("contact_standard_error = 0.1\n")
    assert read_shop(path) == (Shop(contact_spread=0.1), []), "the smith may know how good the shipped figure is"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("\ncooling_factor = 5", ":2: cooling_factor is 5; write a number from 0.3 to 3"),
        ("\ncooling_factor = 'x'", ":2: cooling_factor is 'x'; write a number"),
        ("\ncooling_factor = true", ":2: cooling_factor is True; write a number"),
        ("\ncooling_factor = nan", ":2: cooling_factor is nan; write a number"),
        ("\n\ncooling = 1.1", ":3: there is no cooling in a shop file; perhaps cooling_factor"),
        (
            "oil = 1",
            ":1: there is no oil in a shop file; there are cooling_factor, cooling_standard_error, contact_factor, "
            "contact_standard_error",
        ),
        ("contact_factor = 50", ":1: contact_factor is 50; write a number from 0.1 to 10"),
        ("contact_standard_error = -1", ":1: contact_standard_error is -1; write a number from 0 to 10"),
        ("cooling_factor = ", "going by the warm model's own figures"),
        ("#" * 200_000, "far too large; going by the warm model's own figures"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(tmp_path: Path, text: str, told: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(text)
    shop, wrong = read_shop(path)
    assert shop == Shop()
    assert len(wrong) == 1
    assert wrong[0].startswith(str(path))
    assert told in wrong[0]


def test_a_value_over_several_lines_is_replaced_whole(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text('# mine\ncooling_factor = """\n1.0"""\n# end\n')
    keep_cooling(path, 1.1)
    assert path.read_text() == f"# mine\n# Learned {LEARNED}\ncooling_factor = 1.1\n# end\n"


@pytest.mark.parametrize("text", ["cooling_factor = ", "[cooling_factor]\nx = 1\n", "cooling_factor = [1.0]\n"])
def test_what_can_not_be_replaced_is_left_as_it_is(tmp_path: Path, text: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(text)
    with pytest.raises(UsageError, match=r"shop\.toml"):
        keep_cooling(path, 1.1)
    assert path.read_text() == text


def test_a_folder_in_its_place(tmp_path: Path) -> None:
    assert "can't be read" in read_shop(tmp_path)[1][0]
    with pytest.raises(UsageError, match="can't be read"):
        keep_cooling(tmp_path, 1.1)


def test_a_folder_that_can_not_be_made_is_told_with_its_name(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(UsageError, match="file"):
        keep_cooling(tmp_path / "file" / "shop.toml", 1.1)


@pytest.mark.parametrize(
    ("written", "fuel"),
    [
        ("1.4 kg", FuelRate(mass=1.4)),
        ("3 lb", FuelRate(mass=3 * 0.45359237)),
        ("1.8 m^3", FuelRate(volume=1.8)),
        ("65 ft³", FuelRate(volume=65 * 0.3048**3)),
        ("900 l", FuelRate(volume=0.9)),
        ("1.4 kg/h", FuelRate(mass=1.4)),
        ("3 lb per hour", FuelRate(mass=3 * 0.45359237)),
    ],
)
def test_what_the_fire_burns_is_a_weight_or_a_volume(tmp_path: Path, written: str, fuel: FuelRate) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(f'fuel_per_hour = "{written}"\n')
    shop, wrong = read_shop(path)
    assert wrong == []
    assert shop.fuel is not None
    assert (shop.fuel.mass, shop.fuel.volume) == pytest.approx((fuel.mass, fuel.volume))


@pytest.mark.parametrize(
    "written", ["1.4", '"1.4"', '"1.4 km"', '"1.4 kg/min"', '"2 gal"', '"0 kg"', '"900 kg"', '"kg"', "[1]"]
)
def test_what_is_no_rate_is_told_and_the_rest_read(tmp_path: Path, written: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(f"cooling_factor = 1.2\nfuel_per_hour = {written}\n")
    shop, wrong = read_shop(path)
    assert shop == Shop(1.2)
    assert len(wrong) == 1
    assert "shop.toml:2" in wrong[0]
    assert "write" in wrong[0]
    assert "kg" in wrong[0]


def test_what_was_set_by_hand_is_not_forgotten_and_what_was_learned_goes_with_its_comment(tmp_path: Path) -> None:
    path, moment = tmp_path / "shop.toml", datetime(2026, 11, 27, 10, tzinfo=UTC)
    by_hand = "# by a pyrometer, three days of work\ncooling_factor = 1.2\n"
    path.write_text(by_hand)
    assert forget(path, "cooling-factor", "cooling_factor", moment) == "cooling_factor = 1.2"
    assert read_shop(path) == (Shop(1.2), [])
    assert path.read_text().startswith(by_hand)
    keep_factors(path, [LearnedFactor("cooling_factor", 1.12, 0.03, LEARNED)])
    assert forget(path, "cooling-factor", "cooling_factor", moment) == ""
    assert read_shop(path) == (Shop(), [])
    assert path.read_text().startswith("# by a pyrometer, three days of work\n")
    assert "Learned" not in path.read_text()
    recall(path, "cooling-factor")
    assert "cooling-factor" not in path.read_text()


@pytest.mark.parametrize(
    ("rate", "written", "price", "currency"),
    [
        ("1.4 kg", "1.90 EUR per kg", 1.9, "EUR"),
        ("1.4 kg", "24.50 € per 11 kg", 24.5 / 11, "€"),
        # A kg is 1 / 0.45359237 lb, a cubic metre 1 / 0.3048^3 cubic feet (NIST SP 811, exact).
        ("1.4 kg", "0.85 US$/lb", 0.85 / 0.45359237, "US$"),
        ("65 ft^3", "12 Fr. per 1000 ft^3", 0.012 / 0.3048**3, "Fr."),
        ("65 ft^3", "1.1 EUR / m3", 1.1, "EUR"),
    ],
)
def test_what_the_fuel_costs(tmp_path: Path, rate: str, written: str, price: float, currency: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(f'fuel_per_hour = "{rate}"\nfuel_price = "{written}"\n', encoding="utf-8")
    shop, wrong = read_shop(path)
    assert wrong == []
    assert shop.fuel is not None
    assert (shop.fuel.price, shop.fuel.currency) == (pytest.approx(price), currency)


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("1.90", "write how much of which currency, and for what"),
        ("1.90 EUR", "write how much of which currency"),
        ("EUR 1.90 per kg", "write how much of which currency"),
        ("1,90 EUR per kg", "a comma is not read"),
        ("1.90 EUR per h", "write how much of which currency"),
        ("1.90 EUROPOUNDS per kg", "write how much of which currency"),
        ("1.90 E\\u202eR per kg", "write how much of which currency"),
        ("1.90 EUR per m^3", "but fuel_per_hour is a weight; write what it costs per kg or lb"),
        ("0 EUR per kg", "write more than 0"),
        ("2 EUR per 0 kg", "write more than 0"),
        (f"{'9' * 30} EUR per kg", "write more than 0"),
    ],
)
def test_what_is_no_price_is_told_and_the_rate_stays(tmp_path: Path, written: str, told: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(f'fuel_price = "{written}"\nfuel_per_hour = "1.4 kg"\n', encoding="utf-8")
    shop, (wrong,) = read_shop(path)
    assert shop == Shop(fuel=FuelRate(mass=1.4))
    assert "shop.toml:1: fuel_price is" in wrong
    assert told in wrong


def test_a_price_wants_a_rate(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text('fuel_price = "1.90 EUR per kg"\n')
    shop, (wrong,) = read_shop(path)
    assert shop == Shop()
    assert (
        "shop.toml:1: fuel_price says what fuel costs, but no fuel_per_hour how much burns; write fuel_per_hour"
        in wrong
    )
    path.write_text('fuel_price = "1.90 EUR per kg"\nfuel_per_hour = "much"\n')
    assert [text.split("; ")[0].rpartition(": ")[2] for text in read_shop(path)[1]] == ["fuel_per_hour is 'much'"]
