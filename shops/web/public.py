"""What everybody may see: the open programs, and the page of one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from bom.enums import ProgramState
from bom.models import Program
from shops.web.program_page import program_page
from shops.web.ways_in import ways_in

if TYPE_CHECKING:
    from django.db.models import QuerySet
    from django.http import HttpRequest, HttpResponse

PUBLIC = (ProgramState.OPEN, ProgramState.RUNNING, ProgramState.ENDED)


@require_safe
def start(request: HttpRequest) -> HttpResponse:
    """Send a person to what is theirs, list it where it is several things; else the open programs."""
    ways = ways_in(request.user)
    if len(ways) == 1:
        return redirect(ways[0].url)
    return render(request, "public/start.html", {"ways": ways, "programs": _public_programs()})


@require_safe
def programs(request: HttpRequest) -> HttpResponse:
    """List the open programs, also for a person who has one."""
    return render(request, "public/start.html", {"programs": _public_programs()})


@require_safe
def program(request: HttpRequest, slug: str) -> HttpResponse:
    """Show a program to anybody; a draft is not there."""
    found = get_public_program(slug)
    page = program_page(found, shop_slug=request.GET.get("shop", ""), now=timezone.now())
    return render(request, "public/program.html", page)


def _public_programs() -> QuerySet[Program]:
    """Give the programs that are open or have been, by title; their designers joined."""
    return Program.objects.filter(state__in=PUBLIC).select_related("designer").order_by("title")


def get_public_program(slug: str) -> Program:
    """Give a program that is open or has been; Http404 for a draft and an unknown address alike."""
    programs = Program.objects.select_related("quilt", "designer").filter(state__in=PUBLIC)
    found = programs.filter(slug=slug).first()
    if found is None:
        raise Http404
    return found
