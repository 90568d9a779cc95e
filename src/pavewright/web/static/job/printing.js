// @ts-check
/** The page printed as it is: the whole plan on one sheet, wherever the hand had moved it. */

const PX_PER_MM = 96 / 25.4;
/** What the plan has of an A4 sheet on its side; work.css gives its holder the same. [mm] */
const SHEET = { wide: 277, high: 158 };

/** @param {import("./plan/edit.js").PlanEditor} editor */
export function printsWhole(editor) {
  const { view } = editor;
  /** @type {{x: number, y: number, scale: number}|null} */ let had = null;
  window.addEventListener("beforeprint", () => {
    if (document.body.classList.contains("prints-plan") || !editor.state.doc) return;
    had = { x: view.x, y: view.y, scale: view.scale };
    view.measured = { width: SHEET.wide * PX_PER_MM, height: SHEET.high * PX_PER_MM };
    editor.fit();
    view.tidy();
  });
  window.addEventListener("afterprint", () => {
    if (!had) return;
    Object.assign(view, had, { measured: null });
    had = null;
    view.place();
  });
}
