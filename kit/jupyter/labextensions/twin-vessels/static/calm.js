// A dialog that nobody asked for must not take the keys of somebody who writes. While the focus is in a text box of the kit, a dialog waits unseen
// until the box is left. That Python stopped and starts again needs no dialog in a lesson: the strip above it says so.
import { writing } from "./writing.js";

const NEEDLESS = "Kernel Restarting", LESSON = "[data-kit-lesson]:not(.lm-mod-hidden)";

export const calm = {
  id: "twin-vessels:calm",
  autoStart: true,
  activate: () => {
    let box = null;
    document.addEventListener("focusin", event => { box = writing(event.target) ? event.target : inDialog(event.target) ? box : null; }, true);
    new MutationObserver(changes => {
      for (const added of changes.flatMap(change => [...change.addedNodes])) {
        if (added.classList?.contains("jp-Dialog")) settle(added, box?.isConnected ? box : null);
      }
    }).observe(document.body, { childList: true });
  },
};

const inDialog = node => node.closest?.(".jp-Dialog");

function settle(dialog, box) {
  if (document.querySelector(LESSON) && dialog.getAttribute("aria-label")?.startsWith(NEEDLESS)) // its title is drawn later
    dialog.querySelector("button.jp-mod-accept").click();
  else if (box) {
    dialog.style.display = "none"; // unseen, it can't take the focus, though it asks for it
    box.addEventListener("blur", () => { dialog.style.display = ""; }, { once: true });
  }
  box?.focus({ preventScroll: true });
}
