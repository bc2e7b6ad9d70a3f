// What the lessons need of JupyterLab: a lesson opens and runs at once, leads to the others, keeps
// where one stopped, and can be shown on a projector.
// Written by hand, as small as a prebuilt extension can be: nothing is compiled or bundled.
"use strict";
(() => {
  const LESSON = /^(workbook|exercises|solutions)\/.*\.ipynb$/;
  const isLesson = (panel) => LESSON.test(panel?.context?.path ?? "");
  const scroller = (panel) => panel.content.outerNode ?? panel.content.node;

  // ── a lesson opens at once ─────────────────────────────────────────────────────────────────
  // JupyterLab waits a second before it opens what its address names, and starts the kernel then.
  async function open(app) {
    const path = decodeURIComponent(location.pathname.split("/tree/")[1] ?? "");
    if (!LESSON.test(path)) return;
    await app.serviceManager.contents.get(path, { content: false });
    const ready = [startKernel(app, path), setPlace(app, path, location.hash), app.restored];
    await Promise.allSettled(ready);
    await app.commands.execute("docmanager:open", { path });
  }

  async function startKernel({ serviceManager }, path) {
    const { SessionAPI } = await shared("@jupyterlab/services");
    const [name, kernel] = [path.split("/").pop(), { name: "python3" }];
    const session = { path, name, type: "notebook", kernel };
    await SessionAPI.startSession(session, serviceManager.serverSettings);
  }

  // ── a lesson runs when it opens, if its cells are those that the course gave ────────────────
  // The folder's manifest has the digests. Any other notebook, a sent one too, waits for a press.
  const MANIFEST = ".hivecalc-course.json";
  const started = new WeakSet();

  async function run(app, panel) {
    if (!isLesson(panel) || started.has(panel)) return;
    started.add(panel);
    await panel.context.ready;
    if (!(await isGiven(app, panel).catch(() => false))) return offerToRun(app, panel);
    await panel.sessionContext.ready;
    await panel.revealed;
    if (panel.isDisposed || app.shell.currentWidget !== panel) {
      started.delete(panel); // opened behind another: run when it comes to the front
      return;
    }
    await runAll(app, panel);
  }

  async function runAll(app, panel) {
    await app.commands.execute("notebook:run-all-cells");
    panel.content.activeCellIndex = 0; // running leaves the last cell in view
    scroller(panel).scrollTop = 0;
    goTo(panel, wanted.get(panel.context.path));
    wanted.delete(panel.context.path);
  }

  async function isGiven({ serviceManager: { contents } }, panel) {
    const whole = { type: "file", format: "text", content: true };
    const { files } = JSON.parse((await contents.get(MANIFEST, whole)).content);
    const work = await digest([...panel.content.model.cells].map((c) => [c.type, c.sharedModel.source]));
    return Object.values(files).some((given) => given.work === work);
  }

  // SHA-256 of the cells, each a type and a source, as course_folder/given.py has it.
  async function digest(cells) {
    const listed = cells.map(([type, source]) => `[${JSON.stringify(type)}, ${JSON.stringify(source)}]`);
    const escaped = (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`;
    const text = `[${listed.join(", ")}]`.replace(/[\u007f-\uffff]/g, escaped);
    const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
    return [...new Uint8Array(bytes)].map((b) => b.toString(16).padStart(2, "0")).join("");
  }

  async function offerToRun(app, panel) {
    const { Widget } = await shared("@lumino/widgets");
    const bar = new Widget({ node: document.createElement("div") });
    bar.node.className = "hivecalc-not-given";
    bar.node.setAttribute("role", "status");
    bar.node.append("This notebook is changed or not from the course, so nothing in it has run. ");
    const button = bar.node.appendChild(document.createElement("button"));
    button.textContent = "Run it";
    button.addEventListener("click", async () => {
      bar.dispose();
      await panel.sessionContext.ready;
      await runAll(app, panel);
    });
    panel.contentHeader.addWidget(bar);
  }

  // ── from lesson to lesson ──────────────────────────────────────────────────────────────────
  const wanted = new Map(); // by the path of a lesson that opens, "#cell-id=…": where to go in it

  async function followed(app, event) {
    const link = event.target.closest?.("a[data-page]");
    if (!link || event.button || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const path = link.dataset.page;
    if (link.dataset.place) await setPlace(app, path).catch(() => {}); // then to its top
    app.commands.execute("rendermime:handle-local-link", { path, id: wanted.get(path) ?? "" });
  }

  // Pictures above the cell grow for a while, so it is held in view until the reader moves.
  let held = null;
  function goTo(panel, hash) {
    const cell = panel.content.widgets.find(({ model }) => `#cell-id=${model.id}` === hash);
    if (!cell) return;
    panel.content.activeCellIndex = panel.content.widgets.indexOf(cell);
    letGo();
    held = new ResizeObserver(() => cell.node.scrollIntoView());
    panel.content.widgets.forEach(({ node }) => held.observe(node));
  }

  function letGo() {
    held?.disconnect();
    held = null;
  }

  function showContents(panel) {
    const button = panel.node.querySelector(".hc-contents-button");
    letGo();
    scroller(panel).scrollTop = 0;
    button?.scrollIntoView();
    button?.focus();
    if (!panel.node.querySelector("nav.hc-contents")) button?.click();
  }

  // ── where one stopped: the cell at the top of the window ───────────────────────────────────
  // A small file for each lesson names it, for the next time, and the address, for a reload.
  const PLACES = ".hivecalc/places";

  async function setPlace({ serviceManager: { contents } }, path, hash = "") {
    wanted.set(path, hash);
    const [folder, name] = path.split("/");
    const notes = hash ? [] : (await contents.get(`${PLACES}/${folder}`)).content;
    if (!notes.some((note) => note.name === `${name}.json`)) return;
    const whole = { type: "file", format: "text", content: true };
    const note = await contents.get(`${PLACES}/${path}.json`, whole);
    wanted.set(path, `#cell-id=${JSON.parse(note.content).cell}`);
  }

  let noting = 0;
  let writable = true;
  function touched(app, { target }) {
    const panel = shown?.panel ?? app.shell.currentWidget;
    if (!isLesson(panel) || !(shown || panel.node.contains(target))) return;
    letGo();
    clearTimeout(noting);
    noting = setTimeout(() => note(app, panel), 1000);
  }

  function note({ serviceManager }, panel) {
    if (panel.isDisposed || !panel.isVisible) return;
    const top = scroller(panel).getBoundingClientRect().top + 24;
    const cell = panel.content.widgets.find(({ node }) => node.getBoundingClientRect().bottom > top);
    const id = cell?.model.id ?? "";
    const path = panel.context.path;
    const content = JSON.stringify({ cell: id });
    if (writable)
      serviceManager.contents
        .save(`${PLACES}/${path}.json`, { type: "file", format: "text", content })
        .catch(({ response }) => { writable = !response; }); // refused once, it is not tried again
    const [lab] = location.pathname.split("/tree/");
    const quoted = path.split("/").map(encodeURIComponent).join("/");
    history.replaceState(history.state, "", `${lab}/tree/${quoted}#cell-id=${id}`);
  }

  // ── projector: one idea a screen, large type, next and back by keyboard ─────────────────────
  const STYLE = `
    body.hivecalc-projector { --jp-content-font-size1: 24px;
      --jp-widgets-font-size: 22px; --jp-widgets-inline-height: 40px; --jp-code-font-size: 20px; }
    body.hivecalc-projector .hivecalc-other-screen, body.hivecalc-projector .jp-Notebook-footer,
    body.hivecalc-projector .jp-InputPrompt, body.hivecalc-projector .jp-OutputPrompt,
    body.hivecalc-projector .jp-OutputArea-promptOverlay,
    body.hivecalc-projector .jp-CodeCell .jp-Cell-inputWrapper,
    body.hivecalc-projector .jp-cell-toolbar, body.hivecalc-projector .jp-Collapser
      { display: none !important; }
    body.hivecalc-projector .jp-Notebook .jp-Cell { border: 0; max-width: 60em; margin: 0 auto; }
    body.hivecalc-projector .jupyter-widgets :is(.widget-label, select, input),
    body.hivecalc-projector .widget-button { font-size: 22px !important; }
    body.hivecalc-projector svg[role=img] { max-width: min(100%, 82vh) !important; }
    .hivecalc-where { position: fixed; right: 20px; bottom: 34px; z-index: 100; padding: 2px 10px;
      font: 16px sans-serif; color: #fff; background: #333; border-radius: 4px; }
    .hivecalc-button { margin-right: 4px; }
    .hivecalc-not-given { min-height: 32px; padding: 4px 12px; color: #000; background: #fff3c4; }
    .hc-contents-button { scroll-margin-top: 12px; }`;
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
    document.activeElement?.blur(); // or a field on the screen before would go on taking the keys
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

  const PAGES = { PageDown: 1, PageUp: -1 };
  const STEPS = { ArrowRight: 1, " ": 1, ArrowLeft: -1 };
  const SCROLLS = { ArrowDown: 200, ArrowUp: -200 }; // pixels, where a screen is taller than the wall
  function pressed(event) {
    if (!shown) return;
    if (event.key === "Escape") end();
    else if (PAGES[event.key]) show(shown.at + PAGES[event.key]);
    else if (event.target.closest?.("input, select, textarea, summary, button, .cm-editor")) return;
    else if (STEPS[event.key]) show(shown.at + STEPS[event.key]);
    else if (SCROLLS[event.key]) scroller(shown.panel).scrollBy(0, SCROLLS[event.key]);
    else if (event.key === "Home") show(0);
    else if (event.key === "End") show(shown.screens.length - 1);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  // ── the buttons at the left of a lesson's toolbar ──────────────────────────────────────────
  const buttoned = new WeakSet();
  async function addButtons(app, panel) {
    if (!isLesson(panel) || buttoned.has(panel)) return;
    buttoned.add(panel);
    const { Widget } = await shared("@lumino/widgets");
    const add = (at, text, title, pressed) => {
      const item = new Widget({ node: document.createElement("button") });
      item.node.textContent = text;
      item.node.title = title;
      item.node.className = "hivecalc-button";
      item.node.addEventListener("click", pressed);
      panel.toolbar.insertItem(at, text.toLowerCase(), item);
    };
    add(0, "Contents", "All lessons, and how far you are in each", () => showContents(panel));
    add(1, "Projector", "Large type, one idea a screen: arrow keys for next and back, Esc to leave",
      () => begin(app, panel));
  }

  // ── a slider's handle says what it slides: ipywidgets leaves it without a name ──────────────
  function nameHandles() {
    for (const handle of document.querySelectorAll(".widget-slider .noUi-handle:not([aria-label])"))
      handle.setAttribute("aria-label", handle.closest(".widget-slider").querySelector("label").textContent);
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
      new MutationObserver(nameHandles).observe(document.body, { childList: true, subtree: true });
      document.addEventListener("keydown", pressed, true);
      document.addEventListener("click", (event) => followed(app, event));
      for (const kind of ["wheel", "keyup", "pointerdown", "pointerup", "touchend"])
        document.addEventListener(kind, (event) => touched(app, event), { capture: true, passive: true });
      const onFront = () => {
        const panel = app.shell.currentWidget;
        if (shown && shown.panel !== panel) end();
        addButtons(app, panel);
        run(app, panel);
      };
      app.shell.currentChanged?.connect(onFront);
      app.restored.then(onFront);
      open(app).catch(() => {}); // JupyterLab itself says what is wrong with its address
    },
  };

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["hivecalc-lessons"] = {
    init: (given) => { scope = given; },
    get: () => Promise.resolve(() => ({ __esModule: true, default: plugin, digest })),
  };
})();
