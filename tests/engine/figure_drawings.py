"""Drawings that need more than seams square to the sides, for the tests of figures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.engine.blocks import Block
from patterns.engine.parts import Patch, Point
from tests.engine.drawings import block, box, inches, patch


def eight_point_star() -> Block:
    """Draw eight diamonds of 45 degrees round the middle, squares and triangles between their points."""
    side, far, middle, low, high = "2+1r2", "1+1r2", "1+1/2r2", "1/2r2", "2+1/2r2"
    centre = (middle, middle)
    corners = [
        patch("A", (0, 0), (1, 0), (1, 1), (0, 1)),
        patch("A", (far, 0), (side, 0), (side, 1), (far, 1)),
        patch("A", (far, far), (side, far), (side, side), (far, side)),
        patch("A", (0, far), (1, far), (1, side), (0, side)),
    ]
    triangles = [
        patch("B", (1, 0), (far, 0), (middle, low)),
        patch("B", (side, 1), (side, far), (high, middle)),
        patch("B", (far, side), (1, side), (middle, high)),
        patch("B", (0, far), (0, 1), (low, middle)),
    ]
    diamonds = [
        patch("C", (1, 0), (middle, low), centre, (1, 1)),
        patch("D", (far, 0), (far, 1), centre, (middle, low)),
        patch("C", (side, 1), (high, middle), centre, (far, 1)),
        patch("D", (side, far), (far, far), centre, (high, middle)),
        patch("C", (far, side), (middle, high), centre, (far, far)),
        patch("D", (1, side), (1, far), centre, (middle, high)),
        patch("C", (0, far), (low, middle), centre, (1, far)),
        patch("D", (0, 1), (1, 1), centre, (low, middle)),
    ]
    return inches(block((side, side), *corners, *triangles, *diamonds))


def bright_hopes() -> Block:
    """Draw four rectangles round a square."""
    return inches(
        block(
            (3, 3),
            box("A", 0, 0, width=2),
            box("B", 2, 0, height=2),
            box("C", 1, 2, width=2),
            box("D", 0, 1, height=2),
            box("E", 1, 1),
        )
    )


def attic_window() -> Block:
    """Draw a square with two sides that meet in a mitre."""
    sides = patch("A", (0, 0), (1, 1), (1, 3), (0, 3)), patch("B", (0, 0), (3, 0), (3, 1), (1, 1))
    return inches(block((3, 3), *sides, box("C", 1, 1, width=2, height=2)))


def economy() -> Block:
    """Draw a four-patch on point in four triangles."""
    return inches(
        block(
            (8, 8),
            patch("A", (0, 0), (4, 0), (0, 4)),
            patch("A", (4, 0), (8, 0), (8, 4)),
            patch("A", (8, 4), (8, 8), (4, 8)),
            patch("A", (4, 8), (0, 8), (0, 4)),
            patch("B", (4, 0), (6, 2), (4, 4), (2, 2)),
            patch("C", (6, 2), (8, 4), (6, 6), (4, 4)),
            patch("B", (4, 4), (6, 6), (4, 8), (2, 6)),
            patch("C", (2, 2), (4, 4), (2, 6), (0, 4)),
        )
    )


def spool() -> Block:
    """Draw a square between four sides mitred at the corners."""
    return inches(
        block(
            (4, 4),
            patch("A", (0, 0), (4, 0), (3, 1), (1, 1)),
            patch("B", (4, 0), (4, 4), (3, 3), (3, 1)),
            patch("A", (4, 4), (0, 4), (1, 3), (3, 3)),
            patch("B", (0, 4), (0, 0), (1, 1), (1, 3)),
            box("C", 1, 1, width=2, height=2),
        )
    )


def ell() -> Block:
    """Draw one patch with an inward corner, and the square in it."""
    ell_shape = patch("A", (0, 0), (1, 0), (1, 2), (3, 2), (3, 3), (0, 3))
    return inches(block((3, 3), ell_shape, box("B", 1, 0, width=2, height=2)))


def nested_windmill() -> Block:
    """Draw four rectangles round a square that is itself a square in a round of rectangles."""
    return inches(
        block(
            (9, 9),
            box("A", 0, 0, width=6, height=3),
            box("B", 6, 0, width=3, height=6),
            box("A", 3, 6, width=6, height=3),
            box("B", 0, 3, width=3, height=6),
            box("C", 3, 3, width=2),
            box("D", 5, 3, height=2),
            box("C", 4, 5, width=2),
            box("D", 3, 4, height=2),
            box("E", 4, 4),
        )
    )


def kaleidoscope() -> Block:
    """Draw eight wedges round the middle, and the corners that are left."""
    around = [(2, 0), (4, 0), (6, 2), (6, 4), (4, 6), (2, 6), (0, 4), (0, 2)]
    pairs = zip(around, (*around[1:], around[0]), strict=True)
    wedges = [patch("AB"[i % 2], one, other, (3, 3)) for i, (one, other) in enumerate(pairs)]
    corners = [
        patch("C", (0, 0), (2, 0), (0, 2)),
        patch("C", (4, 0), (6, 0), (6, 2)),
        patch("C", (6, 4), (6, 6), (4, 6)),
        patch("C", (2, 6), (0, 6), (0, 4)),
    ]
    return inches(block((6, 6), *wedges, *corners))


def compass() -> Block:
    """Draw four slim points to the sides of a square, each in two halves, and the ground between them."""
    points = [((6, 0), 0), ((12, 6), 1), ((6, 12), 2), ((0, 6), 3)]
    inner = [(4, 4), (8, 4), (8, 8), (4, 8)]
    corners = [(0, 0), (12, 0), (12, 12), (0, 12)]
    halves = []
    for tip, i in points:
        halves += [patch("A", tip, (6, 6), inner[i]), patch("B", tip, inner[(i + 1) % 4], (6, 6))]
    ground = [patch("C", corners[i], points[i][0], inner[i], points[i - 1][0]) for i in range(4)]
    return inches(block((12, 12), *halves, *ground))


def slim_compass() -> Block:
    """Draw eight slim points: four to the sides, four to the corners, each in two halves."""
    eighth = (
        ("A", ((6, 0), (12, 0), (7, 2))),
        ("B", ((12, 0), (8, 4), (7, 2))),
        ("C", ((6, 0), (8, 4), (6, 6))),
    )
    others = {"A": "A", "B": "D", "C": "E"}
    patches = []
    for quarter in range(4):
        for letter, corners in eighth:
            across = [(12 - y, 12 - x) for x, y in corners]
            for fabric, points in ((letter, list(corners)), (others[letter], across)):
                turned = points
                for _ in range(quarter):
                    turned = [(12 - y, x) for x, y in turned]
                patches.append(patch(fabric, *turned))
    return block((12, 12), *patches)


def tumbling_block() -> Block:
    """Draw three diamonds of 60 degrees that make a cube, and what is left of their rectangle."""
    wide, half = "1r3", "1/2r3"
    return inches(
        block(
            (wide, 2),
            patch("A", (half, 0), (wide, "1/2"), (half, 1), (0, "1/2")),
            patch("B", (0, "1/2"), (half, 1), (half, 2), (0, "3/2")),
            patch("C", (half, 1), (wide, "1/2"), (wide, "3/2"), (half, 2)),
            patch("D", (0, 0), (half, 0), (0, "1/2")),
            patch("D", (half, 0), (wide, 0), (wide, "1/2")),
            patch("D", (wide, "3/2"), (wide, 2), (half, 2)),
            patch("D", (0, "3/2"), (half, 2), (0, 2)),
        )
    )


def nine_diamonds() -> Block:
    """Draw a diamond of 60 degrees divided into nine, in its rectangle."""
    corners = ((0, 0), (1, 0), (1, 1), (0, 1))
    diamonds = [
        patch("AB"[(i + j) % 2], *(_slanted(i + di, j + dj) for di, dj in corners))
        for i in range(3)
        for j in range(3)
    ]
    ground = [
        patch("C", (0, 0), ("3/2r3", 0), (0, "3/2")),
        patch("C", ("3/2r3", 0), ("3r3", 0), ("3r3", "3/2")),
        patch("C", ("3r3", "3/2"), ("3r3", 3), ("3/2r3", 3)),
        patch("C", (0, "3/2"), ("3/2r3", 3), (0, 3)),
    ]
    return inches(block(("3r3", 3), *diamonds, *ground))


def _slanted(i: int, j: int) -> tuple[str, str]:
    """Give a corner of the diamonds: i steps down to the right, j down to the left, from the top."""
    return f"{3 + i - j}/2r3".replace("0/2r3", "0"), f"{i + j}/2"


def hexagon_flower() -> Block:
    """Draw a hexagon in six others, and the six pieces that fill their rectangle."""
    centres = [(4, 3), (4, 1), (7, 2), (7, 4), (4, 5), (1, 4), (1, 2)]  # halves across, half heights down
    around = [(2, 0), (1, 1), (-1, 1), (-2, 0), (-1, -1), (1, -1)]
    hexagons = [
        patch("A" if n == 0 else "B", *(_hexagonal(x + dx, y + dy) for dx, dy in around))
        for n, (x, y) in enumerate(centres)
    ]
    fills = [
        [(-1, 0), (3, 0), (2, 1), (0, 1), (-1, 2)],
        [(5, 0), (9, 0), (9, 2), (8, 1), (6, 1)],
        [(9, 2), (9, 4), (8, 3)],
        [(9, 4), (9, 6), (5, 6), (6, 5), (8, 5)],
        [(-1, 4), (0, 5), (2, 5), (3, 6), (-1, 6)],
        [(-1, 2), (0, 3), (-1, 4)],
    ]
    ground = [patch("C", *(_hexagonal(x, y) for x, y in fill)) for fill in fills]
    return inches(block((10, "6r3"), *hexagons, *ground))


def _hexagonal(x: int, y: int) -> tuple[int, str]:
    return x + 1, f"{y}r3" if y else "0"


def lone_star(count: int = 3) -> Block:
    """Draw the eight-point star with each of its diamonds divided into count x count."""
    star = eight_point_star()
    diamonds = [each for each in star.patches if len(each.points) == 4 and each.fabric in "CD"]
    others = tuple(each for each in star.patches if each not in diamonds)
    parts: list[Patch] = []
    for diamond in diamonds:
        tip = max(diamond.points, key=lambda point: abs(point[0] - 6) + abs(point[1] - 6))
        first = diamond.points.index(tip)
        a, b, _, d = diamond.points[first:] + diamond.points[:first]
        for i in range(count):
            for j in range(count):
                corners = ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
                points = tuple(_between(a, (b, d), at=at, count=count) for at in corners)
                parts.append(Patch("CDEFGHIJK"[i + j], points))
    return replace(star, patches=(*others, *parts))


def _between(start: Point, ends: tuple[Point, Point], *, at: tuple[int, int], count: int) -> Point:
    (x, y), (b, d) = start, ends
    i, j = Fraction(at[0], count), Fraction(at[1], count)
    return x + (b[0] - x) * i + (d[0] - x) * j, y + (b[1] - y) * i + (d[1] - y) * j
