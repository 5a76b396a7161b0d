"""How wide tables and forms stand: no column further from its label than the eye follows."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.window.shape import shared


@dataclass(frozen=True)
class Stood:
    wanted: int
    least_width: int = 100
    is_form: bool = False
    is_narrow: bool = False


def test_a_table_of_few_columns_by_itself_is_no_wider_than_it_is_read_across() -> None:
    assert shared(1740, [Stood(300, is_narrow=True)], 380, 760) == [760]
    assert shared(1740, [Stood(1000, is_narrow=True)], 380, 760) == [1300]
    assert shared(700, [Stood(300, is_narrow=True)], 380, 760) == [700]


def test_a_table_of_many_columns_by_itself_takes_the_width() -> None:
    assert shared(1740, [Stood(1000)], 380, 760) == [1740]


def test_tables_beside_each_other_share_what_is_left() -> None:
    assert shared(1000, [Stood(300), Stood(300, is_narrow=True)], 380, 760) == [500, 500]


def test_a_form_by_itself_is_no_wider_than_its_label_and_figure_want() -> None:
    assert shared(1740, [Stood(300, is_form=True, is_narrow=True)], 380, 760) == [380]
