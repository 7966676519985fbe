"""Lays pieces on a sheet of many pages so that few pages hold something, and no page only a sliver of a piece."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from garmentc.output.paper.masks import Board, Mask, cells, fewest, from_on, lowest, mask_of
from garmentc.output.paper.papers import OVERLAP, Paper
from garmentc.output.paper.parts import Laid, PaperPiece
from garmentc.record import Record

CELL = 5.0
"""About the size of the cells in which places are looked for (mm); it is also the least gap between pieces."""

_SLIVER = 15.0  # mm; a page holds more of a piece than reaches only so far into it
_TRIES = 16  # ways in which the pieces are laid, for each way the paper may lie


class Block(Record):
    """Width and height (mm) of what is kept free in the lower left corner, for the notes of the first page."""

    width: float
    height: float


class Arrangement(Record):
    """Pieces in place, the lower left corner of the first page's window at 0, and how many pages they take.

    ``top`` is where the drawing ends (mm).
    """

    paper: Paper
    laid: tuple[Laid, ...]
    pages: int
    top: float


class _Shape(Record):
    piece: PaperPiece
    ways: tuple[tuple[complex, Mask], ...]


class _Spot(Record):
    shape: _Shape
    turn: complex
    mask: Mask
    at: int


class _Result(Record):
    spots: tuple[_Spot, ...]
    pages: int
    cut: int
    """How many pages the pieces take, each counted for itself: the fewer, the fewer joints run through pieces."""


def arrange(pieces: Sequence[PaperPiece], paper: Paper, kept: Block | None = None) -> Arrangement:
    """The best of a fixed number of tries; the paper stands upright or lies, as fewer pages are used."""
    papers = (paper,) if paper.endless or kept else (paper, paper.lying)
    found = [_on(pieces, one, kept) for one in papers]
    return min(found, key=lambda one: one.pages)


def _on(pieces: Sequence[PaperPiece], paper: Paper, kept: Block | None) -> Arrangement:
    table = _Table(pieces, paper, kept)
    chance = _Chance()
    best = table.lay(table.shapes, None)
    for number in range(_TRIES):
        if best.pages <= table.bound or paper.endless:
            break
        order = chance.order(len(pieces)) if number % 4 == 3 else range(len(pieces))
        result = table.lay([table.shapes[i] for i in order], chance)
        if (result.pages, result.cut) < (best.pages, best.cut):
            best = result
    laid = tuple(table.laid(spot) for spot in best.spots)
    top = max((p.imag for one in laid for ring in one.rings for p in ring), default=0.0)
    return Arrangement(paper, laid, best.pages, top)


class _Chance:
    """Numbers that look like chance and are the same in every run."""

    def __init__(self) -> None:
        self._state = 1

    def below(self, most: int) -> int:
        """A number from 0 on, less than so many."""
        self._state = (self._state * 1103515245 + 12345) % 2**31
        return (self._state >> 8) * most >> 23

    def order(self, count: int) -> list[int]:
        """So many things, the largest first, but two neighbours exchanged."""
        order = list(range(count))
        if count > 1:
            i = self.below(count - 1)
            order[i], order[i + 1] = order[i + 1], order[i]
        return order


class _Table:
    """A board for one kind of paper, with the pieces as cells, largest first."""

    def __init__(self, pieces: Sequence[PaperPiece], paper: Paper, kept: Block | None) -> None:
        self.paper = paper
        across, up = paper.step
        self.nx, self.ny = cells(across, CELL), cells(up, CELL)
        self.cell = across / self.nx, up / self.ny
        shapes = [_Shape(piece, tuple(self._ways(piece))) for piece in pieces]
        # On a roomy sheet no piece is cut through that fits on it in any way.
        whole = [_Shape(piece, tuple(way for way in ways if way[1].wide <= self.nx)) for piece, ways in shapes]
        one_wide = paper.roomy and all(shape.ways for shape in whole)
        shapes = whole if one_wide else shapes
        shapes.sort(key=lambda shape: -_size(shape.ways[0][1]))
        self.shapes = shapes
        taken = sum(_size(shape.ways[0][1]) for shape in shapes)
        self.bound = math.ceil(taken / (self.nx * self.ny))
        longest = max(max(shape.ways[0][1].wide, shape.ways[0][1].tall) for shape in shapes)
        self.tiles_across = 1 if one_wide else 1 + math.ceil(longest / self.nx)
        least = sum(min(mask.tall for _, mask in shape.ways) for shape in shapes)
        self.tiles_up = max(2, math.ceil((longest if self.tiles_across > 1 else least + len(shapes)) / self.ny) + 1)
        while self.tiles_across * self.tiles_up < 2 * self.bound + 4:
            self.tiles_up += 1
        self.kept = kept
        self._touching: dict[tuple[int, complex], list[tuple[int, int]]] = {}
        self._set_board()

    def _set_board(self) -> None:
        self.board = Board(self.nx * self.tiles_across, self.ny * self.tiles_up)
        self._touching.clear()
        self.start = 0
        if self.kept is not None:
            wide, tall = cells(self.kept.width, self.cell[0]), cells(self.kept.height, self.cell[1])
            self.start = self.board.block(0, 0, wide + 1, tall + 1)

    def _ways(self, piece: PaperPiece) -> Iterator[tuple[complex, Mask]]:
        """As drawn, and turned by quarters."""
        for turn in (1 + 0j, 1j):
            rings = [[p * turn for p in ring] for ring in piece.rings]
            mask = mask_of(rings, self.cell)
            yield turn, mask
            far = mask.corner + complex(mask.wide * self.cell[0], mask.tall * self.cell[1])
            yield -turn, mask.turned()._replace(corner=-far)

    def lay(self, shapes: Sequence[_Shape], chance: _Chance | None) -> _Result:
        """The pieces one after the other, each where it needs the fewest pages that are not in use yet.

        Of several such places it is the first, or with ``chance`` any.
        """
        while True:
            spots, used, taken, cut = [], set[int](), self.start, 0
            if self.kept is not None:
                used.add(0)
            for shape in shapes:
                spot = self._spot(shape, used, taken, chance)
                if spot is None:
                    break
                spots.append(spot)
                taken |= self.board.around(spot.mask, spot.at)
                tiles = self._tiles(spot)
                cut += len(tiles)
                used |= tiles
            else:
                return _Result(tuple(spots), len(used), cut)
            self.tiles_up += 2
            self._set_board()

    def _spot(self, shape: _Shape, used: set[int], taken: int, chance: _Chance | None) -> _Spot | None:
        best: tuple[tuple[int, ...], _Spot] | None = None
        start = chance.below(self.board.columns * self.board.rows) if chance is not None else 0
        for number, (turn, mask) in enumerate(shape.ways):
            free = self.board.places(mask) & ~self.board.touching(mask, taken)
            if not free:
                continue
            if self.paper.endless:
                at = lowest(free)
                rank: tuple[int, ...] = (at // self.board.columns + mask.tall, number)
            else:
                tiles = self._tile_places(shape, turn, mask)
                new = [(touched, core) for tile, (touched, core) in enumerate(tiles) if tile not in used]
                slivers = 0
                for touched, core in new:
                    slivers |= touched & ~core
                whole = free & ~slivers or free
                chosen = fewest([touched for touched, _ in new], whole)
                at = from_on(fewest([touched for touched, _ in tiles], chosen), start)
                count = sum(touched >> at & 1 for touched, _ in new)
                rank = (count, slivers >> at & 1, at // self.board.columns + mask.tall, number)
            if best is None or rank < best[0]:
                best = rank, _Spot(shape, turn, mask, at)
        return None if best is None else best[1]

    def _tile_places(self, shape: _Shape, turn: complex, mask: Mask) -> list[tuple[int, int]]:
        """For each page the places at which a piece touches it, and those at which it holds more than a sliver."""
        key = id(shape), turn
        if key not in self._touching:
            board = self.board
            right, top = self.nx * (self.tiles_across - 1), self.ny * (self.tiles_up - 1)
            inset_x, inset_y = math.ceil(_SLIVER / self.cell[0]), math.ceil(_SLIVER / self.cell[1])
            touched = board.touching(mask, board.block(right, top, self.nx, self.ny))
            core = board.touching(
                mask, board.block(right + inset_x, top + inset_y, self.nx - 2 * inset_x, self.ny - 2 * inset_y)
            )
            found, places = [], board.places(mask)
            for row in range(self.tiles_up):
                for column in range(self.tiles_across):
                    back = (top - row * self.ny) * board.columns + right - column * self.nx
                    found.append((touched >> back & places, core >> back & places))
            self._touching[key] = found
        return self._touching[key]

    def _tiles(self, spot: _Spot) -> set[int]:
        row, column = divmod(spot.at, self.board.columns)
        used = set()
        for number, bits in enumerate(spot.mask.rows):
            first = (row + number) // self.ny * self.tiles_across
            low, high = lowest(bits), bits.bit_length() - 1
            used |= {first + tile for tile in range((column + low) // self.nx, (column + high) // self.nx + 1)}
        return used

    def laid(self, spot: _Spot) -> Laid:
        """A piece from its place on the board, y up, with room for half a joint along the lower and left edges."""
        row, column = divmod(spot.at, self.board.columns)
        corner = complex(column * self.cell[0], row * self.cell[1]) + complex(OVERLAP, OVERLAP) / 2
        return Laid(spot.shape.piece, spot.turn, corner - spot.mask.corner)


def _size(mask: Mask) -> int:
    return sum(row.bit_count() for row in mask.rows)
