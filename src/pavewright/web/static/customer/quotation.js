// @ts-check
/**
 * What scripts add to a quotation: the total follows what is ticked, and a signature can be drawn. Without them the
 * server shows the total when it is asked, and the signature is typed.
 */

const form = /** @type {HTMLFormElement} */ (document.querySelector("#accepting")),
  seen = /** @type {HTMLInputElement} */ (form.elements.namedItem("seen_total")),
  drawn = /** @type {HTMLInputElement} */ (form.elements.namedItem("drawn"));

/** @param {string} which @param {string} words */
const say = (which, words) => {
  for (const each of document.querySelectorAll(`[data-${which}]`)) each.textContent = words;
};

let asked = 0;

/** Show what is to pay with what is ticked; the server works it out, and only the newest answer counts. */
async function follow() {
  const number = ++asked,
    ticked = [...form.querySelectorAll("input[name=option]:checked")].map((one) => one.getAttribute("value") ?? "");
  seen.value = ""; // until the new total stands there nothing is accepted
  say("total", "…");
  try {
    const query = new URLSearchParams(ticked.map((one) => ["option", one])),
      answer = await fetch(`${form.dataset.totalAt}?${query}`, { cache: "no-store" }),
      found = await answer.json();
    if (number !== asked) return;
    if (!answer.ok) throw new Error("no total");
    seen.value = found.total_minor === null ? "" : String(found.total_minor);
    say("total", found.total || "–");
    say("days", found.days);
    say("why", found.why_not);
    say("taken", found.names.length ? `with ${found.names.join(", ")}` : "without options");
  } catch {
    if (number !== asked) return;
    say("total", "–");
    say("why", "The total could not be fetched. Look whether you are connected, then tick again.");
  }
}

for (const box of form.querySelectorAll("input[name=option]")) box.addEventListener("change", follow);
for (const one of form.querySelectorAll("[data-only-without-script]")) one.setAttribute("hidden", "");
// a browser that goes back fills in ticks that the page was not made for
window.addEventListener("pageshow", () => {
  if (form.querySelector("input[name=option]")) follow();
});

const place = /** @type {HTMLElement} */ (form.querySelector("[data-drawing]")),
  canvas = /** @type {HTMLCanvasElement} */ (form.querySelector("canvas")),
  brush = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")),
  POINTS_MAX = 3500;
/** @type {[number, number][][]} */
let strokes = [];
place.hidden = false;

/** @param {PointerEvent} event @returns {[number, number]} */
function at(event) {
  const box = canvas.getBoundingClientRect(),
    inside = (/** @type {number} */ part, /** @type {number} */ whole) =>
      Math.round(Math.min(Math.max(part, 0), 1) * whole);
  return [
    inside((event.clientX - box.left) / box.width, canvas.width),
    inside((event.clientY - box.top) / box.height, canvas.height),
  ];
}

/** Draw all strokes, and put them into the form. */
function show() {
  brush.clearRect(0, 0, canvas.width, canvas.height);
  brush.lineWidth = 4;
  brush.lineCap = brush.lineJoin = "round";
  brush.strokeStyle = "#10151a";
  for (const stroke of strokes) {
    brush.beginPath();
    stroke.forEach(([x, y], index) => (index ? brush.lineTo(x, y) : brush.moveTo(x, y)));
    brush.stroke();
  }
  const whole = strokes.filter((stroke) => stroke.length > 1);
  drawn.value = whole.map((stroke) => `M${stroke.map(([x, y]) => `${x} ${y}`).join("L")}`).join("");
  canvas.setAttribute("aria-label", `Field for your drawn signature: ${whole.length ? "signed" : "empty"}`);
}

canvas.addEventListener("pointerdown", (event) => {
  event.preventDefault();
  canvas.setPointerCapture(event.pointerId);
  strokes.push([at(event)]);
});
canvas.addEventListener("pointermove", (event) => {
  const stroke = strokes.at(-1);
  if (!canvas.hasPointerCapture(event.pointerId) || !stroke) return;
  if (strokes.reduce((sum, one) => sum + one.length, 0) >= POINTS_MAX) return;
  const next = at(event),
    last = /** @type {[number, number]} */ (stroke.at(-1));
  if (Math.hypot(next[0] - last[0], next[1] - last[1]) < 2) return;
  stroke.push(next);
  show();
});
form.querySelector("[data-clear]")?.addEventListener("click", () => {
  strokes = [];
  show();
});

// a drawing that came back with the form stays
strokes = drawn.value
  .split("M")
  .filter(Boolean)
  .map((one) => one.split("L").map((point) => /** @type {[number, number]} */ (point.split(" ").map(Number))));
show();
