"""The checks of the space: `swing` (F23), `corner` (F24), `drawer-room` (F12), `end-gap` (F43); have and need each."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.pulls import off_the_front
from frontwright.core.hardware.result import PullPlan
from frontwright.core.space.result import (
    DrawerRoom,
    Drawn,
    EndGap,
    Flap,
    Meeting,
    Seat,
    SpacePlan,
    Swing,
    TurningRoom,
)

_CASE = {"closed": "closed", "past": "past", "hung here": "hung here", "hung here, pulls meet": "pulls meet"}


def space_checks(plan: SpacePlan, fronts: FrontsPlan) -> Iterator[Check]:
    """Every rule of the space, looked at wherever something was entered that it speaks about."""
    for swing in plan.swings.values():
        yield _swing(swing)
    for flap in plan.flaps.values():
        yield _flap(flap)
    for room in plan.turning.values():
        yield _turning(room)
    for drawn in plan.drawn.values():
        if drawn.have is not None:
            yield _drawn(drawn)
    for pull in plan.pulls.values():
        if pull.chosen:
            yield from _off(pull, fronts.fronts[pull.front])
    yield from (_corner(meeting) for meeting in plan.meetings)
    yield from (_drawer_room(room) for room in plan.drawers)
    yield from (_end_gap(gap) for gap in plan.gaps)
    yield from (_seat(seat, fronts.fronts[seat.front].look.hinge or "") for seat in plan.seats)


def degrees(angle: Fraction | int) -> str:
    """An angle as it is told: "87.5°"; never more than two places."""
    hundredths = round(Fraction(angle) * 100)
    whole, rest = divmod(hundredths, 100)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".") + "°" if rest else f"{whole}°"


def _swing(swing: Swing) -> Check:
    """F23: a door that opens less far than a right angle, or than the drawer behind it takes."""
    value = degrees(Fraction(swing.angle.units)) if swing.angle is not None else None
    level: CheckLevel = "warn" if swing.short and swing.read else "ok"
    case = ""
    if level != "ok":
        case = "drawer" if swing.drawer else "hinge" if swing.by == "hinge" else "short"
    facts: dict[str, Fact] = {
        "by": swing.by,
        "of": swing.stopped_by,
        "name": swing.name,
        "pull": int(swing.with_pull),
        "drawer": swing.drawer,
    }
    limit = degrees(Fraction(swing.need.units))
    ways = (WayOut("look at", swing.front),) if case else ()
    return Check("swing", (swing.front,), value, limit, level, judged(level), case, facts, ways)


def _flap(flap: Flap) -> Check:
    """F23: a flap that opens less far than level."""
    value = degrees(Fraction(flap.angle.units)) if flap.angle is not None else None
    level: CheckLevel = "warn" if flap.short and flap.read else "ok"
    case = "" if level == "ok" else "flap" if flap.stopped_by else "hinge"
    facts: dict[str, Fact] = {"name": flap.name, "pull": int(flap.with_pull)}
    limit = degrees(Fraction(flap.need.units))
    ways = (WayOut("look at", flap.front),) if case else ()
    return Check("swing", (flap.front,), value, limit, level, judged(level), case, facts, ways)


def _turning(room: TurningRoom) -> Check:
    """The back corner of an inset door's free edge against the gap there."""
    tight = room.have.units < room.need.units
    level: CheckLevel = ("note" if room.guessed else "warn") if tight else "ok"
    ways = (WayOut("look at", room.front),) if tight else ()
    facts: dict[str, Fact] = {"side": room.side}
    case = "free edge" if tight else "turns"
    return Check(
        "swing", (room.front,), room.have.value, room.need.value, level, judged(level), case, facts, ways, roots=True
    )


def _drawn(drawn: Drawn) -> Check:
    """The way before a drawer against the length of its box."""
    level: CheckLevel = "warn" if drawn.short else "ok"
    have = drawn.have.value if drawn.have is not None else None
    facts: dict[str, Fact] = {"name": drawn.name}
    ways = (WayOut("look at", drawn.front),) if drawn.short else ()
    case = "drawn" if drawn.short else "draws"
    return Check("swing", (drawn.front,), have, drawn.out.value, level, judged(level), case, facts, ways)


def _off(pull: PullPlan, front: FrontPlan) -> Iterator[Check]:
    """A pull that does not lie on its front."""
    beyond = off_the_front(pull, front)
    if beyond is not None:
        ways = (WayOut("change", pull.type, "from_edge"), WayOut("change", pull.type, "from_end"))
        if front.front.kind == "drawer":
            ways = (WayOut("change", pull.type, "from_top"), WayOut("change", pull.type, "holes"))
        facts: dict[str, Fact] = {"pull": pull.name}
        yield Check("swing", (pull.front,), beyond.value, None, "warn", "open", "pull off", facts, ways)


def _corner(meeting: Meeting) -> Check:
    """F24: under the need a stop; a warning where nobody read or chose what breaks it."""
    level: CheckLevel = ("warn" if meeting.guessed else "stop") if meeting.short else "ok"
    facts: dict[str, Fact] = {"corner": meeting.corner, "what": meeting.what, "side": meeting.side}
    ways = (WayOut("look at", meeting.front),) if meeting.short else ()
    where = (meeting.front, *meeting.others)
    case = _CASE[meeting.what]
    return Check("corner", where, meeting.have.value, meeting.need.value, level, judged(level), case, facts, ways)


def _drawer_room(room: DrawerRoom) -> Check:
    """F12: at least the play."""
    level: CheckLevel = ("warn" if room.guessed else "stop") if room.short else "ok"
    facts: dict[str, Fact] = {"box": room.box, "covered": int(room.strip is not None)}
    if room.strip is not None:
        facts["strip"] = room.strip.value
    ways = (WayOut("look at", room.opening),) if room.short else ()
    where = (room.opening,)
    return Check("drawer-room", where, room.have.value, room.need.value, level, judged(level), room.way, facts, ways)


def _end_gap(gap: EndGap) -> Check:
    """F43: the gap after the skin."""
    level: CheckLevel = ("warn" if gap.have.rests else "stop") if gap.short else "ok"
    facts: dict[str, Fact] = {"side": gap.side, "against": gap.against, "bare": gap.bare.value}
    if gap.skin is not None:
        facts["skin"] = gap.skin.value
    ways = (WayOut("look at", gap.run),) if gap.short else ()
    where = (gap.run,)
    return Check("end-gap", where, gap.have.value, gap.need.value, level, judged(level), gap.side, facts, ways)


def _seat(seat: Seat, hinge: str) -> Check:
    """F14: a plate wider than the frame's edge, screws too long for the side."""
    level: CheckLevel = ("warn" if seat.have.rests else "stop") if seat.short else "ok"
    field = "plate_width" if seat.what == "plate" else "screw"
    ways = (WayOut("change", hinge, field),) if seat.short else ()
    case = f"{seat.what} seat"
    return Check("cup-fit", (seat.front,), seat.have.value, seat.need.value, level, judged(level), case, {}, ways)
