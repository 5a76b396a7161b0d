"""What each page shows: one module a chapter, each a function from the state of the desk to `PageContents`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache

from frontwright.desk.contents import PageContents
from frontwright.desk.pages.view import View

Page = Callable[[View], PageContents]


@cache
def pages() -> Mapping[str, Page]:
    """The pages by chapter."""
    from frontwright.desk.pages.bill import bill_page
    from frontwright.desk.pages.brief import brief_page
    from frontwright.desk.pages.cuts import cuts_page
    from frontwright.desk.pages.facing import facing_page
    from frontwright.desk.pages.fronts import fronts_page
    from frontwright.desk.pages.making import making_page
    from frontwright.desk.pages.rack import rack_page
    from frontwright.desk.pages.sheets import sheets_page
    from frontwright.desk.pages.shop import shop_page
    from frontwright.desk.pages.site import site_page
    from frontwright.desk.pages.survey import survey_page
    from frontwright.desk.pages.veneer import veneer_page

    return {
        "brief": brief_page,
        "survey": survey_page,
        "fronts": fronts_page,
        "making": making_page,
        "veneer": veneer_page,
        "facing": facing_page,
        "rack": rack_page,
        "cuts": cuts_page,
        "site": site_page,
        "bill": bill_page,
        "sheets": sheets_page,
        "shop": shop_page,
    }
