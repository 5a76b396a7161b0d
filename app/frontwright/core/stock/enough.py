"""Have I got enough? Yes from these; yes, if one thing is allowed; no, short by these, and the least purchase (F49)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from frontwright.core.assumed import assumed
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Length
from frontwright.core.stock.candidates import Judge, Wood, sawn_by, wood_of
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.leaves_at_hand import leaves_from, longer
from frontwright.core.stock.purchase import least_purchase
from frontwright.core.stock.result import (
    Answered,
    Candidate,
    Condition,
    Enough,
    Fit,
    Fitted,
    Group,
    GroupAnswer,
    Offer,
    Place,
    Refusal,
    Use,
    Want,
)
from frontwright.core.veneer.counts import machines_of
from frontwright.core.veneer.sawing import tallest

THIS_JOB = "this job"
NOT_CUT = "what is not yet cut"
MOST_RETRIED = 24  # pieces of a group up to which a worse answer than with one piece less is looked for


def enough(
    index: JobIndex, groups: Iterable[Group], question: str = THIS_JOB, lying: Wood | None = None, fit: Fit = first_fit
) -> Enough:
    """The answer for every group of a job, from its own pieces or from a whole rack (`lying`).

    `question`: `THIS_JOB` with what is cut already, `NOT_CUT`, or the id of a front: one more like it beside what is
    not yet cut. `fit` lays parts on pieces: the quick one of this chapter, or one that looks further.
    """
    there = lying if lying is not None else wood_of(index)
    judge = Judge(index, there)
    asked = [one for group in groups if not group.on_leaves for one in asked_of(group, question)]
    answers = [Asking(judge, group, fit).answer() for group in asked]
    contested = _used_twice(there, answers)
    if contested:
        at = [n for n, one in enumerate(answers) if any(use.piece in contested for use in one.uses)]
        turns = [_in_turn(judge, [asked[n] for n in order], fit) for order in (at, at[::-1])]
        turns[1].reverse()
        better = min(turns, key=_lacks_less)
        for n, answer in zip(at, better, strict=True):
            answers[n] = answer
    return Enough(question, tuple(answers))


def _used_twice(lying: Wood, answers: Iterable[GroupAnswer]) -> set[str]:
    """Pieces that several groups count on, more of them than there are."""
    used = Counter[str]()
    for answer in answers:
        used.update({use.piece: use.count for use in answer.uses})
    return {piece.id for piece in lying.pieces if used[piece.id] > piece.count}


def _lacks_less(answers: Sequence[GroupAnswer]) -> tuple[int, int]:
    """Smaller is better: few groups of which something is missing, then few parts."""
    missing = [one.need - one.have for one in answers]
    return sum(one > 0 for one in missing), sum(missing)


def _in_turn(judge: Judge, groups: Iterable[Group], fit: Fit) -> list[GroupAnswer]:
    """The groups asked one after the other: what one takes is not there for the next."""
    answers = []
    for group in groups:
        answer = Asking(judge, group, fit).answer()
        answers.append(answer)
        used = {use.piece: use.count for use in answer.uses}
        judge = Judge(judge.index, judge.wood.less(used), judge.sawn)
    return answers


def asked_of(group: Group, question: str) -> Iterator[Group]:
    """The group with the wants that the question is about; nothing where it has none of them."""
    wants = group.wants
    if question == THIS_JOB:
        wants = tuple(replace(want, made=0) for want in wants)
    elif question != NOT_CUT:
        more = any(question in want.each for want in wants)
        wants = tuple(replace(w, copies=w.copies + w.each.get(question, 0)) for w in wants) if more else ()
    wants = tuple(want for want in wants if want.open)
    if wants:
        yield replace(group, wants=wants)


@dataclass(slots=True)
class Asking:
    """One group asked: the pieces held against it, and what is tried with them."""

    judge: Judge
    group: Group
    fit: Fit

    def answer(self) -> GroupAnswer:
        held = self.judge.candidates(self.group)
        free = [one for one in held if one.fits]
        uses, fitted, refused = self.best(free)
        need = sum(want.open for want in self.group.wants)
        conditions = tuple(self._conditions(held, free, fitted)) if fitted.lacking else ()
        clears = [one for one in conditions if not one.still]
        said: Answered = "yes" if not fitted.lacking else "yes, if" if clears else "no"
        buy = least_purchase(self.judge, self.group, fitted.missing, self.fit) if fitted.lacking else ()
        others = (*(one for one in held if not one.fits), *refused)
        return GroupAnswer(
            group=self.group,
            answer=said,
            need=need,
            have=need - fitted.lacking,
            uses=uses,
            refused=others,
            conditions=tuple(clears or conditions),
            short=fitted.missing,
            buy=buy,
            places=fitted.places,
        )

    def best(self, free: Sequence[Candidate]) -> tuple[tuple[Use, ...], Fitted, tuple[Candidate, ...]]:
        """What is used, where it lies, and pieces that another batch keeps out."""
        if self.group.cut == "billets":
            return *self._leaves(self.group.wants, free, self.judge), ()
        lots = {want.lot for want in self.group.wants if want.lot and want.open}
        if not lots:
            fitted = self.laid(self.group.wants, free)
            return uses_of(fitted, self.group.wants), fitted, ()
        return self._of_one_lot(free)

    def _of_one_lot(self, free: Sequence[Candidate]) -> tuple[tuple[Use, ...], Fitted, tuple[Candidate, ...]]:
        """Parts of one lot come from one batch or are all bought: a batch that holds some of them only is left."""
        bound = [want for want in self.group.wants if want.lot]
        loose = [want for want in self.group.wants if not want.lot]
        begun = self.group.batch
        batches = [begun] if begun is not None else list(dict.fromkeys(one.batch for one in free))
        for batch in batches:
            mine = [one for one in free if one.batch == batch]
            if not self.could_hold(bound, mine):
                continue
            fitted = self.laid(bound, mine)
            if not fitted.lacking:
                rest = self.laid(loose, [one for one in free if one.piece.id not in fitted.used])
                both = Fitted((*fitted.places, *rest.places), rest.missing)
                return uses_of(both, self.group.wants), both, ()
        rest = self.laid(loose, free)
        missing = {want.id: want.open for want in bound if want.open} | dict(rest.missing)
        fitted = Fitted(rest.places, missing)
        kept_out = [one for one in free if one.piece.id not in rest.used]
        batch_facts = [replace(o, refusals=(Refusal("batch", facts={"is": o.piece.batch}),)) for o in kept_out]
        return uses_of(fitted, self.group.wants), fitted, tuple(batch_facts)

    def could_hold(self, wants: Sequence[Want], pieces: Sequence[Candidate]) -> bool:
        need = sum(w.open * w.length.units * w.width.units for w in wants)
        return need <= sum(o.piece.count * o.length.units * o.width.units for o in pieces)

    def laid(self, wants: Sequence[Want], pieces: Sequence[Candidate]) -> Fitted:
        """Hidden parts look among the plain pieces first; one piece more never makes it worse."""
        offers = [self.judge.offer(one) for one in self._in_order(wants, pieces)]
        best = self.fit(self.group, wants, offers)
        given = [self.judge.offer(one) for one in pieces]
        tried = () if offers == given else (given[:count] for count in range(len(given), 0, -1)[:MOST_RETRIED])
        for order in chain(tried, self._small_first(wants, pieces)):
            if not best.lacking:
                break
            best = min(best, self.fit(self.group, wants, order), key=lambda one: one.lacking)
        return best

    def _small_first(self, wants: Sequence[Want], pieces: Sequence[Candidate]) -> Iterator[list[Offer]]:
        """The least piece filled first, so that a large one stays for what needs it; then without the last pieces, as
        long as the others could hold everything."""
        for count in range(len(pieces), 1, -1)[:MOST_RETRIED]:
            if not self.could_hold(wants, pieces[:count]):
                return
            least = sorted(pieces[:count], key=lambda one: one.length.units * one.width.units)
            yield [self.judge.offer(one) for one in least]

    def _in_order(self, wants: Sequence[Want], pieces: Sequence[Candidate]) -> list[Candidate]:
        if any(want.seen == "hidden" for want in wants):
            return sorted(pieces, key=lambda one: one.piece.grade not in ("hidden", "plain"))
        return list(pieces)

    def _leaves(
        self, wants: Sequence[Want], free: Sequence[Candidate], judge: Judge, *, rests: bool = False
    ) -> tuple[tuple[Use, ...], Fitted]:
        offers = [(one, judge.offer(one)) for one in free]
        leaves = leaves_from(self.group, wants, offers, longer(judge.index), rests=rests)
        places = tuple(
            Place(b.piece, b.copy, want, at + 1, b.at, ZERO, b.length, ZERO)
            for at, b in enumerate(leaves.billets)
            for want, _ in b.gives
        )
        by_piece: dict[str, dict[str, None]] = {}
        for billet in leaves.billets:
            by_piece.setdefault(billet.piece, {}).update((want, None) for want, _ in billet.gives)
        copies = {b.piece: len({o.copy for o in leaves.billets if o.piece == b.piece}) for b in leaves.billets}
        uses = tuple(Use(piece, copies[piece], tuple(of)) for piece, of in by_piece.items())
        return uses, Fitted(places, leaves.missing)

    def _lacking(self, wants: Sequence[Want], free: Sequence[Candidate]) -> int:
        """What is missing with these pieces, whatever batch they are of."""
        loose = [replace(want, lot="") for want in wants]
        if self.group.cut == "billets":
            return self._leaves(loose, free, self.judge)[1].lacking
        return self.laid(loose, free).lacking

    def _conditions(self, held: Sequence[Candidate], free: Sequence[Candidate], fitted: Fitted) -> Iterator[Condition]:
        """One thing each; those that clear nothing at all are not told."""
        yield from (one for one in self._tried(held, free, fitted) if one.still < fitted.lacking)

    def _tried(self, held: Sequence[Candidate], free: Sequence[Candidate], fitted: Fitted) -> Iterator[Condition]:
        for one in held:
            if [r.kind for r in one.refusals] == ["reserved"]:
                still = self._with_piece(replace(one, refusals=()), free, fitted)
                yield Condition("release", one.piece.id, still=still, facts=one.refusals[0].facts)
        yield from self._released_in_part(held)
        if any(want.lot for want in self.group.wants):
            yield Condition("other batch", self.group.id, still=self._lacking(self.group.wants, free))
        if self.group.cut == "billets":
            yield from self._sawn_otherwise(free)
        elif self.group.cut == "boards":
            yield from self._glued(free or held)
            yield from self._narrower(held)

    def _released_in_part(self, held: Sequence[Candidate]) -> Iterator[Condition]:
        """Pieces of which another job has reserved so much: the whole of each."""
        here = {one.piece.id for one in held if {r.kind for r in one.refusals} <= {"short", "narrow", "defects"}}
        for piece, facts in self.judge.held_in_part():
            if piece in here:
                judge = self.judge.released(piece)
                there = [one for one in judge.candidates(self.group) if one.fits]
                still = Asking(judge, self.group, self.fit).best(there)[1].lacking
                yield Condition("release", piece, still=still, facts=facts)

    def _with_piece(self, piece: Candidate, free: Sequence[Candidate], fitted: Fitted) -> int:
        """What would be missing with one piece more: it holds what found no place before, else all is laid anew."""
        if self.group.cut == "billets" or any(want.lot for want in self.group.wants):
            return self.best([*free, piece])[1].lacking
        last = self.fit(self.group, _missing(self.group.wants, fitted), [self.judge.offer(piece)]).lacking
        both = [*free, piece]
        if not last or not self.could_hold(self.group.wants, both):
            return last
        return min(last, self.laid(self.group.wants, both).lacking)

    def _sawn_otherwise(self, free: Sequence[Candidate]) -> Iterator[Condition]:
        still = self._leaves(self.group.wants, free, self.judge, rests=True)[1].lacking
        yield Condition("keep-backs", still=still)
        widest = max((want.width for want in self.group.wants), default=ZERO)
        for machine in machines_of(self.judge.index)[1:]:
            most = tallest(self.judge.index, machine)
            if most is not None and not most.rests and widest > most.length:
                continue  # F54: it does not reach through
            judge = Judge(self.judge.index, self.judge.wood, sawn_by(self.judge.index, machine))
            there = [one for one in judge.candidates(self.group) if one.fits]
            yield Condition("machine", machine.id, still=self._leaves(self.group.wants, there, judge)[1].lacking)

    def _glued(self, there: Sequence[Candidate]) -> Iterator[Condition]:
        """Parts that are wider than every piece, glued up from two halves."""
        widest = max((one.width for one in there), default=ZERO)
        joint = assumed(self.judge.index.unit, "glue joint").length
        wide = [w for w in self.group.wants if w.open and w.staves == 1 and widest < w.width]
        halves = {w.id: Length(-(-w.width.units // 2)) + joint for w in wide}
        if not wide or any(half > widest for half in halves.values()):
            return
        wants = tuple(_halved(w, halves[w.id]) if w.id in halves else w for w in self.group.wants)
        still = self._with(wants)
        yield Condition("glue up", ", ".join(halves), still=still)

    def _narrower(self, held: Sequence[Candidate]) -> Iterator[Condition]:
        """Rails so much narrower that a piece which is narrow by a little would do."""
        most = assumed(self.judge.index.unit, "narrower").length
        steps = {
            want.width - one.width
            for one in held
            if {r.kind for r in one.refusals} <= {"narrow"}
            for want in self.group.wants
            if want.open and want.rail and ZERO < want.width - one.width <= most
        }
        for by in sorted(steps)[:1]:
            wants = tuple(replace(w, width=w.width - by) if w.rail else w for w in self.group.wants)
            rails = ", ".join(w.id for w in self.group.wants if w.rail and w.open)
            yield Condition("narrower", rails, by, self._with(wants))

    def _with(self, wants: tuple[Want, ...]) -> int:
        """What would be missing of parts of other sizes: pieces are held against these anew."""
        group = replace(self.group, wants=wants)
        free = [one for one in self.judge.candidates(group) if one.fits]
        return Asking(self.judge, group, self.fit).best(free)[1].lacking


def _halved(want: Want, width: Length) -> Want:
    return replace(want, width=width, copies=want.copies * 2, made=want.made * 2, staves=2)


def _missing(wants: Sequence[Want], fitted: Fitted) -> list[Want]:
    """The parts that found no place, as many of each."""
    return [replace(w, made=w.copies - fitted.missing[w.id]) for w in wants if fitted.missing.get(w.id)]


def uses_of(fitted: Fitted, wants: Sequence[Want]) -> tuple[Use, ...]:
    """What is used of each piece, for which parts in the order in which they are wanted."""
    on: dict[str, set[str]] = {}
    for place in fitted.places:
        on.setdefault(place.offer, set()).add(place.want)
    used = fitted.used
    return tuple(Use(piece, used[piece], tuple(w.id for w in wants if w.id in names)) for piece, names in on.items())


def kept_out(index: JobIndex, groups: Iterable[Group]) -> Iterator[tuple[Group, Candidate, bool]]:
    """Pieces of the job that only the rule of one lot keeps out of a group, and those that it lets in (True)."""
    judge = Judge(index, wood_of(index))
    for group in groups:
        bound = [want for want in group.wants if want.lot and want.open]
        if group.cut == "billets" or not bound:
            continue
        free = [one for one in judge.candidates(group) if one.fits]
        asking = Asking(judge, group, first_fit)
        for batch in dict.fromkeys(one.batch for one in free):
            mine = [one for one in free if one.batch == batch]
            holds = asking.could_hold(bound, mine) and not asking.laid(bound, mine).lacking
            yield from ((group, one, holds) for one in mine)
