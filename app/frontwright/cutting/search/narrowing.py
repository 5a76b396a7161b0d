"""Making a region smaller from one side: what stands in the way loses its place, all else stays as it lies."""

from __future__ import annotations

from frontwright.cutting.search.tree import (
    FIRST,
    KIND,
    LEFT,
    NEXT,
    PART,
    ROW,
    STACK,
    H,
    Trees,
    W,
    free_node,
    left_of,
    take_out,
    unlink,
    unseat_left,
)


def _runs(kind: int, side: int) -> bool:
    """Whether children of this kind stand one behind the other along the side."""
    return (kind == ROW and side == W) or (kind == STACK and side == H)


def used(trees: Trees, n: int, side: int) -> int:
    """How much of a node is in use along a side when all is pushed to its low end and the child to spare is last."""
    nodes = trees.nodes
    kind = nodes[n, KIND]
    if kind in (LEFT, PART):
        return 0 if kind == LEFT else int(nodes[n, side])
    total = slack = most = 0
    child = int(nodes[n, FIRST])
    while child >= 0:
        if nodes[child, KIND] != LEFT:
            here = used(trees, child, side)
            total += int(nodes[child, side])
            slack = max(slack, int(nodes[child, side]) - here)
            most = max(most, here)
        child = int(nodes[child, NEXT])
    return total - slack if _runs(kind, side) else most


def _in_the_way(trees: Trees, n: int, side: int, by: int) -> int:
    """A node to take out before this one can lose so much, -1 where none must be."""
    nodes = trees.nodes
    kind = nodes[n, KIND]
    if kind == LEFT:
        return -1
    if kind == PART:
        return n
    if not _runs(kind, side):
        child = int(nodes[n, FIRST])
        while child >= 0:
            found = _in_the_way(trees, child, side, by)
            if found >= 0:
                return found
            child = int(nodes[child, NEXT])
        return -1
    left = left_of(trees, n)
    have = nodes[left, side] if left >= 0 else 0
    if have >= by:
        return -1
    enough = longest = -1
    child = int(nodes[n, FIRST])
    while child >= 0:
        if child != left:
            size = nodes[child, side]
            if size + have >= by and (enough < 0 or size < nodes[enough, side]):
                enough = child
            if longest < 0 or size > nodes[longest, side]:
                longest = child
        child = int(nodes[child, NEXT])
    return enough if enough >= 0 else longest


def _cut_off(trees: Trees, n: int, side: int, by: int) -> None:
    nodes = trees.nodes
    nodes[n, side] -= by
    kind = nodes[n, KIND]
    if kind not in (ROW, STACK):
        return
    if _runs(kind, side):
        left = left_of(trees, n)
        nodes[left, side] -= by
        if nodes[left, side] == 0:
            unseat_left(trees, left)
            unlink(trees, left)
            free_node(trees, left)
        return
    child = int(nodes[n, FIRST])
    while child >= 0:
        _cut_off(trees, child, side, by)
        child = int(nodes[child, NEXT])


def narrow(trees: Trees, n: int, side: int, by: int) -> None:
    """A root loses so much of its width or height."""
    found = _in_the_way(trees, n, side, by)
    while found >= 0:
        take_out(trees, found)
        found = _in_the_way(trees, n, side, by)
    _cut_off(trees, n, side, by)
