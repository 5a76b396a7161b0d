"""Cutting trees in arrays: which part lies in which strip of which piece, and what is left over where.

A node is a part, a leftover, a row (children side by side along x, parted by crosscuts) or a stack (children one above
the other, parted by rips). Rows hold stacks and stacks hold rows. A row or stack holds at most one leftover: what is
taken out is joined to it. Sizes here include one kerf on the right and on top, so that kerfs need no further thought.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.search.compiled import compiled

Ints = NDArray[np.int64]
Longs = NDArray[np.int64]

# columns of a node; SEAT is a leftover's position in `lefts`
W, H, KIND, PARENT, FIRST, NEXT, PREV, ITEM, ROOT, DEPTH, SEAT = range(11)
COLUMNS = 11
FREE, PART, LEFT, ROW, STACK = range(5)

STAYS = -2  # in ITEM: a root that stays the row or stack it is, whose first cut is told

# entries of `state`: first free node, leftovers, price of what is in use, most that may be, rounds done, parts that
# have no place
FREE_NODE, LEFTS, OPEN_PRICE, LIMIT, ROUND, LOST = range(6)
STATES = 6


class Trees(NamedTuple):
    """All pieces as they are laid at one moment."""

    nodes: Ints
    lefts: Ints
    state: Longs
    where: Ints  # node of each part, -1 without a place
    roots: Ints  # node of each region of a piece, -1 where the piece is not in use
    in_use: Ints  # pieces
    lost: Ints  # the first state[LOST] are the parts without a place


def empty(parts: int, pieces: int, regions: int) -> Trees:
    """Trees with no piece in use and every part without a place."""
    room = 4 * parts + 3 * regions + 8
    nodes = np.zeros((room, COLUMNS), np.int64)
    nodes[:, NEXT] = np.arange(1, room + 1)
    nodes[-1, NEXT] = -1
    state = np.zeros(STATES, np.int64)
    state[LOST] = parts
    lost = np.arange(parts, dtype=np.int64)
    minus = -np.ones(max(parts, regions), np.int64)
    return Trees(
        nodes,
        np.zeros(room, np.int64),
        state,
        minus[:parts].copy(),
        minus[:regions].copy(),
        np.zeros(pieces, np.int64),
        lost,
    )


def twin(trees: Trees) -> Trees:
    """A second set of trees to copy to."""
    return Trees(
        trees.nodes.copy(),
        trees.lefts.copy(),
        trees.state.copy(),
        trees.where.copy(),
        trees.roots.copy(),
        trees.in_use.copy(),
        trees.lost.copy(),
    )


@compiled
def copy(source: Trees, target: Trees) -> None:
    """Make the target equal to the source."""
    target.nodes[:] = source.nodes
    target.lefts[:] = source.lefts
    target.state[:] = source.state
    target.where[:] = source.where
    target.roots[:] = source.roots
    target.in_use[:] = source.in_use
    target.lost[:] = source.lost


@compiled
def new_node(trees: Trees, width: int, height: int, kind: int, item: int, root: int, depth: int) -> int:
    nodes, state = trees.nodes, trees.state
    n: int = state[FREE_NODE]
    state[FREE_NODE] = nodes[n, NEXT]
    nodes[n, W], nodes[n, H], nodes[n, KIND], nodes[n, ITEM] = width, height, kind, item
    nodes[n, PARENT] = nodes[n, FIRST] = nodes[n, NEXT] = nodes[n, PREV] = -1
    nodes[n, ROOT], nodes[n, DEPTH] = root, depth
    if kind == LEFT:
        seat_left(trees, n)
    return n


@compiled
def free_node(trees: Trees, n: int) -> None:
    trees.nodes[n, KIND] = FREE
    trees.nodes[n, NEXT] = trees.state[FREE_NODE]
    trees.state[FREE_NODE] = n


@compiled
def link(trees: Trees, parent: int, n: int) -> None:
    nodes = trees.nodes
    first = nodes[parent, FIRST]
    nodes[n, PREV], nodes[n, NEXT], nodes[n, PARENT] = -1, first, parent
    if first >= 0:
        nodes[first, PREV] = n
    nodes[parent, FIRST] = n


@compiled
def unlink(trees: Trees, n: int) -> None:
    nodes = trees.nodes
    before, after = nodes[n, PREV], nodes[n, NEXT]
    if before >= 0:
        nodes[before, NEXT] = after
    else:
        nodes[nodes[n, PARENT], FIRST] = after
    if after >= 0:
        nodes[after, PREV] = before
    nodes[n, PREV] = nodes[n, NEXT] = -1


@compiled
def seat_left(trees: Trees, n: int) -> None:
    count = trees.state[LEFTS]
    trees.lefts[count] = n
    trees.nodes[n, SEAT] = count
    trees.state[LEFTS] = count + 1


@compiled
def unseat_left(trees: Trees, n: int) -> None:
    seat, last = trees.nodes[n, SEAT], trees.state[LEFTS] - 1
    moved = trees.lefts[last]
    trees.lefts[seat] = moved
    trees.nodes[moved, SEAT] = seat
    trees.state[LEFTS] = last


@compiled
def left_of(trees: Trees, parent: int) -> int:
    """The leftover among a node's children, -1 where there is none."""
    child: int = trees.nodes[parent, FIRST]
    while child >= 0:
        if trees.nodes[child, KIND] == LEFT:
            return child
        child = trees.nodes[child, NEXT]
    return -1


@compiled
def _give_up(trees: Trees, n: int) -> None:
    """What a node itself holds: its part loses its place, its leftover counts no more."""
    kind, state = trees.nodes[n, KIND], trees.state
    if kind == PART:
        item = trees.nodes[n, ITEM]
        trees.where[item] = -1
        trees.lost[state[LOST]] = item
        state[LOST] += 1
    elif kind == LEFT:
        unseat_left(trees, n)


@compiled
def clear(trees: Trees, n: int) -> None:
    """Empty a node: its parts lose their place, all below it goes. The node itself stays, with no kind yet."""
    nodes = trees.nodes
    _give_up(trees, n)
    waiting = nodes[n, FIRST]
    nodes[n, FIRST] = -1
    while waiting >= 0:
        below = nodes[waiting, FIRST]
        if below >= 0:  # its children are next in the row of those that wait
            last = below
            while nodes[last, NEXT] >= 0:
                last = nodes[last, NEXT]
            nodes[last, NEXT] = nodes[waiting, NEXT]
            nodes[waiting, NEXT] = below
        after = nodes[waiting, NEXT]
        _give_up(trees, waiting)
        free_node(trees, waiting)
        waiting = after


@compiled
def take_out(trees: Trees, n: int) -> None:
    """A node becomes leftover, joined to the leftover beside it; a parent that is all leftover becomes one."""
    nodes = trees.nodes
    clear(trees, n)
    while True:
        parent = nodes[n, PARENT]
        left = left_of(trees, parent) if parent >= 0 else -1
        if left < 0:
            nodes[n, KIND], nodes[n, ITEM] = LEFT, -1
            seat_left(trees, n)
            left = n
        else:
            side = W if nodes[parent, KIND] == ROW else H
            nodes[left, side] += nodes[n, side]
            unlink(trees, n)
            free_node(trees, n)
        if parent < 0 or nodes[left, PREV] >= 0 or nodes[left, NEXT] >= 0:
            return
        if nodes[parent, ITEM] == STAYS:
            return
        unseat_left(trees, left)
        free_node(trees, left)
        nodes[parent, FIRST] = -1
        n = parent


@compiled
def put(trees: Trees, n: int, item: int, width: int, height: int, kind: int) -> None:
    """Lay a part into leftover n: `kind` ROW cuts a strip of its width off first, STACK one of its height.

    Where part and leftover are of equal height the kind is ROW, where they are of equal width STACK.
    """
    nodes = trees.nodes
    full_w, full_h, root = nodes[n, W], nodes[n, H], nodes[n, ROOT]
    if full_w == width and full_h == height:
        unseat_left(trees, n)
        nodes[n, KIND], nodes[n, ITEM] = PART, item
        trees.where[item] = n
        return
    parent = nodes[n, PARENT]
    if parent >= 0 and nodes[parent, KIND] == kind:
        depth = nodes[n, DEPTH]
        if kind == ROW:
            nodes[n, W] = full_w - width
        else:
            nodes[n, H] = full_h - height
    else:
        parent, depth = n, nodes[n, DEPTH] + 1
        unseat_left(trees, n)
        nodes[n, KIND], nodes[n, FIRST] = kind, -1
        if kind == ROW:
            link(trees, n, new_node(trees, full_w - width, full_h, LEFT, -1, root, depth))
        else:
            link(trees, n, new_node(trees, full_w, full_h - height, LEFT, -1, root, depth))
    if kind == ROW:
        strip_w, strip_h = width, full_h
    else:
        strip_w, strip_h = full_w, height
    strip = new_node(trees, strip_w, strip_h, PART, item, root, depth)
    link(trees, parent, strip)
    trees.where[item] = strip
    if strip_w != width or strip_h != height:
        nodes[strip, KIND] = STACK if kind == ROW else ROW
        nodes[strip, ITEM] = -1
        if kind == ROW:
            link(trees, strip, new_node(trees, width, strip_h - height, LEFT, -1, root, depth + 1))
        else:
            link(trees, strip, new_node(trees, strip_w - width, height, LEFT, -1, root, depth + 1))
        part = new_node(trees, width, height, PART, item, root, depth + 1)
        link(trees, strip, part)
        trees.where[item] = part


@compiled
def begin_region(trees: Trees, region: int, width: int, height: int, depth: int, kind: int) -> None:
    """Take a region into use, so many turns of the cut deep; `kind` ROW or STACK: its first cut is told."""
    if kind == FREE:
        trees.roots[region] = new_node(trees, width, height, LEFT, -1, region, depth)
        return
    root = new_node(trees, width, height, kind, STAYS, region, depth)
    trees.roots[region] = root
    link(trees, root, new_node(trees, width, height, LEFT, -1, region, depth + 1))


@compiled
def end_region(trees: Trees, region: int) -> None:
    root = trees.roots[region]
    clear(trees, root)
    free_node(trees, root)
    trees.roots[region] = -1
