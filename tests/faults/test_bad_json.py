"""A text that is no job gets one sentence naming place and field."""

from __future__ import annotations

import json
from typing import Any

import pytest
from frontwright.core.job import Column, Job, Opening, Room, Run
from frontwright.exchange.json_form import BadJobText, job_from_json, job_to_json, shop_from_json

HEAD: dict[str, Any] = {"format": "frontwright-job", "version": 1, "unit": "in"}


def refused(text: str) -> str:
    with pytest.raises(BadJobText) as raised:
        job_from_json(text)
    said = str(raised.value)
    assert said.endswith(".")
    assert "\n" not in said
    assert len(said) < 700
    return said


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "Line 1, column 1 is not JSON: Expecting value."),
        ('{"format": \n "frontwright-job"', "Line 2, column 19 is not JSON: Expecting ',' delimiter."),
        ("a pasted page\nof a letter", "Line 1, column 1 is not JSON: Expecting value."),
        ("[" * 100_000, "The text nests its lists or objects too deeply."),
        ("[]", "The text is JSON, but not an object with “format”, “version” and “unit”."),
        ('{"a": NaN}', "NaN is no number that JSON knows."),
        ('{"a": ' + "9" * 5000 + "}", "The text holds a number of too many digits."),
        ('{"a": 1, "a": 2}', "“a” stands twice in one object."),
        ("{}", "format: must be “frontwright-job”, so this is no job of Frontwright."),
    ],
)
def test_a_text_that_is_no_json_object_is_refused(text: str, sentence: str) -> None:
    assert refused(text) == sentence


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"format": "frontwright-shop"}, "format: must be “frontwright-job”, so this is no job of Frontwright."),
        ({"version": 2}, "version: 2 is newer than this Frontwright, which reads up to 1."),
        ({"version": "1"}, "version: must be a whole number from 1 to 1."),
        ({"version": True}, "version: must be a whole number from 1 to 1."),
        ({"unit": "cm"}, "unit: must be “in” or “mm”."),
        ({"unit": ["in"]}, "unit: must be “in” or “mm”."),
        ({"doors": []}, "There is no table “doors” in a job; its tables are headings, briefs,"),
        ({"rooms": {}}, "rooms: must be a list of rows."),
        ({"rooms": ["K"]}, "rooms, row 1: must be an object of fields."),
        ({"rooms": [{"id": "K"}, {"name": "x"}]}, "rooms, row 2: id must be there."),
        ({"rooms": [{"id": ""}]}, "rooms, row 1 (“”): id must not be empty."),
        ({"rooms": [{"id": 7}]}, "rooms, row 1: id must be text."),
        ({"rooms": [{"id": "K"}, {"id": "K"}]}, "rooms, row 2: the id “K” stands there twice."),
        (
            {"rooms": [{"id": "K", "nmae": "x"}]},
            "rooms, row 1 (“K”): there is no field “nmae”; the fields are id, name,",
        ),
        ({"rooms": [{"id": "K", "name": None}]}, "rooms, row 1 (“K”): name must be text."),
        ({"rooms": [{"id": "K", "name": "\ud83d"}]}, "name must be text without halves of characters."),
        ({"rooms": [{"id": "K", "name": "x" * 20_001}]}, "name must be text of at most 20,000 characters."),
        ({"rooms": [{"id": "K", "place": "1"}]}, "place must be a whole number of at most 1,000,000."),
        ({"rooms": [{"id": "K", "place": 1.5}]}, "place must be a whole number of at most 1,000,000."),
        ({"rooms": [{"id": "K", "place": 10**30}]}, "place must be a whole number of at most 1,000,000."),
        ({"rooms": [{"id": "K", "place": True}]}, "place must be a whole number of at most 1,000,000."),
        (
            {"leaves": [{"id": "A0", "billet": "A", "number": 0}]},
            "leaves, row 1 (“A0”): number must be a whole number from 1 to 1,000,000.",
        ),
        ({"machines": [{"id": "s", "chosen": 1}]}, "machines, row 1 (“s”): chosen must be true or false."),
        ({"machines": [{"id": "s", "kind": "axe"}]}, "kind must be one of “band saw”, “table saw”."),
        ({"machines": [{"id": "s", "kerf": 0.125}]}, "kerf must be a length as text, such as “23 5/8”"),
        ({"machines": [{"id": "s", "kerf": {"text": "1"}}]}, "kerf must be a length as text, such as “23 5/8”"),
        ({"machines": [{"id": "s", "kerf": {"text": "1", "is": "1"}}]}, "“is” must be an exact length"),
        ({"machines": [{"id": "s", "kerf": {"text": "1", "is": "nan in"}}]}, "“is” must be an exact length"),
        ({"machines": [{"id": "s", "kerf": {"text": "1", "is": "1/0 in"}}]}, "“is” must be an exact number"),
        ({"machines": [{"id": "s", "kerf": {"text": "1", "is": "1/7 mm"}}]}, "a whole number of 1/80 000 mm"),
        ({"machines": [{"id": "s", "kerf": {"text": "1", "is": "40000 mm"}}]}, "a length of at most 30 m"),
        ({"species": [{"id": "a", "flat": 3}]}, "flat must be a number as text, such as “0.5”"),
        ({"front_rows": [{"id": "r", "fronts": "F1"}]}, "fronts must be a list of texts."),
        ({"front_rows": [{"id": "r", "fronts": [1]}]}, "fronts must be text."),
    ],
)
def test_a_field_that_is_wrong_is_named_with_its_place(change: dict[str, Any], sentence: str) -> None:
    assert sentence in refused(json.dumps(HEAD | change))


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (
            {"openings": [{"id": "O1", "column": "C9"}]},
            "openings “O1”: column is “C9”, and there is no such row in columns.",
        ),
        ({"runs": [{"id": "R", "room": "K"}]}, "runs “R”: room is “K”, and there is no such row in rooms."),
        (
            {"readings": [{"id": "r", "of": "O1", "what": "width"}]},
            "readings “r”: of is “O1”, and there is no such row in",
        ),
        ({"front_rows": [{"id": "r", "fronts": ["F1"]}]}, "front_rows “r”: fronts is “F1”"),
        ({"door_builds": [{"id": "d", "panel": "p"}]}, "door_builds “d”: panel is “p”"),
        ({"looks": [{"id": "run:R"}]}, "looks “run:R”: there is no run “R”."),
        (
            {"looks": [{"id": "house"}]},
            "looks “house”: the id must be room, run, cabinet or opening, a colon and an id.",
        ),
        ({"facings": [{"id": "R"}]}, "facings “R”: id is “R”, and there is no such row in runs."),
    ],
)
def test_a_row_that_names_one_that_is_not_there_is_refused(change: dict[str, Any], sentence: str) -> None:
    assert sentence in refused(json.dumps(HEAD | change))


def with_openings(count: int) -> Job:
    base = Job().put(Room("K"), Run("R", room="K"), Column("C", run="R", place=1))
    return base.put(*(Opening(f"O{n}", column="C", place=n) for n in range(count)))


def test_a_job_of_2000_openings_is_read_and_one_more_is_too_many() -> None:
    assert len(job_from_json(job_to_json(with_openings(2_000))).openings) == 2_000
    assert refused(job_to_json(with_openings(2_001))) == "openings: 2,001 are too many for one job; 2,000 is the most."


def test_a_text_of_more_than_20_megabytes_is_refused_unread() -> None:
    assert refused(" " * (20 * 1024 * 1024 + 1)) == "The text is larger than 20 MB, which is too much for one job."
    assert "larger than 20 MB" in refused("é" * (10 * 1024 * 1024 + 1))


def test_a_job_is_no_shop() -> None:
    with pytest.raises(BadJobText, match="format: must be “frontwright-shop”, so this is no shop"):
        shop_from_json(json.dumps(HEAD))
    with pytest.raises(BadJobText, match="There is no table “openings” in a shop"):
        shop_from_json(json.dumps(HEAD | {"format": "frontwright-shop", "openings": []}))
