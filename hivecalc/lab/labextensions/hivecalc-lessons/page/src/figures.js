// A whole number and its fraction, a number and its unit, a sign or dots and their word never part
// at a line's end.

const PARTS = /(?<=\d) (?=\d+\/\d)|(?<=\d) (?=(?:in|ft|mm|cm|m|kg|lb|W|K|°[CF]|%)(?![\w/]))|(?<=[≈±]) (?=\d)|(?<=[✓✗]) (?=\w)|(?<=\S) (?=…)|(?<=\?) (?=(?:long|wide|thick)\b)/g;
const PLACES = ".jp-RenderedMarkdown, .jp-RenderedHTML, .widget-html";

/** Join figures in the texts and panels of lessons, now and whenever new ones come. */
export function joinFigures() {
  new MutationObserver((changes) => {
    for (const { target, addedNodes } of changes)
      if (addedNodes.length && target.closest?.(PLACES)) join(target);
      else
        for (const node of addedNodes)
          if (node.matches?.(PLACES)) join(node);
          else node.querySelectorAll?.(PLACES).forEach(join);
  }).observe(document.body, { childList: true, subtree: true });
}

function join(node) {
  const texts = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const text = texts.currentNode;
    if (!text.parentElement.closest("svg, style") && PARTS.test(text.data))
      text.data = text.data.replace(PARTS, "\u00a0");
    PARTS.lastIndex = 0;
  }
}
