"""A small program for tests: plain functions, no library, every number in sight.

Three 6 in blocks in one row, 2 in sashing with cornerstones, a 3 in border: the centre is
3 x 6 + 2 x 2 = 22 by 6 in, the top 28 by 12 in.  Five installments: a block, two blocks, a month
to catch up, the joining of the centre, and the finishing.  In the second colorway C and D are one
fabric.
"""

from __future__ import annotations

from datetime import date, time
from typing import Any

from bom.enums import PartKind
from bom.models import Installment, InstallmentPart, Program
from patterns.models import (
    Block,
    Collection,
    Colorway,
    ColorwayFabric,
    Fabric,
    PlacedBlock,
    Quilt,
    QuiltLetter,
    User,
)

ROLES = {"A": "background", "B": "star", "C": "accent", "D": "frame", "E": "binding", "F": "backing"}
COLOURS = {"A": "#F4EFE6", "B": "#1F3A5F", "C": "#B5543A", "D": "#5F7F6B", "E": "#2B2B33", "F": "#D9CBB0"}
COLORWAYS = {"harbour": "ABCDEF", "meadow": "ABCCEF"}  # slug -> for each letter, whose cloth it takes


def square(letter: str, x: int, y: int, *, size: int = 1) -> dict[str, Any]:
    """Give a square patch of the drawing file."""
    return {"fabric": letter, "points": [[x, y], [x + size, y], [x + size, y + size], [x, y + size]]}


def hourglass(letters: str, x: int, y: int) -> list[dict[str, Any]]:
    """Give four triangles of a 2 x 2 square, from the top clockwise."""
    corners = [[x, y], [x + 2, y], [x + 2, y + 2], [x, y + 2]]
    middle = [x + 1, y + 1]
    sides = zip(letters, corners, corners[1:] + corners[:1], strict=True)
    return [{"fabric": letter, "points": [start, end, middle]} for letter, start, end in sides]


def ohio_star() -> dict[str, Any]:
    """Draw the Ohio Star on a grid of six: four hourglasses round a square, background B corners."""
    corners = [square("A", x, y, size=2) for x in (0, 4) for y in (0, 4)]
    upright = [*hourglass("ABAB", 2, 0), *hourglass("ABAB", 2, 4)]
    level = [*hourglass("BABA", 0, 2), *hourglass("BABA", 4, 2)]
    return {
        "name": "Ohio Star",
        "grid": [6, 6],
        "patches": [*corners, *upright, *level, square("C", 2, 2, size=2)],
    }


def sawtooth_star() -> dict[str, Any]:
    """Draw the Sawtooth Star on a grid of four: flying geese round a square."""
    geese = []
    for a, b, tip, c, d in (
        ([1, 0], [3, 0], [2, 1], [1, 1], [3, 1]),
        ([3, 4], [1, 4], [2, 3], [3, 3], [1, 3]),
        ([0, 3], [0, 1], [1, 2], [1, 3], [1, 1]),
        ([4, 1], [4, 3], [3, 2], [3, 1], [3, 3]),
    ):
        geese += [
            {"fabric": "A", "points": [a, b, tip]},
            {"fabric": "B", "points": [a, tip, c]},
            {"fabric": "B", "points": [b, d, tip]},
        ]
    corners = [square("A", x, y) for x in (0, 3) for y in (0, 3)]
    return {"name": "Sawtooth Star", "grid": [4, 4], "patches": [*corners, *geese, square("C", 1, 1, size=2)]}


def nine_patch() -> dict[str, Any]:
    """Draw the Nine Patch on a grid of three."""
    patches = [square("AB"[(x + y) % 2], x, y) for y in range(3) for x in range(3)]
    return {"name": "Nine Patch", "grid": [3, 3], "patches": patches}


def make_user(email: str = "dora@example.org", name: str = "Dora") -> User:
    """Find or make a person."""
    return User.objects.filter(email=email).first() or User.objects.create_user(email, name)


def make_block(drawing: dict[str, Any], owner: User | None = None) -> Block:
    """Keep a drawing as a block, once per owner."""
    slug = str(drawing["name"]).lower().replace(" ", "-")
    known = Block.objects.filter(owner=owner, slug=slug).first()
    return known or Block.objects.create(owner=owner, slug=slug, name=drawing["name"], drawing=drawing)


def make_fabrics(owner: User) -> dict[str, Fabric]:
    """Make a collection once, with one fabric for each letter, 40 in usable, no direction."""
    collection, new = Collection.objects.get_or_create(owner=owner, name="Tidewater")
    if new:
        Fabric.objects.bulk_create(
            Fabric(
                collection=collection,
                number=f"TW-{n}",
                name=f"Tidewater {role}",
                colour=COLOURS[letter],
                value=n,
            )
            for n, (letter, role) in enumerate(ROLES.items(), start=1)
        )
    known = {fabric.number: fabric for fabric in collection.fabrics.all()}
    return {letter: known[f"TW-{n}"] for n, letter in enumerate(ROLES, start=1)}


def make_quilt(owner: User, **fields: Any) -> Quilt:
    """Make the quilt with its letters; no block placed yet."""
    sizes: dict[str, Any] = {
        "rows": 1,
        "columns": 3,
        "block_size": "6",
        "sashing_width": "2",
        "sashing_letter": "D",
        "cornerstone_letter": "",
        "border_width": "3",
        "border_letter": "A",
        "binding_letter": "E",
        "backing_letter": "F",
    }
    quilt = Quilt.objects.create(owner=owner, name="Small Tide", **{**sizes, **fields})
    QuiltLetter.objects.bulk_create(
        QuiltLetter(quilt=quilt, letter=letter, role=role, hatch=hatch)
        for hatch, (letter, role) in enumerate(ROLES.items())
    )
    return quilt


def place(quilt: Quilt, block: Block, column: int, **fields: Any) -> PlacedBlock:
    """Place a block in the first row, its letters as drawn."""
    letters = {patch["fabric"]: patch["fabric"] for patch in block.drawing["patches"]}
    return PlacedBlock.objects.create(
        quilt=quilt, block=block, **{"row": 0, "column": column, "letters": letters, **fields}
    )


def make_colorways(quilt: Quilt, fabrics: dict[str, Fabric]) -> list[Colorway]:
    """Make both colorways over the same fabrics."""
    letters = {each.letter: each for each in quilt.letters.all()}
    made = []
    for position, (slug, cloth) in enumerate(COLORWAYS.items()):
        colorway = Colorway.objects.create(quilt=quilt, slug=slug, name=slug.title(), position=position)
        ColorwayFabric.objects.bulk_create(
            ColorwayFabric(colorway=colorway, letter=letters[letter], fabric=fabrics[taken])
            for letter, taken in zip(ROLES, cloth, strict=True)
        )
        made.append(colorway)
    return made


def make_installment(
    program: Program, number: int, title: str, *parts: PlacedBlock | PartKind
) -> Installment:
    """Make an installment that holds these blocks and parts of the top."""
    installment = Installment.objects.create(program=program, number=number, title=title)
    rows = []
    for position, part in enumerate(parts):
        row = InstallmentPart(installment=installment, position=position)
        if isinstance(part, PlacedBlock):
            row.kind, row.placed_block = PartKind.BLOCK, part
        else:
            row.kind = part
        rows.append(row)
    InstallmentPart.objects.bulk_create(rows)
    return installment


def make_program(slug: str = "small", designer: User | None = None, **fields: Any) -> Program:
    """Make the whole small program; `fields` override those of the Program."""
    designer = designer or make_user()
    quilt = make_quilt(designer)
    blocks = [make_block(drawing(), designer) for drawing in (ohio_star, sawtooth_star, nine_patch)]
    placed = [place(quilt, block, column) for column, block in enumerate(blocks)]
    make_colorways(quilt, make_fabrics(designer))
    settings: dict[str, Any] = {
        "title": "Small Tide",
        "zone": "America/Halifax",
        "rule": "FREQ=MONTHLY;BYDAY=3SA",
        "first_day": date(2027, 1, 1),
        "release_time": time(10, 0),
    }
    program = Program.objects.create(slug=slug, designer=designer, quilt=quilt, **{**settings, **fields})
    make_installment(program, 1, "First Light", placed[0])
    make_installment(program, 2, "Two Boats", placed[1], placed[2])
    make_installment(program, 3, "Catch Up")
    make_installment(program, 4, "Joining", PartKind.SASHING)
    make_installment(program, 5, "Finishing", PartKind.BORDER, PartKind.BACKING, PartKind.BINDING)
    program.refresh_from_db()  # lengths typed as text come back as exact Fractions
    return program
