// Everything works without this; with it the page answers in place and the keyboard reaches further.
import { attachChoosers } from "./chooser.js";
import "./tables.js";

function settle(root) {
  attachChoosers(root);
  const target = root.querySelector("[data-focus=first]") ?? root.querySelector("[data-focus]") ?? (root.matches?.("[data-focus]") ? root : null);
  target?.focus();
}

settle(document);
document.addEventListener("htmx:afterSettle", (event) => settle(event.target.isConnected ? event.target : document));

document.addEventListener("htmx:responseError", () => say("The server could not do that. Nothing was written; what you typed is still here."));
document.addEventListener("htmx:sendError", () => say("The server does not answer. Nothing was written; what you typed is still here."));

function say(words) {
  let place = document.getElementById("said");
  if (!place) {
    place = document.createElement("p");
    place.id = "said";
    place.className = "errors";
    place.setAttribute("role", "alert");
    document.getElementById("main").prepend(place);
  }
  place.textContent = words;
}

// "/" goes to the page's search, "n" to a new weighing; neither while somebody types.
document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.target.closest("input, textarea, select, [contenteditable]")) return;
  if (event.key === "/") {
    const search = document.querySelector("[data-search]");
    if (search) {
      event.preventDefault();
      search.focus();
      search.select();
    }
  } else if (event.key === "n") {
    event.preventDefault();
    const reading = document.querySelector("[data-new-weighing]");
    if (reading) reading.focus();
    else location.assign("/");
  }
});

// The unit beside the reading is that of the scale chosen.
document.addEventListener("change", (event) => {
  if (!event.target.matches("[data-scale]")) return;
  const unit = document.querySelector("[data-unit]:not(option)");
  if (unit) unit.textContent = event.target.selectedOptions[0].dataset.unit;
});

// A button that copies the sentence it belongs to.
document.addEventListener("click", async (event) => {
  const button = event.target.closest("[data-copy]");
  if (!button) return;
  const source = document.getElementById(button.dataset.copy);
  await navigator.clipboard.writeText(source.textContent.replace(/\s+/g, " ").trim());
  button.textContent = "Copied";
});
