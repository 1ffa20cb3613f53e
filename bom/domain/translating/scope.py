"""Which texts are translated: all that participants and sheets say, and none that only others read."""

from __future__ import annotations

from bom.domain.cut_lists import FROM_STRIPS
from bom.domain.part_making import BIAS, BINDING_STRIPS, PANELS, SLEEVE
from patterns.engine.units.plain import PURPOSES as JOINING
from patterns.engine.units.templates import PURPOSES as TEMPLATES
from patterns.engine.yardage import FabricForm

APPS = ("patterns", "bom", "shops")

# Pages of designers and shops, and what only those say or read; a new file speaks to participants until it
# is named here.
OTHERS = (
    "*/management/*",
    "*/migrations/*",
    "*/tasks.py",
    "patterns/enums.py",
    "patterns/models/*",
    *(f"patterns/domain/{name}.py" for name in ("cut_list_reading", "drawing_words", "size_words")),
    "bom/models/*",
    "bom/permissions.py",
    "bom/web/*",
    "bom/domain/translating/*",
    *(f"bom/domain/{name}.py" for name in ("change_*", "changes", "cut_lists", "cut_sources", "drawing*")),
    *(f"bom/domain/{name}.py" for name in ("editions", "effects", "freezing", "kept_drawings", "making")),
    *(f"bom/domain/{name}.py" for name in ("part_making", "plan*", "precut*", "program_file*", "proof*")),
    *(f"bom/domain/{name}.py" for name in ("quilt_*", "sewing_settings", "wall_times", "word_checks")),
    *(f"bom/domain/{name}.py" for name in ("words", "working_days", "yardage_*")),
    *(
        f"shops/domain/{name}.py"
        for name in ("buying_less", "check_in", "cutting_day", "forgetting", "head_count", "sub*", "swaps")
    ),
    *(f"shops/models/{name}.py" for name in ("orders", "prices", "shops")),
    *(
        f"shops/web/{name}.py"
        for name in ("corrections", "forms_costs", "program_order_table", "program_shops", "shop_*")
    ),
    "templates/designer/*",
    "templates/shops/*",
)
WRITERS = ("patterns/engine/*.py",)

# Words inside the engine that look like a text and are none: names of edges and corners of one operation.
NOT_SAID = frozenset(
    (
        *("both diagonals", "bottom middle", "dot on s1", "end dot", "falling diagonal", "half square"),
        *("half-square 0", "half-square 1", "left middle", "long side", "no strip gives this patch"),
        *("one diagonal", "pair 1", "pair 2", "right angle", "right middle", "rising diagonal", "start dot"),
        *("to a point", "top middle", "left side", "right side", "two classes"),
        "Number | int | str | Size | Phrase",
    )
)

# Texts that the engine keeps as names, or puts together from them.
CHECKS = ("four-patch", "nine-patch", "strip set")
PUT_TOGETHER: tuple[tuple[str, str], ...] = (
    *((name, "patterns/engine/units/plain.py") for name in (*JOINING, *JOINING.values())),
    *((name, "patterns/engine/units/templates.py") for name in TEMPLATES.values()),
    *((f"plain {kind}s", "patterns/engine/units/plain.py") for kind in ("square", "rectangle")),
    *((f"{kind} units", "patterns/engine/units/strips.py") for kind in CHECKS),
    *((f"{kind} setting triangles", "patterns/engine/parts.py") for kind in ("side", "corner")),
    (FROM_STRIPS, "bom/domain/cut_lists.py"),
    *((name, "bom/domain/part_making.py") for name in (BINDING_STRIPS, BIAS, SLEEVE, PANELS)),
    *((form.value, "patterns/engine/yardage.py") for form in FabricForm if form != FabricForm.LENGTH),
)
