"""The one gate of programs: unknown and forbidden look alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db.models import Q
from django.http import Http404

from bom.enums import ProgramRole
from bom.models import Installment, Program

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

    from patterns.models import User


def programs_of(user: User | AnonymousUser) -> list[Program]:
    """List the programs that this person designs or works on, by title."""
    if not user.is_authenticated:
        return []
    mine = Q(designer=user) | Q(members__user=user)
    return list(Program.objects.filter(mine).distinct().order_by("title"))


def get_program_for(user: User | AnonymousUser, slug: str, *, to_edit: bool = False) -> Program:
    """Give the program; Http404 unless this person designs it or, to read, works on it."""
    program = Program.objects.select_related("quilt", "designer").filter(slug=slug).first()
    if program is None or not user.is_authenticated:
        raise Http404
    if program.designer_id == user.pk:
        return program
    if to_edit or not program.members.filter(user=user).exists():
        raise Http404
    return program


def get_installment_for(
    user: User | AnonymousUser, slug: str, number: int, *, to_edit: bool = False
) -> Installment:
    """Give one installment of a program that this person may see, or may edit."""
    program = get_program_for(user, slug, to_edit=to_edit)
    installment = program.installments.filter(number=number).first()
    if installment is None:
        raise Http404
    return installment


def get_installment_to_step(user: User | AnonymousUser, slug: str, number: int, *, step: str) -> Installment:
    """Give one installment to a person who may take this step of it; Http404 for everybody else."""
    installment = get_installment_for(user, slug, number)
    if not may_step(user, installment, step=step):
        raise Http404
    return installment


def may_step(user: User | AnonymousUser, installment: Installment, *, step: str) -> bool:
    """Whether this person may take this step: the designer any, a technical editor "edited"."""
    program = installment.program
    if not user.is_authenticated:
        return False
    if program.designer_id == user.pk:
        return True
    return step == "edited" and program.members.filter(user=user, role=ProgramRole.EDITOR).exists()
