"""The browser side of the widgets: small modules of script, joined to the one module that a widget sends. No build.

Each `.js` file says by `import { … } from "…";` what it stands on, and by `export` before a function, const or class what it offers, so that
the browser's own loader can run it as it lies there. Joined, every file keeps a scope of its own.
"""

import re
from pathlib import Path

HERE = Path(__file__).parents[1]
IMPORT = re.compile(r'^import \{([^}]*)\} from "(\.[^"]+)\.js";\n', re.M)
EXPORT = re.compile(r"^export (?=(?:async )?(?:function|const|class) (\w+))", re.M)


def script(entry):
    """The text of `entry` ('cards/cards') and of all that it imports, as one module. `entry` holds `export default`.

    A LookupError names an import that its file doesn't offer, and files that need each other.
    """
    *below, top = _in_order(entry)
    return "\n".join([*map(_scoped, below), _with_imports(top)])


def sheet(*names):
    """The text of these `.css` files in order."""
    return "\n".join((HERE / f"{name}.css").read_text(encoding="utf-8") for name in names)


def imports_of(name):
    """What the script `name` imports, as {script: [names]}."""
    return {_target(name, path): re.findall(r"\w+", names) for names, path in IMPORT.findall(_text(name))}


def exports_of(name):
    """The names that the script `name` offers."""
    return EXPORT.findall(_text(name))


def _in_order(name, above=()):
    """`name` and all that it stands on, each once, after what it imports itself."""
    if name in above:
        raise LookupError(f"Scripts that need each other: {' -> '.join([*above, name])}.")
    order = {}
    for target, names in imports_of(name).items():
        missing = [each for each in names if each not in exports_of(target)]
        if missing:
            raise LookupError(f"{name}.js imports {missing[0]} from {target}.js, which doesn't export it.")
        order |= dict.fromkeys(_in_order(target, (*above, name)))
    return [*order, name]


def _scoped(name):
    body = EXPORT.sub("", _with_imports(name))
    return f"const {_variable(name)} = (() => {{\n{body}return {{ {', '.join(exports_of(name))} }};\n}})();"


def _with_imports(name):
    return IMPORT.sub(lambda found: f"const {{{found[1]}}} = {_variable(_target(name, found[2]))};\n", _text(name))


def _target(name, path):
    return (HERE / name).parent.joinpath(path).resolve().relative_to(HERE.resolve()).as_posix()


def _variable(name):
    return "from_" + re.sub(r"\W", "_", name)


def _text(name):
    return (HERE / f"{name}.js").read_text(encoding="utf-8")
