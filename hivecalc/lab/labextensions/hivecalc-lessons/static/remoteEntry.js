// What the lessons need of JupyterLab: a lesson runs when it opens, and can be shown on a projector.
// Written by hand, as small as a prebuilt extension can be: nothing is compiled or bundled.
"use strict";
(() => {
  const LESSON = /^(workbook|exercises|solutions)\//;
  const isLesson = (panel) => LESSON.test(panel?.context?.path ?? "");

  // ── a lesson runs when it opens ────────────────────────────────────────────────────────────
  const started = new WeakSet();

  async function run(app, panel) {
    if (!isLesson(panel) || started.has(panel)) return;
    started.add(panel);
    await panel.context.ready;
    await panel.sessionContext.ready;
    await panel.revealed;
    if (panel.isDisposed || app.shell.currentWidget !== panel) {
      started.delete(panel); // opened behind another: run when it comes to the front
      return;
    }
    await app.commands.execute("notebook:run-all-cells");
    panel.content.activeCellIndex = 0; // running leaves the last cell in view
    scroller(panel).scrollTop = 0;
  }

  const scroller = (panel) => panel.content.outerNode ?? panel.content.node;

  // ── projector: one idea a screen, large type, next and back by keyboard ─────────────────────
  const STYLE = `
    body.hivecalc-projector { --jp-content-font-size1: 24px;
      --jp-widgets-font-size: 22px; --jp-widgets-inline-height: 40px; --jp-code-font-size: 20px; }
    body.hivecalc-projector .hivecalc-other-screen, body.hivecalc-projector .jp-Notebook-footer,
    body.hivecalc-projector .jp-InputPrompt, body.hivecalc-projector .jp-OutputPrompt,
    body.hivecalc-projector .jp-CodeCell .jp-Cell-inputWrapper,
    body.hivecalc-projector .jp-cell-toolbar, body.hivecalc-projector .jp-Collapser
      { display: none !important; }
    body.hivecalc-projector .jp-Notebook .jp-Cell { border: 0; max-width: 60em; margin: 0 auto; }
    body.hivecalc-projector svg[role=img] { max-width: min(100%, 82vh) !important; }
    .hivecalc-where { position: fixed; right: 20px; bottom: 34px; z-index: 100; padding: 2px 10px;
      font: 16px sans-serif; color: #fff; background: #333; border-radius: 4px; }`;
  let shown = null; // { app, panel, screens, at, mode }

  // A screen is a text with the fields and pictures that follow it.
  function screens(panel) {
    const found = [];
    for (const cell of panel.content.widgets) {
      if (cell.model.type === "markdown" || !found.length) found.push([]);
      found[found.length - 1].push(cell);
    }
    return found;
  }

  function show(at) {
    shown.at = Math.max(0, Math.min(at, shown.screens.length - 1));
    shown.screens.forEach((cells, i) =>
      cells.forEach((c) => c.node.classList.toggle("hivecalc-other-screen", i !== shown.at)));
    shown.where.textContent = `${shown.at + 1} / ${shown.screens.length}`;
    scroller(shown.panel).scrollTop = 0;
  }

  function begin(app, panel) {
    const all = screens(panel);
    const active = panel.content.activeCell;
    const where = document.body.appendChild(document.createElement("div"));
    where.className = "hivecalc-where";
    where.setAttribute("role", "status");
    shown = { app, panel, screens: all, at: 0, mode: app.shell.mode, where };
    document.body.classList.add("hivecalc-projector");
    app.shell.mode = "single-document";
    app.shell.collapseLeft();
    app.shell.collapseRight();
    panel.toolbar.hide();
    document.activeElement?.blur();
    show(Math.max(0, all.findIndex((cells) => cells.includes(active))));
  }

  function end() {
    const { app, panel, screens: all, at, mode, where } = shown;
    all.flat().forEach((c) => c.node.classList.remove("hivecalc-other-screen"));
    document.body.classList.remove("hivecalc-projector");
    where.remove();
    shown = null;
    app.shell.mode = mode;
    if (panel.isDisposed) return;
    panel.toolbar.show();
    panel.content.activeCellIndex = panel.content.widgets.indexOf(all[at][0]);
  }

  const STEPS = { ArrowRight: 1, PageDown: 1, " ": 1, ArrowLeft: -1, PageUp: -1 };
  function pressed(event) {
    if (!shown) return;
    if (event.key === "Escape") end();
    else if (event.target.closest?.("input, select, textarea, summary, button, .cm-editor")) return;
    else if (STEPS[event.key]) show(shown.at + STEPS[event.key]);
    else if (event.key === "Home") show(0);
    else if (event.key === "End") show(shown.screens.length - 1);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  const buttoned = new WeakSet();
  async function addButton(app, panel) {
    if (!isLesson(panel) || buttoned.has(panel)) return;
    buttoned.add(panel);
    const { Widget } = await shared("@lumino/widgets");
    const item = new Widget({ node: document.createElement("button") });
    item.node.textContent = "Projector";
    item.node.title = "Large type, one idea a screen: arrow keys for next and back, Esc to leave";
    item.node.className = "hivecalc-projector-button";
    item.node.addEventListener("click", () => begin(app, panel));
    panel.toolbar.insertItem(0, "projector", item);
  }

  // ── as JupyterLab wants it ─────────────────────────────────────────────────────────────────
  let scope = {};
  async function shared(name) {
    const factory = await Object.values(scope[name])[0].get();
    return factory();
  }

  const plugin = {
    id: "hivecalc-lessons:plugin",
    autoStart: true,
    activate: (app) => {
      document.head.appendChild(document.createElement("style")).textContent = STYLE;
      document.addEventListener("keydown", pressed, true);
      const onFront = () => {
        const panel = app.shell.currentWidget;
        if (shown && shown.panel !== panel) end();
        addButton(app, panel);
        run(app, panel);
      };
      app.shell.currentChanged?.connect(onFront);
      app.restored.then(onFront);
    },
  };

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["hivecalc-lessons"] = {
    init: (given) => { scope = given; },
    get: () => Promise.resolve(() => ({ __esModule: true, default: plugin })),
  };
})();
