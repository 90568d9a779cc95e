// @ts-check
/**
 * A storm on the paving, run by the water room and played back on the plan: depth of water in millimetres over minutes.
 */
import { el, say, svg } from "../../lib/dom.js";
import { call, longTask } from "../../lib/api.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { plain, messageOf, wasStopped } from "../../lib/words.js";

/** Bands of depth: from where, in tenths of a millimetre, and how dark they are drawn. */
const BANDS = [
  [2, 0.16],
  [5, 0.3],
  [10, 0.45],
  [20, 0.62],
  [50, 0.8],
  [100, 0.96],
];
const OUTSIDE = 65535;
const EVERY_MS = 260;

/**
 * Depths of a storm on one area as they are sent.
 * @typedef {{
 *   area: string, x0_mm: number, y0_mm: number, cell_mm: number, rows: number, columns: number, count: number,
 *   every_s: number, rain_min: number, depths: string
 * }} Film
 * @typedef {{low: number, likely: number, high: number|null}} Band
 * @typedef {{outlet: string, peak_l_s: Band, litres: Band}} Outlet
 * @typedef {{area: string, deepest_mm: Band, clears_s: Band, outlets: Outlet[], cautions: string[]}} AreaStorm
 * @typedef {{areas: AreaStorm[], frames: Film[], map: string}} StormResult
 */

/**
 * Depths of one area, unpacked.
 * @param {Film} told
 * @returns {Uint16Array} tenths of a millimetre, frame by frame, row by row from the south
 */
export function unpacked(told) {
  const bytes = Uint8Array.from(atob(told.depths), (letter) => letter.charCodeAt(0)),
    view = new DataView(bytes.buffer);
  return Uint16Array.from({ length: bytes.length / 2 }, (_, index) => view.getUint16(2 * index, true));
}

/** How dark a depth is drawn. @param {number} tenths */
export function darkness(tenths) {
  let found = 0;
  if (tenths !== OUTSIDE) for (const [from, dark] of BANDS) if (tenths >= from) found = dark;
  return found;
}

/**
 * One frame as a picture.
 * @param {Uint16Array} depths
 * @param {number} frame
 * @param {Film} told
 * @param {number[]} ink
 */
function picture(depths, frame, told, ink) {
  const canvas = document.createElement("canvas"),
    size = told.rows * told.columns;
  canvas.width = told.columns;
  canvas.height = told.rows;
  const paint = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")),
    image = paint.createImageData(told.columns, told.rows);
  for (let cell = 0; cell < size; cell += 1) {
    image.data.set([...ink, Math.round(255 * darkness(depths[frame * size + cell]))], 4 * cell);
  }
  paint.putImageData(image, 0, 0);
  return canvas.toDataURL();
}

/** @param {Planned} state @param {import("./overlay.js").Overlay} overlay */
export function stormPart(state, overlay) {
  const told = el("p", { class: "quiet", role: "status" }),
    box = el("div"),
    rain = el("input", {
      type: "number",
      min: 1,
      max: 500,
      step: "any",
      value: String(Math.round(10 * state.plan.water.rain.value) / 10),
      inputmode: "decimal",
    });
  const minutes = el("input", { type: "number", min: 1, max: 60, step: 1, value: "10", inputmode: "decimal" });
  const begin = el("button", { type: "button", class: "main", text: "Run the storm" }),
    halt = el("button", { type: "button", text: "Stop", hidden: true });
  begin.addEventListener("click", async () => {
    const stop = new AbortController();
    halt.onclick = () => stop.abort();
    begin.hidden = true;
    halt.hidden = false;
    say(told, "waiting");
    try {
      const name = await longTask(
        {
          verb: "storm",
          document: JSON.stringify(state.doc),
          rain_mm_per_h: Number(rain.value),
          minutes: Number(minutes.value),
          cell_mm: 100,
        },
        (words) => {
          say(told, words);
        },
        stop.signal,
      );
      told.textContent = "";
      box.replaceChildren(player(await call("GET", `/api/long-tasks/${name}/result`), overlay));
    } catch (problem) {
      say(told, wasStopped(problem) ? "Stopped." : messageOf(problem));
    }
    begin.hidden = false;
    halt.hidden = true;
  });
  const field = (/** @type {string} */ name, /** @type {string} */ unit, /** @type {HTMLElement} */ input) =>
    el(
      "label",
      { class: "field" },
      el("span", { class: "name", text: name }),
      el("span", { class: "with-unit" }, input, el("span", { class: "unit", text: unit })),
    );
  return group("A storm, minute by minute", [
    el("p", {
      text:
        "Rain is let run over the finished paving on cells of 100 mm. The depths drawn are those at the greater " +
        "roughness.",
    }),
    el("div", { class: "fields" }, field("Rain", "mm/h", rain), field("It rains for", "min", minutes)),
    el("div", { class: "row" }, begin, halt),
    told,
    box,
  ]);
}

/** @param {StormResult} result @param {import("./overlay.js").Overlay} overlay */
function player(result, overlay) {
  const films = result.frames.map((told) => ({ told, depths: unpacked(told) })),
    count = Math.min(...films.map((film) => film.told.count)),
    every = films[0].told.every_s;
  const ink = inkOf(),
    still = matchMedia("(prefers-reduced-motion: reduce)").matches,
    made = new Map();
  const words = el("p", { role: "status", class: "look-told" }),
    slider = el("input", {
      type: "range",
      min: 0,
      max: count - 1,
      step: 1,
      value: "0",
      "aria-label": "Time of the storm",
    });
  const play = el("button", { type: "button", class: "main", text: "▶ Play" });
  let timer = 0,
    now = 0;
  const halt = () => {
    clearInterval(timer);
    timer = 0;
    say(play, "▶ Play");
  };
  const show = (/** @type {number} */ frame) => {
    now = frame;
    slider.value = String(frame);
    const { ground } = overlay.take("storm");
    if (!made.has(frame))
      made.set(
        frame,
        films.map((film) => picture(film.depths, frame, film.told, ink)),
      );
    ground.replaceChildren(
      ...films.map((film, index) =>
        svg("image", {
          class: "storm-frame",
          href: made.get(frame)[index],
          x: film.told.x0_mm,
          y: film.told.y0_mm,
          width: film.told.columns * film.told.cell_mm,
          height: film.told.rows * film.told.cell_mm,
          preserveAspectRatio: "none",
        }),
      ),
    );
    let deepest = 0,
      wet = 0,
      all = 0;
    for (const film of films) {
      const size = film.told.rows * film.told.columns;
      for (let cell = frame * size; cell < (frame + 1) * size; cell += 1) {
        const depth = film.depths[cell];
        if (depth === OUTSIDE) continue;
        all += 1;
        if (depth >= 10) wet += 1;
        if (depth > deepest) deepest = depth;
      }
    }
    const at = ((frame + 1) * every) / 60,
      rains = at <= films[0].told.rain_min + 1e-9;
    slider.setAttribute("aria-valuetext", `${plain(at, 1)} minutes`);
    say(
      words,
      `${plain(at, 1)} min${rains ? ", it rains" : ", the rain is over"}. Deepest ` +
        `${plain(deepest / 10, 1)} mm; ${plain((100 * wet) / Math.max(all, 1))} % of the paving under a millimetre ` +
        "of water or more.",
    );
  };
  slider.addEventListener("input", () => {
    halt();
    show(Number(slider.value));
  });
  play.addEventListener("click", () => {
    if (timer) {
      halt();
      return;
    }
    if (now === count - 1) show(0);
    say(play, "❚❚ Pause");
    timer = setInterval(() => {
      if (!play.isConnected || now === count - 1 || overlay.owner !== "storm") {
        halt();
        return;
      }
      show(now + 1);
    }, EVERY_MS);
  });
  const scale = el(
    "ul",
    { class: "depth-scale", "aria-label": "Depth of water" },
    ...BANDS.map(([from, dark], index) =>
      el(
        "li",
        {},
        svg(
          "svg",
          { width: 26, height: 18 },
          svg("rect", { width: 26, height: 18, fill: `rgb(${ink.join(" ")})`, "fill-opacity": dark }),
        ),
        index + 1 < BANDS.length
          ? `${plain(from / 10, 1)} to ${plain(BANDS[index + 1][0] / 10, 1)} mm`
          : `${plain(from / 10)} mm and more`,
      ),
    ),
  );
  const outlets = table(
    [{ head: "Area" }, { head: "Outlet" }, { head: "Peak, l/s", number: true }, { head: "Water, l", number: true }],
    result.areas.flatMap((area) =>
      area.outlets.map((one) => [
        area.area,
        one.outlet.replaceAll("_", " "),
        band(one.peak_l_s, 2),
        band(one.litres, 0),
      ]),
    ),
    "What leaves where",
  );
  const after = el(
    "ul",
    {},
    ...result.areas.map((area) =>
      el("li", {
        text: `${area.area}: ${band(area.deepest_mm, 1)} mm at the deepest; ${
          area.clears_s.high === null
            ? "it does not clear"
            : `nine tenths gone ${band(area.clears_s, 0)} s after the rain`
        }. ${area.cautions.join(" ")}`,
      }),
    ),
  );
  show(still ? Math.min(count - 1, Math.floor(count / 2)) : 0);
  return el(
    "div",
    { class: "storm-player" },
    el("div", { class: "row" }, still ? null : play),
    slider,
    words,
    scale,
    outlets,
    after,
  );
}

/** @param {{low: number|null, high: number|null}} range @param {number} places */
const band = ({ low, high }, places) =>
  low === null || high === null
    ? "–"
    : plain(low, places) === plain(high, places)
      ? plain(low, places)
      : `${plain(low, places)} to ${plain(high, places)}`;

/** The colour of water as three numbers. */
function inkOf() {
  const hex = getComputedStyle(document.documentElement).getPropertyValue("--water").trim(),
    found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(hex);
  return found ? found.slice(1).map((part) => parseInt(part, 16)) : [31, 95, 153];
}
