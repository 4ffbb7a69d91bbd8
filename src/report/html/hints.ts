// The only script of the page: it shows the hint of a mark in a figure at once, also on touch. Without it the browser shows
// its own hints when a pointer rests on a mark.

/** The page allows no other script: this hash identifies it, and tests/report/report.test.ts computes it again. */
export const hintsHash = "sha256-cwnLcWSWl9HvlBjWu1CLnUbq5831VmUK8grv6tRTjuY=";

export const hints = `(() => {
  const box = document.createElement("div");
  box.className = "hint";
  box.hidden = true;
  box.setAttribute("aria-hidden", "true");
  document.body.append(box);
  for (const title of document.querySelectorAll("figure svg * > title")) {
    if (title.parentElement.tagName === "svg") continue;
    title.parentElement.dataset.says = title.textContent;
    title.remove();
  }
  const show = (event) => {
    const mark = event.target instanceof Element ? event.target.closest("[data-says]") : null;
    box.hidden = mark === null;
    if (mark === null) return;
    box.textContent = mark.dataset.says;
    const { width, height } = box.getBoundingClientRect();
    box.style.left = Math.max(4, Math.min(event.clientX + 12, innerWidth - width - 4)) + "px";
    box.style.top = Math.max(4, event.clientY - height - 12) + "px";
  };
  document.addEventListener("pointermove", show);
  document.addEventListener("pointerdown", show);
})();`;
