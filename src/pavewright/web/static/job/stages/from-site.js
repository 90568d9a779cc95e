// @ts-check
/** What came from site, in the stage Measure of the working screen: photos with their pins, and files of readings. */
import { call } from "../../lib/api.js";
import { el } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { given } from "../plan/layers-site.js";
import { bringIn } from "../../site/bring-in.js";
import { gallery } from "../../site/photos.js";

/** The job whose photos are known here. */
let asked = "";

/** @param {Planned} state @param {(words: string) => void} say @returns {Node[]} */
export function fromSite(state, say) {
  if (asked !== state.id) {
    asked = state.id;
    call("GET", `/api/jobs/${state.id}/photos`)
      .then((told) => {
        given.photos = told.photos;
        if (told.photos.length) state.dispatchEvent(new Event("plan")); // the pins are drawn with the layers
      })
      .catch(() => {
        asked = "";
      });
  }
  const photos = given.photos;
  return [
    group(photos.length ? `From site: ${photos.length} photo${photos.length > 1 ? "s" : ""}` : "From site", [
      photos.length
        ? gallery(state.id, photos)
        : el("p", {
            class: "quiet",
            text: "Photos that are taken on site with a phone come here, pinned to the plan.",
          }),
      bringIn(state.id, (told) => {
        if (!told.kept) return;
        if (state.saving === "saved") location.reload();
        else say("Readings were brought in. Open the job again to see them.");
      }),
    ]),
  ];
}
