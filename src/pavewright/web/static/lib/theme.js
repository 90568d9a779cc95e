// @ts-check
/**
 * How the screen looks: as the device has it, light, dark, or strong for sunlight. What was picked is kept on the
 * device; `data-theme` on the root says what holds, and style.css has the colours of each.
 *
 * A page loads this file before it is painted, so that it does not flash, and gives the switch a place: an empty
 * `<span data-look></span>` in its bar.
 */

const KEPT = "pavewright.theme";
/** What can be picked, in words. @type {Record<string, string>} */
const LOOKS = { device: "As the device", light: "Light", dark: "Dark", sun: "Sunlight" };
const DARK = matchMedia("(prefers-color-scheme: dark)"),
  MORE = matchMedia("(prefers-contrast: more)");

/** What was picked; `device` where nothing was. */
function picked() {
  try {
    const kept = localStorage.getItem(KEPT) ?? "";
    return Object.hasOwn(LOOKS, kept) ? kept : "device";
  } catch {
    return "device";
  }
}

/** Let the page look as it was picked. */
export function look() {
  const root = document.documentElement,
    now = picked();
  const strong = now === "device" && MORE.matches && !DARK.matches;
  root.dataset.theme = now !== "device" ? now : strong ? "sun" : DARK.matches ? "dark" : "light";
  root.dataset.contrast = root.dataset.theme === "sun" || MORE.matches ? "more" : "usual";
}

/** @param {string} to */
function pick(to) {
  try {
    localStorage.setItem(KEPT, to);
  } catch {
    /* it holds for this page only */
    document.documentElement.dataset.theme = to;
    return;
  }
  look();
}

/** The switch: a button that opens the list of looks. @param {HTMLElement} place */
function fill(place) {
  const menu = document.createElement("details"),
    list = document.createElement("div"),
    head = document.createElement("summary");
  menu.className = "look-menu";
  head.className = "button";
  head.setAttribute("aria-label", "How the screen looks");
  head.title = "How the screen looks";
  head.textContent = "◐";
  list.className = "menu-list";
  list.setAttribute("role", "group");
  list.setAttribute("aria-label", "How the screen looks");
  const tell = () => {
    for (const one of list.querySelectorAll("button"))
      one.setAttribute("aria-pressed", String(one.dataset.to === picked()));
  };
  for (const [to, words] of Object.entries(LOOKS)) {
    const one = document.createElement("button");
    one.type = "button";
    one.dataset.to = to;
    one.textContent = words;
    one.addEventListener("click", () => {
      pick(to);
      tell();
      menu.open = false;
      head.focus();
    });
    list.append(one);
  }
  tell();
  menu.append(head, list);
  place.replaceChildren(menu);
}

// a menu that is open closes with Escape and with a touch beside it
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  for (const menu of document.querySelectorAll(".look-menu[open], .tool-menu[open], .layers[open]")) {
    /** @type {any} */ (menu).open = false;
    /** @type {any} */ (menu.querySelector("summary"))?.focus();
  }
});
document.addEventListener("pointerdown", (event) => {
  for (const menu of document.querySelectorAll(".look-menu[open], .tool-menu[open], .layers[open]"))
    if (!menu.contains(/** @type {Node} */ (event.target))) /** @type {any} */ (menu).open = false;
});

look();
DARK.addEventListener("change", look);
MORE.addEventListener("change", look);
addEventListener("storage", (event) => event.key === KEPT && look());
for (const place of document.querySelectorAll("[data-look]")) fill(/** @type {HTMLElement} */ (place));
