"""Rectangles with corners cut off at 45 degrees, drawn for the tests of corner-flip squares."""

from __future__ import annotations

from tests.engine.drawings import Drawing, patch


def cut_corners(shape: tuple[int, int, int], letters: str) -> list[Drawing]:
    """Draw body A and a corner for each letter, clockwise from the top left; "." leaves a corner uncut.

    `shape` is width, height and the leg of the corners.
    """
    width, height, leg = shape
    spots = [(0, 0), (width, 0), (width, height), (0, height)]
    body: list[tuple[int, int]] = []
    corners: list[Drawing] = []
    for number, (x, y) in enumerate(spots):
        if letters[number] == ".":
            body.append((x, y))
            continue
        inward, down = (-leg if x else leg), (-leg if y else leg)
        across, along = (x + inward, y), (x, y + down)
        body += [along, across] if number % 2 == 0 else [across, along]
        corners.append(patch(letters[number], (x, y), across, along))
    return [patch("A", *body), *corners]
