"""Files of editions: set once, kept by their bytes, refused when the edition is no longer what is stored."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

import pytest

from bom.domain.sheets.renderings import bytes_of, ensure_rendering
from bom.errors import WrongState
from bom.models import Rendering
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from bom.domain.sheets.variants import Variant
    from bom.models import Installment, SheetEdition

pytestmark = pytest.mark.slow


def test_a_second_call_gives_the_same_file(edition: SheetEdition, variant: Variant) -> None:
    first = ensure_rendering(edition, variant, now=NOW)
    assert ensure_rendering(edition, variant, now=NOW) == first
    assert Rendering.objects.count() == 1
    assert hashlib.sha256(first.file.read()).hexdigest() == first.sha256


def test_an_edition_whose_records_moved_on_is_not_set(
    stars: Installment, edition: SheetEdition, variant: Variant
) -> None:
    stars.story = "Another story."
    stars.save()
    edition.refresh_from_db()
    with pytest.raises(WrongState) as caught:
        ensure_rendering(edition, variant, now=NOW)
    assert caught.value.field == "edition"


def test_a_file_that_is_gone_is_set_again(edition: SheetEdition, variant: Variant) -> None:
    rendering = ensure_rendering(edition, variant, now=NOW)
    whole = bytes_of(rendering, now=NOW)
    rendering.file.storage.delete(rendering.file.name)
    assert bytes_of(Rendering.objects.get(), now=NOW) == whole
    assert rendering.file.storage.exists(Rendering.objects.get().file.name)
    assert bytes_of(Rendering.objects.get(), now=NOW) == whole


def test_a_file_that_is_gone_is_not_set_from_other_records(
    stars: Installment, edition: SheetEdition, variant: Variant
) -> None:
    rendering = ensure_rendering(edition, variant, now=NOW)
    rendering.file.storage.delete(rendering.file.name)
    stars.story = "Another story."
    stars.save()
    with pytest.raises(WrongState):
        bytes_of(Rendering.objects.get(), now=NOW)
