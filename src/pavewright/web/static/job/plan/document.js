// @ts-check
/** Changes of a job document that a hand makes on the plan. Pure: a document in, changed in place. */
import { cut } from "../../lib/words.js";

/** @typedef {[number, number]} Place */

/**
 * Places of all points: those of the plan, with what the document says by coordinates on top.
 * @param {JobDocument} doc
 * @param {Map<string, number[]>} measured
 */
export function placesIn(doc, measured) {
  const found = new Map(measured);
  for (const point of doc.measurements.points ?? []) found.set(point.name, [point.x_mm, point.y_mm]);
  return found;
}

/** @param {JobDocument} doc */
export function allNames(doc) {
  const m = doc.measurements,
    names = new Set();
  for (const point of m.points ?? []) names.add(point.name);
  for (const point of m.offsets ?? []) names.add(point.name);
  for (const point of m.sketch ?? []) names.add(point.name);
  for (const tape of m.tape_plan?.tapes ?? []) {
    names.add(tape.start);
    names.add(tape.end);
  }
  return names;
}

/** A name that no point has. @param {JobDocument} doc @param {string} stem */
export function freeName(doc, stem) {
  const taken = allNames(doc);
  if (stem.length === 1)
    for (let code = 65; code < 91; code += 1) {
      const letter = String.fromCharCode(code);
      if (!taken.has(letter)) return letter;
    }
  for (let number = 1; ; number += 1) if (!taken.has(`${stem}${number}`)) return `${stem}${number}`;
}

/** @param {JobDocument} doc @param {Place} at @param {string} [stem] */
export function addPoint(doc, at, stem = "A", note = "") {
  const name = freeName(doc, stem);
  doc.measurements.points ??= [];
  doc.measurements.points.push({ name, x_mm: round(at[0]), y_mm: round(at[1]), ...(note ? { note } : {}) });
  return name;
}

/** @param {number} value */
const round = (value) => Math.round(value * 10) / 10;

/**
 * The corners of an outline or of a hole.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring -1 the outline, else a hole
 */
export const cornersOf = (doc, area, ring) =>
  ring < 0 ? doc.areas[area].outline : (doc.areas[area].holes?.[ring] ?? []);

/** Let a side run straight. @param {doc.OutlineCorner} corner where it begins */
export function straighten(corner) {
  delete corner.rise_mm;
  delete corner.through;
  delete corner.centre;
}

/**
 * Move a corner. A point known by coordinates is moved; a measured one stays and the outline goes to a new point beside
 * it.
 * @param {JobDocument} doc @param {number} area @param {number} ring @param {number} index @param {Place} to
 * @returns {string} the point at which the corner now is
 */
export function moveCorner(doc, area, ring, index, to) {
  const corner = cornersOf(doc, area, ring)[index],
    given = (doc.measurements.points ?? []).find((point) => point.name === corner.point);
  if (given) {
    given.x_mm = round(to[0]);
    given.y_mm = round(to[1]);
    return corner.point;
  }
  const old = corner.point,
    name = addPoint(
      doc,
      to,
      `${cut(old, 12)} moved `.trimStart().replace(/\s+$/, " "),
      `moved on the plan from ${old}, which stays as measured`,
    );
  rename(doc, area, ring, index, old, name);
  return name;
}

/**
 * Let everything of an area that named a corner name its new point.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} index
 * @param {string} old
 * @param {string} name
 */
function rename(doc, area, ring, index, old, name) {
  const here = doc.areas[area];
  cornersOf(doc, area, ring)[index].point = name;
  if (ring >= 0) return;
  for (const edge of here.edges ?? []) if (edge.corner === old) edge.corner = name;
  for (const flight of doc.steps ?? [])
    if (flight.upper_area === here.name && flight.corner === old) flight.corner = name;
}

/**
 * Put a corner into a side.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} side
 * @param {Place} at
 */
export function addCorner(doc, area, ring, side, at) {
  const corners = cornersOf(doc, area, ring),
    name = addPoint(doc, at);
  straighten(corners[side]);
  corners.splice(side + 1, 0, { point: name });
  return name;
}

/**
 * Take a corner out; three stay.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} index
 * @returns {boolean}
 */
export function removeCorner(doc, area, ring, index) {
  const corners = cornersOf(doc, area, ring);
  if (corners.length <= 3) return false;
  const [gone] = corners.splice(index, 1);
  if (ring < 0) doc.areas[area].edges = (doc.areas[area].edges ?? []).filter((edge) => edge.corner !== gone.point);
  return true;
}

/**
 * @param {JobDocument} doc
 * @param {Place[]} corners a new area through these places, in one unit like the first area
 */
export function addArea(doc, corners) {
  areaThrough(
    doc,
    corners.map((at) => addPoint(doc, at)),
  );
}

/**
 * A new area through points, laid like the first one where there is one; its unit stays open where there is none.
 * @param {any} doc
 * @param {string[]} names
 * @param {string} [called]
 */
export function areaThrough(doc, names, called = "") {
  const areas = (doc.areas ??= []),
    first = areas[0];
  const taken = new Set(areas.map((/** @type {any} */ area) => area.name));
  let name = called,
    number = areas.length + 1;
  while (!name || taken.has(name)) {
    name = `${called || "Area"} ${number}`;
    number += 1;
  }
  areas.push({
    name,
    outline: names.map((point) => ({ point })),
    use: first?.use ?? "foot",
    position: first?.position ?? "rear",
    laying: {
      unit: first?.laying?.unit ?? doc.units?.[0]?.name ?? null,
      pattern: first?.laying?.pattern === "mixed" ? "running" : (first?.laying?.pattern ?? "running"),
      joint_mm: first?.laying?.joint_mm ?? 10,
      along: [names[0], names[1]],
      bedding: first?.laying?.bedding ?? "mortar_on_concrete",
    },
    edges: names.map((corner) => ({ corner, restraint: "haunch" })),
  });
}

/** @param {JobDocument} doc @param {number} area @param {Place[]} corners */
export function addHole(doc, area, corners) {
  doc.areas[area].holes ??= [];
  doc.areas[area].holes.push(corners.map((at) => ({ point: addPoint(doc, at, "H") })));
}

/**
 * @typedef {{
 *   words: string, list: string, places: 1|2, stem: string, make: (doc: any, names: string[]) => any
 * }} Thing
 */

/** What stands on the site, by the tool that puts it there: two places or one, and what is not asked. */
export const THINGS = /** @type {Record<string, Thing>} */ ({
  wall: {
    words: "Wall",
    list: "walls",
    places: 2,
    stem: "W",
    make: (_doc, [start, end]) => ({ start, end, kind: "house", dpc_level_mm: null, openings: [], air_bricks: [] }),
  },
  gully: {
    words: "Gully",
    list: "gullies",
    places: 1,
    stem: "G",
    make: (doc, [point]) => ({ point, outfall: doc.site.outfalls?.[0]?.name ?? null }),
  },
  channel: {
    words: "Channel",
    list: "channels",
    places: 2,
    stem: "CH",
    make: (doc, [start, end]) => ({ start, end, outfall: doc.site.outfalls?.[0]?.name ?? null }),
  },
  cover: {
    words: "Cover",
    list: "covers",
    places: 1,
    stem: "IC",
    make: (_doc, [point]) => ({ point, length_mm: 600, width_mm: 450, level_mm: null, fixed: false }),
  },
  post: {
    words: "Post",
    list: "obstacles",
    places: 1,
    stem: "PO",
    make: (_doc, [point]) => ({ point, length_mm: 100, width_mm: 100 }),
  },
  tree: {
    words: "Tree",
    list: "trees",
    places: 1,
    stem: "T",
    make: (_doc, [point]) => ({ point, stem_diameter_mm: 200 }),
  },
  boundary: {
    words: "Boundary",
    list: "boundaries",
    places: 2,
    stem: "BN",
    make: (_doc, [start, end]) => ({ start, end }),
  },
  service: {
    words: "Service",
    list: "services",
    places: 2,
    stem: "SV",
    make: (_doc, points) => ({ kind: "unknown", points }),
  },
});

/**
 * @param {JobDocument} doc
 * @param {string} kind
 * @param {(string|Place)[]} places names of points, or places where new ones are made
 */
export function addThing(doc, kind, places) {
  const thing = THINGS[kind];
  const names = places.map((place) => (typeof place === "string" ? place : addPoint(doc, place, thing.stem)));
  const site = /** @type {Record<string, {name: string}[]>} */ (doc.site ??= {}),
    list = (site[thing.list] ??= []);
  const taken = new Set(list.map((each) => each.name));
  let number = list.length + 1;
  while (taken.has(`${thing.words} ${number}`)) number += 1;
  list.push({ name: `${thing.words} ${number}`, ...thing.make(doc, names) });
}

/**
 * Put a door into a wall, where it was pointed at.
 * @param {JobDocument} doc
 * @param {number} wall
 * @param {number} along_mm middle of the door
 */
export function addDoor(doc, wall, along_mm, width_mm = 900) {
  const here = doc.site?.walls?.[wall];
  if (!here) return;
  here.openings ??= [];
  here.openings.push({
    name: `Door ${here.openings.length + 1}`,
    along_mm: Math.max(0, Math.round(along_mm - width_mm / 2)),
    width_mm,
    threshold_level_mm: null,
  });
}
