// What the other modules know of JupyterLab.

let scope = {};

/** Keep the packages that JupyterLab shares with its extensions. */
export function share(given) {
  scope = given;
}

/** One of JupyterLab's own packages, such as "@lumino/widgets". */
export async function shared(name) {
  const [{ get }] = Object.values(scope[name]);
  return (await get())();
}

const LESSON = /^(workbook|exercises|solutions)\/.*\.ipynb$/;

/** Whether there is a notebook of the course at this path. */
export const isLessonPath = (path) => LESSON.test(path ?? "");

/** Whether a widget of JupyterLab shows a notebook of the course. */
export const isLesson = (panel) => isLessonPath(panel?.context?.path);

/** The path that the address names: "/doc/tree/workbook/00.ipynb" is "workbook/00.ipynb". */
export const addressed = () => decodeURIComponent(location.pathname.split("/tree/")[1] ?? "");

/** The part of a notebook that scrolls. */
export const scroller = (panel) => panel.content.outerNode ?? panel.content.node;

/** Fields and buttons keep the keys that mean something in them. */
export const takesKeys = (target) =>
  target.closest?.("input, select, textarea, summary, button, a, [role=slider], .cm-editor");

/** An element with these attributes and children. */
export function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/** Read or write a text file of the course folder. */
const TEXT = { type: "file", format: "text" };
export const readText = async ({ serviceManager }, path) =>
  (await serviceManager.contents.get(path, { ...TEXT, content: true })).content;
export const writeText = ({ serviceManager }, path, content) =>
  serviceManager.contents.save(path, { ...TEXT, content });
