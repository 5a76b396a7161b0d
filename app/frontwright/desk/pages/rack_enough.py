"""Have I enough to make this? One row a group, from the whole rack; what would have to be bought is a finding."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import islice

from frontwright.core.plan import asked
from frontwright.core.stock.candidates import Wood, wood
from frontwright.core.stock.enough import NOT_CUT, THIS_JOB
from frontwright.core.stock.rack import GONE, Rack, in_unit
from frontwright.core.stock.result import Condition, Enough, GroupAnswer
from frontwright.desk.contents import Action, Cell, Choice, Column, FindingLine, Form, FormLine, Table, TableRow
from frontwright.desk.keys import ASK, key
from frontwright.desk.pages.view import RACK, View, words
from frontwright.desk.wording.enough import (
    buy_text,
    condition_text,
    question_word,
    refusals_text,
    said_of,
)
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.wording.stock import group_word
from frontwright.sheets.bill_words import money

MOST_MENDED = 3  # pieces that are offered to be dried or measured


def lying(view: View, rack: Rack) -> Wood:
    """All wood of the shop, in the job's unit, and what the job alone has."""
    job = view.job
    every = view.rack.pieces_in(view.unit) if view.rack is not None else {}
    there = [piece for piece in every.values() if piece.state not in GONE and piece.id not in job.pieces]
    defects = [in_unit(one, view.unit) for one in rack.defects.values() if one.piece not in job.pieces]
    mark = view.rack.mark if view.rack is not None else ""
    pieces = (*job.pieces.values(), *there)
    held = rack.reservations.values()
    return wood(pieces, (*job.defects.values(), *defects), held, mark, job.pieces, view.today)


def answer_of(view: View, rack: Rack) -> Enough | None:
    """The answer to the question that the page stands on; None where nothing is to be made."""
    if not view.plan.stock.groups:
        return None
    question = question_of(view)

    def made() -> Enough:
        return asked(view.plan, question, lying(view, rack))

    return view.rack.remembered.get("enough", (view.plan, rack, question), made) if view.rack is not None else made()


def question_of(view: View) -> str:
    """What is asked: what is not yet cut, unless somebody asked for something else."""
    wish = view.wish.question
    return wish if wish in (THIS_JOB, NOT_CUT) or wish in view.plan.fronts.fronts else NOT_CUT


def enough_bands(view: View, rack: Rack, enough: Enough | None) -> list[tuple[Table | Form, ...]]:
    """The question, and its answer group by group."""
    if enough is None:
        return []
    questions = (NOT_CUT, THIS_JOB, *view.plan.fronts.fronts)
    choices = tuple(Choice(one, question_word(one)) for one in questions)
    cell = Cell(key(ASK, "rack", "question"), "choice", question_of(view), None, choices, "", "what is to be made")
    form = Form("question", "", "", (FormLine("Have I enough to make", cell),))
    return [(form,), (_groups(view, rack, enough),)]


def _groups(view: View, rack: Rack, enough: Enough) -> Table:
    columns = (
        Column("", axis=False, share=0),
        Column("need", share=0),
        Column("", axis=False, share=0),
        Column("", axis=False, share=0),
        Column("", axis=False, share=1),
    )
    shelves = {piece.id: piece.shelf for piece in (*rack.pieces.values(), *view.job.pieces.values())}
    rows = tuple(_group_row(view, one, shelves) for one in enough.groups)
    buys = sum(len(one.buy) for one in enough.groups)
    said = {"yes": "Yes.", "yes, if": "Yes, if one thing each is allowed.", "no": "No."}[enough.answer]
    mends = f" {count_of(buys, 'purchase mends', 'purchases mend')} it." if buys and enough.answer == "no" else ""
    return Table("enough", "Enough?", said + mends, columns, rows)


def _group_row(view: View, one: GroupAnswer, shelves: dict[str, str]) -> TableRow:
    subject = f"enough {one.group.id}"
    with_it = one.need - min((c.still for c in one.conditions), default=one.need - one.have) - one.have
    bar = Cell(
        "", "words", "", None, (), subject, f"{one.have} of {one.need}", bar=(one.have, max(0, with_it), one.need)
    )
    cells = (
        words(group_word(one.group, view.display), subject),
        words(str(one.need), subject, bold=True),
        bar,
        words(one.answer, subject, bold=True),
        words(said_of(one, shelves, view.display), subject),
    )
    return TableRow(subject, cells)


# -- the purchase


def purchase_finding(view: View, rack: Rack, enough: Enough | None) -> list[FindingLine]:
    """What is to be bought with its price, as far as sizes are priced, and what else would do."""
    if enough is None:
        return []
    buys = [buy for one in enough.groups for buy in one.buy]
    takes = [use.piece for one in enough.groups for use in one.uses if use.piece not in view.job.pieces]
    conditions = [(one, c) for one in enough.groups for c in one.conditions]
    if not buys and not takes and not conditions:
        return []
    ways = [*_taken(rack, takes), *([_on_the_bill(enough)] if buys else [])]
    ways += [way for answer, condition in conditions[:4] if (way := _condition(view, answer, condition)) is not None]
    ways += list(islice(_mended(view, enough), MOST_MENDED)) if buys else []
    cost = sum((buy.cost for buy in buys if buy.cost is not None), Fraction(0))
    open_ = [buy.form for buy in buys if buy.cost is None]
    pricing = view.job.pricings.get("pricing")
    price = money(cost, pricing.currency if pricing is not None else "") if cost else ""
    unpriced = f"{count_of(len(open_), 'size')} unpriced" if open_ else ""
    sentence = (
        ". ".join(_sentence(buy_text(buy, view.display)) for buy in buys) + "." if buys else "Everything is there."
    )
    reason = _reason(view, enough)
    return [
        FindingLine(
            "purchase", "note", "", sentence, ", ".join(part for part in (price, unpriced) if part), "", reason,
            tuple(ways), title="to buy" if buys else "enough", shown=True,
        )
    ]  # fmt: skip


def _mended(view: View, enough: Enough) -> Iterator[Action]:
    """Pieces that would serve but for one thing that is done at the shelf: dried and measured again, or measured."""
    words_of = {"wet": ("moisture", "Dry {}: enter its new moisture"), "size not told": ("length", "Measure {}")}
    for one in (c for answer in enough.groups for c in answer.refused):
        kinds = {refusal.kind for refusal in one.refusals}
        found = words_of.get(next(iter(kinds))) if len(kinds) == 1 else None
        if found is not None:
            table = "pieces" if one.piece.id in view.job.pieces else f"{RACK}pieces"
            place = key(table, one.piece.id, found[0])
            yield Action(key("lead", "rack", place, one.piece.id), found[1].format(one.piece.id), one.piece.id)


def _on_the_bill(enough: Enough) -> Action:
    """What the job itself lacks is on the bill already; what one front more would take is put there."""
    if enough.question in (THIS_JOB, NOT_CUT):
        return Action(key("lead", "bill", ""), "Look at the bill")
    bought = [word for one in enough.groups for buy in one.buy for word in (one.group.id, buy.size, str(buy.count))]
    return Action(key("put-on-bill", question_word(enough.question), *bought), "Put it on the bill")


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _taken(rack: Rack, takes: list[str]) -> list[Action]:
    free = [one for one in dict.fromkeys(takes) if one in rack.pieces and one not in rack.reservations]
    if not free:
        return []
    word = f"Reserve {free[0]}" if len(free) == 1 else f"Reserve the {len(free)} pieces"
    return [Action(key("rack-reserve", *free), word, free[0])]


def _reason(view: View, enough: Enough) -> str:
    """Conditions in words, then pieces that are left and why, the nearest first."""
    said = [f"{group_word(one.group, view.display)}: yes, if {condition_text(c, view.display)}"
            for one in enough.groups for c in one.conditions if not c.still]  # fmt: skip
    left = (c for one in enough.groups for c in one.refused if c.refusals)
    refused = [f"{c.piece.id} {refusals_text(c, view.display)}" for c in islice(left, 4)]
    return ". ".join([*(_sentence(one) for one in said[:3]), *dict.fromkeys(refused)])


def _condition(view: View, answer: GroupAnswer, one: Condition) -> Action | None:
    """The way to allow a condition: done at once, or the cell in which it is said."""
    if one.kind == "release":
        why = f"needed for {view.job.heading.name or 'another job'}"
        return Action(key("rack-release-for", one.of, why), f"Release {one.of}", one.of)
    if one.kind == "other batch":
        return Action(key("lead", "shop:Limits", key("limits", "limits", "one_lot")), "Allow another batch")
    if one.kind == "glue up":
        place = key("limits", "limits", "glue_up")
        return Action(key("lead", "shop:Limits", place), "Allow glue-up in width")
    if one.kind == "machine" and one.of in view.job.machines:
        return Action(key("lead", "shop:Saws", key("machines", one.of, "chosen")), f"Saw on {one.of}")
    if one.kind == "keep-backs":
        saw = next((row.id for row in view.job.machines.values() if row.chosen), next(iter(view.job.machines), ""))
        if saw:
            return Action(key("lead", "shop:Saws", key("machines", saw, "keep_back")), "Count what is kept back")
    if one.kind == "narrower":
        front = next((f for want in answer.group.wants if want.rail for f in want.each), "")
        made = view.plan.making.fronts.get(front)
        if made is not None and made.build.id in view.job.door_builds:
            place = key("door_builds", made.build.id, "top_rail")
            return Action(key("lead", "shop:Door builds", place), "Make the rails narrower")
    return None
