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
 * Corners of a stretch of outline, from one to another in the order of the outline.
 * @param {doc.OutlineCorner[]} corners
 * @param {number} from
 * @param {number} to
 */
export const stretchOf = (corners, from, to) =>
  Array.from(
    { length: ((to - from + corners.length) % corners.length) + 1 },
    (_, step) => corners[(from + step) % corners.length],
  );

/**
 * Let a stretch of outline run in arcs: corners between their ends go, each arc is told by its rise.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} from
 * @param {number} to
 * @param {{ends: number[], rises_mm: number[]}} arcs ends counted from 1
 * @param {number} way 1 where the outline runs against the clock, else -1
 */
export function runInArcs(doc, area, ring, from, to, { ends, rises_mm }, way) {
  const corners = cornersOf(doc, area, ring),
    stretch = stretchOf(corners, from, to),
    kept = new Set([0, ...ends.map((end) => end - 1)]);
  const gone = new Set(stretch.filter((_, index) => !kept.has(index)).map((corner) => corner.point));
  [0, ...ends.slice(0, -1).map((end) => end - 1)].forEach((index, number) => {
    straighten(stretch[index]);
    stretch[index].rise_mm = Math.round(rises_mm[number] * way * 10) / 10;
  });
  const left = corners.filter((corner) => !gone.has(corner.point));
  corners.splice(0, corners.length, ...left);
  if (ring < 0) doc.areas[area].edges = (doc.areas[area].edges ?? []).filter((edge) => !gone.has(edge.corner));
  return gone.size;
}

/**
 * Give a side a length: its end moves along it.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} side
 * @param {number} length_mm
 * @param {Map<string, number[]>} places
 */
export function setSideLength(doc, area, ring, side, length_mm, places) {
  const corners = cornersOf(doc, area, ring),
    last = (side + 1) % corners.length;
  const from = places.get(corners[side].point),
    to = places.get(corners[last].point);
  if (!from || !to) return;
  const now = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  moveCorner(doc, area, ring, last, [
    from[0] + ((to[0] - from[0]) / now) * length_mm,
    from[1] + ((to[1] - from[1]) / now) * length_mm,
  ]);
}

/**
 * Give the corner at the start of a side an angle, in degrees inside: the far end of the side turns about it.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} side
 * @param {number} angle_deg
 * @param {Map<string, number[]>} places
 */
export function setCornerAngle(doc, area, ring, side, angle_deg, places) {
  const corners = cornersOf(doc, area, ring),
    count = corners.length;
  const before = places.get(corners[(side - 1 + count) % count].point),
    here = places.get(corners[side].point),
    after = places.get(corners[(side + 1) % count].point);
  if (!before || !here || !after) return;
  const way = orientation(corners.map((corner) => places.get(corner.point) ?? [0, 0])) > 0 ? -1 : 1;
  const back = Math.atan2(before[1] - here[1], before[0] - here[0]),
    length = Math.hypot(after[0] - here[0], after[1] - here[1]);
  const turn = back + (way * angle_deg * Math.PI) / 180;
  moveCorner(doc, area, ring, (side + 1) % count, [
    here[0] + length * Math.cos(turn),
    here[1] + length * Math.sin(turn),
  ]);
}

/** Twice the signed area of a ring. @param {number[][]} ring */
export function orientation(ring) {
  return ring.reduce((sum, [x1, y1], index) => {
    const [x2, y2] = ring[(index + 1) % ring.length];
    return sum + x1 * y2 - x2 * y1;
  }, 0);
}

/** Inside angle at a corner, degrees. @param {number[][]} ring @param {number} index */
export function angleAt(ring, index) {
  const count = ring.length,
    before = ring[(index - 1 + count) % count],
    here = ring[index],
    after = ring[(index + 1) % count];
  const one = Math.atan2(before[1] - here[1], before[0] - here[0]),
    two = Math.atan2(after[1] - here[1], after[0] - here[0]);
  let turn = ((one - two) * 180) / Math.PI;
  if (orientation(ring) < 0) turn = -turn;
  return ((turn % 360) + 360) % 360;
}

/**
 * @param {JobDocument} doc
 * @param {Place[]} corners a new area through these places, in one unit like the first area
 */
export function addArea(doc, corners) {
  const names = corners.map((at) => addPoint(doc, at)),
    first = doc.areas[0];
  const taken = new Set(doc.areas.map((area) => area.name));
  let number = doc.areas.length + 1;
  while (taken.has(`Area ${number}`)) number += 1;
  doc.areas.push({
    name: `Area ${number}`,
    outline: names.map((point) => ({ point })),
    use: first?.use ?? "foot",
    position: first?.position ?? "rear",
    laying: {
      unit: doc.units[0].name,
      pattern: first?.laying.pattern === "mixed" ? "running" : (first?.laying.pattern ?? "running"),
      joint_mm: first?.laying.joint_mm ?? 10,
      along: [names[0], names[1]],
      bedding: first?.laying.bedding ?? "mortar_on_concrete",
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
