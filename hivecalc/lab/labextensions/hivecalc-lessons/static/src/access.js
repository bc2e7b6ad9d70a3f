// What reads well for everybody: a slider's handle has a name, a picture's letters never get small.

const LEAST_LETTER = 12; // px

/** Mend what is there, and whatever comes. */
export function mendForReaders() {
  new MutationObserver(() => {
    document.querySelectorAll(".widget-slider .noUi-handle:not([aria-label])").forEach(nameHandle);
    document.querySelectorAll("figure > svg[viewBox]:not([data-least])").forEach(keepLegible);
  }).observe(document.body, { childList: true, subtree: true });
}

// ipywidgets leaves it without a name.
function nameHandle(handle) {
  const name = handle.closest(".widget-slider").querySelector("label").textContent;
  handle.setAttribute("aria-label", name);
}

// A picture that is scaled to the window's height, or the wall's, stops where its letters would get
// too small.
function keepLegible(svg) {
  const letter = Number(svg.getAttribute("font-size"));
  const least = letter ? (svg.viewBox.baseVal.height * LEAST_LETTER) / letter : 0;
  svg.dataset.least = least;
  svg.style.minHeight = `${least}px`;
  svg.style.setProperty("--hivecalc-least", `${least}px`);
}
