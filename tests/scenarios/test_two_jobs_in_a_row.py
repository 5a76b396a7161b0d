"""What the first job left is found by the second, by batch, moisture and place, before anything is bought."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.job import Job, Laid, LaidPart, Leftover, Piece, amount
from frontwright.core.lengths import typed, typed_length
from frontwright.core.plan import Plan, asked, billed_whole, derive
from frontwright.core.stock.born import born
from frontwright.core.stock.candidates import Judge, wood, wood_of
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.purchase import sizes_for
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

KITCHEN = job_from_json(resource("samples", "kitchen-run.json").read_text(encoding="utf-8"))
BOUGHT = Piece(
    "new sheet",
    "sheet",
    "oak",
    "sheet lot 2",
    length=typed("2440", "mm"),
    width=typed("1220", "mm"),
    thickness=typed("6.2", "mm"),
    shelf="A3",
    end_trim=typed("20", "mm"),
    edge_trim=typed("20", "mm"),
    moisture=amount("8.5"),
    moisture_on="2026-02-01",
    price=amount("80"),
)


def first_job() -> Plan:
    """The kitchen with its panels laid on a sheet that was bought."""
    job = KITCHEN.put(BOUGHT, Laid("1", BOUGHT.id))
    plan = derive(job)
    judge = Judge(plan.index, wood_of(plan.index))
    group = next(one for one in plan.stock.groups if one.form == "sheet")
    assert [sold.id for sold in sizes_for(judge, group)] == ["6.2 x 1220 x 2440"]
    fitted = first_fit(group, group.wants, [judge.offer_of(BOUGHT)])
    assert not fitted.lacking
    for place in fitted.places:
        along, across = (typed_length(one, "mm") for one in (place.along, place.across))
        job = job.put(LaidPart(f"1 {place.want}", "1", place.want, place.number, along, across))
    return derive(job)


def left_of(plan: Plan) -> list[Piece]:
    """The rests that are kept, born as pieces of the rack."""
    (layout,) = plan.stock.layouts
    assert layout.valid
    return [
        born(
            BOUGHT,
            f"{BOUGHT.id} {rest.letter}",
            (typed_length(rest.length, "mm"), typed_length(rest.width, "mm"), None),
            job="Kitchen run",
            when="2026-02-10",
            form=rest.form,
        )
        for rest in layout.remainders
        if rest.keep
    ]


def second_job() -> Job:
    """One door more for the same kitchen, of the same build: F5 alone."""
    fronts = [name for name in KITCHEN.fronts if name != "F5"]
    job = KITCHEN.drop(type(KITCHEN.front_rows["hutch"]), *KITCHEN.front_rows)
    job = job.drop(type(KITCHEN.fronts["F5"]), *fronts)
    ends = [replace(end, skin="none") for end in KITCHEN.ends.values()]
    return job.put(*ends).drop(Piece, *KITCHEN.pieces)


def test_rests_inherit_batch_moisture_place_and_their_share_of_the_price() -> None:
    rests = left_of(first_job())
    assert rests
    for rest in rests:
        assert (rest.batch, rest.shelf, rest.moisture, rest.from_piece) == (
            "sheet lot 2",
            "A3",
            amount("8.5"),
            BOUGHT.id,
        )
        assert rest.price is not None
        assert rest.price.value is not None
        assert 0 < rest.price.value < 80


def test_the_second_job_takes_what_the_first_left_before_anything_is_bought() -> None:
    rests = left_of(first_job())
    plan = derive(second_job())
    alone = next(one for one in asked(plan).groups if one.group.form == "sheet")
    assert (alone.answer, [buy.size for buy in alone.buy]) == ("no", ["6.2 x 1220 x 2440"])
    there = wood(rests)
    one = next(one for one in asked(plan, lying=there).groups if one.group.form == "sheet")
    assert (one.answer, one.buy) == ("yes", ())
    bill = billed_whole(plan, there)
    pulled = [pull for pull in bill.pull if pull.form == "sheet"]
    assert [(pull.shelf, pull.batch) for pull in pulled] == [("A3", "sheet lot 2")]
    assert "6.2 x 1220 x 2440" not in {purchase.size for purchase in bill.purchases}


def test_a_rest_that_a_person_burned_is_not_found() -> None:
    plan = first_job()
    burned = derive(plan.job.put(Leftover("1 A", "1", keep=False)))
    assert len(left_of(burned)) == len(left_of(plan)) - 1
