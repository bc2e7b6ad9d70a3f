// From lesson to lesson: links of the course, and the table of contents.

import { addressed, isLessonPath, scroller } from "./lab.js";
import { letGo, placeIn, setPlace } from "./places.js";

/** Let links to a page of the course open it beside the others. */
export function followLinks(app) {
  document.addEventListener("click", async (event) => {
    const link = event.target.closest?.("a[data-page]");
    if (!link || event.button || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const path = link.dataset.page;
    if (link.dataset.cell) await setPlace(app, path, `#cell-id=${link.dataset.cell}`);
    if (link.dataset.place) await setPlace(app, path).catch(() => {}); // then to its top
    app.commands.execute("rendermime:handle-local-link", { path, id: placeIn(path) });
  });
}

/** Let the browser's Back and Forward show the lesson whose address they bring back. */
export function followHistory(app) {
  const push = history.pushState.bind(history);
  history.pushState = (state, title, url) => {
    const [here] = location.href.split("#");
    if (new URL(url, location).href !== here) push(state, title, url); // or we are there already
  };
  window.addEventListener("popstate", () => {
    const path = addressed();
    if (isLessonPath(path) && path !== app.shell.currentWidget?.context?.path)
      app.commands.execute("docmanager:open", { path });
  });
}

/** Show the table of contents, which is a panel of the lesson, with the focus on its button. */
export function showContents(panel) {
  const button = panel.node.querySelector(".hc-contents-button");
  letGo();
  scroller(panel).scrollTop = 0;
  button?.scrollIntoView();
  button?.focus();
  if (!panel.node.querySelector("nav.hc-contents")) button?.click();
}
