// Type-ahead over things of the ledger, after the combobox pattern of the ARIA Authoring Practices (list autocomplete with
// manual selection). Without it the field takes a code, a name or the beginning of one just as well.
// <input data-chooser="/parts/suggestions"> asks that address with ?text= and expects [{"code","name","aside"}].
// With data-several the field takes more than one, as in "BODY + 2 × STRAP", and completes the last of them.
const WAIT = 120;

export function attachChoosers(root) {
  root.querySelectorAll("input[data-chooser]:not([role])").forEach(attach);
}

function attach(input) {
  const list = document.createElement("ul");
  list.id = `${input.id}-choices`;
  list.className = "choices";
  list.setAttribute("role", "listbox");
  list.setAttribute("aria-label", "Matches");
  list.hidden = true;
  input.after(list);
  input.setAttribute("role", "combobox");
  input.setAttribute("aria-autocomplete", "list");
  input.setAttribute("aria-expanded", "false");
  input.setAttribute("aria-controls", list.id);

  let timer = 0;
  let asked = 0;
  let active = -1;

  const options = () => [...list.children];
  const before = () =>
    "several" in input.dataset ? input.value.match(/^(?:.*\+)?\s*(?:\d+\s*[x×]\s*)?/i)[0] : "";
  const typed = () => input.value.slice(before().length).trim();
  function close() {
    list.hidden = true;
    active = -1;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  }
  function point(index) {
    const all = options();
    if (!all.length) return;
    active = (index + all.length) % all.length;
    all.forEach((option, i) => option.setAttribute("aria-selected", String(i === active)));
    all[active].scrollIntoView({ block: "nearest" });
    input.setAttribute("aria-activedescendant", all[active].id);
  }
  function take(option) {
    input.value = before() + option.dataset.code;
    close();
    input.dispatchEvent(new Event("chosen", { bubbles: true }));
  }
  async function ask() {
    const text = typed();
    const turn = ++asked;
    if (!text) return close();
    const answer = await fetch(`${input.dataset.chooser}?text=${encodeURIComponent(text)}`, { headers: { Accept: "application/json" } });
    if (!answer.ok) return;
    const found = await answer.json();
    // Somebody typed on, or went on: what comes late offers nothing.
    if (turn !== asked || typed() !== text || document.activeElement !== input) return;
    const pointed = active < 0 ? "" : options()[active].dataset.code;
    list.replaceChildren(
      ...found.map((thing, i) => {
        const option = document.createElement("li");
        option.id = `${list.id}-${i}`;
        option.dataset.code = thing.code;
        option.setAttribute("role", "option");
        option.setAttribute("aria-selected", "false");
        const code = document.createElement("span");
        code.className = "code";
        code.textContent = thing.code;
        const name = document.createElement("span");
        name.textContent = ` ${thing.name}`;
        const aside = document.createElement("span");
        aside.className = "aside";
        aside.textContent = thing.aside ? ` ${thing.aside}` : "";
        option.append(code, name, aside);
        // Before the input loses its focus and closes the list.
        option.addEventListener("pointerdown", (event) => {
          event.preventDefault();
          take(option);
        });
        return option;
      }),
    );
    active = -1;
    show();
    const still = found.findIndex((thing) => thing.code === pointed);
    if (still >= 0) point(still);
  }
  function show() {
    list.hidden = !list.children.length;
    input.setAttribute("aria-expanded", String(!list.hidden));
  }
  // What stands there is of what was typed before: until the answer comes, nothing else than what still fits can be taken.
  function narrow() {
    const text = typed().toLowerCase();
    options().forEach((option) => text && option.textContent.toLowerCase().includes(text) || option.remove());
    active = -1;
    input.removeAttribute("aria-activedescendant");
    show();
  }

  input.addEventListener("input", () => {
    narrow();
    clearTimeout(timer);
    timer = setTimeout(ask, WAIT);
  });
  input.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      if (list.hidden) ask();
      else if (event.key === "ArrowDown") point(active + 1);
      else point(active < 0 ? -1 : active - 1);
    } else if ((event.key === "Enter" || event.key === "Tab") && !list.hidden && active >= 0) {
      if (event.key === "Enter") event.preventDefault();
      take(options()[active]);
    } else if (event.key === "Escape" && !list.hidden) {
      event.preventDefault();
      close();
    }
  });
  input.addEventListener("blur", () => {
    asked++;
    close();
  });
  // Somebody may have typed before this script was there.
  if (document.activeElement === input && input.value !== input.defaultValue) ask();
}
