"""Drawings that need more than seams square to the sides, for the tests of figures."""

from __future__ import annotations

from patterns.engine.blocks import Block
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
