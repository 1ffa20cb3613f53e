"""Strip sets, four- and nine-patches: from strips sewn side by side and cut across, or from single pieces."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patterns.engine.parts import Patch, Unit, UnitKind
from patterns.engine.steps import Fact, Phrase, Spare, listed
from patterns.engine.surds import Number, ceiling
from patterns.engine.units.base import UNIT, Draft, Job, Method, Need, share, text
from patterns.engine.units.plain import Plain, rectangle

SQUARE_UP = Fraction(1, 2)  # inches at the end of a strip set (common practice)
Row = tuple[tuple[str, Number], ...]  # letters and finished widths, from left to right


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One row of a unit: its strips, and its height, finished inches."""

    strips: Row
    height: Number


def bands(unit: Unit) -> tuple[Band, ...]:
    """Read the rows off the patches of a unit."""
    rows: dict[Number, list[Patch]] = {}
    for patch in unit.patches:
        rows.setdefault(min(p[1] for p in patch.points), []).append(patch)
    return tuple(_band(rows[top]) for top in sorted(rows))


def _band(patches: list[Patch]) -> Band:
    ordered = sorted(patches, key=lambda patch: min(p[0] for p in patch.points))
    ys = [p[1] for p in ordered[0].points]
    return Band(strips=tuple((p.fabric, _width(p)) for p in ordered), height=max(ys) - min(ys))


def _width(patch: Patch) -> Number:
    xs = [p[0] for p in patch.points]
    return max(xs) - min(xs)


def from_strips(job: Job) -> Draft:
    """Sew strips side by side, cut the set across; join the segments where the unit has several rows."""
    rows = bands(job.unit)
    kinds = list(dict.fromkeys(canonical(band) for band in rows))
    single = len(rows) == 1
    needs: list[Need] = []
    operations: list[dict[str, Any]] = []
    spares: list[Spare] = []
    warnings: list[Phrase] = []
    words: list[Phrase] = []
    for i, band in enumerate(kinds):
        wanted = job.make * sum(canonical(row) == band for row in rows)
        made = _Set(job=job, band=band, wanted=wanted, name=UNIT if single else f"segment {i}", index=i)
        needs += made.needs()
        operations += made.operations()
        spares += made.spares()
        warnings += made.warnings()
        words += made.words()
    if not single:
        words.append(Phrase("Sew the segments together as drawn, seams nested. Press to one side."))
        operations.append(
            _rows(job, [[[f"segment {kinds.index(canonical(row))}", _turn(row)]] for row in rows], UNIT)
        )
    return Draft(
        needs=tuple(needs),
        operations=tuple(operations),
        words=tuple(words),
        spares=tuple(spares),
        warnings=tuple(warnings),
    )


def canonical(band: Band) -> Band:
    """Give the row or the row turned by half, whichever comes first."""
    turned = Band(strips=band.strips[::-1], height=band.height)
    return min(band, turned, key=lambda b: b.strips)


def _turn(band: Band) -> int:
    return 0 if canonical(band) == band else 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Set:
    """Strip sets of one row: as many as the fabric's width asks for, equally long."""

    job: Job
    band: Band
    wanted: int
    name: str
    index: int

    @property
    def every(self) -> Number:
        return self.band.height + 2 * self.job.seam

    @property
    def sets(self) -> int:
        """Say how many sets it takes when none is longer than the usable width."""
        room = self.job.style.usable_width - SQUARE_UP
        per_set = max(1, int(room // self.every)) if isinstance(self.every, Fraction) else 1
        return share(self.wanted, per_set)

    @property
    def per_set(self) -> int:
        return share(self.wanted, self.sets)

    def _strips(self) -> dict[tuple[str, Number], int]:
        counts: dict[tuple[str, Number], int] = {}
        for strip in self.band.strips:
            counts[strip] = counts.get(strip, 0) + self.sets
        return counts

    def _ref(self, strip: tuple[str, Number]) -> str:
        return f"strip {self.index} {strip[0]} {text(strip[1])}"

    def needs(self) -> list[Need]:
        length = ceiling(self.per_set * self.every + SQUARE_UP, self.job.style.step)
        return [
            Need(
                ref=self._ref(strip),
                fabric=strip[0],
                width=self.job.up(strip[1] + 2 * self.job.seam),
                length=length,
                count=count,
                purpose="strip sets",
            )
            for strip, count in self._strips().items()
        ]

    def operations(self) -> list[dict[str, Any]]:
        strips = [[self._ref(strip), 0] for strip in self.band.strips]
        name = f"strip set {self.index}"
        return [
            {**_rows(self.job, [strips], name), "times": self.sets},
            {
                "op": "across",
                "of": name,
                "times": self.sets,
                "every": text(self.every),
                "pieces": self.per_set,
                "gives": self.name,
            },
        ]

    def spares(self) -> list[Spare]:
        over = self.sets * self.per_set - self.wanted
        if not over:
            return []
        if self.name == UNIT:
            return list(self.job.spare(over))
        width = sum((w for _, w in self.band.strips), 2 * self.job.seam)
        letters = tuple(letter for letter, _ in self.band.strips)
        return [Spare(ref=self.name, count=over, fabrics=letters, size=(width, self.every))]

    def words(self) -> list[Phrase]:
        """Say which strips are sewn, how they are pressed, and how many segments are cut."""
        refs = dict.fromkeys(self._ref(strip) for strip in self.band.strips)
        strips = listed([Phrase("{piece}", {"piece": ref}) for ref in refs])
        across: dict[str, Fact] = {"count": self.wanted, "size": self.every}
        return [
            Phrase("Sew {strips} side by side along their long sides, as drawn.", {"strips": strips}),
            self._press_words(),
            Phrase("Straighten one end. Cut {count} segments across the strips, every {size}.", across),
        ]

    def _press_words(self) -> Phrase:
        letters = tuple(dict.fromkeys(letter for letter, _ in self.band.strips))
        if len(letters) != 2:  # noqa: PLR2004 -- of two fabrics, one is the darker at every seam
            return Phrase("Press the seams all one way.")
        return Phrase("Press toward fabric {fabric}.", {"fabric": self.job.style.darker(letters)})

    def warnings(self) -> list[Phrase]:
        if self.sets == 1:
            return []
        return [
            Phrase(
                "A strip set would be longer than the fabric is wide: make {count} shorter ones.",
                {"count": self.sets},
            )
        ]


def _rows(job: Job, rows: list[list[list[Any]]], gives: str) -> dict[str, Any]:
    return {"op": "rows", "times": job.make, "rows": rows, "seam": text(job.seam), "gives": gives}


def from_pieces(job: Job) -> Draft:
    """Cut every patch by itself and join them in rows."""
    rows = bands(job.unit)
    counts: dict[tuple[str, Number, Number], int] = {}
    for band in rows:
        for letter, width in band.strips:
            counts[letter, width, band.height] = counts.get((letter, width, band.height), 0) + job.make
    plains: dict[tuple[str, Number, Number], Plain] = {
        key: rectangle(
            job, key[0], width=key[1], height=key[2], count=count, purpose=f"{job.unit.kind.value} units"
        )
        for key, count in counts.items()
    }
    cells = [[[plains[letter, width, band.height].ref, 0] for letter, width in band.strips] for band in rows]
    operations = [operation for plain in plains.values() for operation in plain.operations]
    return Draft(
        needs=tuple(plain.need for plain in plains.values()),
        operations=(*operations, _rows(job, cells, UNIT)),
        words=_laid_words(job, [plain.need for plain in plains.values()], len(rows)),
        warnings=tuple(warning for plain in plains.values() for warning in plain.warnings),
    )


def _laid_words(job: Job, needs: list[Need], rows: int) -> tuple[Phrase, ...]:
    """Say which pieces one unit is laid from, and how they are sewn."""
    laid = [
        Phrase("{count}\N{NO-BREAK SPACE}{piece}", {"count": need.count // job.make, "piece": need.ref})
        for need in needs
    ]
    pieces: dict[str, Fact] = {"pieces": listed(laid)}
    if rows == 1:
        return (
            Phrase("Sew {pieces} together side by side, as drawn.", pieces),
            Phrase("Press the seams all one way."),
        )
    return (
        Phrase("Lay out {pieces}, as drawn, and sew those of each row together.", pieces),
        Phrase(
            "Press the seams of each row the other way than those of the row above; then they nest. "
            "Sew the rows together."
        ),
    )


def _on_step(job: Job) -> bool:
    rows = bands(job.unit)
    return job.on_step(
        *(w for band in rows for _, w in band.strips), *(band.height + 2 * job.seam for band in rows)
    )


def _several(job: Job) -> bool:
    """Strip sets pay where the same row is needed twice or more."""
    return job.make > 1


KINDS = (UnitKind.STRIP_SET, UnitKind.FOUR_PATCH, UnitKind.NINE_PATCH)
METHODS = (
    *(
        Method(name="from strip sets", kind=k, admits=_on_step, prefers=_several, draft=from_strips)
        for k in KINDS
    ),
    *(Method(name="from single pieces", kind=k, draft=from_pieces) for k in KINDS),
)
