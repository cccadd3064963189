"""Every script runs under the browser's own module loader, unjoined: what it imports is there, and the views among them can be drawn."""

import pytest

from kit.widgets.shared.scripts import HERE, exports_of

SCRIPTS = sorted(path.relative_to(HERE).with_suffix("").as_posix() for path in HERE.rglob("*.js"))
LOAD = "async name => { const module = await import(`/scripts/${name}.js`); return [Object.keys(module).sort(), typeof module.default?.render]; }"


@pytest.mark.parametrize("name", SCRIPTS)
def test_the_browser_loads_it_as_it_lies(loader, name):
    names, render = loader.evaluate(LOAD, name)
    assert [each for each in names if each != "default"] == sorted(exports_of(name))
    assert render == ("function" if "default" in names else "undefined")


def test_a_missing_import_stops_it(loader):
    loader.route("**/scripts/broken.js", lambda route: route.fulfill(content_type="text/javascript", body='import { no } from "./shared/drawing/scales.js";'))
    with pytest.raises(Exception, match="does not provide an export named 'no'"):
        loader.evaluate(LOAD, "broken")
