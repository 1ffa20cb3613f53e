"""What can go wrong when a recipe is sewn; the rules are a closed set."""

from __future__ import annotations

from enum import StrEnum


class Rule(StrEnum):
    """The rules of proof, by the words a finding names them with."""

    READABLE = "the instructions can be followed"
    ORDER = "steps are numbered in order"
    COUNT = "pieces made are pieces used"
    SPARE = "spares are what they are said to be"
    SEAM = "the seam is the program's"
    EDGES = "edges that are joined are equally long"
    ALLOWANCE = "both layers reach the seam allowance past the seam"
    OPEN = "every part opens along one seam"
    CORNER = "pieces lie corner on corner"
    COVER = "the unit is large enough to trim"
    OVERLAP = "no layer lies over another"
    FREE_PLAY = "the trim has one result"
    EXACT = "the unit measures what it should before trimming"
    ALIKE = "parts of one name are alike"
    CHECK = "the check measurement is met"
    THEN = "pieces are cut apart as the cutting table says"
    SIZE = "the whole has its unfinished size"
    PATCH = "every patch has its place, size and fabric"
    ERROR = "points meet within 1/16 in"
    MOTION = "parts are moved and turned, nothing else"
    PATH = "a part meets the rest along its seam and nowhere else"
    KIND = "a seam is of the kind it says"
    OPEN_END = "a partial seam is closed in the end"
    OUTLINE = "what is sewn has the outline it says"
    TEMPLATE = "a template holds the patch with its seams"
    GROUND = "appliqué shapes lie on the finished block"
    LAYERS = "appliqué shapes lie over each other as in the drawing"


class SewingFault(Exception):
    """A rule broken while sewing; `where` is the piece or part, lengths in inches as text."""

    def __init__(self, rule: Rule, *, where: str = "", expected: str = "", found: str = "") -> None:
        """Keep the facts; the runner adds the step."""
        super().__init__(rule.value)
        self.rule = rule
        self.where = where
        self.expected = expected
        self.found = found
