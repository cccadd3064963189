"""Files that are dropped while others are still on their way: each is sent in its turn, and only its own answer lets the next go."""

from kit.widgets.shared import script

SHOW = """async source => {
  const { default: widget } = await import(URL.createObjectURL(new Blob([source], { type: 'text/javascript' })));
  const ears = [], file = { is: 'file', key: 'file', label: 'Files', hint: '', press: 'file', accept: '', most: 8, several: true };
  const state = { name: 'bring', home: 'here', title: 'Files', blocks: [file], reply: {} };
  window.sent = [];
  window.reply = to => { state.reply = { to, text: '' }; ears.filter(([what]) => what === 'change:reply').forEach(([, ear]) => ear()); };
  const model = {
    get: name => state[name], send: message => sent.push(message),
    on: (what, ear) => ears.push([what, ear]), off: (what, ear) => { const at = ears.findIndex(each => each[1] === ear); if (at >= 0) ears.splice(at, 1); },
  };
  widget.render({ model, el: document.body });
  window.drop = names => {
    const given = new DataTransfer();
    for (const name of names) given.items.add(new File(['1'], name));
    document.querySelector('.kit-drop').dispatchEvent(new DragEvent('drop', { dataTransfer: given, bubbles: true, cancelable: true }));
  };
}"""
NAMES = "() => sent.map(each => [each.values.name, each.values.left])"
REST = "async () => { for (let i = 0; i < 20; i += 1) await new Blob(['1']).arrayBuffer(); }"  # longer than a file takes to be read


def test_a_drop_waits_for_the_one_before_and_no_other_answer_counts(browser):
    page = browser.new_page()
    page.route("http://card.test/", lambda route: route.fulfill(body="<!doctype html><body></body>", content_type="text/html"))
    page.goto("http://card.test/")
    page.evaluate(SHOW, script("intake/intake"))
    page.evaluate("() => { drop(['a.csv']); drop(['b.csv', 'c.csv']); }")
    came = [["a.csv", 0], ["b.csv", 1], ["c.csv", 0]]
    for number in range(1, 4):
        page.wait_for_function("number => sent.length >= number", arg=number)
        page.evaluate(REST)
        page.evaluate("() => reply('another press')")
        page.evaluate(REST)
        assert page.evaluate(NAMES) == came[:number]
        page.evaluate("() => reply(sent.at(-1).number)")
    page.evaluate(REST)
    assert page.evaluate(NAMES) == came
    page.close()
