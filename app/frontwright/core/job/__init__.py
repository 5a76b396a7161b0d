"""What is entered: a job as frozen tables of rows, and a shop as the same for what outlives jobs.

These classes are the only declaration of a job: its tables in a file, its JSON form, schema and undo are generic over
them. A field is one of: str, int, bool, `Typed` (a length as typed), `Amount` (a number as typed), a tuple of str,
or one of these or None. Nothing derived stands here.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import Any, Self, cast

from frontwright.core.job.amount import Amount, amount
from frontwright.core.job.brief import Asked, Brief, Photo, PhotoWhat
from frontwright.core.job.builds import (
    Allowances,
    Blade,
    CoreGrain,
    DoorBuild,
    DoorKind,
    Facing,
    HingeType,
    Limits,
    Machine,
    MachineKind,
    PanelBuild,
    PanelKind,
    Plate,
    Species,
)
from frontwright.core.job.condition import (
    Drawer,
    DrawerWay,
    FinishKind,
    HingeUse,
    Keying,
    LineKind,
    MadeGood,
    OldHinge,
    Repair,
    ServiceLine,
    Surface,
    SurfaceWhere,
    Treatment,
)
from frontwright.core.job.finishing import Finish, FinishMedium, FinishRoom, Snag, TestPiece
from frontwright.core.job.look import DOOR_LIKE, Front, FrontKind, FrontRow, Grain, HingeSide, Level, Look, Scheme
from frontwright.core.job.place import (
    UPRIGHT,
    Cabinet,
    Column,
    End,
    Heading,
    Member,
    MemberKind,
    OldFront,
    Opening,
    Reading,
    ReadingWhat,
    Room,
    Run,
)
from frontwright.core.job.record import Answer, AsBuilt, Printed
from frontwright.core.job.stock import (
    Cut,
    CutDone,
    Defect,
    Grade,
    HardwareLot,
    KeepRule,
    Laid,
    LaidPart,
    Leftover,
    Move,
    MoveKind,
    Operation,
    Piece,
    PieceForm,
    PieceState,
    Pricing,
    Reservation,
    SupplierSize,
)
from frontwright.core.job.surroundings import (
    Corner,
    Inside,
    InsideEdges,
    InsideKind,
    Obstacle,
    ObstacleKind,
    ObstacleSide,
    PullKind,
    PullType,
)
from frontwright.core.job.table import Row, Table
from frontwright.core.job.trim import Adhesive, AdhesiveKind, MadeOf, Trim, TrimEnd, TrimKind
from frontwright.core.job.veneer import (
    Billet,
    Glue,
    LabelSheet,
    Leaf,
    LeafSide,
    LeafState,
    Learned,
    Lie,
    Match,
    PlanePass,
    Press,
    PressedPanel,
    Pressing,
    PressKind,
)


class _Tables:
    """What a job and a shop have in common: tables by row class, and the two ways to a changed copy."""

    __slots__ = ()

    def put(self, *rows: Row) -> Self:
        """A copy with these rows added or replaced, each in the table of its class."""
        changed: dict[str, Any] = {}
        for row in rows:
            name = self.table_of(type(row))
            changed[name] = changed.get(name, getattr(self, name)).put(row)
        return cast(Self, replace(cast(Any, self), **changed))

    def drop(self, kind: type[Any], *ids: str) -> Self:
        """A copy without the rows of this class that have these ids."""
        name = self.table_of(kind)
        return cast(Self, replace(cast(Any, self), **{name: getattr(self, name).drop(*ids)}))

    @classmethod
    def kinds(cls) -> dict[str, type[Any]]:
        """Name of each table -> class of its rows, in the order of the trade."""
        raise NotImplementedError

    @classmethod
    def table_of(cls, kind: type[Any]) -> str:
        """The name of the table that holds rows of this class; KeyError if none does."""
        return {row: name for name, row in cls.kinds().items()}[kind]


@dataclass(frozen=True, slots=True)
class Job(_Tables):
    """Everything a person said of one job: readings, choices, sizes as built, answers; edits make copies."""

    headings: Table[Heading] = field(default_factory=lambda: Table([Heading()]))
    briefs: Table[Brief] = field(default_factory=Table)
    asked: Table[Asked] = field(default_factory=Table)
    photos: Table[Photo] = field(default_factory=Table)
    rooms: Table[Room] = field(default_factory=Table)
    runs: Table[Run] = field(default_factory=Table)
    ends: Table[End] = field(default_factory=Table)
    cabinets: Table[Cabinet] = field(default_factory=Table)
    members: Table[Member] = field(default_factory=Table)
    columns: Table[Column] = field(default_factory=Table)
    openings: Table[Opening] = field(default_factory=Table)
    readings: Table[Reading] = field(default_factory=Table)
    old_fronts: Table[OldFront] = field(default_factory=Table)
    surfaces: Table[Surface] = field(default_factory=Table)
    repairs: Table[Repair] = field(default_factory=Table)
    old_hinges: Table[OldHinge] = field(default_factory=Table)
    drawers: Table[Drawer] = field(default_factory=Table)
    service_lines: Table[ServiceLine] = field(default_factory=Table)
    obstacles: Table[Obstacle] = field(default_factory=Table)
    corners: Table[Corner] = field(default_factory=Table)
    insides: Table[Inside] = field(default_factory=Table)
    looks: Table[Look] = field(default_factory=Table)
    fronts: Table[Front] = field(default_factory=Table)
    front_rows: Table[FrontRow] = field(default_factory=Table)
    door_builds: Table[DoorBuild] = field(default_factory=Table)
    panel_builds: Table[PanelBuild] = field(default_factory=Table)
    hinge_types: Table[HingeType] = field(default_factory=Table)
    plates: Table[Plate] = field(default_factory=Table)
    pull_types: Table[PullType] = field(default_factory=Table)
    machines: Table[Machine] = field(default_factory=Table)
    blades: Table[Blade] = field(default_factory=Table)
    species: Table[Species] = field(default_factory=Table)
    allowances: Table[Allowances] = field(default_factory=Table)
    limits: Table[Limits] = field(default_factory=Table)
    facings: Table[Facing] = field(default_factory=Table)
    trims: Table[Trim] = field(default_factory=Table)
    adhesives: Table[Adhesive] = field(default_factory=Table)
    pieces: Table[Piece] = field(default_factory=Table)
    defects: Table[Defect] = field(default_factory=Table)
    supplier_sizes: Table[SupplierSize] = field(default_factory=Table)
    keep_rules: Table[KeepRule] = field(default_factory=Table)
    laid: Table[Laid] = field(default_factory=Table)
    laid_parts: Table[LaidPart] = field(default_factory=Table)
    cuts_done: Table[CutDone] = field(default_factory=Table)
    leftovers: Table[Leftover] = field(default_factory=Table)
    operations: Table[Operation] = field(default_factory=Table)
    pricings: Table[Pricing] = field(default_factory=Table)
    billets: Table[Billet] = field(default_factory=Table)
    leaves: Table[Leaf] = field(default_factory=Table)
    glues: Table[Glue] = field(default_factory=Table)
    presses: Table[Press] = field(default_factory=Table)
    pressings: Table[Pressing] = field(default_factory=Table)
    pressed_panels: Table[PressedPanel] = field(default_factory=Table)
    plane_passes: Table[PlanePass] = field(default_factory=Table)
    label_sheets: Table[LabelSheet] = field(default_factory=Table)
    finishes: Table[Finish] = field(default_factory=Table)
    finish_rooms: Table[FinishRoom] = field(default_factory=Table)
    test_pieces: Table[TestPiece] = field(default_factory=Table)
    snags: Table[Snag] = field(default_factory=Table)
    as_built: Table[AsBuilt] = field(default_factory=Table)
    answers: Table[Answer] = field(default_factory=Table)
    printed: Table[Printed] = field(default_factory=Table)

    @property
    def heading(self) -> Heading:
        """The one row of the heading."""
        return self.headings.get("job") or Heading()

    @classmethod
    def kinds(cls) -> dict[str, type[Any]]:
        return _JOB_KINDS


@dataclass(frozen=True, slots=True)
class Shop(_Tables):
    """What outlives jobs: builds, hinges, machines, woods, allowances and limits, to be copied into jobs."""

    door_builds: Table[DoorBuild] = field(default_factory=Table)
    panel_builds: Table[PanelBuild] = field(default_factory=Table)
    hinge_types: Table[HingeType] = field(default_factory=Table)
    plates: Table[Plate] = field(default_factory=Table)
    pull_types: Table[PullType] = field(default_factory=Table)
    machines: Table[Machine] = field(default_factory=Table)
    blades: Table[Blade] = field(default_factory=Table)
    species: Table[Species] = field(default_factory=Table)
    allowances: Table[Allowances] = field(default_factory=Table)
    limits: Table[Limits] = field(default_factory=Table)
    glues: Table[Glue] = field(default_factory=Table)
    adhesives: Table[Adhesive] = field(default_factory=Table)
    presses: Table[Press] = field(default_factory=Table)
    label_sheets: Table[LabelSheet] = field(default_factory=Table)
    finishes: Table[Finish] = field(default_factory=Table)
    finish_rooms: Table[FinishRoom] = field(default_factory=Table)
    learned: Table[Learned] = field(default_factory=Table)
    supplier_sizes: Table[SupplierSize] = field(default_factory=Table)
    keep_rules: Table[KeepRule] = field(default_factory=Table)
    operations: Table[Operation] = field(default_factory=Table)
    pricings: Table[Pricing] = field(default_factory=Table)

    @classmethod
    def kinds(cls) -> dict[str, type[Any]]:
        return {f.name: (_JOB_KINDS | _SHOP_ONLY)[f.name] for f in fields(cls)}


_JOB_KINDS: dict[str, type[Any]] = {
    "headings": Heading,
    "briefs": Brief,
    "asked": Asked,
    "photos": Photo,
    "rooms": Room,
    "runs": Run,
    "ends": End,
    "cabinets": Cabinet,
    "members": Member,
    "columns": Column,
    "openings": Opening,
    "readings": Reading,
    "old_fronts": OldFront,
    "surfaces": Surface,
    "repairs": Repair,
    "old_hinges": OldHinge,
    "drawers": Drawer,
    "service_lines": ServiceLine,
    "obstacles": Obstacle,
    "corners": Corner,
    "insides": Inside,
    "looks": Look,
    "fronts": Front,
    "front_rows": FrontRow,
    "door_builds": DoorBuild,
    "panel_builds": PanelBuild,
    "hinge_types": HingeType,
    "plates": Plate,
    "pull_types": PullType,
    "machines": Machine,
    "blades": Blade,
    "species": Species,
    "allowances": Allowances,
    "limits": Limits,
    "facings": Facing,
    "trims": Trim,
    "adhesives": Adhesive,
    "pieces": Piece,
    "defects": Defect,
    "supplier_sizes": SupplierSize,
    "keep_rules": KeepRule,
    "laid": Laid,
    "laid_parts": LaidPart,
    "cuts_done": CutDone,
    "leftovers": Leftover,
    "operations": Operation,
    "pricings": Pricing,
    "billets": Billet,
    "leaves": Leaf,
    "glues": Glue,
    "presses": Press,
    "pressings": Pressing,
    "pressed_panels": PressedPanel,
    "plane_passes": PlanePass,
    "label_sheets": LabelSheet,
    "finishes": Finish,
    "finish_rooms": FinishRoom,
    "test_pieces": TestPiece,
    "snags": Snag,
    "as_built": AsBuilt,
    "answers": Answer,
    "printed": Printed,
}

_SHOP_ONLY: dict[str, type[Any]] = {"learned": Learned}

__all__ = [
    "DOOR_LIKE",
    "UPRIGHT",
    "Adhesive",
    "AdhesiveKind",
    "Allowances",
    "Amount",
    "Answer",
    "AsBuilt",
    "Asked",
    "Billet",
    "Blade",
    "Brief",
    "Cabinet",
    "Column",
    "CoreGrain",
    "Corner",
    "Cut",
    "CutDone",
    "Defect",
    "DoorBuild",
    "DoorKind",
    "Drawer",
    "DrawerWay",
    "End",
    "Facing",
    "Finish",
    "FinishKind",
    "FinishMedium",
    "FinishRoom",
    "Front",
    "FrontKind",
    "FrontRow",
    "Glue",
    "Grade",
    "Grain",
    "HardwareLot",
    "Heading",
    "HingeSide",
    "HingeType",
    "HingeUse",
    "Inside",
    "InsideEdges",
    "InsideKind",
    "Job",
    "KeepRule",
    "Keying",
    "LabelSheet",
    "Laid",
    "LaidPart",
    "Leaf",
    "LeafSide",
    "LeafState",
    "Learned",
    "Leftover",
    "Level",
    "Lie",
    "Limits",
    "LineKind",
    "Look",
    "Machine",
    "MachineKind",
    "MadeGood",
    "MadeOf",
    "Match",
    "Member",
    "MemberKind",
    "Move",
    "MoveKind",
    "Obstacle",
    "ObstacleKind",
    "ObstacleSide",
    "OldFront",
    "OldHinge",
    "Opening",
    "Operation",
    "PanelBuild",
    "PanelKind",
    "Photo",
    "PhotoWhat",
    "Piece",
    "PieceForm",
    "PieceState",
    "PlanePass",
    "Plate",
    "Press",
    "PressKind",
    "PressedPanel",
    "Pressing",
    "Pricing",
    "Printed",
    "PullKind",
    "PullType",
    "Reading",
    "ReadingWhat",
    "Repair",
    "Reservation",
    "Room",
    "Row",
    "Run",
    "Scheme",
    "ServiceLine",
    "Shop",
    "Snag",
    "Species",
    "SupplierSize",
    "Surface",
    "SurfaceWhere",
    "Table",
    "TestPiece",
    "Treatment",
    "Trim",
    "TrimEnd",
    "TrimKind",
    "amount",
]
