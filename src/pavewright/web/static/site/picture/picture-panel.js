// @ts-check
/** Measuring by a photo: known places are marked on it, and the places of other things on the same plane follow. */
import { ask, el } from "../../lib/dom.js";
import { keepChange, touches } from "../changes.js";
import { undoLine, words } from "../parts.js";
import { shrunk } from "../photos.js";
import { today } from "../this-phone.js";
import { answerLines, keptPhoto } from "./answer-lines.js";
import { addSpot, answerOf, draftOf, kept, planeOf, setDraft } from "./draft.js";
import { spotLines } from "./spot-lines.js";
import { activeSpot, stage } from "./stage.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {import("./draft.js").Draft} Draft */

/** @param {Here & {photos?: any[]}} here @returns {Node[]} */
export function picturePanel(here) {
  if (!here.view?.parts?.picture)
    return [
      el("p", { class: "quiet", text: "What a photo is trusted to comes with the job: open it once with signal." }),
    ];
  const made = draftOf(here);
  return made ? working(here, made) : beginning(here);
}

// ---- no photo yet

/** @param {Here & {photos?: any[]}} here @returns {Node[]} */
function beginning(here) {
  const input = el("input", { id: "measure-photo", type: "file", accept: "image/*", class: "unseen" });
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (file) await begin(here, file, "");
  });
  const waiting = here.queue.list.filter((one) => one.kind === "photo" && one.image);
  const before = [
    ...waiting.map((one) => ({ id: one.id, image: /** @type {Blob} */ (one.image), note: one.note })),
    ...(here.photos ?? []),
  ];
  return [
    el("p", { class: "ask", text: "Measure what was forgotten" }),
    el("p", {
      text:
        "A photo that shows four known places on one plane, ground or wall, gives the place of anything else on it. " +
        "A fifth known place checks the others.",
    }),
    el("label", { class: "button main pad-keep", for: "measure-photo", text: "Take or choose a photo" }),
    input,
    ...(before.length
      ? [
          el(
            "details",
            { class: "group" },
            el("summary", { text: `Photos of this job (${before.length})` }),
            el("ul", { class: "plain-list" }, ...before.map((one) => el("li", {}, again(here, one)))),
          ),
        ]
      : []),
    ...(here.doc.photo_planes ?? []).map((one) => keptPhoto(here, one)),
    undoLine(
      here,
      (one) => touches(one, "photo_planes") || touches(one, "measurements"),
      () => "Last change of the job",
    ),
  ];
}

/** A photo that the job has already. @param {Here} here @param {any} one */
const again = (here, one) =>
  el("button", {
    type: "button",
    class: "tall",
    text: one.note || "Photo without a note",
    on: {
      click: async () => {
        try {
          const image = one.image ?? (await (await fetch(`/api/jobs/${here.job}/photos/${one.id}`)).blob());
          await begin(here, image, one.id);
        } catch {
          here.say("That photo is not on this phone, and the server does not answer.");
        }
      },
    },
  });

/** @param {Here} here @param {Blob} file @param {string} photo key of a photo that the job has */
async function begin(here, file, photo) {
  try {
    const image = photo ? file : await shrunk(file),
      size = await createImageBitmap(image),
      had = new Set((here.doc.photo_planes ?? []).map((one) => one.name));
    let number = had.size + 1;
    while (had.has(`Photo ${number}`)) number += 1;
    setDraft(here, {
      ...{ name: `Photo ${number}`, image, size_px: [size.width, size.height], photo, kind: "floor" },
      ...{ wall: "", level_from: "", spots: [], active: 0 },
    });
    size.close();
    here.redraw();
  } catch {
    here.say("This phone cannot read that file as a photo. Take it again.");
  }
}

// ---- with a photo

/** @param {Here} here @param {Draft} made @returns {Node[]} */
function working(here, made) {
  const results = el("div", { class: "photo-answer", role: "status" });
  /** @type {Set<string>} */ const weak = new Set();
  const at = stage(made, {
    moved: () => {
      show();
      kept(here);
    },
    weak: (name) => weak.has(name),
  });
  const show = () => {
    const now = answerOf(here, made);
    if (!now) return;
    results.replaceChildren(...answerLines(here, made, now));
    weak.clear();
    for (const one of [...now.places.filter((place) => !place.at_mm), { name: now.suspect }]) weak.add(one.name);
    at.show();
  };
  const changed = () => {
    kept(here);
    here.redraw();
  };
  show();
  const marks = made.spots.filter((one) => one.kind === "mark").length;
  const add = (/** @type {"mark"|"thing"} */ kind, /** @type {string} */ face) =>
    el("button", {
      type: "button",
      class: kind === "mark" && marks < 4 ? "main" : "",
      text: face,
      on: {
        click: () => {
          addSpot(made, kind, fresh(made));
          changed();
        },
      },
    });
  return [
    made.spots.length
      ? el("p", { class: "glance", text: `${made.name}: ${made.kind === "floor" ? "ground" : "wall"}, ${marks} known` })
      : words(
          "What it shows",
          [
            ["floor", "Ground or paving"],
            ["wall", "A wall"],
          ],
          made.kind,
          (kind) => {
            made.kind = /** @type {"floor"|"wall"} */ (kind);
            changed();
          },
        ),
    at.box,
    at.arrows,
    el("div", { class: "words pair" }, add("mark", "+ Known place"), add("thing", "+ Wanted")),
    ...spotLines(here, made, activeSpot(made), changed),
    results,
    ending(here, made),
  ];
}

/** Where a new mark appears: the middle, or beside the last one. @param {Draft} made */
function fresh(made) {
  const [width, height] = made.size_px,
    last = made.spots.at(-1)?.seen_px;
  return last ? [(last[0] + width / 2) / 2 + width / 20, (last[1] + height / 2) / 2] : [width / 2, height / 2];
}

/** @param {Here} here @param {Draft} made */
function ending(here, made) {
  return el(
    "div",
    { class: "row" },
    el("button", {
      type: "button",
      class: "main fill",
      text: "Save in the job",
      disabled: !made.spots.length,
      on: { click: () => saveIn(here, made) },
    }),
    el("button", {
      type: "button",
      text: "Discard",
      on: {
        click: async () => {
          const way = await ask(
            "Discard this photo and its marks?",
            [],
            [
              { label: "Keep it", value: "no", main: true },
              { label: "Discard", value: "yes" },
            ],
          );
          if (way !== "yes") return;
          setDraft(here, null);
          here.redraw();
        },
      },
    }),
  );
}

/**
 * Marks into the job, the photo into the queue of photos; places that it gives become points by a touch.
 * @param {Here} here @param {Draft} made
 */
async function saveIn(here, made) {
  const unsaid = made.spots.filter((one) => one.kind === "mark" && !one.point && one.x_mm === null);
  if (unsaid.length) return here.say(`Where is ${unsaid[0].name}? Say it, or delete the mark.`);
  let photo = made.photo;
  const queue = /** @type {any} */ (here.queue);
  if (!photo && queue.addPhoto)
    try {
      photo = await queue.addPhoto(made.image, made.name, null);
    } catch {
      return here.say("This phone could not keep the photo: its memory is full.");
    }
  const plane = planeOf(made, photo, today());
  const done = await keepChange(
    here,
    (draft) => {
      (draft.photo_planes ??= []).push(/** @type {any} */ (plane));
    },
    `${made.name} with ${plane.marks.length} marks`,
  );
  if (!done) return undefined;
  setDraft(here, null);
  here.redraw();
  return undefined;
}
