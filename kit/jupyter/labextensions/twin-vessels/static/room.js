// Gives the lesson the room it needs. The right side, which the kit leaves empty, is closed; on a narrow screen so is the file list,
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

window._JUPYTERLAB = window._JUPYTERLAB || {};
window._JUPYTERLAB["twin-vessels"] = {
  init: () => undefined,
  get: async () => () => ({ __esModule: true, default: plugin }),
};
