"""The shop's own entries beside an open job: typed into, kept, taken out, each step with its way back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from frontwright.core.job import Job, Shop
from frontwright.core.lengths import Display
from frontwright.core.plan import Plan
from frontwright.desk.contents import Outcome
from frontwright.desk.edits import learning, making
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.entry import entered_in_shop
from frontwright.desk.edits.rows import table
from frontwright.desk.keys import Place
from frontwright.desk.pages.view import SHOP
from frontwright.desk.wording.fields import cell_name

if TYPE_CHECKING:
    from frontwright.store.files import ShopFile

SHOP_VERBS = ("keep-in-shop", "shop-new", "shop-delete")


class ShopDesk:
    """The shop file, or why there is none; without it the shop is empty and every change is refused."""

    def __init__(self, file: ShopFile | None, problem: str = "") -> None:
        self.file = file
        self.problem = problem
        self.edited_last = True  # whether the last edit was one of the shop's

    @property
    def shop(self) -> Shop:
        """The entries as the file has them now."""
        return self.file.shop if self.file is not None else Shop()

    def close(self) -> None:
        if self.file is not None:
            self.file.close()

    def enter(self, place: str, text: str, display: Display) -> str:
        """Take an entry into a cell of the shop; gives a notice, or raises Refused."""
        inner = place.removeprefix(SHOP)
        _, said = entered_in_shop(self.shop, inner, text, display)
        where = Place.of(inner)
        name = f"{cell_name(self.shop, where.table, where.row, where.field)}, in the shop"
        self._change(name, lambda shop: entered_in_shop(shop, inner, text, display)[0], place)
        return said

    def act(self, verb: str, objects: list[str], job: Job) -> Outcome:
        """Keep an entry of the job, begin one, or take one out."""
        name, row = objects[0], objects[-1]
        if name not in Shop.kinds():
            raise Refused(f"There are no entries in “{name}”: choose another page.")
        if verb == "keep-in-shop":
            if row not in table(job, name):
                raise Refused(f"“{row}” is no longer there: choose another row.")
            self._change(f"keep {row} in the shop", lambda shop: making.kept_in_shop(shop, job, name, row))
            return Outcome(said=f"{row} is in the shop now", select=row)
        if verb == "shop-new":
            self._change("new entry of the shop", lambda shop: making.new_shop_entry(shop, name)[0])
            return Outcome()
        self._change(f"take {row} out of the shop", lambda shop: making.without_shop_entry(shop, name, row))
        return Outcome(said=f"{row} is out of the shop")

    def learn(
        self, job: Job, plan: Plan, name: str, display: Display, wish: tuple[str, bool]
    ) -> tuple[Outcome, list[learning.SeenLoss]]:
        """Put what the saws of a job lost among the learned figures (F76): `wish` is the billet, "" for all that are
        done, and whether outliers are counted all the same."""
        billet, all_the_same = wish
        seen = learning.seen_losses(job, plan, billet)
        held = learning.outliers(self.shop, seen)
        counted = seen if all_the_same else [one for one in seen if one not in held]
        if not seen:
            problem = "There is nothing to learn: no slice was measured that is not counted already."
            return Outcome(problem=problem), []
        if counted:
            self._change("learn", lambda shop: learning.learned_shop(shop, counted, name, display.unit))
        said = " ".join(learning.told(self.shop, counted, display))
        asked = " ".join(learning.asked(self.shop, held, display)) if not all_the_same else ""
        return Outcome(said=f"{said} {asked}".strip()), counted

    def _change(self, name: str, change: making.ShopChange, field: str | None = None) -> None:
        if self.file is None:
            raise Refused(self.problem or "There is no shop file open.")
        self.file.apply(name, change, field)
        self.edited_last = True
