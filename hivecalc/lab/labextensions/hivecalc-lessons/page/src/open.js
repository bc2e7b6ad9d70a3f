// A lesson opens at once, and few kernels stay alive.

import { addressed, isLesson, isLessonPath, shared } from "./lab.js";
import { setPlace } from "./places.js";

/** Open what the address names at once: JupyterLab waits a second before it does. */
export async function open(app) {
  const path = addressed();
  if (!isLessonPath(path)) return;
  const opened = openLesson(app, path);
  openOnce(app, path, opened);
  await opened;
}

async function openLesson(app, path) {
  await app.serviceManager.contents.get(path, { content: false });
  const { session } = await import("./first.js"); // runs already, where the page has loaded it
  await Promise.allSettled([session, setPlace(app, path, location.hash), app.restored]);
  await app.commands.execute("docmanager:open", { path });
}

/** Keep JupyterLab from opening it a second time, which would lead a reader back who has gone on. */
function openOnce({ commands }, path, opened) {
  const execute = commands.execute.bind(commands);
  commands.execute = (id, given) => {
    if (id !== "filebrowser:open-path" || given?.path !== path) return execute(id, given);
    commands.execute = execute;
    return opened.catch(() => execute(id, given)); // JupyterLab itself says what is wrong
  };
}

// ── few kernels ──────────────────────────────────────────────────────────────────────────────
// Besides the lesson in front, the one before stays, and the next one's kernel is ready: going
// back and on is quick. A lesson that is open in another window keeps its kernel, too.
const STAY = 1;
const NEXT = /\*\*Next:\*\* \[[^\]]*\]\(([^)]+\.ipynb)\)/;

/** Have the kernel of the next lesson ready; nothing runs in it yet. */
export async function prepareNext({ serviceManager }, { content, context }) {
  const [, name] = NEXT.exec(content.widgets.at(-1)?.model.sharedModel.source ?? "") ?? [];
  if (!name) return;
  const { SessionAPI } = await shared("@jupyterlab/services");
  const path = context.path.replace(/[^/]+$/, name);
  const session = { path, name, type: "notebook", kernel: { name: "python3" } };
  await SessionAPI.startSession(session, serviceManager.serverSettings);
}

let visited = []; // panels of this window, the last one in front first

/** Note which lesson is in front, and end those that were left longest ago. */
export async function keepFew(app, panel) {
  if (visited[0] === panel) return;
  visited = [panel, ...visited.filter((p) => p !== panel)];
  for (const left of visited.slice(1 + STAY)) await close(left);
  visited = visited.filter((p) => !p.isDisposed);
  const { SessionAPI } = await shared("@jupyterlab/services");
  const settings = app.serviceManager.serverSettings;
  const here = new Set(visited.map(({ context }) => context.path));
  const others = (await SessionAPI.listRunning(settings))
    .filter(({ path, kernel }) => isLessonPath(path) && !here.has(path) && !kernel?.connections)
    .sort((a, b) => b.kernel.last_activity.localeCompare(a.kernel.last_activity));
  for (const { id } of others.slice(Math.max(0, 1 + STAY - here.size)))
    await SessionAPI.shutdownSession(id, settings);
}

// A lesson that JupyterLab has still to save stays: it would ask about one that is closed meanwhile.
async function close(panel) {
  if (panel.isDisposed || panel.context.model.dirty) return;
  await panel.sessionContext.shutdown().catch(() => {});
  panel.dispose();
}
