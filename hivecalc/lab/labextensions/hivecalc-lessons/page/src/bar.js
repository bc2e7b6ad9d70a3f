// The bar at the top of a lesson: Contents, Projector, Show the code, and what is going on.

import { showContents } from "./contents.js";
import { element, isLesson, shared } from "./lab.js";
import { beginProjector } from "./projector.js";
import { isQuiet, showCode } from "./quiet.js";

const bars = new WeakMap();
let lastLesson = null;

/** Give a lesson its bar, and any other page of the course a way back. */
export async function addBar(app, panel) {
  if (isLesson(panel)) lastLesson = panel;
  if (!panel?.contentHeader) return;
  if (!bars.has(panel)) {
    bars.set(panel, null);
    bars.set(panel, await makeBar(app, panel));
  }
  bars.get(panel)?.refresh();
}

/** Say in a lesson's bar what is going on: "Starting …", "Working …", or nothing. */
export function say(panel, text) {
  const status = panel.node.querySelector(".hivecalc-status");
  if (status) status.textContent = text;
  panel.node.dataset.hivecalcSays = text;
}

async function makeBar(app, panel) {
  const { Widget } = await shared("@lumino/widgets");
  const status = element("span", { role: "status", class: "hivecalc-status" });
  const button = (text, title, pressed) => {
    const made = element("button", { title }, text);
    made.addEventListener("click", pressed);
    return made;
  };
  const code = button("", "JupyterLab as it is, with its menus, files and code", () =>
    showCode(app, panel, isQuiet(app)));
  const own = isLesson(panel)
    ? [
        button("Contents", "All lessons, and how far you are in each", () => showContents(panel)),
        button("Projector", "Large type, one idea a screen", () => beginProjector(app, panel)),
      ]
    : [button("Back to the lesson", "Back to where you came from", () => goBack(app))];
  const node = element("div", { role: "navigation", "aria-label": "Course" }, ...own, code, status);
  const bar = new Widget({ node });
  bar.addClass("hivecalc-bar");
  panel.contentHeader.insertWidget(0, bar);
  status.textContent = panel.node.dataset.hivecalcSays ?? "";
  const refresh = () => {
    code.textContent = isQuiet(app) ? "Show the code" : "Hide the code";
    bar.setHidden(!isQuiet(app) && !isLesson(panel));
  };
  return { refresh };
}

function goBack(app) {
  if (lastLesson && !lastLesson.isDisposed) app.shell.activateById(lastLesson.id);
  else history.back();
}
