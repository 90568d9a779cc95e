// @ts-check
/**
 * The frame that the page on site and the site sheet share: tabs under the thumb, a panel, and the same spot after a
 * reload.
 */
import { el, find, tell } from "../lib/dom.js";

const START = { tab: "measure", what: "tape", checking: "pegs" };

/** What one was doing, kept at every key. @param {string} key */
export function remembered(key) {
  try {
    return { ...START, ...JSON.parse(localStorage.getItem(key) ?? "{}") };
  } catch {
    return { ...START };
  }
}

/**
 * @param {any} here what panels work on; gets `redraw`, `remember` and `say`
 * @param {string} key
 * @param {{key: string, face: () => string, draw: (here: any) => Node[]}[]} tabs
 */
export function screen(here, key, tabs) {
  const panel = find("#panel"),
    bar = find("#tabs");
  here.ui = remembered(key);
  here.say = (/** @type {string} */ words) => tell(words);
  here.remember = () => {
    try {
      localStorage.setItem(key, JSON.stringify(here.ui));
    } catch {
      /* the spot is lost, no reading is */
    }
  };
  here.redraw = () => {
    const had = spot(document.activeElement),
      open = new Set([...panel.querySelectorAll("details[open] > summary")].map((one) => one.textContent));
    const now = tabs.find((one) => one.key === here.ui.tab) ?? tabs[0];
    bar.replaceChildren(
      ...tabs.map((one) =>
        el("button", {
          type: "button",
          "aria-current": one === now ? "page" : null,
          text: one.face(),
          on: {
            click: () => {
              here.ui.tab = one.key;
              here.remember();
              here.redraw();
              panel.scrollTop = 0;
            },
          },
        }),
      ),
    );
    panel.replaceChildren(...now.draw(here));
    for (const one of panel.querySelectorAll("details"))
      if (open.has(one.querySelector("summary")?.textContent ?? "")) one.open = true;
    if (had)
      /** @type {any} */ (
        [
          ...document.querySelectorAll("#panel button, #panel input, #panel select, #panel textarea, #tabs button"),
        ].find((one) => spot(one) === had)
      )?.focus({ preventScroll: true });
  };
  return here;
}

/** What an element is, so that the same one is found after drawing anew. @param {Element|null} node */
const spot = (node) =>
  node && node !== document.body ? `${node.tagName} ${node.getAttribute("aria-label") ?? node.textContent}` : "";
