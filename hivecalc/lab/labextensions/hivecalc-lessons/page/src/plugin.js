// The plugin: what happens when a page of JupyterLab starts, and when a lesson comes to the front.

import { mendForReaders } from "./access.js";
import { addBar } from "./bar.js";
import { followHistory, followLinks } from "./contents.js";
import { joinFigures } from "./figures.js";
import { open } from "./open.js";
import { notePlaces } from "./places.js";
import { leaveProjector, onTheWall, watchKeys } from "./projector.js";
import { beQuiet, dropFirstPicture, guardCells } from "./quiet.js";
import { run } from "./run.js";

export const plugin = {
  id: "hivecalc-lessons:plugin",
  autoStart: true,
  activate: (app) => {
    const style = new URL("lessons.css", import.meta.url);
    document.head.insertAdjacentHTML("beforeend", `<link rel="stylesheet" href="${style}">`);
    mendForReaders();
    joinFigures();
    watchKeys();
    guardCells();
    followLinks(app);
    followHistory(app);
    notePlaces(app, () => onTheWall() ?? app.shell.currentWidget);
    const onFront = () => {
      const panel = app.shell.currentWidget;
      leaveProjector(panel);
      beQuiet(app);
      addBar(app, panel);
      run(app, panel);
    };
    app.shell.currentChanged?.connect(onFront);
    app.shell.modeChanged?.connect(onFront);
    app.shell.layoutModified?.connect(() => beQuiet(app));
    app.restored.then(onFront);
    open(app).catch(dropFirstPicture);
  },
};
