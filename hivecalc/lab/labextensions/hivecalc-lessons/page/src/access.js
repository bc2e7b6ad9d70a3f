// What reads well for everybody: a slider's handle has a name, a picture's letters never get small.

/** Mend what is there, and whatever comes. */
export function mendForReaders() {
  new MutationObserver(() => {
    document.querySelectorAll(".widget-slider .noUi-handle:not([aria-label])").forEach(nameHandle);
    document.querySelectorAll("figure > svg[viewBox]:not([data-letters])").forEach(keepLegible);
  }).observe(document.body, { childList: true, subtree: true });
}

// ipywidgets leaves it without a name.
function nameHandle(handle) {
  const name = handle.closest(".widget-slider").querySelector("label").textContent;
  handle.setAttribute("aria-label", name);
}

// How many of its letters high a picture is: by that lessons.css keeps them legible.
function keepLegible(svg) {
  const letter = Number(svg.getAttribute("font-size")); // a chart has its own
  svg.dataset.letters = letter ? svg.viewBox.baseVal.height / letter : 0;
  svg.style.setProperty("--hivecalc-letters", svg.dataset.letters);
}
