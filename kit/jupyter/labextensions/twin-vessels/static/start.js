// Starting a lesson: wait until Python really answers, run the code cells without moving the page, and tell whether all went well.
import { holdWriting } from "./writing.js";

const SILENT_MS = 6000, LOOK_MS = 100, SETTLE_MS = 2500;
const pause = ms => new Promise(done => setTimeout(done, ms));

export const codeCells = panel => panel.content.widgets.filter(cell => cell.model.type === "code" && cell.model.sharedModel.getSource().trim());
export const isRunning = panel => codeCells(panel).some(cell => cell.model.executionState === "running");

export function isOwn(panel, code) { // letter by letter the code that the kit ships
  const here = codeCells(panel).map(cell => cell.model.sharedModel.getSource());
  return here.length === code.length && here.every((text, i) => text === code[i]);
}

// Waits until the kernel has answered a question that was put to it now: a kernel shown as idle may be one whose line leads to nobody. Such a line is
// laid anew, and if that does not help the kernel is started anew. False: it is dead, or another one took its place.
export async function answers(context, sayMore) {
  await context.ready;
  const kernel = context.session?.kernel;
  let silent = 0;
  for (let waited = 0; kernel && !kernel.isDisposed && kernel === context.session?.kernel && kernel.status !== "dead"; waited += LOOK_MS) {
    if (kernel.connectionStatus === "connected" && !["restarting", "autorestarting"].includes(kernel.status)) {
      if (await inTime(kernel.requestKernelInfo())) return true;
      if (kernel.status === "busy") continue;
      silent += 1;
      await (silent > 1 ? context.restartKernel() : kernel.reconnect()).catch(() => undefined);
    }
    if (waited > SILENT_MS) sayMore();
    await pause(LOOK_MS);
  }
  return false;
}

const inTime = asked => Promise.race([asked.then(() => true, () => false), pause(SILENT_MS).then(() => false)]);

export async function runs(panel, NotebookActions) {
  const notebook = panel.content, cells = codeCells(panel), release = holdWriting(notebook.node);
  const page = notebook.outerNode, place = page.scrollTop;
  for (const { node } of cells) node.style.minHeight = `${node.offsetHeight}px`; // the page keeps its length, and the reader the place
  try {
    const done = NotebookActions.runCells(notebook, cells, panel.sessionContext);
    for (let frame = 0; frame < 10; frame++) { // it brings the selected cell into view, which need not be where the reader is
      await new Promise(requestAnimationFrame);
      page.scrollTop = place;
    }
    return await done;
  } finally {
    release();
    setTimeout(() => { for (const { node } of cells) node.style.minHeight = ""; }, SETTLE_MS);
  }
}
