"""Layouts from elsewhere as trees, so that the search can go on from them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from frontwright.cutting.checker import split
from frontwright.cutting.search.rebuild import use_piece
from frontwright.cutting.search.tree import (
    DEPTH,
    FIRST,
    FREE,
    ITEM,
    KIND,
    LEFT,
    LOST,
    PARENT,
    PART,
    ROOT,
    ROW,
    STACK,
    H,
    Trees,
    W,
    empty,
    link,
    new_node,
    unseat_left,
)
from frontwright.cutting.search.work import Task
from frontwright.cutting.values import Layout, Placed


def trees_of(task: Task, layouts: Sequence[Layout]) -> Trees | None:
    """Trees that lay the same; None where a piece is not one clear region, or is not cut from edge to edge."""
    work = task.work
    trees = empty(len(task.items), len(work.type_of), len(work.regions))
    free = _numbers(task.items)
    unused = defaultdict[int, list[int]](list)
    for piece in range(len(work.type_of) - 1, -1, -1):
        form = task.forms[work.type_of[piece]]
        if form.pinned or len(form.regions) != 1:
            return None
        unused[form.stock].append(piece)
    for layout in layouts:
        for _ in range(layout.copies):
            if not unused[layout.stock]:
                return None
            piece = unused[layout.stock].pop()
            use_piece(trees, work, piece)
            if not _planted(task, trees, piece, layout, free):
                return None
    lost = [n for numbers in free.values() for n in numbers]
    trees.lost[: len(lost)] = lost
    trees.state[LOST] = len(lost)
    return trees


def _numbers(items: Sequence[int]) -> dict[int, list[int]]:
    numbers = defaultdict[int, list[int]](list)
    for number, item in enumerate(items):
        numbers[item].append(number)
    return numbers


def _planted(task: Task, trees: Trees, piece: int, layout: Layout, free: dict[int, list[int]]) -> bool:
    kerf, region = task.order.saw.kerf, int(task.work.regions_of[piece])
    parts = [Placed(p.item, p.x, p.y, p.width + kerf, p.height + kerf) for p in layout.placed]
    root = int(trees.roots[region])
    return trees.nodes[root, KIND] == LEFT and _grow(trees, root, parts, free)


def _grow(trees: Trees, n: int, parts: list[Placed], free: dict[int, list[int]]) -> bool:
    """Turn a leftover into what holds these parts."""
    node = trees.nodes[n]
    if not parts:
        return True
    if len(parts) == 1 and (parts[0].width, parts[0].height) == (node[W], node[H]):
        return _settle(trees, n, parts[0], free)
    before = trees.nodes[node[PARENT], KIND] if node[PARENT] >= 0 else FREE
    for kind, side in ((ROW, W), (STACK, H)):
        groups = split(parts, 0, across=kind == ROW)
        lengths = [_length(group, kind) for group in groups]
        if kind == before or lengths == [int(node[side])]:
            continue
        if len(groups) == 1 and before == FREE and kind == ROW and len(split(parts, 0, across=False)) > 1:
            continue  # the other way parts them at once
        return _divide(trees, n, kind, groups, lengths, free)
    return False


def _divide(
    trees: Trees, n: int, kind: int, groups: list[list[Placed]], lengths: list[int], free: dict[int, list[int]]
) -> bool:
    node = trees.nodes[n]
    width, height, root, depth = int(node[W]), int(node[H]), int(node[ROOT]), int(node[DEPTH]) + 1
    unseat_left(trees, n)
    node[KIND], node[FIRST] = kind, -1
    rest = (width if kind == ROW else height) - sum(lengths)
    if rest < 0:
        return False
    children = [0] * len(groups)
    for at, length in enumerate([*lengths, rest]):
        if length:
            size = (length, height) if kind == ROW else (width, length)
            child = new_node(trees, *size, LEFT, -1, root, depth)
            link(trees, n, child)
            if at < len(groups):
                children[at] = child
    return all(_grow(trees, child, group, free) for child, group in zip(children, groups, strict=True))


def _settle(trees: Trees, n: int, part: Placed, free: dict[int, list[int]]) -> bool:
    if not free[part.item]:
        return False
    number = free[part.item].pop()
    unseat_left(trees, n)
    trees.nodes[n, KIND], trees.nodes[n, ITEM] = PART, number
    trees.where[number] = n
    return True


def _length(group: list[Placed], kind: int) -> int:
    if kind == ROW:
        return max(p.x + p.width for p in group) - min(p.x for p in group)
    return max(p.y + p.height for p in group) - min(p.y for p in group)
