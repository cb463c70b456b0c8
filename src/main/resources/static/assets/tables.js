// A table wider than a phone is told row by row, each figure with its heading: a stylesheet can lay a row out so, but
// cannot name what is in a cell. Without this, and where there is room, it is the table it is.
const phone = matchMedia("(max-width: 40rem)");
let width = innerWidth;

function tellTables(root) {
  const tables = [...root.querySelectorAll(".scroll > table")];
  tables.forEach((table) => table.classList.remove("told"));
  if (!phone.matches) return;
  for (const table of tables.filter(({ parentElement: place }) => place.scrollWidth > place.clientWidth)) {
    nameCells(table);
    table.classList.add("told");
  }
}

function nameCells(table) {
  const headings = columnsOf(table.tHead.rows[0]).map(seen);
  for (const row of table.rows) {
    if (row.parentElement === table.tHead) continue;
    columnsOf(row).forEach((cell, at) => {
      // What is marked as ± says so itself, and a name needs no heading.
      const says = cell.matches("th:not(.number), .name") || cell.textContent.trim().startsWith(headings[at]);
      if (!says) cell.dataset.heading ??= headings[at];
    });
  }
}

// A cell as often as it spans columns.
const columnsOf = (row) => [...row.cells].flatMap((cell) => Array(cell.colSpan).fill(cell));

function seen(heading) {
  const shown = heading.cloneNode(true);
  shown.querySelectorAll(".heard").forEach((heard) => heard.remove());
  return shown.textContent.replace(/\s+/g, " ").trim();
}

addEventListener("resize", () => {
  if (innerWidth !== width) tellTables(document);
  width = innerWidth;
});
document.addEventListener("htmx:afterSettle", () => tellTables(document));
// What is folded away has no width.
document.addEventListener("toggle", ({ target }) => target.open && tellTables(target), true);
tellTables(document);
