// @ts-check
/** Photos with a pin on the plan: made small here, so that no place and no camera hangs on them, then queued. */
import { ask, el } from "../lib/dom.js";
import { logPhoto } from "./day/parts.js";
import { siteMap } from "./map.js";

const SIDE_MAX = 1600;

/**
 * The photo that is being taken; it is kept with its pin and note, not before.
 * @type {{image: Blob, url: string, place: number[]|null, note: string}|null}
 */
let draft = null;

/** The photo that is being taken gets its pin on a sketch of the page. @param {number[]} at */
export function pinPhoto(at) {
  if (draft) draft.place = at.map((each) => Math.round(each));
}

/** Whether a photo is being taken, and where its pin is. @returns {{place: number[]|null}|null} */
export const photoDraft = () => draft;

/**
 * @param {import("./parts.js").PageHere & {photos: any[]}} here
 * @param {{onSketch?: boolean}} [wishes] the pin is put on a sketch that the page shows already
 * @returns {Node[]}
 */
export function photos(here, wishes = {}) {
  const out = [];
  if (draft) return [draftPanel(here, draft, Boolean(wishes.onSketch))];
  const input = el("input", {
    id: "take-photo",
    type: "file",
    accept: "image/*",
    capture: "environment",
    class: "unseen",
  });
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (!file) return;
    try {
      const image = await shrunk(file);
      draft = { image, url: URL.createObjectURL(image), place: null, note: "" };
      here.redraw();
    } catch {
      here.say("This phone cannot read that file as a photo. Take it again.");
    }
  });
  out.push(el("label", { class: "button main pad-keep", for: "take-photo", text: "Take a photo" }), input);
  const waiting = here.queue.list.filter((one) => one.kind === "photo");
  const all = [
    ...waiting.map((one) => ({
      id: one.id,
      note: one.note,
      place: one.place,
      waiting: one.state,
      image: one.image,
    })),
    ...here.photos,
  ];
  if (all.length && !wishes.onSketch)
    out.push(
      el(
        "details",
        { class: "group map-group" },
        el("summary", { text: "Where they were taken" }),
        siteMap(here, { at: null, pins: all }),
      ),
    );
  out.push(
    all.length
      ? gallery(here.job, all, async (one) => {
          const way = await ask(
            "Delete this photo?",
            [
              el("p", {
                text: one.waiting
                  ? "It was not sent yet: it is gone then."
                  : "It is gone from the job then, for everybody.",
              }),
            ],
            [
              { label: "Keep it", value: "no", main: true },
              { label: "Delete", value: "yes" },
            ],
          );
          if (way !== "yes") return;
          if (one.waiting) await here.queue.mend(one.id, () => null);
          else {
            const answer = await fetch(`/api/jobs/${here.job}/photos/${one.id}`, { method: "DELETE" }).catch(
              () => null,
            );
            if (!answer?.ok) return here.say("The server does not answer: delete it when there is signal.");
          }
          here.photos = here.photos.filter((each) => each.id !== one.id);
          here.redraw();
        })
      : el("p", {
          class: "quiet",
          text:
            "No photos yet. Take them before a layer hides the last one: the trial hole, the formation, pipes " +
            "before they are covered.",
        }),
  );
  return out;
}

/** @param {import("./parts.js").PageHere} here @param {NonNullable<typeof draft>} made @param {boolean} onSketch */
function draftPanel(here, made, onSketch) {
  const note = el("input", {
    type: "text",
    maxlength: "300",
    value: made.note,
    placeholder: "What it shows",
    "aria-label": "What it shows",
  });
  note.addEventListener("input", () => {
    made.note = note.value;
  });
  const end = () => {
    URL.revokeObjectURL(made.url);
    draft = null;
    here.redraw();
  };
  return el(
    "div",
    { class: "photo-draft" },
    el("img", { class: "photo-big", src: made.url, alt: "The photo just taken" }),
    note,
    el("p", {
      text: made.place
        ? "Pinned. Tap again to move the pin."
        : `Tap on the ${onSketch ? "sketch" : "plan"} where it was taken.`,
    }),
    onSketch
      ? null
      : siteMap(here, {
          at: made.place,
          pick: (at) => {
            pinPhoto(at);
            here.redraw();
          },
        }),
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        class: "main fill",
        text: made.place ? "Save photo" : "Save without a pin",
        on: {
          click: async () => {
            try {
              const id = await here.queue.addPhoto(made.image, made.note.trim(), made.place);
              end();
              if (here.base) logPhoto(here, id, made.note.trim());
            } catch {
              here.say("This phone could not keep the photo: its memory is full.");
            }
          },
        },
      }),
      el("button", { type: "button", text: "Discard", on: { click: end } }),
    ),
  );
}

/** Pictures with their notes. @param {string} job @param {any[]} all @param {(one: any) => void} [remove] */
export function gallery(job, all, remove) {
  return el(
    "ul",
    { class: "gallery" },
    ...all.map((one) => {
      const src = one.image ? URL.createObjectURL(one.image) : `/api/jobs/${job}/photos/${one.id}`,
        words = one.note || "no note";
      const picture = /** @type {HTMLImageElement} */ (el("img", { src, alt: words, loading: "lazy" }));
      if (one.image) picture.addEventListener("load", () => URL.revokeObjectURL(src));
      return el(
        "li",
        {},
        one.image ? picture : el("a", { href: src, target: "_blank", rel: "noopener" }, picture),
        el(
          "span",
          { class: "gallery-words" },
          el("span", { text: words }),
          el("span", {
            class: "quiet",
            text: [
              one.waiting ? (one.waiting === "refused" ? "✕ refused" : "… kept here") : "",
              one.place ? "pinned" : "no pin",
            ]
              .filter(Boolean)
              .join(", "),
          }),
        ),
        remove
          ? el("button", {
              type: "button",
              "aria-label": `Delete: ${words}`,
              text: "✕",
              on: { click: () => remove(one) },
            })
          : null,
      );
    }),
  );
}

/** A photo as a JPEG of its pixels alone, upright and small. @param {Blob} file */
export async function shrunk(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const ratio = Math.min(1, SIDE_MAX / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * ratio));
  canvas.height = Math.max(1, Math.round(picture.height * ratio));
  const brush = canvas.getContext("2d");
  if (!brush) throw new Error("no canvas");
  brush.fillStyle = "#fff";
  brush.fillRect(0, 0, canvas.width, canvas.height);
  brush.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return await new Promise((/** @type {(made: Blob) => void} */ done, fail) =>
    canvas.toBlob((made) => (made ? done(made) : fail(new Error("no picture"))), "image/jpeg", 0.82),
  );
}
