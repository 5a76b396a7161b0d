"""A file that is open: steps kept, taken back and done again, drafts, a copy before the first edit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, ClassVar, Self, cast

from sqlalchemy import Connection, delete, insert, select
from sqlalchemy.exc import DBAPIError

from frontwright.core.job import Job, Shop, Table
from frontwright.core.job.references import dangling
from frontwright.store import opening, outbox, rows, upgrade
from frontwright.store.columns import Cells
from frontwright.store.errors import StoreError
from frontwright.store.moves import Move, Numbers
from frontwright.store.rows import DamageError, State
from frontwright.store.schema import APPLICATION, VERSION, Noun, Schema, schema

LONGEST_DRAFT = 20_000


class KeptFile[W: (Job, Shop)]:
    """A file that is open: its content in memory, each edit in the file before it is there.

    `step` grows with each change of the content, back and forth alike, so that a view knows whether it is behind.
    """

    noun: ClassVar[Noun]

    def __init__(self, path: Path, connection: Connection, *, fresh: bool) -> None:
        self.path: Path = path
        self.step: int = 0
        self._connection: Connection = connection
        self._schema: Schema = schema(self.noun)
        self._backed_up: bool = fresh  # of a file just made there is nothing older to keep
        self._typing: str | None = None  # the field of the last step, while another edit of it still belongs to it
        with self._transaction():
            rows.check_whole(connection)
            self._load()

    # -- opening and closing

    @classmethod
    def open(cls, path: Path) -> Self:
        """Open a file that is there; StoreError, with the file left as it is, if it is not one that can be opened."""
        path = path.resolve()
        version = opening.check(path, cls.noun)
        if version < VERSION[cls.noun]:
            upgrade.upgrade(path, cls.noun, version, lambda copy: cls._at(copy).close())
        return cls._at(path)

    @classmethod
    def _at(cls, path: Path, *, fresh: bool = False) -> Self:
        connection = opening.connect(path, cls.noun)
        try:
            return cls(path, connection, fresh=fresh)
        except BaseException:
            opening.disconnect(connection)
            raise

    @classmethod
    def create(cls, path: Path, whole: W) -> Self:
        """Make a new file with this content and open it; StoreError if the place is taken or cannot be written to.

        It is written beside its place under another name first, so that there is never half a file.
        """
        path = path.resolve()
        new = path.with_name(path.name + ".new")
        opening.check_place(path, cls.noun)
        try:
            new.unlink(missing_ok=True)
            cls._write_new(new, whole)
            new.rename(path)
        except OSError as error:
            raise StoreError(f"{path} cannot be made: {error.strerror or error}.") from error
        finally:
            with suppress(OSError):
                new.unlink(missing_ok=True)
        return cls._at(path, fresh=True)

    @classmethod
    def _write_new(cls, path: Path, whole: W) -> None:
        missing = dangling(whole)
        if missing:
            raise StoreError(missing)
        tables = schema(cls.noun)
        empty = type(whole)(**{name: Table[Any]() for name in tables.kinds})
        connection = opening.connect(path, cls.noun, new=True)
        try:
            with connection.begin():
                connection.exec_driver_sql(f"PRAGMA application_id={APPLICATION[cls.noun]}")
                connection.exec_driver_sql(f"PRAGMA user_version={VERSION[cls.noun]}")
                tables.metadata.create_all(connection)
                total = rows.write(connection, tables, Numbers({}).moves(empty, whole), rows.NO_ROWS)
                rows.write_state(connection, tables, State(0, total))
                if tables.outbox is not None:
                    outbox.write_mark(connection, tables.outbox)
        except DBAPIError as error:
            raise opening.failure(path, cls.noun, error) from error
        finally:
            opening.disconnect(connection)

    def close(self) -> None:
        """Give the file back; a second time does nothing."""
        opening.disconnect(self._connection)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *raised: object) -> None:
        self.close()

    # -- edits

    def apply(self, name: str, edit: Callable[[W], W], field: str | None = None) -> W:
        """Run an edit and keep what it changed as a step called `name`; the content after it comes back.

        Edits of the same `field` that follow each other in one sitting are one step. An edit that changes nothing makes
        no step. StoreError if the file cannot be written, or if the edit leaves a row that names one which is not
        there; whatever the edit raises is passed on. In each of these cases all is as it was.
        """
        return self._apply(name, edit, field)

    def _apply(
        self, name: str, edit: Callable[[W], W], field: str | None, also: Callable[[int], None] | None = None
    ) -> W:
        """`also` is run with the number of the step within its transaction; there is a step then in any case."""
        if not self._backed_up and (also or edit(self._whole) != self._whole):
            self._back_up()
        with self._transaction():
            new = edit(self._whole)
            moves = self._numbers.moves(self._whole, new)
            if not moves and also is None:
                return self._whole
            self._check(new, moves)
            position = self._record(name, moves, merging=also is None and field is not None and field == self._typing)
            if also is not None:
                also(position)
            state = self._put(moves, position)
        gone = position < self._state.position
        self._typing = None if gone or also is not None else field
        self._rename(position, None if gone else name)
        self._take(new, moves, state)
        return self._whole

    def _rename(self, position: int, name: str | None) -> None:
        """Forget the names of steps after `position`, and give the one there its name."""
        while next(reversed(self._names), 0) > position:
            self._names.popitem()
        if name is not None:
            self._names[position] = name

    def _check(self, new: W, moves: list[Move]) -> None:
        dropped = any(move.after is None for move in moves)
        missing = dangling(new, None if dropped else [(move.table, move.id) for move in moves])
        if missing:
            raise StoreError(missing)

    def _record(self, name: str, moves: list[Move], *, merging: bool) -> int:
        """Write the step's name and former rows; which step stands last then comes back."""
        if merging:
            return self._merge(name, moves)
        number = self._state.position + 1
        rows.write_step(self._connection, self._schema, number, name)
        rows.write_changes(self._connection, self._schema, number, {(m.table, m.id): m.before for m in moves})
        return number

    def _merge(self, name: str, moves: list[Move]) -> int:
        """Take moves into the last step. A row that is what it was before the step is no change; no change, no step."""
        number = self._state.position
        kept = rows.read_changes(self._connection, self._schema, number)
        undone = [(m.table, m.id) for m in moves if (m.table, m.id) in kept and kept[m.table, m.id] == m.after]
        more = {(m.table, m.id): m.before for m in moves if (m.table, m.id) not in kept}
        if len(kept) + len(more) == len(undone):
            self._connection.execute(delete(self._schema.steps).where(self._schema.steps.c.number == number))
            return number - 1
        rows.rename_step(self._connection, self._schema, number, name)
        rows.write_changes(self._connection, self._schema, number, more)
        rows.drop_changes(self._connection, self._schema, number, undone)
        return number

    def undo(self) -> W:
        """Take the last step back; the content after it comes back, unchanged if there is no step."""
        return self._swap(back=True)

    def redo(self) -> W:
        """Do the step that was taken back last again; the content comes back, unchanged if there is none."""
        return self._swap(back=False)

    def _swap(self, *, back: bool) -> W:
        """Put the rows kept with a step in place of those of the file, and keep these with it instead."""
        if (self.can_undo if back else self.can_redo) is not None:
            self._back_up()
        with self._transaction():
            step = self._state.position if back else self._state.position + 1
            if step not in self._names:
                return self._whole
            kept = rows.read_changes(self._connection, self._schema, step)
            moves = self._swaps(kept)
            rows.write_changes(self._connection, self._schema, step, {(m.table, m.id): m.before for m in moves})
            state = self._put(moves, step - 1 if back else step)
            self._swapped(step, back=back)
            new = self._moved(moves)
        self._typing = None
        self._take(new, moves, state)
        return self._whole

    def _swaps(self, kept: Mapping[tuple[str, str], Cells | None]) -> list[Move]:
        """The moves that put kept rows in place of those that stand."""
        return [
            Move(table, key, self._numbers.cells(table, getattr(self._whole, table).get(key)), cells)
            for (table, key), cells in kept.items()
        ]

    def _swapped(self, step: int, *, back: bool) -> None:
        """What else is done when a step is taken back or done again, within its transaction."""

    def _put(self, moves: list[Move], position: int) -> State:
        state = State(position, rows.write(self._connection, self._schema, moves, self._state.total))
        rows.write_state(self._connection, self._schema, state)
        return state

    def _moved(self, moves: list[Move]) -> W:
        new = self._whole
        for move in moves:
            row = rows.row_after(self._schema, move)
            new = new.drop(self._schema.kinds[move.table], move.id) if row is None else new.put(row)
        return new

    @property
    def can_undo(self) -> str | None:
        """The name of the step that `undo` takes back; None if there is none."""
        return self._names.get(self._state.position)

    @property
    def can_redo(self) -> str | None:
        """The name of the step that `redo` does again; None if there is none."""
        return self._names.get(self._state.position + 1)

    @property
    def steps(self) -> tuple[str, ...]:
        """The names of the steps that stand done, the oldest first."""
        return tuple(name for number, name in self._names.items() if number <= self._state.position)

    # -- what is being typed

    def keep_draft(self, place: str, text: str) -> None:
        """Keep text that is being typed at a place of the program, outside undo; StoreError over 20,000 characters."""
        if len(text) > LONGEST_DRAFT:
            raise StoreError(f"{place}: {len(text):,} characters are more than the {LONGEST_DRAFT:,} that are kept.")
        cells = rows.with_seal("drafts", {"place": place, "text": text})
        with self._transaction():
            self._connection.execute(insert(self._schema.drafts).prefix_with("OR REPLACE"), cells)

    def drafts(self) -> dict[str, str]:
        """The text being typed at each place where there is some."""
        with self._transaction():
            found = self._connection.execute(select(self._schema.drafts)).mappings().all()
        return {cells["place"]: cells["text"] for cells in found}

    def drop_draft(self, place: str) -> None:
        """Forget the text at a place; nothing happens if there is none."""
        with self._transaction():
            self._connection.execute(delete(self._schema.drafts).where(self._schema.drafts.c.place == place))

    # -- copies

    def copy_to(self, path: Path) -> None:
        """Write a copy of the file, with its steps, to a place that is free; StoreError if it cannot be."""
        opening.check_place(path.resolve(), self.noun)
        opening.copy(opening.driver(self._connection), path.resolve())

    def _back_up(self) -> None:
        """Before the first edit of a sitting: a copy beside the file, in place of that of the sitting before.

        Never within a transaction: SQLite does not copy what is being written, it waits for the end of it.
        """
        if not self._backed_up:
            opening.copy(opening.driver(self._connection), opening.backup_path(self.path))
            self._backed_up = True

    # -- inside

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        """All or nothing; what another program wrote meanwhile is read first."""
        try:
            with self._connection.begin():
                self._refresh()
                yield
        except DamageError as error:
            raise opening.damaged(self.path, self.noun, str(error)) from error
        except DBAPIError as error:
            raise opening.failure(self.path, self.noun, error) from error
        except UnicodeEncodeError as error:
            raise StoreError(f"{self.path.name}: this cannot be kept in a file ({error}).") from error

    def _refresh(self) -> None:
        pass

    def _load(self) -> None:
        content = rows.load(self._connection, self._schema)
        self._names = rows.step_names(self._connection, self._schema)
        tables: dict[str, Any] = {name: Table(found) for name, found in content.rows.items()}
        whole = self._schema.whole(**tables)
        self._numbers = Numbers(content.entered)
        self._take(cast(W, whole), [], content.state)

    def _take(self, whole: W, moves: list[Move], state: State) -> None:
        """Hold in memory what now stands in the file."""
        self._whole: W = self._numbers.arranged(whole, moves)
        self._state = state
        self.step += 1
