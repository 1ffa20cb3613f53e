"""The page of traditional blocks: by family, found by name, opened on the drawing board."""

from __future__ import annotations

from http import HTTPStatus

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from bom.models import Program
from patterns.models import Block
from tests.bom.web.designers import NOW, YEAR, as_, editor_of, small_program
from tests.cast import dora, olga
from tests.factories import nine_patch, ohio_star

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAGE = f"{YEAR}draw/traditional/"


@pytest.fixture(autouse=True)
def _today() -> object:
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture(autouse=True)
def star(program: Program) -> Block:
    drawing = ohio_star() | {"names": ["Variable Star"]}
    Block.objects.create(slug="nine-patch", name="Nine Patch", category="nine-patch", drawing=nine_patch())
    return Block.objects.create(slug="ohio-star", name="Ohio Star", category="stars", drawing=drawing)


def names(client: Client, search: str = "") -> list[str]:
    page = client.get(PAGE, {"name": search} if search else {})
    return [plate.name for family in page.context["families"] for plate in family.plates]


def test_every_block_stands_in_its_family_with_names_picture_and_address(star: Block) -> None:
    page = as_(dora()).get(PAGE)
    html = page.content.decode()
    assert [str(family.label) for family in page.context["families"]] == ["nine-patch", "stars"]
    assert 'aria-label="Ohio Star, block"' in html
    assert (
        f'<h3><a href="{YEAR}draw/{star.pk}/">Ohio Star</a></h3><p class="sm">also Variable Star</p>' in html
    )
    assert "2 blocks to begin from" in html


def test_a_block_is_found_by_any_of_its_names() -> None:
    client = as_(dora())
    assert names(client, "variable") == ["Ohio Star"]
    assert names(client, " ohio STAR ") == ["Ohio Star"]
    assert names(client) == ["Nine Patch", "Ohio Star"]


def test_a_search_that_finds_nothing_says_so_and_shows_what_was_typed() -> None:
    html = as_(dora()).get(PAGE, {"name": "<b>none"}).content.decode()
    assert "No traditional block is called like that." in html
    assert 'value="&lt;b&gt;none"' in html
    assert f'<a href="{PAGE}">Show all</a>' in html


def test_board_and_blocks_lead_to_the_page() -> None:
    client = as_(dora())
    for address in (f"{YEAR}draw/", f"{YEAR}blocks/"):
        assert f'href="{PAGE}"' in client.get(address).content.decode()


def test_it_is_for_those_who_work_on_the_program(program: Program) -> None:
    assert names(as_(editor_of(program))) == ["Nine Patch", "Ohio Star"]
    assert as_(olga()).get(PAGE).status_code == HTTPStatus.NOT_FOUND
    assert Client().get(PAGE).status_code == HTTPStatus.FOUND
    assert as_(dora()).post(PAGE).status_code == HTTPStatus.METHOD_NOT_ALLOWED


def test_it_asks_the_database_once_for_all_blocks() -> None:
    client = as_(dora())
    client.get(PAGE)
    with CaptureQueriesContext(connection) as few:
        client.get(PAGE)
    Block.objects.bulk_create(
        Block(slug=f"n{n}", name=f"N {n}", category="stars", drawing=nine_patch()) for n in range(20)
    )
    with CaptureQueriesContext(connection) as many:
        client.get(PAGE)
    assert len(many) == len(few)
