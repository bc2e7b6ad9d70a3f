// The quiet page: the lesson alone. It is JupyterLab's own single-document mode, with the rest of
// its bench put away; in its other mode all of that is there.

import { isLesson, takesKeys } from "./lab.js";

const PUT_AWAY = new Set(["jp-top-panel", "jp-menu-panel", "jp-bottom-panel"]);
const hidden = new Set();

/** Whether lessons stand alone. */
export const isQuiet = (app) => app.shell.mode === "single-document";

/** Put the bench away or bring it back, as the mode has it. */
export function beQuiet(app) {
  const quiet = isQuiet(app);
  document.body.classList.toggle("hivecalc-quiet", quiet);
  if (quiet) {
    if (!app.shell.leftCollapsed) app.shell.collapseLeft();
    if (!app.shell.rightCollapsed) app.shell.collapseRight();
    [...partsOf(app.shell)].filter((part) => !part.isHidden).forEach(putAway);
  } else {
    hidden.forEach((part) => part.show());
    hidden.clear();
  }
  const panel = app.shell.currentWidget;
  if (isLesson(panel)) panel.toolbar.setHidden(quiet);
}

/** Mark the cells that are for a tape in inches or in millimetres: the page shows one kind. */
export function markUnits(panel) {
  for (const { model, node } of panel.content.widgets)
    for (const unit of ["inch", "mm"])
      node.classList.toggle(`hivecalc-${unit}`, model.getMetadata("tags")?.includes(unit) ?? false);
}

function* partsOf(widget) {
  for (const part of widget.children())
    if (PUT_AWAY.has(part.id) || part.hasClass("jp-SideBar")) yield part;
    else if (part.id !== "jp-main-dock-panel") yield* partsOf(part);
}

function putAway(part) {
  hidden.add(part);
  part.hide();
}

/** Take away the still first picture: what it stood for is there. */
export const dropFirstPicture = () => document.getElementById("hivecalc-first")?.remove();

/** Show the code with all of JupyterLab, or the lesson alone again. */
export async function showCode(app, panel, show) {
  app.shell.mode = show ? "multiple-document" : "single-document";
  if (show) app.shell.expandLeft();
  app.shell.activateById(panel.id);
  if (isLesson(panel))
    await app.commands.execute(`notebook:${show ? "show" : "hide"}-all-cell-code`);
}

/** Keep the notebook's own keys and clicks away from cells that are not shown as such. */
export function guardCells() {
  const guard = (event) => {
    const quiet = document.body.classList.contains("hivecalc-quiet");
    if (!quiet || !event.target.closest?.(".jp-Notebook") || takesKeys(event.target)) return;
    if (event.type !== "keydown" || means(event)) event.stopPropagation();
  };
  for (const kind of ["keydown", "dblclick", "contextmenu"])
    window.addEventListener(kind, guard, true);
}

/** Whether a key would do something to a cell: a letter, a number, Enter, Delete. */
const means = ({ key, ctrlKey, metaKey, altKey }) =>
  !ctrlKey && !metaKey && !altKey && (key.length === 1 || ["Enter", "Backspace", "Delete"].includes(key));
