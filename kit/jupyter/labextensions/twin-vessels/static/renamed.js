// Answers and marks belong to a notebook's file: when that is renamed or moved, they go with it. Its Python was told the old name, so a new one takes over.
const SIGNS = 16, LONGEST = 100; // in the name of a file of marks: of the run's hash, of the notebook (kit/coursework/runs/marks.py)

export function followName({ serviceManager: { contents } }, { context, sessionContext }) {
  let path = context.path;
  context.pathChanged.connect(async (_, now) => {
    const before = path;
    path = now;
    const answers = each => each.replace(/\.ipynb$/, "-answers.json");
    await contents.rename(answers(before), answers(now)).catch(() => undefined); // nothing answered yet
    await takeMarks(contents, before, now).catch(() => undefined); // nothing marked yet
    await sessionContext.session?.setPath(now);
    await sessionContext.session?.setName(now.split("/").pop());
    await sessionContext.changeKernel({ name: sessionContext.session?.kernel?.name ?? "python3" });
  });
}

async function takeMarks(contents, before, now) {
  const folder = each => `${each.split("/").slice(0, -1).join("/")}/marks`.replace(/^\//, "");
  const ending = each => `-${each.split("/").pop().replace(/\.ipynb$/, "").slice(0, LONGEST)}.json`;
  const { content } = await contents.get(folder(before));
  const mine = content.map(each => each.name).filter(name => name.slice(SIGNS) === ending(before));
  if (mine.length && folder(now) !== folder(before)) await contents.save(folder(now), { type: "directory" });
  for (const name of mine) await contents.rename(`${folder(before)}/${name}`, `${folder(now)}/${name.slice(0, SIGNS)}${ending(now)}`);
}
