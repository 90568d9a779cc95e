// @ts-check
/** The steps of the walk, in the order in which a man walks round a house. */
import * as shape from "./shape.js";
import * as walls from "./walls.js";
import * as tapes from "./tapes.js";
import * as curves from "./curves.js";
import * as datum from "./datum.js";
import * as staff from "./staff.js";
import * as dpc from "./dpc.js";
import * as doors from "./doors.js";
import * as airBricks from "./air-bricks.js";
import * as covers from "./covers.js";
import * as gullies from "./gullies.js";
import * as services from "./services.js";
import * as ground from "./ground.js";
import * as trees from "./trees.js";
import * as access from "./access.js";
import * as photos from "./photos.js";
import * as questions from "./questions.js";
import * as paving from "./paving.js";
import * as price from "./price.js";
import * as papers from "./papers.js";

/** @type {import("../frame.js").Step[]} */
export const STEPS = [
  ...[shape, walls, tapes, curves, datum, staff, dpc, doors, airBricks, covers, gullies],
  ...[services, ground, trees, access, photos, questions, paving, price, papers],
];

/**
 * Steps about the price and what a customer is sent: for whoever sees the stage of the job that is about it.
 * @type {string[]}
 */
export const OF_MONEY = [price, papers].map((one) => one.key);
