"""An open job file or shop file: the one way to change what is entered, and what it has to do with the rack."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import cast

from sqlalchemy import delete

from frontwright.core.job import Job, Shop
from frontwright.core.stock.rack import Rack, RackMove
from frontwright.store import outbox, rows
from frontwright.store.kept_file import KeptFile
from frontwright.store.outbox import Intent
from frontwright.store.rack import RackBook
from frontwright.store.schema import OutboxTables, RackTables


class JobFile(KeptFile[Job]):
    """A job file. While it is open nobody else can open it; when the process ends it is free again, however it ends.

    What a step does on the rack is written with it as an intent, and confirmed when the rack has done it. A step
    that is taken back or done again writes its counter-moves as an intent likewise.
    """

    noun = "job"

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self._whole

    @property
    def mark(self) -> str:
        """What the rack knows this job by, whatever it is called and wherever its file stands."""
        with self._transaction():
            return outbox.mark(self._connection, self._outbox)

    @property
    def _outbox(self) -> OutboxTables:
        return cast(OutboxTables, self._schema.outbox)

    def apply(
        self,
        name: str,
        edit: Callable[[Job], Job],
        field: str | None = None,
        outbox: Sequence[RackMove] = (),
    ) -> Job:
        """As of any file. With an `outbox` the edit is a step of its own, and these moves are kept with it to be made:
        make them on the rack, then `confirm`; where the rack refuses, `take_back`.
        """
        if not outbox:
            return self._apply(name, edit, field)
        return self._apply(name, edit, field, lambda step: self._mean(Intent(step, "done", tuple(outbox))))

    def _mean(self, intent: Intent) -> None:
        outbox.write(self._connection, self._outbox, intent)

    def _swapped(self, step: int, *, back: bool) -> None:
        carried = outbox.carried(self._connection, self._outbox, step)
        if carried:
            mark = outbox.mark(self._connection, self._outbox)
            moves = tuple(outbox.counter(move, piece, mark) for move, piece in reversed(carried))
            self._mean(Intent(step, "undone" if back else "done again", moves))

    def intents(self) -> tuple[Intent, ...]:
        """What is still to be made or confirmed, the oldest first."""
        with self._transaction():
            return outbox.read(self._connection, self._outbox)

    def carries(self, *, back: bool) -> bool:
        """Whether the step that `undo` (`back`) or `redo` would swap carries moves of the rack."""
        with self._transaction():
            step = self._state.position if back else self._state.position + 1
            return bool(outbox.carried(self._connection, self._outbox, step))

    def confirm(self, *moves: str) -> None:
        """The rack has made these moves: they are open no longer."""
        with self._transaction():
            outbox.drop(self._connection, self._outbox, moves)

    def take_back(self, intent: Intent) -> bool:
        """The rack refuses an intent: the job is as before the step was done or undone, and the intent is dropped.

        If other steps came after it, its rows go back by a step of their own. False, and all stays, if those steps
        changed the same rows.
        """
        undone = intent.way == "undone"
        if self._state.position != intent.step - undone:
            return self._take_back_later(intent)
        with self._transaction():
            kept = rows.read_changes(self._connection, self._schema, intent.step)
            moves = self._swaps(kept)
            position = intent.step if undone else intent.step - 1
            if intent.way == "done":
                steps = self._schema.steps
                self._connection.execute(delete(steps).where(steps.c.number == intent.step))
            else:
                rows.write_changes(
                    self._connection, self._schema, intent.step, {(m.table, m.id): m.before for m in moves}
                )
                former = [(move.line.undoes, move.line.piece) for move in reversed(intent.moves)]
                outbox.carry(self._connection, self._outbox, intent.step, former)
            outbox.drop(self._connection, self._outbox, [move.id for move in intent.moves])
            state, new = self._put(moves, position), self._moved(moves)
        if intent.way == "done":
            self._names.pop(intent.step, None)
        self._typing = None
        self._take(new, moves, state)
        return True

    def _take_back_later(self, intent: Intent) -> bool:
        with self._transaction():
            kept = rows.read_changes(self._connection, self._schema, intent.step)
            later = rows.changed_after(self._connection, self._schema, intent.step, self._state.position)
            if intent.way != "done" or later & kept.keys():
                return False
            new = self._moved(self._swaps(kept))
        name = f"take back: {self._names.get(intent.step, '')}"
        self._apply(name, lambda _: new, None, lambda _: self._forget_carried(intent))
        return True

    def _forget_carried(self, intent: Intent) -> None:
        outbox.carry(self._connection, self._outbox, intent.step, [])
        outbox.drop(self._connection, self._outbox, [move.id for move in intent.moves])


class ShopFile(KeptFile[Shop]):
    """A shop file. Several windows may have it open: each edit is run on what stands in the file at that moment."""

    noun = "shop"
    _book: RackBook | None = None

    def _refresh(self) -> None:
        version = self._connection.exec_driver_sql("PRAGMA data_version").scalar_one()
        if getattr(self, "_version", version) != version and self._is_behind():
            self._typing = None
            self._load()
        self._version = version

    def _is_behind(self) -> bool:
        """Whether another changed more than the rack, which reads what it lacks by itself."""
        state = rows.read_state(self._connection, self._schema)
        return state != self._state or rows.step_names(self._connection, self._schema) != self._names

    @property
    def shop(self) -> Shop:
        """The shop as it stands in the file now."""
        with self._transaction():
            pass
        return self._whole

    # -- the rack

    @property
    def _rack(self) -> RackBook:
        if self._book is None:
            self._book = RackBook(self._connection, cast(RackTables, self._schema.rack))
        return self._book

    @property
    def rack(self) -> Rack:
        """The rack as it stands in the file now."""
        with self._transaction():
            return self._rack.current()

    def make(self, *moves: RackMove) -> tuple[RackMove, ...]:
        """Make moves on the rack, all or none, outside the shop's undo; one that was made already changes nothing.

        What comes back are those newly made, as they stand in the ledger. MoveRefused if the wood does not allow one;
        StoreError if the file cannot be written.
        """
        self._back_up()
        with self._transaction():
            return self._rack.make(moves)
