// @ts-check
/**
 * The site sheet: the same panels in one file that needs no server. Readings stay in this browser until they are saved
 * as a file.
 */
import { find, say } from "../lib/dom.js";
import { look } from "../lib/theme.js";
import { setFirmWriting, setWriting } from "../lib/writing.js";
import { workOut } from "./changes.js";
import { screen } from "./screen.js";
import { SheetQueue } from "./sheet-queue.js";

const given = JSON.parse(find("#job").textContent);
look();
setFirmWriting(given.writing);
setWriting(given.document?.identity, given.document);
const queue = new SheetQueue(given.job, given.rev),
  count = find("#unsent");
/** @type {any} */ const here = {
  ...{ job: given.job, doc: null, base: { document: given.document, rev: given.rev }, view: given.view },
  ...{ photos: [], queue },
};

screen(here, `pavewright.sheet.${given.job}.spot`, "sheet");
workOut(here);

const tellCount = () => {
  say(count, queue.list.length ? `${queue.list.length} kept on this sheet` : "nothing read yet");
};
queue.addEventListener("change", () => {
  tellCount();
  workOut(here);
  here.redraw();
});
count.addEventListener("click", () => {
  here.open("out");
});
tellCount();
here.redraw();
