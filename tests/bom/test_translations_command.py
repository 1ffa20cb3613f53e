"""`manage.py translations`: what a language lacks, and its files written anew."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from bom.domain.translating.files import po_file, read_po

TEMPLATE = "{% load i18n %}{% trans 'A new text' %}"


@pytest.fixture
def tree(settings: object, tmp_path: Path) -> Path:
    """Give a source of one template, without translations."""
    (tmp_path / "templates" / "me").mkdir(parents=True)
    (tmp_path / "templates" / "me" / "page.html").write_text(TEMPLATE)
    settings.BASE_DIR = tmp_path
    return tmp_path


def test_what_lacks_is_named_with_its_file(tree: Path) -> None:
    out = StringIO()
    with pytest.raises(SystemExit) as exit_:
        call_command("translations", stdout=out)
    assert exit_.value.code == 1
    assert "templates/me/page.html: missing: 'A new text'" in out.getvalue()
    assert not po_file(tree, "de").exists()


def test_writing_adds_the_text_and_keeps_what_is_translated(tree: Path) -> None:
    with pytest.raises(SystemExit):
        call_command("translations", "--write", stdout=StringIO())
    path = po_file(tree, "de")
    path.write_text(
        path.read_text().replace('msgid "A new text"\nmsgstr ""', 'msgid "A new text"\nmsgstr "Neu"')
    )
    with pytest.raises(SystemExit):  # texts that are put together from names of the engine
        call_command("translations", "--write", stdout=StringIO())
    before = (path.read_bytes(), path.with_suffix(".mo").read_bytes())
    with pytest.raises(SystemExit):
        call_command("translations", "--write", stdout=StringIO())
    assert (path.read_bytes(), path.with_suffix(".mo").read_bytes()) == before
    assert read_po(path.read_text())["", "A new text"].said == ("Neu",)


def test_the_sheet_and_the_pages_of_participants_are_all_in_german() -> None:
    out = StringIO()
    call_command("translations", stdout=out)
    assert out.getvalue() == ""
