"""Blocks, collections and fabrics of a program file, from strict entries to records."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from django.core.exceptions import ValidationError
from django.db.models import Model
from django.utils.translation import gettext as _

from patterns.engine.blocks import block_from_data
from patterns.engine.errors import PatternError
from patterns.enums import Direction
from patterns.models import Block, Collection, Fabric

if TYPE_CHECKING:
    from bom.domain.program_file_reading import Entry
    from patterns.models import User

    FabricKey = tuple[str, str]

Record = TypeVar("Record", bound=Model)

OWN = "own/"
SHORT = 120
MOST_SHADES = 10
MOST_GSM = 2_000


def checked(record: Record, entry: Entry, *names: str) -> Record:
    """Let the record check these fields; the first complaint names the entry."""
    others = [field.name for field in record._meta.get_fields() if field.name not in names]
    try:
        record.clean_fields(exclude=others)
    except ValidationError as error:
        name, messages = next(iter(error.message_dict.items()))
        raise entry.bad(name, " ".join(messages)) from error
    return record


def read_blocks(file: Entry, *, designer: User) -> dict[str, Block]:
    """Find or make the drawn blocks; equal drawings are kept once, by their key in the file."""
    blocks: dict[str, Block] = {}
    for entry in file.entries("blocks"):
        key = entry.text("key", most=SHORT)
        if key in blocks:
            raise entry.bad("key", _("There are two blocks {key}. Give one another key."), key=key)
        blocks[key] = _block(entry, key=key, designer=designer)
        entry.done()
    return blocks


def _block(entry: Entry, *, key: str, designer: User) -> Block:
    """Find an equal block or make one; a traditional one that differs becomes the designer's own."""
    drawing = entry.plain("drawing")
    _check_drawing(drawing, entry)
    fields = {"name": entry.text("name", most=SHORT), "category": entry.text("category", blank=True, most=60)}
    slug = key.removeprefix(OWN)
    for owner in (designer,) if key.startswith(OWN) else (None, designer):
        found = Block.objects.filter(owner=owner, slug=slug).first()
        if found is None:
            made = Block(owner=owner, slug=slug, drawing=drawing, **fields)
            checked(made, entry, "slug", "name", "category").save()
            return made
        if found.drawing == drawing:
            return found
    raise entry.bad("drawing", _("You have another block {slug}. Give this one another key."), slug=slug)


def _check_drawing(drawing: object, entry: Entry) -> None:
    """Refuse what is no exact partition into patches; the engine says what is wrong with it."""
    if not isinstance(drawing, dict):
        raise entry.bad("drawing", _("This must be a block drawing, with name, grid and patches."))
    try:
        block_from_data(drawing)
    except (PatternError, TypeError) as error:
        raise entry.bad("drawing", _("This drawing cannot be read: {reason}."), reason=error) from error


def read_fabrics(file: Entry, *, designer: User) -> dict[FabricKey, Fabric]:
    """Find or make collections and fabrics; a fabric that is there already must be equal."""
    fabrics: dict[FabricKey, Fabric] = {}
    for entry in file.entries("collections"):
        name = entry.text("name", most=SHORT)
        collection, _made = Collection.objects.get_or_create(owner=designer, name=name)
        known = {each.number: each for each in collection.fabrics.all()}
        new: list[Fabric] = []
        for row in entry.entries("fabrics"):
            fabric = _fabric(row, collection)
            if (name, fabric.number) in fabrics:
                raise row.bad("number", _("There are two fabrics of this number. Number them apart."))
            fabrics[name, fabric.number] = _same_fabric(known.get(fabric.number), fabric, row)
            if fabric.number not in known:
                new.append(fabric)
        Fabric.objects.bulk_create(new)
        entry.done()
    return fabrics


def _fabric(row: Entry, collection: Collection) -> Fabric:
    fabric = Fabric(
        collection=collection,
        number=row.text("number", most=40),
        name=row.text("name", most=SHORT),
        colour=row.text("colour", most=7),
        value=row.whole("value", least=1, most=MOST_SHADES, default=5),
        direction=row.choice("direction", Direction, default=Direction.NONE),
        nominal_width=row.length("nominal_width", default="44"),
        usable_width=row.length("usable_width", default="40"),
        weight_gsm=row.whole("weight_gsm", least=1, most=MOST_GSM, default=150),
        fibre=row.text("fibre", blank=True, most=SHORT),
        bleeds=row.flag("bleeds"),
        basic=row.flag("basic"),
    )
    row.done()
    if not (fabric.colour.startswith("#") and _is_hex(fabric.colour[1:])):
        raise row.bad("colour", _("Write a colour as #1F3A54."))
    if not 0 < fabric.usable_width <= fabric.nominal_width:
        raise row.bad(
            "usable_width", _("Write a usable width above 0 and not above the width with selvages.")
        )
    return fabric


def _is_hex(text: str) -> bool:
    return len(text) == len("RRGGBB") and all(sign in "0123456789abcdefABCDEF" for sign in text)


def _same_fabric(known: Fabric | None, fabric: Fabric, row: Entry) -> Fabric:
    """Give the fabric that is there already, when nothing about it differs."""
    if known is None:
        return fabric
    names = [field.attname for field in Fabric._meta.concrete_fields if not field.primary_key]
    if any(getattr(known, name) != getattr(fabric, name) for name in names):
        raise row.bad(
            "number", _("You have another fabric of this number. Rename the collection in the file.")
        )
    return known
