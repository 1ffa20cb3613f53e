"""Files of sheets: set once per edition and form, kept by the hash of their bytes."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from django.core.files.base import ContentFile
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from bom.domain.editions import newest_edition, sheet_data
from bom.domain.keeping import hash_of
from bom.domain.sheets.content import sheet_html
from bom.domain.sheets.pdf import make_pdf
from bom.errors import WrongState
from bom.models import Rendering, SheetEdition

if TYPE_CHECKING:
    from datetime import datetime

    from bom.domain.sheets.pdf import SheetFile
    from bom.domain.sheets.variants import Variant
    from bom.models import Installment


def ensure_rendering(edition: SheetEdition, variant: Variant, *, now: datetime) -> Rendering:
    """Give the edition's file in this form; set it where it is missing.  A second call changes nothing.

    Raises WrongState when the records have moved on since the edition, so that its file can no longer
    be set: a new edition is due.
    """
    kept = edition.renderings.filter(**variant.fields()).first()
    if kept:
        return kept
    if hash_of(sheet_data(edition.installment)) != edition.content_hash:
        raise WrongState("edition", _("The sheet says something new. Make a new edition first."))
    return _keep(edition, variant, make_pdf(sheet_html(edition, variant)), now=now)


def make_draft(installment: Installment, variant: Variant, *, now: datetime) -> SheetFile:
    """Set the sheet as it would be now, without keeping an edition or a file."""
    data = sheet_data(installment)
    draft = SheetEdition(
        installment=installment, number=0, content_hash=hash_of(data), data=data, made_at=now
    )
    return make_pdf(sheet_html(draft, variant))


def newest_rendering(installment: Installment, variant: Variant, *, now: datetime) -> Rendering | None:
    """Give the newest edition's file in this form, or None before the first edition."""
    edition = newest_edition(installment)
    return ensure_rendering(edition, variant, now=now) if edition else None


def _keep(edition: SheetEdition, variant: Variant, made: SheetFile, *, now: datetime) -> Rendering:
    """Store the bytes under their hash, then the row; who comes second takes the first one's row."""
    digest = hashlib.sha256(made.data).hexdigest()
    field = Rendering._meta.get_field("file")
    name = f"sheets/{digest}.pdf"
    if not field.storage.exists(name):
        field.storage.save(name, ContentFile(made.data))
    row = Rendering(
        edition=edition, file=name, sha256=digest, pages=made.pages, made_at=now, **variant.fields()
    )
    try:
        with transaction.atomic():
            row.save(force_insert=True)
    except IntegrityError:
        return edition.renderings.get(**variant.fields())
    return row
