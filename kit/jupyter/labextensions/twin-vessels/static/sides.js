// Gives the lesson the room it needs. The right side, which the kit leaves empty, is closed; on a narrow screen so is the file list, at the start
// and whenever a notebook comes to the front.
const NARROW_PX = 760;

export const sides = {
  id: "twin-vessels:sides",
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
