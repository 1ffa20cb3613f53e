"""A drawing as a file: the drawing file itself, or an SVG picture that is read back as the same block."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from bom.permissions import get_program_for
from bom.web.drawing_board import desk_of
from patterns.domain.drawing_words import remedy_text
from patterns.engine.blocks import block_as_data
from patterns.engine.errors import DrawingError
from patterns.engine.svg_writing import block_as_svg

if TYPE_CHECKING:
    from django.http import HttpRequest

TYPES = {"json": "application/json", "svg": "image/svg+xml"}


@login_required
@require_GET
def drawing_file(request: HttpRequest, slug: str, *, kind: str, pk: int | None = None) -> HttpResponse:
    """Give the drawing on the board, as it stands, as a file."""
    program = get_program_for(request.user, slug)
    try:
        block = desk_of(request, program, pk).board.block()
    except DrawingError as error:
        messages.error(request, remedy_text(error))
        return redirect("program-blocks", slug=slug)
    as_data = json.dumps(block_as_data(block), indent=1, ensure_ascii=False)
    response = HttpResponse(block_as_svg(block) if kind == "svg" else as_data, content_type=TYPES[kind])
    name = f"{slugify(block.name) or 'block'}.{kind}"
    response["Content-Disposition"] = content_disposition_header(as_attachment=True, filename=name)
    return response
