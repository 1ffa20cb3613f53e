"""The drawing board: seams typed by their ends, a letter for each patch, and what the program finds."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.db.models import Q
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from bom.domain.kept_drawings import keep_again, keep_new, use_at
from bom.permissions import get_program_for
from bom.web.drawing_forms import BoardForm, FileForm, PlaceForm
from bom.web.drawing_page import drawing_page
from bom.web.pages import page, tell, tried
from patterns.domain.boards import Board, board_as_data, board_from_data, board_of
from patterns.domain.drawing_words import advice, remedy_text
from patterns.engine.arcs import BadArc
from patterns.engine.blocks import block_from_data
from patterns.engine.errors import DrawingError, SeamOutside
from patterns.models import Block

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.models import Program
    from patterns.models import User

DRAFT = "board:"


@dataclass(slots=True, kw_only=True)
class Desk:
    """One drawing on the board of one program: the kept block, if any, and the draft, if one is begun."""

    request: HttpRequest
    program: Program
    block: Block | None
    board: Board
    is_draft: bool

    @property
    def user(self) -> User:
        """Give the person at the desk."""
        return self.request.user  # type: ignore[return-value]  # every page asks for a sign-in first

    @property
    def is_own(self) -> bool:
        """Whether the kept block is the designer's, and not a traditional one to be copied."""
        return self.block is not None and self.block.owner_id == self.program.designer_id

    def keep_draft(self, board: Board) -> None:
        """Remember the drawing until it is kept."""
        self.request.session[draft_key(self.program, self.block)] = board_as_data(board)

    def drop_draft(self) -> None:
        """Forget the draft."""
        self.request.session.pop(draft_key(self.program, self.block), None)

    def again(self, block: Block | None) -> HttpResponse:
        """Go back to the board of a block, or to a new one."""
        if block is None:
            return redirect("draw-new", slug=self.program.slug)
        return redirect("draw-block", slug=self.program.slug, pk=block.pk)


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def draw(request: HttpRequest, slug: str, pk: int | None = None) -> HttpResponse:
    """Draw a new block, or one of one's own again; a traditional one is kept as a copy."""
    program = get_program_for(request.user, slug, to_edit=request.method == "POST")
    act = request.POST.get("act", "")
    try:
        desk = desk_of(request, program, pk)
        form = _board_form(desk, is_sent=act not in {"", "fresh", "read", "use"})
    except DrawingError as error:
        messages.error(request, remedy_text(error))
        return redirect("program-blocks", slug=slug)
    files = FileForm(*((request.POST, request.FILES) if act == "read" else ()))
    places = PlaceForm(request.POST if act == "use" else None, placed=_placed(program))
    answer = _act(desk, act, form=form, files=files, places=places) if request.method == "POST" else None
    if answer is not None:
        return answer
    context = drawing_page(program, desk.board, form=form, block=desk.block)
    context |= {"files": files, "places": places, "is_own": desk.is_own, "is_draft": desk.is_draft}
    return render(request, "designer/draw.html", page(request, program, "blocks", **context))


def desk_of(request: HttpRequest, program: Program, pk: int | None) -> Desk:
    """Give the draft, else the kept drawing, else an empty grid; Http404 for a block of somebody else."""
    block = None
    if pk is not None:
        mine = Q(owner=program.designer) | Q(owner=None)
        block = Block.objects.filter(mine, pk=pk).first()
        if block is None:
            raise Http404
    draft = request.session.get(draft_key(program, block))
    if draft:
        board = board_from_data(draft)
    else:
        board = board_of(block_from_data(block.drawing)) if block else Board()
    return Desk(request=request, program=program, block=block, board=board, is_draft=bool(draft))


def draft_key(program: Program, block: Block | None) -> str:
    """Name the draft of a drawing in the session."""
    return f"{DRAFT}{program.slug}:{block.pk if block else 'new'}"


def _board_form(desk: Desk, *, is_sent: bool) -> BoardForm:
    sent = desk.request.POST if is_sent else None
    letters = desk.program.quilt.letters.all()
    return BoardForm(sent, board=desk.board, divided=desk.board.divided(), roles=letters)


def _placed(program: Program) -> Any:
    return program.quilt.placed_blocks.select_related("block")


def _act(desk: Desk, act: str, *, form: BoardForm, files: FileForm, places: PlaceForm) -> HttpResponse | None:
    """Do what a button asks for; None where it is refused and the page shows why."""
    if act == "fresh":
        desk.drop_draft()
        return desk.again(desk.block)
    if act == "read":
        return _read(desk, files)
    if act == "use":
        return _use(desk, places)
    return _draw(desk, act, form)


def _read(desk: Desk, files: FileForm) -> HttpResponse | None:
    if not files.is_valid():
        return None
    desk.keep_draft(files.cleaned_data["file"])
    return desk.again(desk.block)


def _use(desk: Desk, places: PlaceForm) -> HttpResponse | None:
    block = desk.block
    if block is None or desk.is_draft:
        places.add_error(None, _("Keep this drawing first."))
        return None
    if not places.is_valid():
        return None
    place = places.cleaned_data["place"]
    done = tried(
        places,
        desk.program,
        lambda: use_at(desk.program, block, place, by=desk.user, now=timezone.now()),
    )
    if done is None:
        return None
    tell(desk.request, desk.program, done)
    return desk.again(block)


def _draw(desk: Desk, act: str, form: BoardForm) -> HttpResponse | None:
    board = _drawn(desk.board, act, form) if form.is_valid() else None
    if board is None:
        return None
    if act == "keep":
        return _keep(desk, board, form)
    desk.keep_draft(board)
    return desk.again(desk.block)


def _drawn(board: Board, act: str, form: BoardForm) -> Board | None:
    """Draw all that is typed; None where it does not go, with the reason in its field."""
    if act == "seam" and form.seam is None and not set(form.changed_data) - {"taken", "many_letter"}:
        form.add_error("start", _("Write where the seam begins and where it ends."))
        return None
    sides = (form.cleaned_data["across"], form.cleaned_data["down"])
    seams = form.left if act == "take" else board.seams
    board = replace(board.lettered(form.letters), name=form.cleaned_data["name"])
    field = "across"
    try:
        board = board.with_seams(seams) if seams != board.seams else board
        board = board.sized(*sides) if sides != (board.width, board.height) else board
        field = "end"
        return board.with_seams((*board.seams, form.seam)) if form.seam else board
    except DrawingError as error:
        _name_fault(form, field, error)
    return None


def _name_fault(form: BoardForm, field: str, error: DrawingError) -> None:
    if field == "across" and isinstance(error, SeamOutside):
        form.add_error(field, _("A seam ends outside this grid. ") + remedy_text(error))
        return
    if form.seam is not None and form.seam.centre and isinstance(error, BadArc | SeamOutside):
        leaves = _("This quarter circle leaves the grid.")
        form.add_error("centre", advice(error) if isinstance(error, BadArc) else leaves)
        return
    is_start = form.seam is not None and error.where == form.seam.start and error.where != form.seam.end
    form.add_error("start" if field == "end" and is_start else field, remedy_text(error))


def _keep(desk: Desk, board: Board, form: BoardForm) -> HttpResponse | None:
    own = desk.block if desk.is_own else None
    kept = _keep_own(desk, own, board, form) if own else _keep_new(desk, board, form)
    if kept is None:
        return None
    desk.drop_draft()
    return desk.again(kept)


def _keep_own(desk: Desk, block: Block, board: Board, form: BoardForm) -> Block | None:  # noqa: PLR0917 -- what is kept as what
    program = desk.program
    done = tried(form, program, lambda: keep_again(program, block, board, by=desk.user, now=timezone.now()))
    if done is None:
        return None
    tell(desk.request, program, done)
    return block


def _keep_new(desk: Desk, board: Board, form: BoardForm) -> Block | None:
    program = desk.program
    block = tried(form, program, lambda: keep_new(program, board, by=desk.user, now=timezone.now()))
    if block is not None:
        messages.success(desk.request, _("{block} is kept among your drawings.").format(block=block.name))
    return block
