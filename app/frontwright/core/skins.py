"""The skin of a run's end: how thick it is (chosen, sawn from leaves, or usual), how wide and long."""

from __future__ import annotations

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.job import End, PanelBuild, Run
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Typed


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
    return entered(index.unit, index.allowances.strip_show_loss, "strip show loss")


def skin_thickness(index: JobIndex, run: str, side: str) -> Figure | None:
    """The skin at an end of a run; None where there is none."""
    end = index.ends.get((run, side))
    if end is None or end.skin == "none":
        return None
    if (chosen := measured(end.skin_thickness, f"skin at the {side} end")) is not None:
        return Figure(chosen.name, chosen.value, "chosen")
    return strip_thickness(index) if end.skin == "sawn" else assumed(index.unit, "sheet")


def skin_part(run: str, side: str) -> str:
    """The id of the part that the skin of a side of a run is."""
    return f"{run} {side} skin"


def depth_seen(index: JobIndex, run: Run, end: End) -> Figure:
    """How wide a skin is: as deep as the end is seen, at the bottom where that is more; until it is read as usual."""
    key = "end depth wall" if run.stands == "wall" else "end depth base"
    name = f"depth seen at the {end.side} end"
    depth, low = entered(index.unit, end.depth_seen, key, name), measured(end.depth_bottom, f"{name}, bottom")
    return depth if low is None else most(name, [depth, low] if depth.source != "assumed" else [low])


def rough_skin(index: JobIndex, side: str, height: Figure, depth: Figure) -> tuple[Figure, Figure]:
    """Rough length and width of a skin: longer as strips are, wider by its scribe."""
    longer = entered(index.unit, index.allowances.strip_length, "strip length")
    scribe = entered(index.unit, index.allowances.skin_scribe, "skin scribe")
    return (
        total(f"skin at the {side} end, rough length", plus(height), plus(longer)),
        total(f"skin at the {side} end, rough width", plus(depth), plus(scribe)),
    )


def first_veneered(index: JobIndex) -> PanelBuild:
    """The job's first shop-made panel build, or an empty one: its slice and losses are those of strips too."""
    return next((b for b in index.job.panel_builds.values() if b.kind == "veneered"), PanelBuild(""))


def strip_of(index: JobIndex, run: str, chosen: Typed | None, name: str) -> Figure:
    """How thick strips of a run are: as chosen, else what is left of a leaf, or the usual of bought and milled ones."""
    told = measured(chosen, name)
    if told is not None:
        return Figure(told.name, told.value, "chosen")
    row = index.job.facings.get(run)
    return strip_thickness(index) if row is None or row.made_of == "sawn" else assumed(index.unit, "facing")


def face_strip(index: JobIndex, run: str) -> Figure | None:
    """What covers the frame faces of a run; None where they stay bare."""
    row = index.job.facings.get(run)
    return strip_of(index, run, row.thickness, f"facing of {run}") if row is not None and row.faces else None


def inside_edge(index: JobIndex, run: str) -> Figure | None:
    """What covers the inside edges of a run's openings, likewise."""
    row = index.job.facings.get(run)
    if row is None or row.inside_edges == "none":
        return None
    return strip_of(index, run, row.inside_thickness, f"strips on the inside edges of {run}")
