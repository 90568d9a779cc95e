// @ts-check
/**
 * The job as a solid that can be turned: slabs on the finished planes, walls with their damp-proof course and doors,
 * the ground under it.
 */
import { el, say } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { level } from "../../lib/words.js";
import { surfaceLevel } from "../../lib/kernel.js";

const TURN = 0.12;

/** A colour of the page. @param {string} name @param {string} other */
const ink = (name, other) => getComputedStyle(document.documentElement).getPropertyValue(name).trim() || other;

/** @param {Planned} state */
export function solidPart(state) {
  const holder = el("div", {
      class: "solid",
      tabindex: "0",
      role: "application",
      "aria-label":
        "Solid view. Arrow keys turn it, plus and minus bring it nearer. The table below shows the same levels.",
    }),
    told = el("p", { class: "quiet", role: "status" });
  const height = /** @type {HTMLFieldSetElement} */ (
    el(
      "fieldset",
      { class: "choices" },
      el("legend", { text: "Heights" }),
      ...[1, 5, 10].map((times) =>
        el(
          "label",
          {},
          el("input", { type: "radio", name: "solid-heights", value: String(times), checked: times === 5 }),
          el("span", { text: `×${times}` }),
        ),
      ),
    )
  );
  const { plan } = state,
    lines = plan.levels.areas.flatMap((area) =>
      area.corners.map((spot) => [area.area, spot.label, level(spot.level_mm)]),
    );
  const words = table(
    [{ head: "Area" }, { head: "Corner" }, { head: "Level", number: true }],
    lines,
    "Levels of the corners",
  );
  const box = group("Solid view", [
    height,
    holder,
    told,
    el("p", {
      class: "quiet",
      text:
        "Dragged it turns. The net is the ground as it is now; the line on the walls is the damp-proof course. " +
        "Slabs are as thick as they are bought.",
    }),
    words,
  ]);
  let begun = false;
  box.addEventListener("toggle", async () => {
    if (!box.open || begun) return;
    begun = true;
    say(told, "drawing …");
    try {
      const three = await import(/** @type {any} */ ("../../vendor/three-view.js"));
      const view = shown(three, holder, plan, () =>
        Number(/** @type {any} */ (height.querySelector("input:checked")).value),
      );
      height.addEventListener("change", view.rebuild);
      told.textContent = "";
    } catch {
      holder.hidden = true;
      say(told, "This browser draws no solids (WebGL is missing or off). The table shows the levels of the corners.");
    }
  });
  return box;
}

/** @param {any} three @param {HTMLElement} holder @param {Plan} plan @param {() => number} times */
function shown(three, holder, plan, times) {
  const renderer = new three.WebGLRenderer({ antialias: true, preserveDrawingBuffer: true }),
    scene = new three.Scene(),
    camera = new three.PerspectiveCamera(40, 1, 50, 400000);
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  holder.append(renderer.domElement);
  scene.background = new three.Color(ink("--sheet", "#fffefb"));
  scene.add(new three.AmbientLight(0xffffff, 1.7));
  const sun = new three.DirectionalLight(0xffffff, 1.9);
  sun.position.set(-3, 6, 4);
  scene.add(sun);
  const orbit = new three.OrbitControls(camera, renderer.domElement),
    corners = plan.levels.areas.flatMap((area) => area.corners);
  const xs = corners.map((one) => one.at[0]),
    ys = corners.map((one) => one.at[1]),
    zs = corners.map((one) => one.level_mm);
  const middle = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2, Math.max(...zs)],
    size = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), 2000);
  let job = new three.Group(),
    asked = 0;
  const draw = () => {
    if (!asked)
      asked = requestAnimationFrame(() => {
        asked = 0;
        renderer.render(scene, camera);
      });
  };
  const rebuild = () => {
    scene.remove(job);
    job.traverse((/** @type {any} */ one) => {
      one.geometry?.dispose();
      one.material?.dispose();
    });
    job = solid(three, plan, middle, times());
    scene.add(job);
    draw();
  };
  const fit = () => {
    const { clientWidth: wide, clientHeight: high } = holder;
    if (!wide || !high) return;
    renderer.setSize(wide, high, false);
    camera.aspect = wide / high;
    camera.updateProjectionMatrix();
    draw();
  };
  // from the garden towards the house
  const walls = plan.survey.site.walls,
    from = walls.length
      ? [0, 1].map(
          (axis) =>
            walls.reduce((/** @type {number} */ sum, wall) => sum + (wall.start[axis] + wall.end[axis]) / 2, 0) /
            walls.length,
        )
      : [middle[0], middle[1] + 1];
  const turn = Math.atan2(middle[0] - from[0], from[1] - middle[1]) - 0.35,
    aspect = Math.min(1.5, (holder.clientWidth || 300) / (holder.clientHeight || 300)),
    away = (size * 1.75) / Math.min(1, aspect * 0.85);
  camera.position.set(away * 0.74 * Math.sin(turn), away * 0.62, away * 0.74 * Math.cos(turn));
  orbit.target.set(0, 0, 0);
  orbit.enableDamping = false;
  orbit.maxPolarAngle = Math.PI * 0.495;
  orbit.addEventListener("change", draw);
  orbit.update();
  holder.addEventListener("keydown", (event) => {
    const offset = camera.position.clone().sub(orbit.target),
      flat = Math.hypot(offset.x, offset.z),
      far = offset.length();
    let turn = Math.atan2(offset.x, offset.z),
      lift = Math.atan2(offset.y, flat),
      away = far;
    if (event.key === "ArrowLeft") turn -= TURN;
    else if (event.key === "ArrowRight") turn += TURN;
    else if (event.key === "ArrowUp") lift = Math.min(1.5, lift + TURN);
    else if (event.key === "ArrowDown") lift = Math.max(0.05, lift - TURN);
    else if (event.key === "+" || event.key === "=") away *= 0.85;
    else if (event.key === "-") away /= 0.85;
    else return;
    event.preventDefault();
    camera.position
      .set(away * Math.cos(lift) * Math.sin(turn), away * Math.sin(lift), away * Math.cos(lift) * Math.cos(turn))
      .add(orbit.target);
    orbit.update();
    draw();
  });
  new ResizeObserver(fit).observe(holder);
  rebuild();
  fit();
  return { rebuild };
}

/**
 * Everything of the job, east to the right, north away, up upwards, heights stretched.
 * @param {any} three
 * @param {Plan} plan
 * @param {number[]} middle
 * @param {number} times
 */
function solid(three, plan, middle, times) {
  const all = new three.Group(),
    put = (/** @type {number[]} */ [x, y, z]) => [x - middle[0], (z - middle[2]) * times, -(y - middle[1])];
  const mesh = (/** @type {number[][][]} */ triangles, /** @type {string} */ colour, /** @type {any} */ more = {}) => {
    const geometry = new three.BufferGeometry();
    geometry.setAttribute("position", new three.BufferAttribute(new Float32Array(triangles.flat(2)), 3));
    geometry.computeVertexNormals();
    all.add(
      new three.Mesh(
        geometry,
        new three.MeshLambertMaterial({ color: new three.Color(colour), side: three.DoubleSide, ...more }),
      ),
    );
  };
  const lines = (/** @type {number[][]} */ ends, /** @type {string} */ colour) => {
    const geometry = new three.BufferGeometry();
    geometry.setAttribute("position", new three.BufferAttribute(new Float32Array(ends.flat()), 3));
    all.add(new three.LineSegments(geometry, new three.LineBasicMaterial({ color: new three.Color(colour) })));
  };
  const thickness = new Map(plan.job.units.map((unit) => [unit.name, unit.thickness_mm]));
  /** @type {number[][][]} */ const whole = [],
    /** @type {number[][][]} */ cut = [],
    /** @type {number[][]} */ joints = [];
  for (const area of plan.laying.areas) {
    const surface = plan.levels.areas.find((one) => one.area === area.area)?.surface;
    if (!surface) continue;
    for (const piece of area.pieces) {
      const ring = piece.shape.outer,
        thick = thickness.get(piece.unit) ?? 0,
        top = ring.map((/** @type {number[]} */ at) => [...at, surfaceLevel(surface, at)]),
        out = piece.kind === "whole" ? whole : cut;
      for (const [a, b, c] of three.ShapeUtils.triangulateShape(
        ring.map(([x, y]) => new three.Vector2(x, y)),
        piece.shape.holes.map((/** @type {number[][]} */ hole) => hole.map(([x, y]) => new three.Vector2(x, y))),
      )) {
        const every = [
          ...top,
          ...piece.shape.holes.flat().map((/** @type {number[]} */ at) => [...at, surfaceLevel(surface, at)]),
        ];
        out.push([put(every[a]), put(every[b]), put(every[c])]);
      }
      top.forEach((/** @type {number[]} */ at, index) => {
        const next = top[(index + 1) % top.length],
          low = [at[0], at[1], at[2] - thick],
          far = [next[0], next[1], next[2] - thick];
        out.push([put(at), put(next), put(far)], [put(at), put(far), put(low)]);
        joints.push(put(at), put(next));
      });
    }
  }
  mesh(whole, ink("--slab", "#ece7da"), { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
  mesh(cut, ink("--slab-cut", "#d9cfb8"), { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
  lines(joints, ink("--line-strong", "#868a86"));
  for (const wall of plan.survey.site.walls) standing(wall, plan, put, mesh, lines);
  const ground = plan.survey.ground;
  if (ground)
    lines(
      ground.triangles.flatMap((/** @type {number[]} */ [a, b, c]) =>
        [a, b, b, c, c, a].map((index) => put(ground.points[index])),
      ),
      ink("--good", "#1d5c36"),
    );
  return all;
}

/**
 * A wall with the line of its damp-proof course, and its doors as openings.
 * @param {plan.PlanWall} wall
 * @param {Plan} plan
 * @param {(at: number[]) => number[]} put
 * @param {any} mesh
 * @param {any} lines
 */
function standing(wall, plan, put, mesh, lines) {
  const dpc = wall.dpc_level_mm,
    levels = plan.levels.areas.flatMap((area) => area.corners.map((one) => one.level_mm)),
    low = Math.min(...levels) - 150,
    top = (dpc ?? Math.max(...levels)) + 250;
  const length = Math.hypot(wall.end[0] - wall.start[0], wall.end[1] - wall.start[1]),
    point = (/** @type {number} */ share) => [
      wall.start[0] + share * (wall.end[0] - wall.start[0]),
      wall.start[1] + share * (wall.end[1] - wall.start[1]),
    ];
  const share = (/** @type {number[]} */ at) => Math.hypot(at[0] - wall.start[0], at[1] - wall.start[1]) / length;
  const doors = wall.openings
    .map((door) => ({
      from: share(door.start),
      to: share(door.end),
      sill: door.threshold_level_mm ?? dpc ?? Math.max(...levels),
    }))
    .sort((a, b) => a.from - b.from);
  const face = (
    /** @type {number} */ from,
    /** @type {number} */ to,
    /** @type {number} */ bottom,
    /** @type {number} */ upper,
  ) => {
    const [a, b] = [point(from), point(to)];
    return [
      [put([...a, bottom]), put([...b, bottom]), put([...b, upper])],
      [put([...a, bottom]), put([...b, upper]), put([...a, upper])],
    ];
  };
  const faces = [];
  let here = 0;
  for (const door of doors) {
    faces.push(...face(here, door.from, low, top), ...face(door.from, door.to, low, door.sill));
    lines(
      [
        put([...point(door.from), door.sill]),
        put([...point(door.to), door.sill]),
        put([...point(door.from), door.sill]),
        put([...point(door.from), top]),
        put([...point(door.to), door.sill]),
        put([...point(door.to), top]),
      ],
      ink("--ink", "#1b2124"),
    );
    here = door.to;
  }
  faces.push(...face(here, 1, low, top));
  mesh(faces, ink("--line", "#c9c5b8"), { transparent: true, opacity: 0.72 });
  if (dpc !== null) lines([put([...point(0), dpc]), put([...point(1), dpc])], ink("--stop", "#9b1c1c"));
}
