"""Changes the code of checks and dry run, one place at a time: what does no test notice?

`python -m tests.mutants N SEED --covered FILE` takes N changes by the seed, says of each which test noticed
it first, and ends with status 1 if one survived. The tests are collected once; each change is made in a
process of its own, in memory, and is judged by the tests that run through its line, the quickest first.
`--collect` runs the tests under `coverage` before (`pip install coverage`; nothing else needs it), and keeps
in the file which of them run through which line. `--by FILE...` asks these tests alone. Nothing here is a
test: whoever runs it reads the survivors.
"""

from __future__ import annotations

import argparse
import ast
import gc
import importlib
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any, NamedTuple

import pytest

ROOT = Path(__file__).parents[1]
ROOMS = ("builder/checks", "builder/dryrun")
TESTS = ("tests/checks", "tests/dryrun", "tests/faults", "tests/guide", "tests/trade", "tests/plan",
         "--deselect", "tests/checks/test_cascades.py", "--deselect", "tests/guide/test_fuzz.py",
         "-k", "not pairs")  # fmt: skip
QUICK = ("checks/test_edges", "dryrun/", "checks/test_examples", "checks/", "trade/")  # the quickest first
SLOW = 15  # of the others so many
# What is carried out when a module is read (a table, a record, a default) runs in no test; these look at it.
OF_TABLES = ("tests/dryrun/test_small_changes.py", "tests/checks/test_tables.py")
SECONDS = 90  # of work for one change; one that makes the tests hang is noticed too

FLIPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip


class Mutant(NamedTuple):
    """A change: its number, the file, the line, what it does, and the module after it.

    `inside` is whether it lies in a function, so that it can be made in a module that is read already.
    """

    number: int
    file: str
    line: int
    what: str
    tree: ast.Module
    inside: bool


Site = tuple[int, int]  # which node of the tree, and which way to change it


# -- the changes ------------------------------------------------------------------------------------


def sites(text: str) -> list[Site]:
    """Every place of a module that can be changed."""
    return [(i, way) for i, node in enumerate(ast.walk(ast.parse(text))) for way in range(_ways(node))]


def _ways(node: ast.AST) -> int:
    """In how many ways a node can be changed."""
    match node:
        case ast.Constant(value=bool()):
            return 1
        case ast.Constant(value=int()):
            return 2
        case ast.Compare():
            return sum(type(op) in FLIPS for op in node.ops)
        case ast.Return():
            return int(node.value is not None and ast.unparse(node.value) != "None")
        case ast.UnaryOp():
            return int(isinstance(node.op, ast.Not))
        case ast.BinOp() | ast.BoolOp() | ast.AugAssign():
            return int(type(node.op) in FLIPS)
        case ast.Break() | ast.Continue():
            return 1
        case ast.Expr():  # a call for what it does, a yield; a text alone is documentation
            return int(not isinstance(node.value, ast.Constant))
    return 0


def _changed(node: ast.AST, way: int) -> ast.AST:
    match node:
        case ast.Constant(value=bool()):
            return ast.Constant(not node.value)
        case ast.Constant(value=int(number)):
            return ast.Constant(number + (1, -1)[way])
        case ast.Compare():
            ops = [FLIPS[type(op)]() if i == way else op for i, op in enumerate(node.ops)]
            return ast.Compare(node.left, ops, node.comparators)  # type: ignore[arg-type]
        case ast.Return():
            return ast.Return(ast.Constant(None))
        case ast.UnaryOp():
            return ast.Call(ast.Name("bool", ast.Load()), [node.operand], [])
        case ast.BinOp():
            return ast.BinOp(node.left, FLIPS[type(node.op)](), node.right)  # type: ignore[arg-type]
        case ast.AugAssign():
            return ast.AugAssign(node.target, FLIPS[type(node.op)](), node.value)  # type: ignore[arg-type]
        case ast.BoolOp():
            return ast.BoolOp(FLIPS[type(node.op)](), node.values)  # type: ignore[arg-type]
        case ast.Break():
            return ast.Continue()
        case ast.Continue():
            return ast.Break()
    if any(isinstance(each, ast.Yield | ast.YieldFrom) for each in ast.walk(node)):
        return ast.Expr(ast.YieldFrom(ast.Tuple([], ast.Load())))
    return ast.Pass()


class _Replace(ast.NodeTransformer):
    """Puts one node in the place of another, and sees whether that is in the body of a function."""

    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new, self.inside, self.depth = old, new, False, 0

    def visit(self, node: ast.AST) -> ast.AST:
        if node is self.old:
            self.inside = self.depth > 0
            return ast.copy_location(self.new, node)
        if isinstance(node, ast.FunctionDef):  # its defaults are read with the module, and are not inside
            self.depth += 1
            node.body = [self.visit(each) for each in node.body]  # type: ignore[misc]
            self.depth -= 1
        return self.generic_visit(node)


def mutant(number: int, file: str, text: str, site: Site) -> Mutant:
    """A module with one place changed."""
    tree = ast.parse(text)
    node = list(ast.walk(tree))[site[0]]
    new = _changed(node, site[1])
    what = " ".join(f"{ast.unparse(node)} -> {ast.unparse(ast.fix_missing_locations(new))}".split())
    replace = _Replace(node, new)
    replace.visit(tree)
    line = getattr(node, "lineno", 0)
    return Mutant(number, file, line, what, ast.fix_missing_locations(tree), replace.inside)


def chosen(count: int, seed: int) -> list[Mutant]:
    """So many changes, by the seed, each as likely as any other."""
    every = [
        (path.relative_to(ROOT).as_posix(), text, site)
        for room in ROOMS
        for path in sorted((ROOT / room).rglob("*.py"))
        for text in (path.read_text("utf-8"),)
        for site in sites(text)
    ]
    numbers = sorted(random.Random(seed).sample(range(len(every)), min(count, len(every))))
    return [mutant(i, *every[number]) for i, number in enumerate(numbers, 1)]


# -- which tests ------------------------------------------------------------------------------------


def measuring() -> Any:
    """The library `coverage`, which only this tool needs."""
    return importlib.import_module("coverage")


class _Contexts:
    """Lets `coverage` know which test runs."""

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> None:
        measured = measuring().Coverage.current()
        if measured is not None:
            measured.switch_context(item.nodeid)


def collect(file: Path) -> int:
    """Run the tests under `coverage`, and keep which of them runs through which line."""
    file.unlink(missing_ok=True)
    measured = measuring().Coverage(str(file), source=list(ROOMS), config_file=False)
    measured.start()
    status = pytest.main(["-q", "-p", "no:cacheprovider", *TESTS], plugins=[_Contexts()])
    measured.stop()
    measured.save()
    return int(status)


def _through(change: Mutant, data: Any) -> list[str]:
    """The tests that run through the line, the quickest first; if none does (it is carried out when the
    module is read), those that run through its file."""
    here = [name for name in data.measured_files() if name.endswith("/" + change.file)]
    lines = data.contexts_by_lineno(here[0]) if here else {}
    through = [name for name in lines.get(change.line, ()) if name]
    through = through or list(dict.fromkeys(name for names in lines.values() for name in names if name))
    rank = {name: next((i for i, part in enumerate(QUICK) if part in name), len(QUICK)) for name in through}
    quick = sorted((name for name in through if rank[name] < len(QUICK)), key=rank.__getitem__)
    return quick + [name for name in through if rank[name] == len(QUICK)][:SLOW]


# -- whether they notice ----------------------------------------------------------------------------


def _codes(code: CodeType) -> Iterator[tuple[tuple[str, int], CodeType]]:
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield (each.co_qualname, each.co_firstlineno), each
            yield from _codes(each)


def change_in_memory(change: Mutant) -> bool:
    """Give every function of the module its changed code; False if that cannot be."""
    if not change.inside:
        return False
    file = str(ROOT / change.file)
    codes = dict(_codes(compile(change.tree, file, "exec")))
    every = (each for each in gc.get_objects() if isinstance(each, FunctionType))
    functions = [function for function in every if function.__code__.co_filename == file]
    for function in functions:
        new = codes.get((function.__code__.co_qualname, function.__code__.co_firstlineno))
        if new is not None and new.co_freevars == function.__code__.co_freevars:
            function.__code__ = new
    return bool(functions)


class _Mill:
    """Runs the tests of each change in a process of its own, once all tests are collected."""

    def __init__(self, changes: Sequence[Mutant], data: Any, by: Sequence[str]) -> None:
        self.changes, self.data, self.by = changes, data, by
        self.left: list[Mutant] = []

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        for change in self.changes:
            names = list(items) if self.by else _through(change, self.data)
            if not change.inside and not self.by:
                names += [name for name in items if name.startswith(OF_TABLES) and name not in names]
            told = self._told(change, [items[name] for name in names if name in items])
            self.left += [change] if told == "SURVIVED" else []
            print(f"{change.number:3} {told} {change.file}:{change.line}: {change.what[:200]}", flush=True)
        return True

    def _told(self, change: Mutant, items: Sequence[pytest.Item]) -> str:
        """The first test that fails, in a process of its own."""
        read, write = os.pipe()
        child = os.fork()
        if not child:
            os.close(read)
            resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            os.write(write, _first_failure(change, items).encode())
            os._exit(0)
        os.close(write)
        with os.fdopen(read) as told:
            text = told.read()
        os.waitpid(child, 0)
        return text or "it does not end"


def _first_failure(change: Mutant, items: Sequence[pytest.Item]) -> str:
    if not items:
        return "SURVIVED"
    if not change_in_memory(change):
        return _in_a_tree(change, [item.nodeid for item in items if str(ROOT) not in item.nodeid])
    for item, after in zip(items, (*items[1:], None), strict=True):
        failed = item.session.testsfailed
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
        if item.session.testsfailed > failed:
            return item.nodeid
    return "SURVIVED"


def _in_a_tree(change: Mutant, names: Sequence[str]) -> str:
    """A change that is carried out when the module is read needs a tree and a run of its own."""
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "tree"
        shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns("__pycache__", ".git", "site", "packets"))
        (tree / change.file).write_text(ast.unparse(change.tree), "utf-8")
        command = [sys.executable, "-m", "pytest", "-q", "-x", "--tb=no", "-p", "no:cacheprovider", *names]
        here = {"PYTHONPATH": str(tree), "PYTHONDONTWRITEBYTECODE": "1"}
        done = subprocess.run(command, cwd=tree, env={**os.environ, **here}, capture_output=True, text=True)
    if done.returncode == 0:
        return "SURVIVED"
    if done.returncode == 4:
        return "SURVIVED, since a test was not found"
    lines = [line for line in done.stdout.splitlines() if line.startswith(("FAILED", "ERROR"))]
    return lines[0].partition(" ")[2] if lines else f"ended with {done.returncode}"


def main() -> int:
    """Take changes, run the tests, print what survives."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("count", type=int)
    parser.add_argument("seed", type=int)
    parser.add_argument("--only", type=int, nargs="*", help="of these changes, those with these numbers")
    parser.add_argument("--by", nargs="*", help="judged by these tests, whatever line they run through")
    parser.add_argument("--covered", type=Path, required=True,
                        help="the file in which it is kept which test runs through which line")  # fmt: skip
    parser.add_argument("--collect", action="store_true", help="run the tests first, and keep that")
    given = parser.parse_args()
    if given.collect and collect(given.covered):
        print("the tests fail before any change")
        return 2
    taken = [each for each in chosen(given.count, given.seed) if not given.only or each.number in given.only]
    data = measuring().CoverageData(str(given.covered))
    data.read()
    mill = _Mill(taken, data, given.by or ())
    pytest.main(["-q", "-s", "-p", "no:cacheprovider", *(given.by or TESTS)], plugins=[mill])
    print(f"{len(taken)} changes, {len(mill.left)} survived")
    return int(bool(mill.left))


if __name__ == "__main__":
    sys.exit(main())
