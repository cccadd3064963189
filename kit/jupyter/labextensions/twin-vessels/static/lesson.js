// One open lesson: starts by itself when it is opened and whenever its Python is new, if its code is the kit's own; the strip says how it stands.
import { goToStep } from "./place.js";
import { followName } from "./renamed.js";
import { ask } from "./server.js";
import { answers, isOwn, isRunning, runs } from "./start.js";
import { addStrip } from "./strip.js";

const QUIET_MS = 200, SETTINGS = "settings", CONTENTS = "contents"; // which shows how far each lesson is, so it is made anew whenever it is looked at

export async function attend(app, jupyter, panel) {
  await panel.context.ready;
  const find = () => ask(app, jupyter, "lesson", { path: panel.context.path, cell: panel.model.cells.get(0)?.id ?? "" });
  const lesson = await find();
  if (!lesson.name || panel.isDisposed) return; // none of the kit's
  const strip = addStrip(app, jupyter, panel, () => { wanted = true; start(); });
  const failed = new Set(); // ids of the cells that went wrong when they ran last
  let turn = 0, wanted = false, opened = false, soon = 0, spoken = ""; // spoken: the class's settings when the page ran last

  async function refresh(ran) {
    if (panel.isDisposed) return null; // closed in the moment after something was kept
    const now = await find().catch(() => null); // the server may be gone; what was shown last stays
    if (now) strip.show(now);
    if (now && (ran || lesson.name === SETTINGS)) spoken = now.settings; // the page of settings shows them as they are
    else if (now && strip.state() === "ready" && now.settings !== spoken) strip.say("other");
    return now;
  }

  async function start() {
    const mine = ++turn, context = panel.sessionContext, isOld = () => mine !== turn || panel.isDisposed;
    strip.say("waiting");
    if (wanted && (context.hasNoKernel || context.session?.kernel?.status === "dead")) return context.changeKernel({ name: "python3" });
    const awake = await answers(context, () => isOld() || strip.say("silent"));
    if (isOld()) return;
    if (!awake) return strip.say("dead");
    if (!wanted && !isOwn(panel, lesson.code)) return strip.say("changed");
    wanted = false;
    failed.clear();
    strip.say("starting");
    const well = isRunning(panel) || await runs(panel, jupyter.NotebookActions); // running: somebody pressed Restart and Run All
    if (isOld()) return;
    strip.say(well ? "ready" : "failed");
    const now = await refresh(true);
    if (!opened && now?.begun && now.next && !inUse(panel)) goToStep(panel, now.next.step);
    opened = true;
  }

  jupyter.NotebookActions.executed.connect((_, { notebook, cell, success }) => {
    if (notebook !== panel.content) return;
    failed[success ? "delete" : "add"](cell.model.id);
    if (failed.size) strip.say("failed");
    else if (strip.state() === "failed") strip.say("ready");
  }, panel);

  followName(app, panel);
  app.shell.currentChanged.connect(async (_, { newValue }) => { // a page that one comes back to speaks as the class's settings say now
    if (newValue !== panel || !opened) return;
    if (lesson.name === CONTENTS || (await refresh(), strip.state() === "other")) start();
  }, panel);
  strip.show(lesson);
  panel.node.addEventListener("kit-kept", () => { clearTimeout(soon); soon = setTimeout(refresh, QUIET_MS); });
  panel.sessionContext.kernelChanged.connect(() => start());
  panel.sessionContext.statusChanged.connect((_, status) => {
    if (status === "autorestarting") start();
    if (status === "restarting") { turn += 1; strip.say("waiting"); } // kernelChanged comes when that is done
  });
  start();
}

// Has somebody taken hold of a card, a view or the strip meanwhile? Their keys must not go astray.
const inUse = ({ node }) => node.contains(document.activeElement) && Boolean(document.activeElement.closest(".jp-OutputArea-output, .kit-strip-all"));
