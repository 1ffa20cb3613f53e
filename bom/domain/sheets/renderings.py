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
from bom.domain.sheets.page_codes import report_address, with_codes
from bom.domain.sheets.pdf import make_pdf
from bom.domain.sheets.variants import variant_of
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
    return kept or _keep(edition, variant, _set(edition, variant), now=now)


def bytes_of(rendering: Rendering, *, now: datetime) -> bytes:
    """Read the file of a rendering; one that is gone from the storage is set again.

    Raises WrongState when it is gone and the records have moved on since its edition.
    """
    try:
        with rendering.file.open("rb") as file:
            kept: bytes = file.read()
    except FileNotFoundError:
        return _set_again(rendering, now=now)
    return kept


def make_draft(installment: Installment, variant: Variant, *, now: datetime) -> SheetFile:
    """Set the sheet as it would be now, without keeping an edition or a file."""
    data = sheet_data(installment)
    draft = SheetEdition(
        installment=installment, number=0, content_hash=hash_of(data), data=data, made_at=now
    )
    return _pdf(draft, variant)


def newest_rendering(installment: Installment, variant: Variant, *, now: datetime) -> Rendering | None:
    """Give the newest edition's file in this form, or None before the first edition."""
    newest = installment.editions.order_by("-number").values_list("pk", flat=True).first()
    kept = Rendering.objects.filter(edition=newest, **variant.fields()).select_related("edition")
    ready = kept.defer("edition__data").first()
    edition = None if ready else newest_edition(installment)
    return ensure_rendering(edition, variant, now=now) if edition else ready


def _set(edition: SheetEdition, variant: Variant) -> SheetFile:
    """Set an edition that still says what the records say."""
    if hash_of(sheet_data(edition.installment)) != edition.content_hash:
        raise WrongState("edition", _("The sheet says something new. Make a new edition first."))
    return _pdf(edition, variant)


def _pdf(edition: SheetEdition, variant: Variant) -> SheetFile:
    made = make_pdf(sheet_html(edition, variant))
    return with_codes(made, lambda page: report_address(edition, page))


def _set_again(rendering: Rendering, *, now: datetime) -> bytes:
    """Set a lost file again and keep it; who holds the rendering keeps holding it."""
    made = _set(rendering.edition, variant_of(rendering))
    rendering.sha256, rendering.file.name = _store(made)
    rendering.pages, rendering.made_at = made.pages, now
    rendering.save(update_fields=("sha256", "file", "pages", "made_at"))
    return made.data


def _store(made: SheetFile) -> tuple[str, str]:
    """Store the bytes under their hash; give the hash and the name."""
    digest = hashlib.sha256(made.data).hexdigest()
    storage, name = Rendering._meta.get_field("file").storage, f"sheets/{digest}.pdf"
    if not storage.exists(name):
        storage.save(name, ContentFile(made.data))
    return digest, name


def _keep(edition: SheetEdition, variant: Variant, made: SheetFile, *, now: datetime) -> Rendering:
    """Store the bytes under their hash, then the row; who comes second takes the first one's row."""
    digest, name = _store(made)
    row = Rendering(
        edition=edition, file=name, sha256=digest, pages=made.pages, made_at=now, **variant.fields()
    )
    try:
        with transaction.atomic():
            row.save(force_insert=True)
    except IntegrityError:
        return edition.renderings.get(**variant.fields())
    return row
