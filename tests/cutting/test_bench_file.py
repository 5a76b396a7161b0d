"""Instances in, result files out."""

import json
from pathlib import Path

import pytest
from frontwright.cutting.bench_file import BadInstance, read, result
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import plan_of
from frontwright.cutting.values import Layout, Placed

HERE = Path(__file__).parent / "instances"


def test_an_instance_is_read_as_an_order() -> None:
    told = read(HERE / "sheet_kerf.json")
    assert (told.problem, told.order.wish, told.order.saw.kerf, told.best) == ("2BP", "fewest", 1, 1)
    assert [(s.width, s.height, s.copies) for s in told.order.stock] == [(21, 10, None)]
    assert [(w.width, w.height, w.copies, w.turns) for w in told.order.wanted] == [(10, 10, 2, False)]


def test_a_part_says_for_itself_whether_it_may_turn(tmp_path: Path) -> None:
    told = json.loads((HERE / "sheet_turned.json").read_text())
    told["items"].append({"w": 3, "h": 2, "copies": 1, "rotation": False})
    (tmp_path / "x.json").write_text(json.dumps(told))
    assert [w.turns for w in read(tmp_path / "x.json").order.wanted] == [True, False]


def test_the_hand_made_best_plans_pass_the_checker() -> None:
    order = read(HERE / "boards_triplets.json").order
    plan = plan_of(order, [Layout(0, _row((0, 49), (3, 26), (4, 25))), Layout(0, _row((1, 48), (2, 27), (4, 25)))])
    assert first_fault(order, plan) is None
    assert (plan.cost, plan.whole) == (2, True)


def test_a_leftover_is_counted_off_the_area_used() -> None:
    order = read(HERE / "sheet_rest.json").order
    plan = plan_of(order, [Layout(0, (Placed(0, 0, 0, 10, 6),)), Layout(0, (Placed(1, 0, 0, 10, 5),))])
    assert plan.cost == 100 + 100 - 50


def test_a_result_file_names_positions_and_placed_sizes() -> None:
    order = read(HERE / "sheet_turned.json").order
    plan = plan_of(order, [Layout(0, (Placed(0, 0, 0, 10, 4),), 2)])
    told = json.loads(result("sheet_turned", plan, 0.1234))
    assert told == {
        "name": "sheet_turned",
        "seconds": 0.123,
        "bins": [{"stock": 0, "copies": 2, "placed": [{"item": 0, "x": 0, "y": 0, "w": 10, "h": 4}]}],
    }


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"problem": "3D"}, "problem"),
        ({"items": []}, "items"),
        ({"stock": [{"w": 0, "h": 1}]}, "w is 0"),
        ({"kerf": -1}, "kerf is -1"),
        ({"items": [{"w": 1.5, "h": 1, "copies": 1}]}, "w is 1.5"),
        ({"items": [{"h": 1, "copies": 1}]}, "w is not given"),
        ({"name": "../x"}, "name"),
    ],
)
def test_a_field_that_cannot_be_read_is_named(tmp_path: Path, change: dict[str, object], words: str) -> None:
    told = json.loads((HERE / "sheet_kerf.json").read_text())
    (tmp_path / "x.json").write_text(json.dumps(told | change))
    with pytest.raises(BadInstance, match=words):
        read(tmp_path / "x.json")


def test_a_file_that_is_no_json_is_refused(tmp_path: Path) -> None:
    (tmp_path / "x.json").write_text("{")
    with pytest.raises(BadInstance, match="is no JSON"):
        read(tmp_path / "x.json")


def _row(*parts: tuple[int, int]) -> tuple[Placed, ...]:
    x, row = 0, []
    for item, length in parts:
        row.append(Placed(item, x, 0, length, 1))
        x += length
    return tuple(row)
