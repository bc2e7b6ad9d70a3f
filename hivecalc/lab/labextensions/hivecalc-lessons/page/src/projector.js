// The projector: large type, one idea a screen, next and back by keyboard.

import { element, scroller, takesKeys } from "./lab.js";
import { cellInView } from "./places.js";

const KEYS = "→ next · ← back · ↑ ↓ scroll · Esc ends";
let shown = null; // { app, panel, screens, at, mode, where }

/** The lesson that is on the wall, if one is. */
export const onTheWall = () => shown?.panel;

/** Show a lesson on the wall, from the place where its reader stands. */
export function beginProjector(app, panel) {
  const atTop = scroller(panel).scrollTop < 40;
  const here = atTop ? panel.content.widgets[0] : cellInView(panel);
  const { mode } = app.shell;
  app.shell.mode = "single-document";
  const screens = screensOf(panel);
  const where = document.body.appendChild(element("div", { role: "status", class: "hivecalc-where" }));
  shown = { app, panel, screens, at: 0, mode, where };
  document.body.classList.add("hivecalc-projector");
  panel.contentHeader.hide();
  show(screens.findIndex((cells) => cells.includes(here)));
}

/** Take off the wall what is on it, unless it is this panel. */
export function leaveProjector(panel = null) {
  if (!shown || shown.panel === panel) return;
  const { app, panel: left, screens, at, mode, where } = shown;
  shown = null;
  screens.flat().forEach(({ node }) => node.classList.remove("hivecalc-other-screen"));
  document.body.classList.remove("hivecalc-projector");
  where.remove();
  if (left.isDisposed) return;
  left.contentHeader.show();
  app.shell.mode = mode;
  left.content.activeCellIndex = left.content.widgets.indexOf(screens[at][0]);
  screens[at][0].node.scrollIntoView();
}

// A screen is a text and the panel that follows it. A further panel has a screen of its own. A text
// without heading and panel stands with what comes before it, and so does what follows a heading
// that has no text of its own. What is hidden is on no screen.
function screensOf(panel) {
  const found = [];
  const cells = panel.content.widgets.filter(({ node }) => getComputedStyle(node).display !== "none");
  const isPanel = (cell) => cell?.model.type === "code";
  const begins = (cell, i) => cell.model.type === "markdown"
    ? cell.model.sharedModel.source.startsWith("#") || isPanel(cells[i + 1])
    : isPanel(cell) && found.at(-1).some(isPanel);
  const isHeading = ([cell, ...more]) => !more.length && !isPanel(cell)
    && !cell.model.sharedModel.source.trim().includes("\n");
  cells.forEach((cell, i) => {
    if (!found.length || (begins(cell, i) && !isHeading(found.at(-1)))) found.push([]);
    found.at(-1).push(cell);
  });
  return found;
}

function show(at) {
  shown.at = Math.max(0, Math.min(at, shown.screens.length - 1));
  shown.screens.forEach((cells, i) => {
    const both = cells.some(({ model }) => model.type === "markdown") && cells.length > 1;
    for (const { node } of cells) {
      node.classList.toggle("hivecalc-other-screen", i !== shown.at);
      node.classList.toggle("hivecalc-alone", !both);
    }
  });
  shown.where.textContent = `${shown.at + 1} / ${shown.screens.length} · ${KEYS}`;
  document.activeElement?.blur(); // or a field on the screen before would go on taking the keys
  scroller(shown.panel).scrollTop = 0;
}

const PAGES = { PageDown: 1, PageUp: -1 }; // a presenter's remote sends these; fields let them go
const STEPS = { ArrowRight: 1, " ": 1, ArrowLeft: -1 };
const SCROLLS = { ArrowDown: 0.3, ArrowUp: -0.3 }; // of the wall's height

/** Lead on and back by keyboard while a lesson is on the wall. */
export function watchKeys() {
  window.addEventListener("keydown", (event) => {
    if (!shown || !pressed(event)) return;
    event.preventDefault();
    event.stopPropagation();
  }, true);
}

function pressed({ key, target }) {
  if (key === "Escape") leaveProjector();
  else if (PAGES[key]) show(shown.at + PAGES[key]);
  else if (takesKeys(target)) return false;
  else if (STEPS[key]) show(shown.at + STEPS[key]);
  else if (SCROLLS[key]) scroller(shown.panel).scrollBy(0, SCROLLS[key] * innerHeight);
  else if (key === "Home") show(0);
  else if (key === "End") show(shown.screens.length - 1);
  else return raiseHand(key);
  return true;
}

// Where a class predicts, each digit key counts one hand for the choice of that place.
function raiseHand(key) {
  const here = shown.screens[shown.at].flatMap(({ node }) => [...node.querySelectorAll(".hc-vote")]);
  here[Number(key) - 1]?.click();
  return Boolean(here[Number(key) - 1]);
}
