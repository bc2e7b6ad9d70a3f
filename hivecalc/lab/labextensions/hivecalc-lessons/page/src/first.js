// What a lesson's page does at once, long before JupyterLab has started: it asks for the kernel,
// whose start and imports then take no time of their own. And it notes the theme that comes, for the
// first picture of the next page, which is there before any theme.

const { baseUrl, token, treePath: path } = JSON.parse(
  document.getElementById("jupyter-config-data").textContent,
);

/** Done when the lesson has a kernel, or when it can't be had: JupyterLab then says why. */
export const session = fetch(`${baseUrl}api/sessions`, {
  method: "POST",
  headers: { Authorization: `token ${token}`, "Content-Type": "application/json" },
  body: JSON.stringify({
    path,
    name: path.split("/").pop(),
    type: "notebook",
    kernel: { name: "python3" },
  }),
}).catch(() => {});

new MutationObserver(() => {
  localStorage.hivecalcTheme = document.body.dataset.jpThemeLight === "false" ? "dark" : "light";
}).observe(document.body, { attributeFilter: ["data-jp-theme-light"] });
