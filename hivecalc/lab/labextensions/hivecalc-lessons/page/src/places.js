// Where the reader stopped in each lesson: the cell at the top of the window. A small file for each
// lesson names it, for the next time, and the address, for a reload.

import { isLesson, readText, scroller, writeText } from "./lab.js";

const FOLDER = ".hivecalc/places";
const wanted = new Map(); // by the path of a lesson that opens, "#cell-id=…": where to go in it

/** Take a lesson's own note as the place to go to when it opens, unless the address names one. */
export async function setPlace(app, path, hash = "") {
  wanted.set(path, hash);
  const [folder, name] = path.split("/");
  const notes = hash ? [] : (await app.serviceManager.contents.get(`${FOLDER}/${folder}`)).content;
  if (!notes.some((note) => note.name === `${name}.json`)) return;
  wanted.set(path, `#cell-id=${JSON.parse(await readText(app, `${FOLDER}/${path}.json`)).cell}`);
}

/** The place to go to in the lesson at a path, empty for its top. */
export const placeIn = (path) => wanted.get(path) ?? "";

/** Go to the place that was set for a lesson, which comes back, and forget it. */
export function goToPlace(panel) {
  const hash = placeIn(panel.context.path);
  wanted.delete(panel.context.path);
  const cell = panel.content.widgets.find(({ model }) => `#cell-id=${model.id}` === hash);
  if (cell) hold(panel, cell);
  return hash;
}

// Pictures above the cell grow for a while, so it is held in view until the reader moves.
let held = null;
function hold(panel, cell) {
  panel.content.activeCellIndex = panel.content.widgets.indexOf(cell);
  letGo();
  held = new ResizeObserver(() => cell.node.scrollIntoView());
  panel.content.widgets.forEach(({ node }) => held.observe(node));
}

/** Hold nothing in view any more. */
export function letGo() {
  held?.disconnect();
  held = null;
}

/**
 * The cell being read: the first that begins in the upper part of the window, or the one that fills
 * it. A cell that was brought to the top stays the one, though the page then moves a little.
 */
export function cellInView(panel) {
  const { top, height } = scroller(panel).getBoundingClientRect();
  const seen = panel.content.widgets.filter(({ node }) => node.offsetHeight);
  const begins = ({ node }) => (node.getBoundingClientRect().top - top) / height;
  return (
    seen.find((cell) => begins(cell) > -0.1 && begins(cell) < 0.4) ??
    seen.findLast((cell) => begins(cell) < 0)
  );
}

/** Let the address name the lesson in front, and a place in it. */
export function setAddress({ context: { path } }, hash = "") {
  const [page] = location.pathname.split("/tree/");
  const quoted = path.split("/").map(encodeURIComponent).join("/");
  history.replaceState(history.state, "", `${page}/tree/${quoted}${hash}`);
}

/** Once the reader has moved, write down where they are. */
export function notePlaces(app, inFront) {
  let noting = 0;
  const touched = ({ target }) => {
    const panel = inFront();
    const onPage = document.body.classList.contains("hivecalc-projector");
    if (!isLesson(panel) || !(onPage || panel.node.contains(target))) return;
    letGo();
    clearTimeout(noting);
    noting = setTimeout(() => note(app, panel), 1000);
  };
  for (const kind of ["wheel", "keyup", "pointerdown", "pointerup", "touchend"])
    document.addEventListener(kind, touched, { capture: true, passive: true });
}

let writable = true;
function note(app, panel) {
  if (panel.isDisposed || !panel.isVisible) return;
  const id = cellInView(panel)?.model.id ?? "";
  const { path } = panel.context;
  if (writable)
    writeText(app, `${FOLDER}/${path}.json`, JSON.stringify({ cell: id })).catch(({ response }) => {
      writable = !response; // refused once, it is not tried again
    });
  setAddress(panel, `#cell-id=${id}`);
}
