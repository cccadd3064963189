// Gives the lesson the room it needs, and a word to those who come back. The right side, which the kit leaves empty, is closed; on a narrow screen so is the file list,
// at the start and whenever a notebook comes to the front.
// Written by hand in the form that JupyterLab loads (a module federation container), so that the kit needs no build step.
const NARROW_PX = 760;

const plugin = {
  id: "twin-vessels:room",
  autoStart: true,
  activate: app => {
    const { shell } = app;
    const closeFileList = () => { if (window.innerWidth < NARROW_PX) shell.collapseLeft(); };
    app.restored.then(() => {
      if (shell.isEmpty("right")) shell.collapseRight();
      closeFileList();
      shell.currentChanged.connect(closeFileList);
    });
  },
};

// A lesson opened again shows what was saved of its cards, which ended with their kernel. JupyterLab calls that an error; say what helps.
const RETURN = `.jp-OutputArea-output.jupyter-widgets:not(:has(*)) { font-size: 0; padding: 8px; }
.jp-OutputArea-output.jupyter-widgets:not(:has(*))::after { font-size: 14px; content: "Choose Run, Run All Cells to bring this back. Your work is kept."; }`;

const returning = {
  id: "twin-vessels:returning",
  autoStart: true,
  activate: () => {
    const style = document.createElement("style");
    style.textContent = RETURN;
    document.head.append(style);
  },
};

window._JUPYTERLAB = window._JUPYTERLAB || {};
window._JUPYTERLAB["twin-vessels"] = {
  init: () => undefined,
  get: async () => () => ({ __esModule: true, default: [plugin, returning] }),
};
