"""How thick the skin of a run's end is: chosen, sawn from leaves, or usual."""

from __future__ import annotations

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import Allowances, PanelBuild
from frontwright.core.job.index import JobIndex


def strip_thickness(index: JobIndex) -> Figure:
    """What is left of a leaf as a strip: slice less glue-face loss and the strips' own show-face loss."""
    build = first_veneered(index)
    if not build.id:
        return assumed(index.unit, "facing")
    return total(
        "strip thickness",
        plus(entered(index.unit, build.slice, "slice")),
        minus(entered(index.unit, build.glue_loss, "glue loss")),
        minus(strip_show_loss(index)),
    )


def strip_show_loss(index: JobIndex) -> Figure:
    allowances = index.job.allowances.get("allowances") or Allowances()
    return entered(index.unit, allowances.strip_show_loss, "strip show loss")


def skin_thickness(index: JobIndex, run: str, side: str) -> Figure | None:
    """The skin at an end of a run; None where there is none."""
    end = index.ends.get((run, side))
    if end is None or end.skin == "none":
        return None
    if (chosen := measured(end.skin_thickness, f"skin at the {side} end")) is not None:
        return Figure(chosen.name, chosen.value, "chosen")
    return strip_thickness(index) if end.skin == "sawn" else assumed(index.unit, "sheet")


def first_veneered(index: JobIndex) -> PanelBuild:
    """The job's first shop-made panel build, or an empty one: its slice and losses are those of strips too."""
    return next((b for b in index.job.panel_builds.values() if b.kind == "veneered"), PanelBuild(""))
