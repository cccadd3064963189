// Window marker: canvas lines, SVG bands, six slider handles. Handles follow the hand in the same frame; Python answers with the number.

const UP_OR_DOWN = ["ArrowUp", "ArrowDown", "PageUp", "PageDown"]; // the other keys move within what is typed in a box

function render({ model, el }) {
  const ended = new AbortController(), m = stateOf(model, ended.signal);
  const resized = new ResizeObserver(() => fitIn(m)), themed = new MutationObserver(() => fitIn(m)), heard = () => answered(m);
  connect(m);
  el.append(m.frame.root);
  resized.observe(m.frame.root);
  themed.observe(document.body, { attributes: true, attributeFilter: ["data-jp-theme-light", "data-jp-theme-name"] });
  model.on("change:answer", heard);
  fitIn(m);
  showAnswer(m);
  clearTimeout(m.speaking); // what stands there when the view opens is not news
  return () => {
    ended.abort(); resized.disconnect(); themed.disconnect(); m.line.close();
    clearTimeout(m.resting); clearTimeout(m.speaking);
    model.off("change:answer", heard);
  };
}

function stateOf(model, life) {
  const picture = model.get("picture"), times = numbers(model.get("times")), all = numbers(model.get("lines"));
  const rows = picture.rows.map((_, j) => all.subarray(j * times.length, (j + 1) * times.length));
  const me = `view-${Math.random().toString(36).slice(2)}`, edges = model.get("edges");
  const m = { model, life, me, picture, edges, data: { times, rows, gap: picture.gap }, step: picture.step, remark: "", gestures: 0 };
  m.limits = { low: times[0], high: times.at(-1), least: picture.least };
  m.frame = frameOf(picture, me);
  m.layer = layerOf(m.frame.area);
  m.line = lineTo(model, me, () => { m.silent = true; tell(m); });
  begin(m, "nobody");
  return m;
}

function connect(m) {
  const on = (element, kind, heard) => element.addEventListener(kind, heard, { signal: m.life }), { frame, layer } = m;
  layer.bands.forEach((band, i) => dragging(m, band.group, { window: i }));
  layer.grips.forEach((grip, k) => { dragging(m, grip.group, { edge: k }); on(grip.group, "keydown", event => pressed(m, k, event)); });
  frame.boxes.forEach((box, k) => {
    const done = () => { delete box.dataset.typing; };
    on(box, "input", () => { box.dataset.typing = "yes"; });
    on(box, "change", () => { done(); typed(m, k, box.value); });
    on(box, "blur", () => { done(); showBoxes(m); });
    on(box, "keydown", event => { if (UP_OR_DOWN.includes(event.key)) { done(); pressed(m, k, event); } });
  });
  for (const kind of Object.keys(frame.buttons)) on(frame.buttons[kind], "click", () => button(m, kind));
  on(frame.root, "keydown", event => {
    const kind = chord(event);
    if (kind) { event.preventDefault(); event.stopPropagation(); button(m, kind); }
    if (event.key === "Escape" && m.held) cancel(m);
  });
  keepKeys(frame.root, m.life);
}

function show(m) { // the windows as they are now: bands, handles, boxes, the step
  place(m.layer, m.view, m.edges, m.limits);
  placeStep(m.layer.step, m.view, m.edges, m.model.get("answer"));
  showBoxes(m);
}

function showBoxes(m) {
  m.frame.boxes.forEach((box, k) => {
    const [low, high] = neighbours(m.edges, k, m.limits);
    const text = minutes(m.edges[k]);
    if (!box.dataset.typing && box.value !== text) box.value = text; // an answer that comes late must not wipe out what is being typed
    change(box, { "aria-valuenow": text, "aria-valuetext": clock(m.edges[k]) });
    change(box, { "aria-valuemin": minutes(low), "aria-valuemax": minutes(high) });
  });
}

function fitIn(m) {
  const style = getComputedStyle(m.frame.root), width = Math.max(280, m.frame.root.clientWidth);
  m.view = layout(width, m.picture, m.data, name => style.getPropertyValue(name));
  paint(m.frame.canvas, m.view);
  fit(m.layer, m.view);
  show(m);
}

export default { render };
