"""Scripts say what they stand on: every import is offered, every name that is used is imported, and each part of the marker has one owner."""

import re
from collections import defaultdict

import pytest

from kit.widgets.shared import script
from kit.widgets.shared.scripts import HERE, exports_of, imports_of

SCRIPTS = sorted(path.relative_to(HERE).with_suffix("").as_posix() for path in HERE.rglob("*.js"))
OFFERED = {name for each in SCRIPTS for name in exports_of(each)}
TOKEN = re.compile(r"""//[^\n]*|"(?:\\.|[^"\\\n])*"|[`{}]|[^`{}"/]+|.""", re.S)
PIECE = re.compile(r"(?:\\.|\$(?!\{)|[^`\\$])*(?:`|\$\{)", re.S)  # of a template: up to its end or to the next ${


def code_of(name):
    """The script without its import lines, comments and strings. Of a template there remains what stands in ${…}."""
    text = re.sub(r"^import .*\n", "", (HERE / f"{name}.js").read_text(encoding="utf-8"), flags=re.M)
    kept, at, braces = [], 0, []
    while at < len(text):
        token = TOKEN.match(text, at)[0]
        at += len(token)
        if token == "`" or (token == "}" and braces.pop() == "template"):
            piece = PIECE.match(text, at)[0]
            at += len(piece)
            token = "(" if token == "`" else ")("
            braces += ["template"] if piece.endswith("${") else []
        elif token == "{":
            braces.append("code")
        kept.append("" if token[:2] == "//" or token[0] == '"' else token)
    return "".join(kept)


def used_in(code):
    """Names that other scripts offer and that `code` calls, spreads, or uses as constants; not its properties (`m.layer`)."""
    called = re.findall(r"(?<![\w.$])([A-Za-z_]\w*)\(", code)
    constant = re.findall(r"(?<![\w$])(?:(?<!\.)|(?<=\.\.\.))([A-Z][A-Z_]+)\b", code)
    return {*called, *constant} & OFFERED


def declared_in(code):
    """Names that the script makes itself: declared, parameters, methods."""
    named = re.findall(r"\b(?:function|const|let) (\w+)", code) + re.findall(r", (\w+) = ", code) + re.findall(r"(\w+) =>", code)
    parameters = " ".join(re.findall(r"\(([^()]*)\) (?:=>|\{)", code))
    return {*named, *re.findall(r"\w+", parameters), *re.findall(r"^ +(\w+)\([^()]*\) \{", code, re.M)}


@pytest.mark.parametrize("name", SCRIPTS)
def test_every_name_of_another_script_is_imported(name):
    imported = {each for names in imports_of(name).values() for each in names}
    code = code_of(name)
    assert not used_in(code) - imported - declared_in(code)


@pytest.mark.parametrize("name", SCRIPTS)
def test_every_import_is_offered_and_used(name):
    code = code_of(name)
    for target, names in imports_of(name).items():
        assert not set(names) - set(exports_of(target)), f"{target}.js doesn't export these"
        assert not [each for each in names if not re.search(rf"(?<![\w.]){each}\b|\.\.\.{each}\b", code)], "imported and not used"


def test_each_part_of_the_marker_is_written_by_one_script():
    writers = defaultdict(set)
    for name in SCRIPTS:
        if name.startswith("marker/"):
            for part in re.findall(r"\bm\.(\w+) = ", code_of(name)):
                writers[part].add(name)
    assert {"edges", "view", "gesture", "remark"} <= writers.keys()
    assert not {part: names for part, names in writers.items() if len(names) > 1}


@pytest.fixture
def written(tmp_path, monkeypatch):
    monkeypatch.setattr("kit.widgets.shared.scripts.HERE", tmp_path)
    return lambda **files: [(tmp_path / f"{name}.js").write_text(text) for name, text in files.items()]


def test_scripts_are_joined_in_order_each_in_its_own_scope(written):
    written(
        top='import { twice } from "./low.js";\n\nconst own = 1;\n\nexport default { render: () => twice(own) };\n',
        low="const own = 2;\nexport const twice = x => own * x;\n",
    )
    low, top = script("top").split("const { twice } = from_low;")
    assert low.startswith("const from_low = (() => {") and "return { twice };" in low and "export" not in low
    assert "import" not in top and top.endswith("export default { render: () => twice(own) };\n")


def test_a_missing_import_is_named(written):
    written(top='import { thrice } from "./low.js";\nexport default {};\n', low="export const twice = x => 2 * x;\n")
    with pytest.raises(LookupError) as missing:
        script("top")
    assert missing.value.args == ("top.js imports thrice from low.js, which doesn't export it.",)


def test_scripts_that_need_each_other_are_named(written):
    written(one='import { b } from "./two.js";\nexport const a = b;\n', two='import { a } from "./one.js";\nexport const b = a;\n')
    with pytest.raises(LookupError) as ring:
        script("one")
    assert ring.value.args == ("Scripts that need each other: one -> two -> one.",)
