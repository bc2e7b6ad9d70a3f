// Which notebooks are the course's own: those whose cells have a digest in the folder's manifest.

import { readText } from "./lab.js";

const MANIFEST = ".hivecalc-course.json";

/** Whether the course gave these very cells. */
export async function isGiven(app, panel) {
  const { files } = JSON.parse(await readText(app, MANIFEST));
  const work = await digest([...panel.content.model.cells].map((c) => [c.type, c.sharedModel.source]));
  return Object.values(files).some((given) => given.work === work);
}

/** SHA-256 of the cells, each a type and a source, as course_folder writes it down. */
export async function digest(cells) {
  const listed = cells.map(([type, source]) => `[${JSON.stringify(type)}, ${JSON.stringify(source)}]`);
  const escaped = (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`;
  const text = `[${listed.join(", ")}]`.replace(/[\u007f-\uffff]/g, escaped);
  const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(bytes)].map((b) => b.toString(16).padStart(2, "0")).join("");
}
