"""What tables and forms may ask for: the only way from the window into the job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from frontwright.core.lengths import Display
from frontwright.desk.contents import Outcome


class Hands(Protocol):
    """Everything a table or form can have done. `key` is a cell's key, `text` what a person typed."""

    @property
    def display(self) -> Display: ...

    @property
    def selected(self) -> str:
        """The subject that is selected on the page."""
        ...

    def enter(self, key: str, text: str, /) -> Outcome:
        """Give a cell this text."""
        ...

    def paste(self, keys: Sequence[str], texts: Sequence[str], /) -> Outcome:
        """Give many cells their texts, as one edit."""
        ...

    def act(self, key: str, /) -> Outcome:
        """Have an action done."""
        ...

    def select(self, subject: str) -> None:
        """Make this the selected subject, in table and drawing alike."""
        ...

    def draft(self, key: str, /) -> str | None:
        """What was half typed into a cell, if anything."""
        ...

    def keep_draft(self, key: str, text: str) -> None: ...

    def drop_draft(self, key: str) -> None: ...

    def open_working(self, key: str, /) -> bool:
        """Show the working of a cell's figure; False where it has none."""
        ...

    def close_working(self) -> bool:
        """False where none was open."""
        ...

    def go_on(self, key: str, step: int, wish: str = "", /) -> bool:
        """Put the focus on the next cell (step 1) or the one before (-1) in measuring order; False at the end.

        `wish`: the key of the cell that the last edit asks for next.
        """
        ...

    def after(self, key: str, /) -> str:
        """The key of the next reading after a cell, passing over choices and names; "" after the last."""
        ...

    def say(self, text: str) -> None:
        """A line for the person, where notices stand."""
        ...


@dataclass(frozen=True, slots=True)
class OnlyLook:
    """Hands for a table that is shown without a job behind it: nothing in it can be changed."""

    display: Display
    selected: str = ""

    def enter(self, _key: str, _text: str) -> Outcome:
        return Outcome()

    def paste(self, _keys: Sequence[str], _texts: Sequence[str]) -> Outcome:
        return Outcome()

    def act(self, _key: str) -> Outcome:
        return Outcome()

    def select(self, subject: str) -> None:
        """Nothing else is to show what is selected."""

    def draft(self, _key: str) -> str | None:
        return None

    def keep_draft(self, key: str, text: str) -> None:
        """There is nothing to write in."""

    def drop_draft(self, key: str) -> None:
        """There is nothing to write in."""

    def open_working(self, _key: str) -> bool:
        return False

    def close_working(self) -> bool:
        return False

    def go_on(self, _key: str, _step: int, _wish: str = "") -> bool:
        return False

    def after(self, _key: str) -> str:
        return ""

    def say(self, text: str) -> None:
        """There is nobody to say it to."""
