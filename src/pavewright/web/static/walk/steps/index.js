// @ts-check
/** The steps of the walk, in the order in which a man walks round a house. */
import * as shape from "./shape.js";
import * as walls from "./walls.js";
import * as tapes from "./tapes.js";
import * as curves from "./curves.js";
import * as datum from "./datum.js";
import * as staff from "./staff.js";

/** @type {import("../frame.js").Step[]} */
export const STEPS = [shape, walls, tapes, curves, datum, staff];
