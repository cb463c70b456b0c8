// More rows in a form, in place. Without it the same button asks the server for them.
// <div data-rows> holds the rows, <template data-row> a new one with NEXT for its index and NUMBER for its number.
import { attachChoosers } from "./chooser.js";

document.addEventListener("click", (event) => {
  const more = event.target.closest("[data-more-rows]");
  if (!more) return;
  const rows = more.closest("form").querySelector("[data-rows]");
  const next = rows.children.length;
  const holder = document.createElement("div");
  holder.innerHTML = document
    .querySelector("template[data-row]")
    .innerHTML.replaceAll("NEXT", String(next))
    .replaceAll("NUMBER", String(next + 1));
  const row = holder.firstElementChild;
  rows.append(row);
  attachChoosers(row);
  row.querySelector("input:not([type=hidden])").focus();
  event.preventDefault();
});
