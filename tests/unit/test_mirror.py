"""Every module that does something has its test file, and every test file its module: tests/unit mirrors src."""

import ast
from pathlib import Path

UNIT = Path(__file__).parent
SOURCE = UNIT.parents[1] / "src" / "kerfline"


def does_something(module: Path) -> bool:
    """Whether a module has a function or a method; names, tables and records alone have nothing to test."""
    functions = (ast.FunctionDef, ast.AsyncFunctionDef)
    return any(isinstance(node, functions) for node in ast.walk(ast.parse(module.read_text())))


def modules() -> dict[str, str]:
    """Each module of src with the test file it should have."""
    found = (p for p in SOURCE.rglob("*.py") if p.stem not in ("__init__", "__main__"))
    names = {p.relative_to(SOURCE) for p in found if does_something(p)}
    return {name.as_posix(): name.with_name(f"test_{name.name}").as_posix() for name in names}


def names_nothing(test: Path) -> bool:
    """Whether a test file names neither a module nor a package beside its like in src."""
    place = SOURCE / test.parent / test.stem.removeprefix("test_")
    return not (place.with_suffix(".py").is_file() or (place / "__init__.py").is_file())


def test_every_module_has_its_test_file_and_every_test_file_its_module():
    tests = {p.relative_to(UNIT).as_posix() for p in UNIT.rglob("test_*.py")}
    tests.remove("test_mirror.py")
    untested = {module for module, test in modules().items() if test not in tests}
    astray = {test for test in tests if names_nothing(Path(test))}
    assert not untested
    assert not astray
