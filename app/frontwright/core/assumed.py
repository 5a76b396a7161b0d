"""What is assumed until it is read or chosen: one figure a unit for everything that a plan needs.

Sources are tagged as in resources/reference/SOURCES.md (S and T); C is common practice of the trade, no source; after
"mm" stands the tag of the millimetre figure where it is another. An inch job takes the inch column, never a converted
millimetre.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from frontwright.core.figures import Figure
from frontwright.core.job import Amount
from frontwright.core.lengths import Length, Typed, Unit

SOURCES = {  # tag: what is said of it
    "S1": "Wood Handbook, FPL-GTR-190",
    "S7": "Architectural Woodwork Standards, 2009",
    "S12": "Modern Cabinetmaking, 2016",
    "S13": "Builder training manual, NAVEDTRA 14045",
    "T1": "a hinge maker's quick reference",
    "T2": "a hinge maker's catalogue",
    "T4": "manuals of machines",
    "T5": "magazines and forums of the trade",
    "T6": "public guides of the trade",
}

# key: (name of the figure, inch, mm, source)
_LENGTHS: dict[str, tuple[str, str, str, str]] = {
    "step": ("step of front edges", "1/32", "0.5", "C"),
    "reading error": ("reading error of the tape", "1/32", "0.5", "C"),
    "frame member": ("width of a frame member", "3/2", "40", "S13, S7; mm C"),
    "frame thickness": ("frame thickness", "3/4", "19", "S13, S7; mm C"),
    "side": ("side of a frameless box", "3/4", "18", "C"),
    "end depth wall": ("depth seen of an end, wall box", "12", "300", "S13, T6; mm C"),
    "end depth base": ("depth seen of an end, base", "24", "580", "S13, T6; mm C"),
    "partial cover": ("cover all round", "1/2", "13", "C"),
    "full cover frame": ("cover all round", "5/4", "18", "C"),
    "full cover frameless": ("cover at the end", "11/16", "16", "C"),
    "gap": ("gap between fronts", "1/8", "3", "T5"),
    "meeting gap": ("meeting gap of a pair", "1/8", "3", "C"),
    "reveal": ("reveal between fronts", "1", "25", "C"),
    "end gap": ("least gap to a wall or appliance", "1/8", "3", "C"),
    "inset side": ("inset gap, sides", "1/16", "2", "C"),
    "inset top": ("inset gap, top", "1/16", "2", "C"),
    "inset bottom": ("inset gap, bottom", "3/32", "2.5", "C"),
    "inset meeting": ("meeting gap of an inset pair", "1/8", "3", "C"),
    "least cover": ("least cover wanted", "1/4", "6", "C"),
    "least cover stop": ("least cover at all", "1/8", "3", "C"),
    "least field": ("least field of a framed front", "7/4", "45", "C"),
    "thickness": ("door thickness", "3/4", "20", "S7; mm C"),
    "stile": ("stile width", "9/4", "60", "C"),
    "top rail": ("top rail width", "9/4", "60", "C"),
    "mid rail": ("mid rail width", "9/4", "60", "C"),
    "bottom rail": ("bottom rail width", "11/4", "70", "C"),
    "drawer rail": ("rail width of a framed drawer front", "7/4", "50", "C"),
    "groove": ("groove depth", "3/8", "10", "C"),
    "stick": ("stick depth", "3/8", "10", "C"),
    "rabbet width": ("rabbet width", "3/8", "10", "C"),
    "clearance rabbet": ("clearance of the panel, each side", "1/32", "0.5", "C"),
    "clearance groove": ("clearance of the panel, each side", "1/32", "1", "T5"),
    "clearance solid": ("least clearance of a solid panel, each side", "1/16", "1.5", "T5"),
    "swell room": ("room beside the swelling, each side", "1/64", "0.5", "C"),
    "groove play": ("groove wider than the panel by", "0.1mm", "0.1", "C"),
    "groove wall": ("wood beside a groove", "1/8", "3", "C"),
    "glass": ("glass thickness", "5/32", "4", "C"),
    "stops apart": ("stops that cannot be mistaken for each other", "1/32", "1", "C"),
    "lip": ("least lip", "5/16", "8", "C"),
    "engagement": ("least engagement of a solid panel", "5/32", "4", "C"),
    "engagement stop": ("engagement at all", "1/8", "3", "C"),
    "dowel": ("dowel diameter", "3/8", "8", "T6"),
    "dowel outer": ("dowel from the outer edge", "1/2", "14", "C"),
    "dowel wall": ("wood beside a dowel", "1/8", "3", "C"),
    "cup depth": ("cup depth", "1/2", "12.5", "T1, T2"),
    "cup wall": ("wood beside the cup", "1/8", "3", "C"),
    "cup floor": ("wood under the cup", "1/8", "3", "C"),
    "hinge adjust": ("sideways adjustment of the hinge", "1/16", "1.5", "C"),
    "hinge end": ("outer hinge from the door's end", "7/2", "90", "C"),
    "pull projection": ("how far a pull stands out", "5/4", "32", "C"),
    "pull holes": ("pull, hole to hole", "3", "96", "C"),
    "pull end": ("pull from the near end", "5/2", "64", "C"),
    "corner clearance": ("clearance at an inside corner", "1/4", "6", "C"),
    "appliance gap": ("least gap to an appliance", "1/8", "3", "C"),
    "screw bite": ("screw of a drawer front, into the front", "3/8", "10", "C"),
    "box front": ("front of a drawer box", "1/2", "12", "C"),
    "runner": ("drawer runner, each side", "1/2", "12.7", "C"),
    "bumper": ("thickness of a bumper", "1/16", "1.5", "C"),
    "shelf": ("thickness of a shelf", "3/4", "19", "C"),
    "clear of plate": ("room between a plate and what stands inside", "1/8", "3", "C"),
    "pull thread": ("thread of a pull, deep", "3/8", "10", "C"),
    "hole wall": ("wood between two borings", "1/8", "3", "C"),
    "screw end": ("wood beyond the end of a screw", "1/8", "3", "C"),
    "drawer play": ("play of a drawer box between its runners", "1mm", "1", "C"),
    "core": ("core thickness", "3/16", "4", "C"),
    "sheet": ("thickness of bought veneered sheet", "7/32", "6.2", "from memory"),
    "solid panel": ("thickness of a solid panel", "3/8", "10", "C"),
    "slice": ("leaf as sawn", "1/8", "3", "C"),
    "glue loss": ("loss on the glue face", "1/64", "0.4", "C"),
    "show loss": ("loss on the show face", "1/32", "0.6", "C"),
    "strip show loss": ("loss on the show face of strips", "1/64", "0.6", "C"),
    "veneer warn": ("least veneer wanted", "1/32", "0.8", "C"),
    "veneer stop": ("least veneer at all", "1/50", "0.5", "C"),
    "band saw kerf": ("kerf", "3/64", "1.2", "C"),
    "band saw wander": ("wander", "1/32", "0.6", "C"),
    "band saw rejoint": ("re-joint loss", "1/32", "0.7", "C"),
    "band saw keep back": ("keep-back", "1/4", "6", "C"),
    "table saw kerf": ("kerf", "1/8", "3.2", "T6"),
    "table saw wander": ("wander", "1/32", "0.8", "C"),
    "table saw rejoint": ("re-joint loss", "1/32", "0.7", "C"),
    "table saw keep back": ("keep-back", "1/2", "12", "C"),
    "table saw blade height": ("blade height", "25/8", "79", "T4"),
    "table saw overlap": ("overlap of the two passes", "1/2", "12", "S12"),
    "spare rest": ("a rest counts as a spare leaf from the slice and", "1/16", "1.6", "C"),
    "billet thickness": ("billet thickness", "7/4", "44", "C"),
    "billet width": ("billet width", "21/4", "150", "C"),
    "leaf edge": ("edge joint of a leaf, each edge", "1/16", "2", "C"),
    "panel edge": ("over size of a shop-made panel, each edge", "1/4", "6", "C"),
    "leaf over panel": ("leaf longer than the panel by", "1", "30", "C"),
    "billet over leaf": ("billet longer than the leaf by", "1/2", "20", "C"),
    "solid length": ("over length of solid parts", "1", "20", "C"),
    "solid width": ("over width of solid parts", "1/4", "4", "C"),
    "plane rough": ("planing from rough", "1/8", "3", "C"),
    "plane planed": ("planing from planed", "1/16", "1.5", "C"),
    "glue joint": ("for a glued joint, each stave", "1/8", "3", "C"),
    "facing": ("facing thickness", "3/32", "2", "C"),
    "skin": ("skin thickness", "3/32", "2", "C"),
    "glue film": ("film of adhesive", "0.01", "0.25", "C"),
    "pin hold": ("pin in the wood behind a strip, at least", "3/8", "10", "C"),
    "pin clear": ("wood beyond the end of a pin", "1/16", "2", "C"),
    "pin spacing": ("pin from pin", "6", "150", "C"),
    "pin row": ("strip that takes two rows of pins, from", "5/2", "60", "C"),
    "kick height": ("height of a toe kick", "4", "100", "C"),
    "kick recess": ("recess of a toe kick", "5/2", "65", "C"),
    "kick thickness": ("thickness of a toe kick", "1/4", "6", "C"),
    "kick clear": ("toe kick clear of the floor", "1/8", "3", "C"),
    "kick scribe": ("scribe of a toe kick", "1/2", "15", "C"),
    "valance width": ("height of a valance", "3", "80", "C"),
    "light rail width": ("height of a light rail", "3/2", "40", "C"),
    "apron width": ("height of an apron", "4", "100", "C"),
    "trim thickness": ("thickness of trim", "3/4", "20", "C"),
    "strip wider": ("strip wider than what it covers", "3/8", "10", "C"),
    "strip length": ("over length of strips", "1", "20", "C"),
    "strip width": ("over width of strips", "1/8", "3", "C"),
    "skin scribe": ("scribe of a skin", "1/4", "15", "C"),
    "row end": ("blank of a row, over each end", "1", "20", "C"),
    "kerf": ("saw kerf", "1/8", "3", "T6"),
    "end trim": ("trim of a board's ends, altogether", "1", "20", "C"),
    "sheet trim": ("trim of a sheet, each edge", "3/8", "10", "C"),
    # what is bought where no supplier's size is entered
    "buy board thickness": ("thickness of the board to buy, rough", "1", "27", "C"),
    "buy board width": ("width of the board to buy", "6", "195", "C"),
    "buy board length": ("length of the board to buy", "96", "2500", "C"),
    "buy sheet width": ("width of the sheet to buy", "48", "1220", "S10, S7"),
    "buy sheet length": ("length of the sheet to buy", "96", "2440", "S10, S7"),
    # F75: the least leftover that is kept
    "keep board length": ("least length of solid wood kept", "14", "350", "C"),
    "keep board width": ("least width of solid wood kept", "7/4", "45", "C"),
    "keep leaf length": ("least length of a leaf kept", "250mm", "250", "C"),
    "keep leaf width": ("least width of a leaf kept", "80mm", "80", "C"),
    "keep sheet length": ("least length of sheet kept", "300mm", "300", "C"),
    "keep sheet width": ("least width of sheet kept", "200mm", "200", "C"),
    "keep strip length": ("least length of a strip kept", "600mm", "600", "C"),
    "keep strip width": ("least width of a strip kept", "12mm", "12", "C"),
    "narrower": ("how much rails may be narrowed to fit what is there", "1/8", "3", "C"),
    # limits of the survey; given in mm by the trade, taken over exactly where the inch job has no figure of its own
    "spread cover": ("spread of an opening that is covered", "5mm", "5", "C"),
    "spread inset": ("spread of an opening with an inset front", "2mm", "2", "C"),
    "lean cover": ("lean of an opening that is covered", "1/4", "6", "C"),
    "lean inset": ("lean of an opening with an inset front", "1/32", "1", "C"),
    "bow cover": ("bow under a front that covers", "1/16", "1.5", "C"),
    "bow inset": ("bow beside an inset front", "0.5mm", "0.5", "C"),
    "wind": ("wind of an opening, at the fourth corner", "1/8", "3", "C"),
    "scribe room": ("room to plane in a scribe", "1/8", "3", "C"),
    "sum gaps": ("difference of a gap that is seen", "1/32", "1", "C"),
    "sum reveals": ("difference of a reveal that is seen", "1/8", "3", "C"),
    "two hinges": ("door height for two hinges", "900mm", "900", "C"),
    "three hinges": ("door height for three hinges", "1500mm", "1500", "C"),
    "four hinges": ("door height for four hinges", "1900mm", "1900", "C"),
    "five hinges": ("door height for five hinges", "2300mm", "2300", "C"),
    "wide door": ("door width from which one hinge more", "600mm", "600", "C"),
    "opening width": ("width of the opening", "18", "450", "C"),
    "opening height": ("height of the opening", "24", "600", "C"),
}
# Paint from before this year may hold lead until somebody says otherwise: 40 CFR 745 (S14) in an inch job; elsewhere
# the bans came between the 1960s and the 1990s, and the last of these years counts (common practice, no source).
LEAD_BAN: dict[Unit, int] = {"in": 1978, "mm": 1999}
# Old glue and floors under a toe kick are suspect up to here (EPA and CPSC guidance, from memory).
ASBESTOS_UNTIL = 1989
# hardware keeps its own unit: in millimetres, and in an inch job all the same
_HARDWARE: dict[str, tuple[str, str, str, str]] = {
    "cup": ("cup diameter", "35mm", "35", "T1, T2"),
    "finish film": ("film of a coat", "0.05mm", "0.05", "C"),
    "front lean": ("lean of a front that is not seen", "0.5mm", "0.5", "C"),
    "hinge adjust up": ("adjustment of the hinge in height", "2mm", "2", "from memory"),
    "hinge adjust out": ("adjustment of the hinge in depth", "2mm", "2", "from memory"),
    "plate screws apart": ("screws of a plate, from each other", "32mm", "32", "C"),
    "old hole": ("hole of an old screw, across", "5mm", "5", "C"),
    "plate long": ("what a plate takes of the frame's height", "50mm", "50", "C"),
    "stands in": ("how far hinge and plate stand into the opening", "20mm", "20", "C"),
    "cup screws apart": ("screws of a cup, from each other", "45mm", "45", "T1"),
    "cup screws behind": ("screws of a cup, behind its centre", "9.5mm", "9.5", "T1"),
    "cup screw hole": ("hole of a cup screw, across", "2.5mm", "2.5", "C"),
    "cup screw hole deep": ("hole of a cup screw, deep", "10mm", "10", "C"),
    "pull hole": ("hole of a pull screw, across", "5mm", "5", "C"),
    "edge distance": ("cup from the door's edge", "3mm", "5", "T1, T2"),
}
PINS: dict[Unit, tuple[str, ...]] = {  # pins as they are sold; common practice, no source
    "in": ("1/2", "5/8", "3/4", "1", "5/4", "3/2", "2"),
    "mm": ("10", "12", "15", "18", "20", "25", "30", "35", "40", "50"),
}
POT_MINUTES, POT_SHARE, STRIP_MINUTES = Fraction(5), Fraction(6, 10), Fraction(3, 2)  # F72; common practice, no source
_TABLE = _LENGTHS | _HARDWARE
_PER_CENT = {"moisture low": "6", "moisture made": "8", "moisture high": "11", "moisture most": "11"}
COMMON = "common practice, no source"
FLAT = Fraction(43, 10000)  # the largest usual movement (beech), S1 Table 13-5
DENSITY: dict[Unit, Fraction] = {"in": Fraction(44), "mm": Fraction(700)}
GLASS: dict[Unit, Fraction] = {"in": Fraction(156), "mm": Fraction(2500)}  # soda-lime glass, from memory
HINGE_MASS: dict[Unit, tuple[Fraction, ...]] = {
    # F25's bands in kg; an inch job has them in pounds (1 lb = 0.45359237 kg exactly)
    "mm": (Fraction(6), Fraction(12), Fraction(17), Fraction(22)),
    "in": tuple(Fraction(kg) / Fraction("0.45359237") for kg in (6, 12, 17, 22)),
}


@cache
def assumed(unit: Unit, key: str) -> Figure:
    """The assumed length of this key for a job in this unit, as a figure that says so."""
    name, inch, mm, source = _TABLE[key]
    text = inch if unit == "in" else mm
    metric = unit == "mm" or text.endswith("mm")
    value = Length.mm(text.removesuffix("mm")) if metric else Length.inch(Fraction(text))
    return Figure(name, value, "assumed", _said(source, unit))


@cache
def pins_sold(unit: Unit) -> tuple[Length, ...]:
    """The lengths of pins as they are sold, the shortest first."""
    return tuple(Length.mm(text) if unit == "mm" else Length.inch(Fraction(text)) for text in PINS[unit])


@cache
def assumed_moisture(key: str) -> Figure:
    """Assumed wood moisture in per cent: `moisture low`, `made` or `high`; `most`, the wettest that is used."""
    source = (
        COMMON
        if key in ("moisture made", "moisture most")
        else f"usual figure: {SOURCES['S1']}, Table 4-2, 70 °F, 30 and 60 %"
    )
    return Figure(key, Fraction(_PER_CENT[key]), "assumed", source, measure="number")


def wettest(told: Amount | None) -> Fraction:
    """The most moisture in per cent that wood may have, as the shop says it or as usual."""
    value = told.value if told is not None else None
    return value if value is not None else Fraction(assumed_moisture("moisture most").units)


def entered(unit: Unit, typed: Typed | None, key: str, name: str = "") -> Figure:
    """The chosen length where one was typed and can be read, else the assumed one of this key."""
    if typed is not None and typed.value is not None:
        return Figure(name or _TABLE[key][0], typed.value, "chosen")
    return named(assumed(unit, key), name)


def measured(typed: Typed | None, name: str) -> Figure | None:
    """A measured length, or None where none was typed or it cannot be read."""
    return Figure(name, typed.value, "taped") if typed is not None and typed.value is not None else None


def entered_number(given: Amount | None, otherwise: Figure, name: str) -> Figure:
    """The chosen number where one was typed and can be read, else the other figure."""
    if given is not None and given.value is not None:
        return Figure(name, given.value, "chosen", measure="number")
    return otherwise


def named(figure: Figure, name: str) -> Figure:
    """The same figure under another name; as it is where the name is empty."""
    if not name or name == figure.name:
        return figure
    return Figure(
        name, figure.value, figure.source, figure.how, figure.terms, figure.rounding, figure.measure, figure.planned
    )


def _said(source: str, unit: Unit) -> str:
    """A source in words, that of the unit where the two differ."""
    inch, _, millimetre = source.partition("; mm ")
    tags = (millimetre if unit == "mm" else "") or inch
    if tags == "C":
        return COMMON
    return "usual figure: " + ", ".join(SOURCES.get(tag, tag) for tag in tags.split(", "))
