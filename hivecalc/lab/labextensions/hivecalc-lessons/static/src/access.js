// A slider's handle says what it slides: ipywidgets leaves it without a name.

/** Name handles now and whenever new ones come. */
export function nameHandles() {
  new MutationObserver(() => {
    for (const handle of document.querySelectorAll(".widget-slider .noUi-handle:not([aria-label])"))
      handle.setAttribute("aria-label", handle.closest(".widget-slider").querySelector("label").textContent);
  }).observe(document.body, { childList: true, subtree: true });
}
