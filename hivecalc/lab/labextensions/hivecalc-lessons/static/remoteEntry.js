// A lesson is alive when it opens: JupyterLab runs its cells as soon as its kernel is there.
// Written by hand, as small as a prebuilt extension can be: nothing is compiled or bundled.
"use strict";
(() => {
  const LESSON = /^(workbook|exercises|solutions)\//;
  const started = new WeakSet();

  async function run(app, panel) {
    if (!panel?.context || !LESSON.test(panel.context.path) || started.has(panel)) return;
    started.add(panel);
    await panel.context.ready;
    await panel.sessionContext.ready;
    await panel.revealed;
    if (!panel.isDisposed && app.shell.currentWidget === panel) {
      await app.commands.execute("notebook:run-all-cells");
      panel.content.activeCellIndex = 0; // running leaves the last cell in view
      (panel.content.outerNode ?? panel.content.node).scrollTop = 0;
    } else {
      started.delete(panel); // opened behind another: run when it comes to the front
    }
  }

  const plugin = {
    id: "hivecalc-lessons:run-on-opening",
    autoStart: true,
    activate: (app) => {
      const onFront = () => run(app, app.shell.currentWidget);
      app.shell.currentChanged?.connect(onFront);
      app.restored.then(onFront);
    },
  };

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["hivecalc-lessons"] = {
    init: () => {},
    get: () => Promise.resolve(() => ({ __esModule: true, default: plugin })),
  };
})();
