// Answers belong to a notebook's file: when that is renamed or moved, they go with it. Its Python was told the old name, so a new one takes over.
export function followName({ serviceManager }, { context, sessionContext }) {
  const answers = path => path.replace(/\.ipynb$/, "-answers.json");
  let path = context.path;
  context.pathChanged.connect(async (_, now) => {
    await serviceManager.contents.rename(answers(path), answers(now)).catch(() => undefined); // nothing answered yet
    path = now;
    await sessionContext.session?.setPath(now);
    await sessionContext.session?.setName(now.split("/").pop());
    await sessionContext.changeKernel({ name: sessionContext.session?.kernel?.name ?? "python3" });
  });
}
