/* What the page does beside following the sliders: it says when the program does not answer, takes
   that back when it does, and shows that something long is under way. */
"use strict";
(() => {
  const notice = () => document.getElementById("notice");
  const say = (text) => {
    const place = notice();
    if (!place) return;
    const box = document.createElement("div");
    box.className = "faults";
    const line = document.createElement("p");
    line.textContent = text;
    box.append(line);
    place.replaceChildren(box);
  };
  const silent = "The program does not answer. Is it still running on this machine? What stands here is as it was.";
  document.addEventListener("htmx:sendError", () => say(silent));
  document.addEventListener("htmx:timeout", () => say(silent));
  document.addEventListener("htmx:afterRequest", (event) => {
    if (event.detail.successful) notice()?.replaceChildren();
  });
  document.addEventListener("submit", (event) => {
    const button = event.submitter;
    const form = event.target;
    const opens = button?.formTarget === "_blank" || button?.name === "keep" || (button?.getAttribute("formaction") || form.getAttribute("action")).startsWith("/papers/") || form.getAttribute("action") === "/boat-file";
    if (event.defaultPrevented || opens) return;
    document.documentElement.classList.add("working-on-it");
  });
  window.addEventListener("pageshow", () => document.documentElement.classList.remove("working-on-it"));
})();
