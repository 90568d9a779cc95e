"""No module needs itself: imports run one way between modules and between folders, those for types alone included."""

import ast
import graphlib
from pathlib import Path

import pytest

SOURCES = Path(__file__).parents[2] / "src" / "pavewright"


def dotted(path: Path, sources: Path) -> str:
    parts = (sources.name, *path.relative_to(sources).with_suffix("").parts)
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def asked_for(path: Path) -> list[tuple[str, str]]:
    """Each name that a module imports with where it asks for it; a whole module is asked for as the name ''."""
    found = []
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found += [(node.module, alias.name) for alias in node.names]
        elif isinstance(node, ast.Import):
            found += [(alias.name, "") for alias in node.names]
    return found


def graph_of(sources: Path) -> dict[str, set[str]]:
    """Which module needs which, each name followed through the faces of rooms to the module that holds it."""
    paths = {dotted(path, sources): path for path in sorted(sources.rglob("*.py"))}
    asked = {name: asked_for(path) for name, path in paths.items()}
    faces = {name: {word: module for module, word in asked[name]} for name in paths if paths[name].stem == "__init__"}

    def home(module: str, word: str) -> str | None:
        if f"{module}.{word}" in paths:
            return home(f"{module}.{word}", "")
        while word in faces.get(module, {}) and faces[module][word] != module:
            module = faces[module][word]
        return module if module in paths else None

    graph = {}
    for name in paths:
        if name not in faces:
            found = {home(module, word) for module, word in asked[name]}
            graph[name] = {each for each in found if each is not None and each not in {name, *faces}}
    return graph


def folders_of(graph: dict[str, set[str]]) -> dict[str, set[str]]:
    """Which folder or module needs which, seen from the lowest folder that holds both."""
    found: dict[str, set[str]] = {}
    for name, needs in graph.items():
        for other in needs:
            one, two = name.split("."), other.split(".")
            same = next(k for k in range(len(one)) if k >= len(two) or one[k] != two[k])
            found.setdefault(".".join(one[: same + 1]), set()).add(".".join(two[: same + 1]))
    return found


def circles_in(graph: dict[str, set[str]]) -> frozenset[frozenset[str]]:
    """Every circle that is met, each broken where it closes so that the next one is seen."""
    graph = {name: set(needs) for name, needs in graph.items()}
    found = set()
    while True:
        try:
            graphlib.TopologicalSorter(graph).prepare()
        except graphlib.CycleError as error:
            way = error.args[1]
            found.add(frozenset(way))
            graph[way[1]].discard(way[0])
        else:
            return frozenset(found)


@pytest.fixture(scope="module")
def graph() -> dict[str, set[str]]:
    return graph_of(SOURCES)


def test_no_circle_of_modules_is_hidden(graph):
    assert circles_in(graph) == frozenset()


def test_no_circle_of_rooms_or_inner_rooms_is_hidden(graph):
    assert circles_in(folders_of(graph)) == frozenset()


def test_a_circle_through_types_and_through_a_face_is_seen(tmp_path):
    room = tmp_path / "house" / "room"
    room.mkdir(parents=True)
    (tmp_path / "house" / "__init__.py").write_text("")
    (room / "__init__.py").write_text("if TYPE_CHECKING:\n    from house.room._one import one\n")
    (room / "_one.py").write_text("def one() -> None:\n    from house._two import two\n")
    (tmp_path / "house" / "_two.py").write_text("if TYPE_CHECKING:\n    from house.room import one\n")
    graph = graph_of(tmp_path / "house")
    assert graph == {"house.room._one": {"house._two"}, "house._two": {"house.room._one"}}
    assert circles_in(graph) == {frozenset({"house.room._one", "house._two"})}
    assert circles_in(folders_of(graph)) == {frozenset({"house.room", "house._two"})}
