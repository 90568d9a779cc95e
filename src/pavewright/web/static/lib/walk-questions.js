// @ts-check
// made by tools/make_walk_questions.py from the list of the program; do not edit
/** The questions of the walk round, by name. */
export const ASKED = {
  walls: "What stands along each side?",
  tapes: "How long is each side and each diagonal?",
  curves: "How far does each curved side stand off its chord?",
  datum: "From which point are heights counted?",
  staff: "How high is the ground?",
  dpc: "How high is the damp-proof course on every wall that the paving meets, and does it step?",
  doors: "Which doors open onto the paving, and is there a drain slot in a track or sill?",
  air_bricks: "Where are the air bricks?",
  gullies: "Which gullies and downpipes are there, and what do they serve?",
  drain_run: "Which way does the drain run?",
  covers: "Which chamber covers are there, and can they be turned or raised?",
  footings: "Are there footings under the walls and the fence?",
  next_door: "How high is the ground next door?",
  trees: "Which trees stand near, and are they protected?",
  services: "Which cables and pipes cross, above and below?",
  ground: "What did a trial hole show?",
  standing_water: "Where does water stand after rain?",
  access: "How narrow is the way in?",
  steps_in: "Are there steps on the way in?",
  set_down: "Where can a skip or a lorry stand?",
  level_way: "Who lives here that needs a level way: wheelchair, pram, bins?",
  photos: "Which photos were taken?",
  paving: "Which slab, block or sett is laid, and how?",
};
/** Answers that one touch gives. */
export const USUAL = {
  drain_run: ["along the house", "out through the garden"],
  footings: ["footings seen, deeper than the dig", "footings in the way"],
  next_door: ["about level with ours", "higher than ours", "lower than ours"],
  standing_water: ["at the house", "in the middle", "at the far end"],
  level_way: ["bins only", "a pram", "a wheelchair"],
};
/** Those that the page on site asks, in their order. */
export const ON_SITE = [
  ASKED.dpc,
  ASKED.doors,
  ASKED.air_bricks,
  ASKED.gullies,
  ASKED.drain_run,
  ASKED.covers,
  ASKED.footings,
  ASKED.next_door,
  ASKED.trees,
  ASKED.services,
  ASKED.ground,
  ASKED.standing_water,
  ASKED.access,
  ASKED.set_down,
  ASKED.level_way,
];
