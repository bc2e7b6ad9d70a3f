// A lesson runs when it opens, and says what is going on meanwhile. What the course did not give
// waits for a press.

import { say } from "./bar.js";
import { isGiven } from "./given.js";
import { element, isLesson, scroller, shared } from "./lab.js";
import { keepFew, prepareNext } from "./open.js";
import { goToPlace, setAddress } from "./places.js";
import { dropFirstPicture, markUnits } from "./quiet.js";

const SLOW = 333; // ms after which an answer is said to be on its way
const started = new WeakSet();

/** Run a lesson that has come to the front, if it has not run yet. */
export async function run(app, panel) {
  if (!isLesson(panel)) return;
  keepFew(app, panel).catch(() => {}); // a kernel too many does no harm
  if (started.has(panel)) return;
  started.add(panel);
  say(panel, "Starting …");
  await panel.context.ready;
  await panel.revealed;
  markUnits(panel);
  dropFirstPicture();
  const given = () => isGiven(app, panel).catch(() => false);
  if (!(await given())) return offerToRun(app, panel);
  await kernelReady(app, panel);
  if (panel.isDisposed) return;
  if (app.shell.currentWidget !== panel) {
    started.delete(panel); // opened behind another: run when it comes to the front
    return;
  }
  await runAll(app, panel);
  if (await given()) panel.context.model.dirty = false; // nothing to save, nor to ask about
}

async function runAll(app, panel) {
  await app.commands.execute("notebook:run-all-cells");
  panel.content.activeCellIndex = 0; // running leaves the last cell in view
  scroller(panel).scrollTop = 0;
  setAddress(panel, goToPlace(panel));
  say(panel, "");
  panel.node.dataset.hivecalc = "alive";
  prepareNext(app, panel).catch(() => {}); // it is then only slower
  tellWorkAndEnd(panel);
}

async function kernelReady(app, { sessionContext }) {
  await sessionContext.ready;
  await endEarlier(app, sessionContext.session?.kernel).catch(() => {}); // it is then only slower
}

// A page that is loaded again finds its kernel with the panels of the page before. They would all
// come along, more at each time; they stay only where that page is still open.
async function endEarlier({ serviceManager }, kernel) {
  const { KernelAPI } = await shared("@jupyterlab/services");
  await kernel.info; // this page is connected
  const { connections } = await KernelAPI.getKernelModel(kernel.id, serviceManager.serverSettings);
  if (connections > 1) return;
  const code = "import ipywidgets; ipywidgets.Widget.close_all()";
  await kernel.requestExecute({ code, silent: true, store_history: false }).done;
}

const told = new WeakSet();
function tellWorkAndEnd(panel) {
  if (told.has(panel)) return;
  told.add(panel);
  let soon = 0;
  panel.sessionContext.statusChanged.connect((_, status) => {
    clearTimeout(soon);
    if (status === "busy") soon = setTimeout(() => say(panel, "Working …"), SLOW);
    else if (status === "idle") say(panel, "");
    else if (status === "dead") offerToStart(panel);
  });
  panel.sessionContext.kernelChanged.connect((_, { newValue }) => {
    if (!newValue) offerToStart(panel); // ended from elsewhere, or after a while unused
  });
}

// ── what has not run yet, or has ended ────────────────────────────────────────────────────────

function offerToRun(app, panel) {
  say(panel, "");
  const why = "This notebook is changed or not from the course, so nothing in it has run. ";
  return offer(panel, why, "Run it", async () => {
    await kernelReady(app, panel);
    await runAll(app, panel);
  });
}

function offerToStart(panel) {
  say(panel, "");
  const why = "This lesson has stopped. What you entered is kept. ";
  return offer(panel, why, "Start it again", () => location.reload());
}

async function offer(panel, why, does, pressed) {
  const { Widget } = await shared("@lumino/widgets");
  if (panel.isDisposed || panel.node.querySelector(".hivecalc-offer")) return; // closed meanwhile
  const button = element("button", {}, does);
  const bar = new Widget({ node: element("div", { role: "status" }, why, button) });
  bar.addClass("hivecalc-offer");
  button.addEventListener("click", () => {
    bar.dispose();
    say(panel, "Starting …");
    pressed();
  });
  panel.contentHeader.addWidget(bar);
}
