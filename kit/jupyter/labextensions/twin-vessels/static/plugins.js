// What JupyterLab is given: a list of plugins, each started once.
import { calm } from "./calm.js";
import { attend } from "./lesson.js";
import { sides } from "./sides.js";

for (const name of ["strip.css", "page.css", "print.css"]) {
  document.head.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href: new URL(name, import.meta.url) }));
}

// anywidget gives a widget's script two seconds to load and takes no word from Python for the widget afterwards: on a slow computer a card would
// stay away or stay as it was. It has no setting for it, so the two seconds are made a minute where it asks the browser for them.
const timeout = AbortSignal.timeout.bind(AbortSignal);
AbortSignal.timeout = ms => timeout(ms === 2000 ? 60_000 : ms);

export async function plugins(borrow) {
  const names = ["@jupyterlab/apputils", "@jupyterlab/coreutils", "@jupyterlab/notebook", "@jupyterlab/services", "@lumino/widgets"];
  const jupyter = Object.assign({}, ...await Promise.all(names.map(borrow)));
  const lessons = {
    id: "twin-vessels:lessons",
    autoStart: true,
    activate: app => { app.docRegistry.addWidgetExtension("Notebook", { createNew: panel => { attend(app, jupyter, panel); } }); },
  };
  return [sides, lessons, calm];
}
