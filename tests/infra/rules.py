"""The rules that no ready tool holds, as functions from a file's text to what is wrong in it."""

from __future__ import annotations

import ast
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parents[2]
MOST_FILE_LINES = 300
MOST_FUNCTION_LINES = 40
SOLVERS = {"numpy", "highspy"}  # allowed in strips and bolts, and only where they are called for
OTHERS = {
    "svg_tree.py": {"defusedxml"},
    **dict.fromkeys(("solver.py", "knapsack.py", "strips.py", "bolts.py"), SOLVERS),
}
SEWING_MAY_USE = ("patterns.engine.surds", "patterns.engine.errors", "patterns.engine.rebuilding")
CLOCKS = {"time", "datetime", "zoneinfo", "random", "secrets", "os", "io", "pathlib", "socket", "subprocess"}
READS_OR_PRINTS = {"open", "print", "input"}
MACHINE_PLACES = re.compile(r"(?<![\w./])/(work|tmp|root|home|mnt|opt|Users)/\w|# ?(TODO|FIXME|XXX)\b")
WEB_HOST = re.compile(r"https?://((?:[\w-]+\.)+[a-z]{2,})\b", re.IGNORECASE)
OWN_HOSTS = {"www.w3.org"}  # XML is named so; nothing is fetched from there
# Words that a reader must not meet; ours stands beside each.
NOT_OUR_WORDS = {
    "campaign": "program",
    "catalogue": "traditional blocks",
    "subscription": "sign-up",
    "subscriber": "participant",
    "enrolment": "sign-up",
    "fulfilment": "pick-up",
    "vendor": "shop",
    "tenant": "shop",
    "sku": "fabric",
    "hotfix": "correction",
    "wastage": "left over",
}


def source_files(*folders: str) -> list[Path]:
    """List the project's Python files, migrations left out."""
    places = [ROOT / folder for folder in folders]
    found = (path for place in places for path in place.rglob("*.py"))
    return sorted(path for path in found if "migrations" not in path.parts)


def engine_faults(text: str, *, name: str = "x.py") -> list[str]:
    """List what an engine file may not have: floats, whole numbers divided, foreign or worldly imports."""
    return [
        f"line {getattr(node, 'lineno', 0)}: {words}"
        for node in ast.walk(ast.parse(text))
        for words in (*_number_faults(node), *_import_faults(node, name), *_call_faults(node))
    ]


def sewing_faults(text: str) -> list[str]:
    """List the imports of virtual sewing that would make it depend on what it checks."""
    found = (module for node in ast.walk(ast.parse(text)) for module in _modules(node))
    ours = (module for module in found if module.split(".")[0] in {"patterns", "bom", "shops"})
    return [module for module in ours if not f"{module}.".startswith(tuple(f"{m}." for m in SEWING_MAY_USE))]


def long_functions(text: str) -> list[str]:
    """List functions of more lines than anybody reads at once, with their lines."""
    nodes = (n for n in ast.walk(ast.parse(text)) if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef))
    sizes = ((node.name, (node.end_lineno or 0) - node.lineno + 1) for node in nodes)
    return [f"{name}: {lines} lines" for name, lines in sizes if lines > MOST_FUNCTION_LINES]


def bare_suppressions(text: str) -> list[str]:
    """List suppressions that name no rule or carry no reason."""
    marks = [line for line in text.splitlines() if re.search(r"#\s*(noqa|type:\s*ignore)", line)]
    good = re.compile(r"#\s*(noqa: [A-Z]+\d+(, ?[A-Z]+\d+)*|type: ignore\[[a-z, -]+\])\s+(--|#) \S+")
    return [line.strip() for line in marks if not good.search(line)]


def foreign_hosts(text: str) -> list[str]:
    """List hosts of the wide web that a file names; those kept for examples (RFC 2606) may stand."""
    named = WEB_HOST.findall(text)
    return [
        host for host in named if host not in OWN_HOSTS and not re.search(r"(^|\.)example(\.\w+)?$", host)
    ]


def words_to_change(text: str) -> dict[str, str]:
    """Give the words of a page that are not ours, with ours; what Django and the browser read is left out."""
    shown = re.sub(
        r"{#.*?#}|{%(?!\s*(?:trans|blocktrans))[^%]*%}|{{.*?}}|<[^>]*>", " ", text, flags=re.DOTALL
    )
    used = {word.lower() for word in re.findall(r"[A-Za-z]+", shown)}
    return {word: ours for word, ours in NOT_OUR_WORDS.items() if word in used or f"{word}s" in used}


def _number_faults(node: ast.AST) -> Iterator[str]:
    """Find float literals and 1 / 4 on whole numbers."""
    if isinstance(node, ast.Constant) and isinstance(node.value, float | complex):
        yield f"float literal {node.value}"
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Div):
        sides = (node.left, node.right)
        if all(isinstance(side, ast.Constant) and isinstance(side.value, int) for side in sides):
            yield "division of whole numbers"
    if isinstance(node, ast.Attribute) and node.attr == "isclose":
        yield "isclose"


def _import_faults(node: ast.AST, name: str) -> Iterator[str]:
    """Find imports from outside the engine and the standard library, and those of clock and files."""
    for module in _modules(node):
        top = module.split(".")[0]
        inside = module.startswith("patterns.engine")
        ours = inside or (top in sys.stdlib_module_names and top not in CLOCKS)
        if not ours and top not in OTHERS.get(name, set()):
            yield f"import of {module}"


def _call_faults(node: ast.AST) -> Iterator[str]:
    """Find calls that read, print or make a float."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in READS_OR_PRINTS:
        yield f"call of {node.func.id}"


def _modules(node: ast.AST) -> list[str]:
    """Give the modules that a node imports."""
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom):
        return [f"{node.module}.{alias.name}" if node.module == "patterns.engine" else node.module or ""
                for alias in node.names]  # fmt: skip
    return []
