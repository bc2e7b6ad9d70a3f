// What JupyterLab loads: a container that hands over our plugin. The plugin itself is plain ES
// modules in src/, which the browser loads as they are, so nothing is compiled or bundled. The folder
// is not called "static": JupyterLab lets a browser keep what lies in such a one for a year.
"use strict";
(() => {
  const { src } = document.currentScript;
  const load = (name) => import(new URL(`src/${name}.js`, src));
  let scope = {};
  window._JUPYTERLAB ??= {};
  window._JUPYTERLAB["hivecalc-lessons"] = {
    // It may not wait here: JupyterLab begins with the page's event "load", which would be over.
    init: (given) => { scope = given; },
    get: async () => {
      const [{ share }, { plugin }] = await Promise.all([load("lab"), load("plugin")]);
      share(scope);
      return () => ({ __esModule: true, default: plugin });
    },
  };
})();
