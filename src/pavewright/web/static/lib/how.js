// @ts-check
/** How a field is measured: a line of words and a small picture, by its place in the job document. */
import { svg } from "./dom.js";

/**
 * Pictures, 64 by 36: thin lines are what is there, the thick line with ends is what is read.
 * @type {Record<string, {there: string, read: string, ground?: string}>}
 */
const PICTURES = {
  tape: { there: "M8 26h48", read: "M8 14h48M8 9v10M56 9v10" },
  square: { there: "M10 30h44", read: "M30 30v-22M25 8h10", ground: "M30 24h6v6" },
  along: { there: "M6 12h52", read: "M6 22h26M6 17v10M32 17v10", ground: "M32 6v6M46 6v6" },
  width: { there: "M6 12h14M46 12h12", read: "M20 22h26M20 17v10M46 17v10" },
  staff: { there: "M4 32h56M14 14h10M19 14l-5 18M19 14l5 18", read: "M48 6v26M44 10h8M44 15h8", ground: "M24 14h24" },
  dpc: { there: "M16 4v28M4 30h12M16 30h46", read: "M36 12v18M31 12h10M31 30h10", ground: "M4 12h26" },
  sill: { there: "M22 4v14h-18M22 18v12h38", read: "M40 18v12M35 18h10M35 30h10", ground: "M22 18h14" },
  cover: { there: "M16 14h32v12h-32z", read: "M16 32h32M16 28v8M48 28v8", ground: "M24 20h16" },
  invert: { there: "M20 6v22h24v-22M4 6h16M44 6h16M44 22h16", read: "M32 6v22M27 6h10M27 28h10" },
  layers: { there: "M6 8h52M6 16h52M6 24h52M6 32h52", read: "M32 16v8M27 16h10M27 24h10" },
  soil: { there: "M4 10h22v22h12v-22h22", read: "M32 10v22M27 10h10M27 32h10", ground: "M6 6v4M14 6v4M48 6v4M56 6v4" },
  gate: { there: "M14 6v26M50 6v26M4 32h56", read: "M14 18h36M14 13v10M50 13v10" },
  carry: { there: "M4 28h56M8 28v-8h10v8", read: "M20 16h38M20 11v10M58 11v10" },
  joint: { there: "M4 10h24v18h-24zM36 10h24v18h-24z", read: "M28 4h8M28 0v8M36 0v8" },
  thick: { there: "M14 12h36v12h-36z", read: "M8 12v12M3 12h10M3 24h10" },
  fall: { there: "M6 10h52v20", read: "M6 10l52 12", ground: "M58 10v12" },
  rise: { there: "M8 28q24 -30 48 0M8 28h48", read: "M32 14v14M27 14h10M27 28h10" },
  stem: { there: "M28 4v28M36 4v28M4 32h56", read: "M28 18h8" },
};

/** @type {Record<string, [string, string]>} */
const HOW = {
  "tapes.length_mm": ["tape", "Tape held level and tight, from point to point."],
  "offsets.along_mm": ["along", "Tape along the line from its start to the foot of the square."],
  "offsets.offset_mm": ["square", "Square off the line: the shortest reading as the tape swings. Right is negative."],
  "rows.backsight_mm": ["staff", "First reading after the instrument is set up, on a point of known level."],
  "rows.intermediate_mm": ["staff", "Staff upright on the point: the smallest reading as it is rocked."],
  "rows.foresight_mm": ["staff", "Last reading before the instrument is moved."],
  "benchmarks.level_mm": ["staff", "Its known level, or 10 000 where you take it as 10.000 m."],
  "walls.dpc_level_mm": ["dpc", "The thin line in the wall, often two courses up: staff on a rod held to it."],
  "openings.along_mm": ["along", "Tape from the start of the wall to the nearer jamb."],
  "openings.width_mm": ["width", "Tape between the jambs."],
  "openings.threshold_level_mm": ["sill", "Staff on the lowest part of the sill where water could come in."],
  "air_bricks.along_mm": ["along", "Tape from the start of the wall to the middle of the brick."],
  "air_bricks.underside_level_mm": ["dpc", "Its lower edge: staff beside it, or tape up from a known level."],
  "covers.length_mm": ["cover", "Over the frame, not the lid."],
  "covers.width_mm": ["cover", "Over the frame, not the lid."],
  "covers.level_mm": ["staff", "Staff on the frame, at its highest corner."],
  "gullies.grating_level_mm": ["staff", "Staff on the grating."],
  "gullies.invert_level_mm": ["invert", "Tape down from the grating to the bottom of the outlet pipe."],
  "channels.invert_level_mm": ["invert", "Bottom of the channel at its outlet."],
  "outfalls.invert_level_mm": ["invert", "Bottom of the pipe where it leaves."],
  "ground.topsoil_mm": ["soil", "Dig a hole: dark soil with roots down to the change of colour."],
  "strata.thickness_mm": ["soil", "In the trial hole, from change to change."],
  "site.access_width_mm": ["gate", "The narrowest place on the way in, between posts, not over them."],
  "site.carry_mm": ["carry", "Pace it out from the work to where the lorry can stand."],
  "trees.stem_diameter_mm": ["stem", "Round the stem at 1.5 m with the tape, divided by 3.14."],
  "services.depth_mm": ["soil", "From the ground down to its top, where it was seen or traced."],
  "tie_ins.start_level_mm": ["staff", "Staff on the existing paving at this end."],
  "tie_ins.end_level_mm": ["staff", "Staff on the existing paving at this end."],
  "boundaries.top_level_mm": ["staff", "Staff on its top."],
  "laying.joint_mm": ["joint", "Gap between units; 10 is usual in mortar."],
  "units.length_mm": ["tape", "As measured on ten units, not as the list says."],
  "units.width_mm": ["tape", "As measured on ten units, not as the list says."],
  "units.thickness_mm": ["thick", "The thickest of ten."],
  "fall.one_in": ["fall", "1 in 60 falls 50 mm in 3 m."],
  "fall.level_mm": ["staff", "Finished level that is asked for at this point."],
  "outline.rise_mm": ["rise", "From the middle of the straight line out to the curve."],
};

/** @param {(string|number)[]} path where a field stands, such as site, walls, 0, dpc_level_mm */
export function howOf(path) {
  const names = path.filter((step) => typeof step === "string" && !/^\d+$/.test(step));
  return HOW[names.slice(-2).join(".")] ?? null;
}

/** @param {string} name */
export function howPicture(name) {
  const { there, read, ground } = PICTURES[name];
  const line = (/** @type {string} */ d, /** @type {string} */ kind) => svg("path", { d, class: kind });
  return svg(
    "svg",
    { class: "how-picture", viewBox: "0 -2 64 38", width: 64, height: 38, "aria-hidden": "true" },
    line(there, "how-there"),
    ground ? line(ground, "how-beside") : null,
    line(read, "how-read"),
  );
}
